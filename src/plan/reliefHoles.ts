import { upToHundredths as mm } from "./mmWords.ts";
import type { FibreSizePlan } from "./plan.ts";
import type { PlanInput } from "./schema.ts";

/** So much wider than the hole in the board: batten and board never meet to the tenth. Common practice, no source. */
const WIDER_THAN_BIT_MM = 1;
/** Less wood beside a relief hole splits. Common practice, no source. */
const LEAST_WOOD_MM = 3;

/** A relief hole too narrow for the bits of the stars that it is for, or too wide for the batten that it goes through. */
export function reliefProblems(
  { frame, fibre }: Pick<PlanInput, "frame" | "fibre">,
  sizes: readonly Pick<FibreSizePlan, "diameter" | "bit">[],
  strands: Readonly<Record<string, number>>,
): string[] {
  if (frame === "none" || frame.bored === undefined || frame.bored.brightest === 0) return [];
  const { diameter } = frame.bored;
  const { width } = frame.batten;
  // The brightest stars get the thickest strands: those bits are the widest.
  const bits = sizes
    .filter((size) => (strands[`${size.diameter}mm`] ?? 0) * fibre.bundles.count > 0)
    .map(({ bit }) => bit);
  if (bits.length === 0) return [];
  const least = Math.max(...bits) + WIDER_THAN_BIT_MM;
  const most = width - 2 * LEAST_WOOD_MM;
  if (diameter >= least && diameter <= most) return [];
  const wood = `battens ${mm(width)} mm wide keep ${LEAST_WOOD_MM} mm of wood on either side of a relief hole`;
  const room = `a hole of ${mm(Math.max(...bits))} mm wants a relief hole at least ${WIDER_THAN_BIT_MM} mm wider`;
  if (least > most)
    return [
      `${wood}, which leaves ${mm(Math.max(0, most))} mm, and ${room}; take battens of ${mm(least + 2 * LEAST_WOOD_MM)} mm or more, or leave out frame.bored`,
    ];
  return [
    diameter < least
      ? `${mm(diameter)} mm is too narrow: ${room}; write ${mm(least)}mm to ${mm(most)}mm`
      : `${mm(diameter)} mm is too wide: ${wood}; write ${mm(least)}mm to ${mm(most)}mm`,
  ];
}
