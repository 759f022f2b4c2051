import { upToHundredths as mm } from "./mmWords.ts";
import type { RoomMeasuresPlan, WallSide } from "./plan.ts";

/** Lower-left, lower-right, upper-right, upper-left: as seen from below, the lower wall's left end at the origin. */
type Corners = readonly [Point, Point, Point, Point];
type Point = readonly [number, number];

/** What a tape is held along, in the order of the figures below. */
export const ROOM_MEASURES = [
  "sides.top",
  "sides.right",
  "sides.bottom",
  "sides.left",
  "diagonals.risingRight",
  "diagonals.fallingRight",
] as const;
export type RoomMeasure = (typeof ROOM_MEASURES)[number];

export interface RoomMisfit {
  readonly measure: RoomMeasure;
  readonly measuredMm: number;
  /** Its length in the room that fits all six best. */
  readonly fittedMm: number;
  /** What it would have to be, were it alone at fault, to agree with the other five. */
  readonly aloneMm: number;
}

export interface RoomFit {
  /** Ceiling frame, seen from below: lower-left, lower-right, upper-right, upper-left; whole hundredths. */
  readonly outline: readonly Point[];
  readonly widthMm: number;
  readonly lengthMm: number;
  readonly rmsMm: number;
  /** In the order of `ROOM_MEASURES`. */
  readonly misfits: readonly RoomMisfit[];
  /** The one that the best fit changes most. */
  readonly worst: RoomMisfit;
}

type Six = readonly number[];
const [TOP, RIGHT, BOTTOM, LEFT, RISING, FALLING] = [0, 1, 2, 3, 4, 5] as const;

/** The four triangles that two sides and a diagonal make. */
const TRIANGLES = [
  [BOTTOM, RIGHT, RISING],
  [TOP, LEFT, RISING],
  [BOTTOM, LEFT, FALLING],
  [TOP, RIGHT, FALLING],
] as const;

const told = (values: Six) => (index: number) => `${ROOM_MEASURES[index]!} (${mm(values[index]!)} mm)`;

/**
 * A four-sided room from its sides and diagonals: six measures for the five lengths that fix its shape. The one condition
 * that they must keep (the upper wall as computed from the other five is as long as measured) is solved by least
 * squares, all measures weighted alike: the adjustment of conditions of geodesy (Helmert).
 * @returns the room, or a sentence that says which measures cannot close
 */
export function fitRoom({ sides, diagonals, squareTo }: RoomMeasuresPlan): RoomFit | string {
  const measured: Six = [
    sides.top,
    sides.right,
    sides.bottom,
    sides.left,
    diagonals.risingRight,
    diagonals.fallingRight,
  ];
  const name = told(measured);
  for (const triangle of TRIANGLES) {
    const longest = [...triangle].sort((a, b) => measured[b]! - measured[a]!)[0]!;
    const others = triangle.filter((index) => index !== longest);
    const reach = measured[others[0]!]! + measured[others[1]!]!;
    if (reach <= measured[longest]!) {
      return `${name(others[0]!)} and ${name(others[1]!)} make ${mm(reach)} mm together and cannot close with ${name(longest)}; measure these three again`;
    }
  }
  const fitted = adjusted(measured);
  const corners = fitted === null ? null : cornersOf(fitted);
  if (fitted === null || corners === null || wallsCross(corners)) {
    return `${ROOM_MEASURES.map((_, index) => name(index)).join(", ")} do not close to a room; check that ${ROOM_MEASURES[RISING]} runs from the lower left to the upper right corner, seen from below, and ${ROOM_MEASURES[FALLING]} from the upper left to the lower right`;
  }
  const misfits = ROOM_MEASURES.map(
    (measure, index): RoomMisfit => ({
      measure,
      measuredMm: measured[index]!,
      fittedMm: fitted[index]!,
      aloneMm: alone(measured, index),
    }),
  );
  const off = ({ measuredMm, fittedMm }: RoomMisfit) => Math.abs(measuredMm - fittedMm);
  return {
    ...squared(corners, squareTo),
    rmsMm: Math.sqrt(misfits.reduce((sum, misfit) => sum + off(misfit) ** 2, 0) / misfits.length),
    misfits,
    worst: misfits.reduce((most, misfit) => (off(misfit) > off(most) + 1e-9 ? misfit : most)),
  };
}

/** Corners from the lower wall and the two triangles on it (law of cosines); null when one of these has no height. */
function cornersOf(lengths: Six): Corners | null {
  const base = lengths[BOTTOM]!;
  const apex = (left: number, right: number): Point | null => {
    const x = (base * base + left * left - right * right) / (2 * base);
    const squareY = left * left - x * x;
    return squareY > 0 ? [x, Math.sqrt(squareY)] : null;
  };
  const upperRight = apex(lengths[RISING]!, lengths[RIGHT]!);
  const upperLeft = apex(lengths[LEFT]!, lengths[FALLING]!);
  return upperRight && upperLeft && [[0, 0], [base, 0], upperRight, upperLeft];
}

/** By how much the upper wall comes out longer than it is said to be. */
function closureMm(lengths: Six): number {
  const corners = cornersOf(lengths);
  if (corners === null) return Number.NaN;
  const [, , c, d] = corners;
  return Math.hypot(c[0] - d[0], c[1] - d[1]) - lengths[TOP]!;
}

const STEP_MM = 1e-3;
const slope = (lengths: Six, index: number): number => {
  const moved = (by: number) => lengths.map((length, i) => (i === index ? length + by : length));
  return (closureMm(moved(STEP_MM)) - closureMm(moved(-STEP_MM))) / (2 * STEP_MM);
};

const CLOSED_MM = 1e-7;
const MOST_ROUNDS = 50;

/** The nearest six lengths that close; null when they run into a triangle without height. */
function adjusted(measured: Six): Six | null {
  let lengths = measured;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const at = lengths;
    const slopes = at.map((_, index) => slope(at, index));
    const square = slopes.reduce((sum, each) => sum + each * each, 0);
    const toGo =
      closureMm(at) + slopes.reduce((sum, each, index) => sum + each * (measured[index]! - at[index]!), 0);
    lengths = measured.map((length, index) => length - (slopes[index]! * toGo) / square);
    const still = Math.abs(closureMm(lengths));
    if (Number.isNaN(still)) return null;
    const step = Math.max(...lengths.map((length, index) => Math.abs(length - at[index]!)));
    if (still < CLOSED_MM && step < CLOSED_MM) return lengths;
  }
  return null;
}

/** Newton's method along one measure; NaN when no length of it closes with the rest. */
function alone(measured: Six, index: number): number {
  let length = measured[index]!;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const at = measured.map((each, i) => (i === index ? length : each));
    const step = closureMm(at) / slope(at, index);
    length -= step;
    if (Number.isNaN(length) || Math.abs(step) < CLOSED_MM) return length;
  }
  return Number.NaN;
}

const turn = (a: Point, b: Point, c: Point) => (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

/** Both upper corners lie above the lower wall, so only the side walls could cross, or the upper wall run through the lower corners. */
function wallsCross([a, b, c, d]: Corners): boolean {
  const meet = (p: Point, q: Point, r: Point, s: Point) =>
    turn(p, q, r) * turn(p, q, s) <= 0 && turn(r, s, p) * turn(r, s, q) <= 0;
  return meet(b, c, d, a) || turn(a, b, c) + turn(a, c, d) <= 0;
}

/** The wall's two ends, so that the way from one to the other is +X or +Y when the wall is parallel to its axis. */
const AXIS_OF: Readonly<Record<WallSide, readonly [number, number, "x" | "y"]>> = {
  bottom: [0, 1, "x"],
  top: [3, 2, "x"],
  left: [0, 3, "y"],
  right: [1, 2, "y"],
};

/** Turned so that one wall is parallel to its axis, moved so that the bounding rectangle begins at the origin. */
function squared(
  corners: Corners,
  squareTo: WallSide,
): { outline: readonly Point[]; widthMm: number; lengthMm: number } {
  const [from, to, axis] = AXIS_OF[squareTo];
  const [dx, dy] = [corners[to]![0] - corners[from]![0], corners[to]![1] - corners[from]![1]];
  const span = Math.hypot(dx, dy);
  const [ux, uy] = axis === "x" ? [dx / span, dy / span] : [dy / span, -dx / span];
  const turned = corners.map(([x, y]): Point => [x * ux + y * uy, y * ux - x * uy]);
  // Both ends alike: what rounding leaves would put them a hundredth apart.
  const [p, q] = [turned[from]!, turned[to]!];
  turned[to] = axis === "x" ? [q[0], p[1]] : [p[0], q[1]];
  const least = (k: 0 | 1) => Math.min(...turned.map((corner) => corner[k]));
  const [left, bottom] = [least(0), least(1)];
  const hundredths = (value: number) => Math.round(value * 100) / 100;
  const outline = turned.map(([x, y]): Point => [hundredths(x - left), hundredths(y - bottom)]);
  return {
    outline,
    widthMm: Math.max(...outline.map(([x]) => x)),
    lengthMm: Math.max(...outline.map(([, y]) => y)),
  };
}
