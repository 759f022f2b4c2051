import type { Shape } from "./keepOuts.ts";
import { boxOf, type Ring } from "./rings.ts";

/** A ring as [x0, y0, x1, y1, ...]: the loops that ask hundreds of thousands of points run over numbers alone. */
export type Flat = Float64Array;

export const flatRing = (ring: Ring): Flat => Float64Array.from(ring.flat());

/** Where a point lies: nearer to a side than so much, or else inside (even-odd rule) or outside. */
export function ringKeeps(
  ring: Flat,
  x: number,
  y: number,
  leastMm: number,
): "tooClose" | "inside" | "outside" {
  const least = leastMm > 0 ? leastMm * leastMm : 0;
  let inside = false;
  let ax = ring[ring.length - 2]!;
  let ay = ring[ring.length - 1]!;
  for (let i = 0; i < ring.length; i += 2) {
    const bx = ring[i]!;
    const by = ring[i + 1]!;
    const dx = bx - ax;
    const dy = by - ay;
    const px = x - ax;
    const py = y - ay;
    const span = dx * dx + dy * dy;
    const t = span === 0 ? 0 : Math.min(1, Math.max(0, (px * dx + py * dy) / span));
    const ex = px - t * dx;
    const ey = py - t * dy;
    if (ex * ex + ey * ey < least) return "tooClose";
    if (by > y !== ay > y && x < (dx * (y - by)) / dy + bx) inside = !inside;
    ax = bx;
    ay = by;
  }
  return inside ? "inside" : "outside";
}

/** What is left of a distance when its square root was taken. */
const FLOAT_MM = 1e-9;

/** Tells whether a point keeps so far off a shape. */
export function shapeKeepsOff(shape: Shape, clearanceMm: number): (x: number, y: number) => boolean {
  const leastMm = clearanceMm - FLOAT_MM;
  if ("at" in shape) {
    const [cx, cy] = shape.at;
    const reach = shape.radiusMm + leastMm;
    return (x, y) => !(reach > 0 && (x - cx) * (x - cx) + (y - cy) * (y - cy) < reach * reach);
  }
  const ring = flatRing(shape.ring);
  const { xMm, yMm, widthMm, lengthMm } = boxOf(shape.ring);
  const [left, right] = [xMm - clearanceMm, xMm + widthMm + clearanceMm];
  const [bottom, top] = [yMm - clearanceMm, yMm + lengthMm + clearanceMm];
  return (x, y) =>
    x <= left || x >= right || y <= bottom || y >= top || ringKeeps(ring, x, y, leastMm) === "outside";
}
