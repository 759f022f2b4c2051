import { type Ring, ringHolds } from "../panel/rings.ts";
import type { InkBox } from "./font.ts";

/** True where a side of the ring runs through the box or ends in it; both in one frame. */
export const ringCrossesBox = (ring: Ring, box: InkBox): boolean =>
  ring.some((from, i) => segmentMeetsBox(from, ring[(i + 1) % ring.length]!, box));

export const boxInRing = (ring: Ring, box: InkBox): boolean =>
  ringHolds(ring, box.leftMm, box.topMm) && !ringCrossesBox(ring, box);

/** Liang and Barsky's clipping: what is left of the piece inside the four sides. */
export function segmentMeetsBox(
  [ax, ay]: readonly [number, number],
  [bx, by]: readonly [number, number],
  { leftMm, topMm, rightMm, bottomMm }: InkBox,
): boolean {
  let [from, to] = [0, 1];
  for (const [step, room] of [
    [ax - bx, ax - leftMm],
    [bx - ax, rightMm - ax],
    [ay - by, ay - topMm],
    [by - ay, bottomMm - ay],
  ] as const) {
    if (step === 0) {
      if (room < 0) return false;
    } else if (step < 0) from = Math.max(from, room / step);
    else to = Math.min(to, room / step);
  }
  return from <= to;
}
