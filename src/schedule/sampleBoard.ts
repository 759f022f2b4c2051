import type { Plan } from "../plan/plan.ts";
import { hundredths } from "./rounding.ts";

export interface SampleHole {
  /** S-1, S-2 .. along each row, thinnest bit first. */
  readonly hole: string;
  readonly xMm: number;
  readonly yMm: number;
  readonly diameterMm: number;
  readonly bitMm: number;
}

export interface SampleWords {
  readonly text: string;
  /** Where its base line begins. */
  readonly xMm: number;
  readonly yMm: number;
  readonly heightMm: number;
}

export interface SampleLine {
  readonly fromMm: readonly [number, number];
  readonly toMm: readonly [number, number];
}

/** An off-cut to try cloth, bits and fibres on before the real panels; frame FACE, origin at its lower-left corner. */
export interface SampleBoard {
  readonly widthMm: number;
  readonly lengthMm: number;
  readonly outlineMm: readonly (readonly [number, number])[];
  readonly holes: readonly SampleHole[];
  readonly words: readonly SampleWords[];
  readonly lines: readonly SampleLine[];
}

const SIDE_MM = 300;
const MARGIN_MM = 12;
/** Centre to centre, in bits; 3 is the rule of placement. */
const SPACINGS_IN_BITS = [2, 3, 4, 6] as const;
/** How far tips stand proud of the cloth. */
export const TRIM_HEIGHTS_MM = [0, 1, 3] as const;
const TRIM_X_MM = [58, 76, 94] as const;
const GROUP_X_MM = [120, 162, 204, 246] as const;
/** Rows of holes lie between these; the bend is below, the title above. */
const ROWS_MM = { low: 78, high: 232 } as const;
/** Makers' limit for one right-angled bend: 25 mm (MH-4002, NA 0.3). */
export const BEND_RADIUS_MM = 25;

/**
 * Every bit of the plan: three holes to trim at three heights, and three in a row at each of four spacings; one bend to try.
 * @param plan its sizes with strands are what is tried
 */
export function sampleBoard(plan: Pick<Plan, "fibre" | "holes">): SampleBoard {
  const sizes = plan.fibre.sizes.filter(
    ({ diameter }) => (plan.fibre.bundles.strands[`${diameter}mm`] ?? 0) > 0,
  );
  const pitch = Math.min(48, (ROWS_MM.high - ROWS_MM.low) / Math.max(1, sizes.length - 1));
  const words: SampleWords[] = [];
  const holes: Omit<SampleHole, "hole">[] = [];
  const say = (text: string, xMm: number, yMm: number, heightMm = 3) =>
    words.push({ text, xMm: hundredths(xMm), yMm: hundredths(yMm), heightMm });
  for (const [row, { diameter, bit }] of sizes.entries()) {
    const y = ROWS_MM.high - row * pitch;
    const put = (x: number) =>
      holes.push({ xMm: hundredths(x), yMm: hundredths(y), diameterMm: diameter, bitMm: bit });
    const tall = Math.min(3, 0.3 * pitch);
    say(`${diameter} mm fibre`, MARGIN_MM, y + 0.3 * tall, tall);
    say(`${bit} mm bit`, MARGIN_MM, y - 1.5 * tall, tall);
    for (const x of TRIM_X_MM) put(x);
    for (const [i, bits] of SPACINGS_IN_BITS.entries()) {
      const apart = bits * bit;
      const x = GROUP_X_MM[i]!;
      const room = (GROUP_X_MM[i + 1] ?? SIDE_MM - MARGIN_MM) - x - 4;
      const count = Math.min(3, 1 + Math.floor(room / apart));
      for (let k = 0; k < count; k++) put(x + k * apart);
      say(`${Number(apart.toFixed(2))}`, x, y - Math.max(1.5 * tall, bit / 2 + 1.3 * tall), tall);
    }
  }
  say("Sample board, 300 x 300 mm, FACE: as seen from the room", MARGIN_MM, 282, 5);
  say("Try paint, cloth, glue, bits and fibres here before the panels.", MARGIN_MM, 272);
  for (const [i, height] of TRIM_HEIGHTS_MM.entries())
    say(height === 0 ? "flush" : `${height} mm`, TRIM_X_MM[i]! - 5, 250);
  say("trim the tip proud by", TRIM_X_MM[0] - 5, 256);
  say("centre to centre in mm:", GROUP_X_MM[0], 256);
  for (const [i, bits] of SPACINGS_IN_BITS.entries())
    say(`${bits} bits${bits === 3 ? " (least)" : ""}`, GROUP_X_MM[i]!, 250);
  say(
    `Bend: lead one fibre of each size round a ${2 * BEND_RADIUS_MM} mm disc behind this line, light it, and look for loss.`,
    MARGIN_MM,
    30,
  );
  say(
    "Drill flat on soft board, clamped; eyes and dust mask; through cloth only if it frays little here.",
    MARGIN_MM,
    18,
    2.5,
  );
  return {
    widthMm: SIDE_MM,
    lengthMm: SIDE_MM,
    outlineMm: [
      [0, 0],
      [SIDE_MM, 0],
      [SIDE_MM, SIDE_MM],
      [0, SIDE_MM],
    ],
    holes: holes.map((hole, i) => ({ hole: `S-${i + 1}`, ...hole })),
    words,
    lines: [{ fromMm: [MARGIN_MM, 40], toMm: [SIDE_MM - MARGIN_MM, 40] }],
  };
}
