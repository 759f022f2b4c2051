import Flatbush from "flatbush";
import type { BoxMm } from "./rings.ts";

/** Up to so many panels a look at each is quicker than an index, above all at the start of a run. */
export const FEW_PANELS = 24;

export function boxIndex(boxes: readonly BoxMm[]): Flatbush {
  const index = new Flatbush(boxes.length);
  for (const { xMm, yMm, widthMm, lengthMm } of boxes) index.add(xMm, yMm, xMm + widthMm, yMm + lengthMm);
  index.finish();
  return index;
}

/** For each box the indices, rising, of all that come within so much of it, and perhaps of some more; itself among them. */
export function nearBoxes(boxes: readonly BoxMm[], withinMm: number): (i: number) => readonly number[] {
  if (boxes.length <= FEW_PANELS) {
    const all = [...boxes.keys()];
    return () => all;
  }
  const index = boxIndex(boxes);
  return (i) => {
    const { xMm, yMm, widthMm, lengthMm } = boxes[i]!;
    return index
      .search(xMm - withinMm, yMm - withinMm, xMm + widthMm + withinMm, yMm + lengthMm + withinMm)
      .sort((a, b) => a - b);
  };
}
