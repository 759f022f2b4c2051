import type { Ring } from "./rings.ts";
import { writtenMm } from "./written.ts";

type Point = readonly [number, number];

/** The centre line of an edge batten, face frame. */
export interface EdgeLine {
  readonly from: Point;
  readonly to: Point;
  /** How far along it a fixing keeps from either end, where it is long enough for that. */
  readonly startMm: number;
  readonly endMm: number;
  /** A shorter one takes no fixing, not even in its middle. */
  readonly leastMm: number;
}

/** From the ends of a batten to its first screw: 25 mm from a corner (mdf-info.eu), and the head's half. */
export const FROM_END_MM = 30;
/** From a screw to the side of what it holds: 12 mm (mdf-info.eu), or the middle of a narrower batten. */
const FROM_SIDE_MM = 12;
/** A single fixing in a short batten is no nearer to where that is cut: common practice, no source. */
export const LEAST_END_MM = 5;

export const fromSideMm = (widthMm: number): number => Math.min(FROM_SIDE_MM, widthMm / 2);

/** Of a batten cut along two lines from side to side: a slanting cut keeps fixings farther along. */
export function cutLine(
  { from, to, ends }: { from: Point; to: Point; ends: readonly (readonly [Point, Point])[] },
  widthMm: number,
): EdgeLine {
  const [ux, uy] = [to[0] - from[0], to[1] - from[1]];
  const sines = ends.map(([a, b]) => {
    const [vx, vy] = [b[0] - a[0], b[1] - a[1]];
    return Math.max(1e-6, Math.abs(ux * vy - uy * vx) / (Math.hypot(ux, uy) * Math.hypot(vx, vy)));
  });
  const [startMm, endMm] = sines.map((sine) => Math.max(FROM_END_MM, fromSideMm(widthMm) / sine));
  return { from, to, startMm: startMm!, endMm: endMm!, leastMm: (2 * LEAST_END_MM) / Math.min(...sines) };
}

/** The sides of rings that are not one mitred piece a side. */
export const sideLines = (rings: readonly Ring[]): EdgeLine[] =>
  rings.flatMap((ring) =>
    ring.map((from, i) => ({
      from,
      to: ring[(i + 1) % ring.length]!,
      startMm: FROM_END_MM,
      endMm: FROM_END_MM,
      leastMm: 2 * LEAST_END_MM,
    })),
  );

/** A point of a line as it is written. @param t its share of the line */
export const pointOn = (from: Point, to: Point, t: number): [number, number] => [
  writtenMm(from[0] + t * (to[0] - from[0])),
  writtenMm(from[1] + t * (to[1] - from[1])),
];
