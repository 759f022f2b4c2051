import type { PanelRecord } from "./types.ts";

export type CornerName = "lower left" | "lower right" | "upper right" | "upper left";

/** A corner that a tape can be hooked on; FACE. */
export interface ProofCorner {
  /** Of the bounding box as seen on the FACE; null for any other corner of an outline. */
  readonly name: CornerName | null;
  readonly xMm: number;
  readonly yMm: number;
}

/** Written figures of one corner may differ by a rounding. */
const SAME_MM = 0.021;

/** Pairs that a tape is hooked on, the handiest first. */
const PAIRS: readonly (readonly [CornerName, CornerName])[] = [
  ["lower left", "lower right"],
  ["upper left", "upper right"],
  ["lower left", "upper left"],
  ["lower right", "upper right"],
];

/**
 * Which corners of the bounding box are corners of the board, and two real ones to measure holes from: at the ends of a side
 * of the box, else of the outline's longest side.
 */
export function boardCorners({ widthMm, lengthMm, outlineMm }: PanelRecord): {
  readonly corners: ReadonlySet<CornerName>;
  readonly tapeCorners: readonly [ProofCorner, ProofCorner];
} {
  const box: Readonly<Record<CornerName, readonly [number, number]>> = {
    "lower left": [0, 0],
    "lower right": [widthMm, 0],
    "upper right": [widthMm, lengthMm],
    "upper left": [0, lengthMm],
  };
  const nameOf = ([x, y]: readonly [number, number]): CornerName | null =>
    (Object.keys(box) as CornerName[]).find(
      (name) => Math.abs(box[name][0] - x) <= SAME_MM && Math.abs(box[name][1] - y) <= SAME_MM,
    ) ?? null;
  const named = outlineMm.map(
    (corner): ProofCorner => ({ name: nameOf(corner), xMm: corner[0], yMm: corner[1] }),
  );
  const real = new Map(named.flatMap((corner) => (corner.name === null ? [] : [[corner.name, corner]])));
  const pair = PAIRS.find(([a, b]) => real.has(a) && real.has(b));
  return {
    corners: new Set(real.keys()),
    tapeCorners: pair ? [real.get(pair[0])!, real.get(pair[1])!] : longestSide(named),
  };
}

/** Its ends, the one farther left first. */
function longestSide(corners: readonly ProofCorner[]): readonly [ProofCorner, ProofCorner] {
  const spans = corners.map((from, i) => {
    const to = corners[(i + 1) % corners.length]!;
    return { from, to, span: Math.hypot(to.xMm - from.xMm, to.yMm - from.yMm) };
  });
  const { from, to } = spans.reduce((best, one) => (one.span > best.span + 1e-9 ? one : best));
  return from.xMm <= to.xMm ? [from, to] : [to, from];
}
