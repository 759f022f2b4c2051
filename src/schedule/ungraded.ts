import type { Place } from "../panel/placement.ts";
import type { PointMm } from "../projection/frames.ts";
import type { Vector3 } from "../sky/matrix.ts";

/** A hole that got its strand before grading: a dot of the Milky Way, or one of the Moon's ring. */
export interface UngradedHole {
  readonly kind: "moon" | "milkyWay";
  readonly name: string;
  /** IAU code. */
  readonly constellation: string;
  readonly diameterMm: number;
  readonly bitMm: number;
  /** Where it belongs, ceiling frame. */
  readonly skyPoint: PointMm;
  /** What direction (east, north, up) is shown there. */
  readonly enu: Vector3;
  readonly place: Place;
}
