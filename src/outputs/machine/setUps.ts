import { leastApartMm } from "../../panel/clearance.ts";
import { distanceToRing, pieceInside, ringHolds } from "../../panel/rings.ts";
import { UnbuildableError } from "../../plan/errors.ts";
import type { Plan } from "../../plan/plan.ts";
import { type CutPanelRecord, ringAsCut } from "../../schedule/asCut.ts";
import type { PanelRecord } from "../../schedule/types.ts";
import type { MachineHole } from "./tools.ts";

export interface WindowMm {
  readonly xMm: number;
  readonly yMm: number;
  readonly widthMm: number;
  readonly lengthMm: number;
}

/** A hole that a pin holds. */
export interface DatumHole extends MachineHole {
  /** For a dowel and nothing else, filled afterwards; else a star's. */
  readonly isDowel: boolean;
  /** Number of the set-up that drills it through. */
  readonly madeIn: number;
  /** True in the first pair that has it; in a later one the hole is there already and is not drilled again. */
  readonly isFirst: boolean;
}

/** Two holes that are there once a set-up is done and the next one is laid on; FACE. */
export interface DatumPair {
  readonly holes: readonly [DatumHole, DatumHole];
  /** Number of the set-up after which both are there. */
  readonly from: number;
}

/** What is drilled with the board in one place on the bed; FACE. */
export interface SetUp {
  readonly number: number;
  readonly window: WindowMm;
  readonly holes: readonly MachineHole[];
  /** Shared with an earlier set-up; null for the first. */
  readonly datums: DatumPair | null;
}

/** Neighbouring set-ups share at least this part of the bed. */
const SHARED = 0.2;
const MOST_SET_UPS = 24;
/** Pins closer together than this hold the board at no sure angle. */
const PINS_APART_MM = 80;
/** Nearer than this to a dowel hole that serves as well no other is drilled. */
const DOWELS_APART_MM = 40;
/** A thinner pin bends. */
const THINNEST_PIN_MM = 0.8;
const GRID_MM = 5;
const FLOAT = 1e-6;

/** How many windows it takes along one axis. */
const countAlong = (boardMm: number, bedMm: number): number =>
  boardMm <= bedMm + FLOAT ? 1 : Math.ceil((boardMm - SHARED * bedMm) / ((1 - SHARED) * bedMm) - FLOAT);

/** Begins of the windows along one axis, evenly from end to end. */
function startsMm(boardMm: number, bedMm: number): number[] {
  const count = countAlong(boardMm, bedMm);
  if (count === 1) return [0];
  return Array.from({ length: count }, (_, i) => (i * (boardMm - bedMm)) / (count - 1));
}

/** Row by row, there and back, so that each shares a part with the one before. */
function windowsOn(
  board: Pick<PanelRecord, "widthMm" | "lengthMm">,
  [bedX, bedY]: readonly [number, number],
) {
  const xs = startsMm(board.widthMm, bedX);
  return startsMm(board.lengthMm, bedY).flatMap((yMm, row) =>
    (row % 2 === 0 ? xs : [...xs].reverse()).map(
      (xMm): WindowMm => ({
        xMm,
        yMm,
        widthMm: Math.min(bedX, board.widthMm),
        lengthMm: Math.min(bedY, board.lengthMm),
      }),
    ),
  );
}

const holds = ({ xMm, yMm, widthMm, lengthMm }: WindowMm, at: { xMm: number; yMm: number }) =>
  at.xMm >= xMm - FLOAT &&
  at.xMm <= xMm + widthMm + FLOAT &&
  at.yMm >= yMm - FLOAT &&
  at.yMm <= yMm + lengthMm + FLOAT;

/**
 * How a panel is drilled on a bed: in one set-up where it fits, else in several, each laid on two holes of an earlier one.
 * Holes of stars serve as datums wherever there are two far enough apart; no other hole is wasted on them.
 * @param panel as cut
 * @param holes its holes, FACE, in drilling order
 * @throws UnbuildableError where there is no place for datums
 */
export function setUpsOf(panel: CutPanelRecord, holes: readonly MachineHole[], plan: Plan): SetUp[] {
  const bed = plan.cnc.bed ?? [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  const count = countAlong(panel.widthMm, bed[0]) * countAlong(panel.lengthMm, bed[1]);
  if (count > MOST_SET_UPS) {
    throw refused(
      panel,
      bed,
      `would take ${count.toLocaleString("en-US")} set-ups, and errors of laying the board add up; use a larger machine, or mark by paper`,
    );
  }
  const all = partsOf(windowsOn(panel, bed), holes);
  // Nothing is to be done in the empty corner of an outline; yet where set-ups lie too far apart, one between carries the board.
  const needed = all.filter((part) => part.holes.length > 0);
  const setUps =
    carried(needed.length > 0 ? needed : all.slice(0, 1), panel, holes, plan) ??
    carried(all, panel, holes, plan);
  if (setUps !== null) return setUps;
  throw refused(
    panel,
    bed,
    "leaves no place for two datum holes that both set-ups reach; use a larger machine, or mark by paper",
  );
}

interface Part {
  readonly window: WindowMm;
  readonly holes: readonly MachineHole[];
}

/** Each hole goes to the first window that reaches it. */
function partsOf(windows: readonly WindowMm[], holes: readonly MachineHole[]): Part[] {
  const taken = new Set<MachineHole>();
  return windows.map((window) => {
    const its = holes.filter((hole) => !taken.has(hole) && holds(window, hole));
    for (const hole of its) taken.add(hole);
    return { window, holes: its };
  });
}

/** The set-ups with what each is laid on; null where one has no place for it. */
function carried(
  parts: readonly Part[],
  panel: CutPanelRecord,
  holes: readonly MachineHole[],
  plan: Plan,
): SetUp[] | null {
  const own = parts.map((part) => [...part.holes]);
  const pairs: (DatumPair | null)[] = [];
  const pinned: DatumHole[] = [];
  for (const k of parts.keys()) {
    const pair = k === 0 ? null : datumsFor(panel, parts.slice(0, k + 1), holes, pinned, plan);
    if (k > 0 && pair === null) return null;
    pairs.push(pair);
    for (const hole of pair?.holes ?? []) {
      if (!hole.isFirst) continue;
      pinned.push(hole);
      // A dowel's hole is drilled by the set-up that its first pair comes from.
      if (hole.isDowel) own[hole.madeIn - 1]!.push(hole);
    }
  }
  return parts.map(({ window }, i) => ({ number: i + 1, window, holes: own[i]!, datums: pairs[i]! }));
}

function refused(panel: PanelRecord, bed: readonly [number, number], why: string): UnbuildableError {
  return new UnbuildableError([
    {
      code: "bed-too-small",
      message: `panel ${panel.id}: a board of ${panel.widthMm} x ${panel.lengthMm} mm on a bed (cnc.bed) of ${bed[0]} x ${bed[1]} mm ${why}`,
    },
  ]);
}

/**
 * @param parts in order, the last one's datums being sought
 * @param pinned holes of the pairs before: a hole that is there is never drilled again
 */
function datumsFor(
  panel: CutPanelRecord,
  parts: readonly Part[],
  holes: readonly MachineHole[],
  pinned: readonly DatumHole[],
  plan: Plan,
): DatumPair | null {
  const after = parts.at(-1)!.window;
  const earlier = parts.slice(0, -1);
  for (let from = earlier.length; from >= 1; from--) {
    const stars = bestPair(
      holes.filter(
        (hole) =>
          hole.bitMm >= THINNEST_PIN_MM && holds(earlier[from - 1]!.window, hole) && holds(after, hole),
      ),
    );
    if (stars === null) continue;
    const datum = (hole: MachineHole): DatumHole => {
      const before = pinned.find((one) => one.hole === hole.hole);
      if (before) return { ...before, isFirst: false };
      // Through holes are made where the star is drilled; among spots, right before the board is moved.
      const its = earlier.findIndex((part) => part.holes.includes(hole)) + 1;
      return { ...hole, isDowel: false, madeIn: plan.cnc.mode === "spot" ? from : its, isFirst: true };
    };
    return { holes: [datum(stars[0]), datum(stars[1])], from };
  }
  return dowelsFor(panel, parts, holes, pinned, plan);
}

/** Dowel holes that are there already, wherever they serve; else new ones on legal spots. */
function dowelsFor(
  panel: CutPanelRecord,
  parts: readonly Part[],
  holes: readonly MachineHole[],
  pinned: readonly DatumHole[],
  plan: Plan,
): DatumPair | null {
  const after = parts.at(-1)!.window;
  const bitMm = Math.max(...plan.fibre.sizes.map(({ bit }) => bit));
  const dowels = pinned.filter(({ isDowel }) => isDowel);
  for (const apartMm of [DOWELS_APART_MM, 0]) {
    for (let from = parts.length - 1; from >= 1; from--) {
      const there = dowels.filter((one) => one.madeIn <= from && holds(after, one));
      const spots = dowelSpots(panel, parts[from - 1]!.window, after, [...holes, ...dowels], bitMm, plan);
      const fresh = spots.filter((at) =>
        there.every((one) => Math.hypot(one.xMm - at.xMm, one.yMm - at.yMm) >= apartMm),
      );
      const pair = bestPair([...there, ...fresh]);
      if (pair === null) continue;
      const datum = (hole: MachineHole, letter: string): DatumHole => {
        const before = there.find((one) => one === hole);
        return before
          ? { ...before, isFirst: false }
          : { ...hole, hole: `dowel ${parts.length}${letter}`, isDowel: true, madeIn: from, isFirst: true };
      };
      return { holes: [datum(pair[0], "a"), datum(pair[1], "b")], from };
    }
  }
  return null;
}

/** Thick and far apart: a thick pin is stiff, and the angle is the surer the longer the line. */
function bestPair(holes: readonly MachineHole[]): readonly [MachineHole, MachineHole] | null {
  let best: readonly [MachineHole, MachineHole] | null = null;
  let most = 0;
  for (const [i, a] of holes.entries()) {
    for (let j = i + 1; j < holes.length; j++) {
      const b = holes[j]!;
      const apart = Math.hypot(a.xMm - b.xMm, a.yMm - b.yMm);
      const worth = apart * Math.min(a.bitMm, b.bitMm) ** 2;
      if (apart >= PINS_APART_MM && worth > most + FLOAT) [best, most] = [[a, b], worth];
    }
  }
  return best;
}

/** Where a hole for a dowel harms nothing: by the rules of the stars' own holes. The outermost one in each of eight directions. */
function dowelSpots(
  panel: CutPanelRecord,
  before: WindowMm,
  after: WindowMm,
  holes: readonly MachineHole[],
  bitMm: number,
  { holes: rules }: Plan,
): MachineHole[] {
  const [left, right] = [
    Math.max(before.xMm, after.xMm),
    Math.min(before.xMm + before.widthMm, after.xMm + after.widthMm),
  ];
  const [low, high] = [
    Math.max(before.yMm, after.yMm),
    Math.min(before.yMm + before.lengthMm, after.yMm + after.lengthMm),
  ];
  const r = bitMm / 2;
  const ring = panel.asCut === undefined ? panel.outlineMm : ringAsCut(panel.asCut);
  const legal = (x: number, y: number) =>
    ringHolds(ring, x, y) &&
    distanceToRing(ring, x, y) >= rules.edge + r &&
    panel.battensMm.every(
      (batten) => !ringHolds(batten, x, y) && distanceToRing(batten, x, y) >= rules.batten + r,
    ) &&
    panel.keepOutMm.every((one) =>
      "atMm" in one
        ? Math.hypot(x - one.atMm[0], y - one.atMm[1]) >= one.radiusMm + rules.edge + r
        : !ringHolds(one.outlineMm, x, y) && distanceToRing(one.outlineMm, x, y) >= rules.edge + r,
    ) &&
    holes.every(
      (hole) =>
        Math.hypot(x - hole.xMm, y - hole.yMm) >= leastApartMm(rules.spacing, Math.max(bitMm, hole.bitMm), 0),
    );
  // The best pair lies at the ends: the extreme spots in eight directions.
  const best: { x: number; y: number; worth: number }[] = [];
  for (let x = Math.ceil(left / GRID_MM) * GRID_MM; x <= right; x += GRID_MM) {
    for (let y = Math.ceil(low / GRID_MM) * GRID_MM; y <= high; y += GRID_MM) {
      if (!legal(x, y)) continue;
      for (let k = 0; k < 8; k++) {
        const worth = x * Math.cos((k * Math.PI) / 4) + y * Math.sin((k * Math.PI) / 4);
        if (worth > (best[k]?.worth ?? Number.NEGATIVE_INFINITY) + FLOAT) best[k] = { x, y, worth };
      }
    }
  }
  return best.map(({ x, y }) => ({ hole: "D", xMm: x, yMm: y, bitMm }));
}

/** The part of a line that a window reaches; null for none. */
export const lineInWindow = (
  { xMm, yMm, widthMm, lengthMm }: WindowMm,
  from: readonly [number, number],
  to: readonly [number, number],
) =>
  pieceInside(
    [
      [xMm, yMm],
      [xMm + widthMm, yMm],
      [xMm + widthMm, yMm + lengthMm],
      [xMm, yMm + lengthMm],
    ],
    from,
    to,
  );
