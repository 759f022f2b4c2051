import type { Shape } from "./keepOuts.ts";
import type { Ring } from "./rings.ts";

/*
 * Files hold whole hundredths of a millimetre. A corner that is none is drawn up to 0.0071 mm from where it is (clipping adds less
 * than a tenth of that, see clip.ts); holes keep so much more from such sides that they are legal beside the exact
 * shape and beside the written one.
 */
export const CORNER_SLACK_MM = 0.0075;
const RADIUS_MM = 0.005;
export const STEPS_PER_MM = 100;

export const isWhole = (mm: number): boolean =>
  Math.abs(mm * STEPS_PER_MM - Math.round(mm * STEPS_PER_MM)) < 1e-6;

export const writtenMm = (mm: number): number => Math.round(mm * STEPS_PER_MM) / STEPS_PER_MM;

/** What a hole keeps from the sides of a ring beyond its clearance. */
export const ringSlackMm = (ring: Ring): number =>
  ring.every(([x, y]) => isWhole(x) && isWhole(y)) ? 0 : CORNER_SLACK_MM;

export const ringsSlackMm = (rings: readonly Ring[]): number => Math.max(0, ...rings.map(ringSlackMm));

export function shapeSlackMm(shape: Shape): number {
  if ("ring" in shape) return ringSlackMm(shape.ring);
  const { at, radiusMm } = shape;
  return ringSlackMm([at]) + (isWhole(radiusMm) ? 0 : RADIUS_MM);
}
