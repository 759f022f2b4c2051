import Flatbush from "flatbush";
import type { Panel, RectangleMm } from "../panel/panels.ts";

/** A seam is a gap that a hand would not fit into. */
const SEAM_MM = 50;
/** Up to so many panels a look at each is quicker than an index. */
const FEW_PANELS = 24;

/** For each panel the ids of those beside it, across a seam, in the plan's order. */
export function neighbourIds(panels: readonly Panel[]): string[][] {
  const near = nearPanels(panels.map(({ finished }) => finished));
  return panels.map(({ id, finished }, i) =>
    near(i)
      .filter((j) => panels[j]!.id !== id && besides(finished, panels[j]!.finished))
      .map((j) => panels[j]!.id),
  );
}

/** Indices, rising, of all panels that may be beside one, and perhaps of some more. */
function nearPanels(boxes: readonly RectangleMm[]): (i: number) => number[] {
  if (boxes.length <= FEW_PANELS) {
    const all = [...boxes.keys()];
    return () => all;
  }
  const index = new Flatbush(boxes.length);
  for (const { xMm, yMm, widthMm, lengthMm } of boxes) index.add(xMm, yMm, xMm + widthMm, yMm + lengthMm);
  index.finish();
  return (i) => {
    const { xMm, yMm, widthMm, lengthMm } = boxes[i]!;
    return index
      .search(xMm - SEAM_MM, yMm - SEAM_MM, xMm + widthMm + SEAM_MM, yMm + lengthMm + SEAM_MM)
      .sort((a, b) => a - b);
  };
}

/** True when two finished panels face each other across a seam; corner to corner does not count. */
function besides(a: RectangleMm, b: RectangleMm): boolean {
  const across = Math.min(a.xMm + a.widthMm, b.xMm + b.widthMm) - Math.max(a.xMm, b.xMm);
  const along = Math.min(a.yMm + a.lengthMm, b.yMm + b.lengthMm) - Math.max(a.yMm, b.yMm);
  return (across > 0 && along > -SEAM_MM) || (along > 0 && across > -SEAM_MM);
}
