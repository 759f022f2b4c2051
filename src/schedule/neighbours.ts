import { nearBoxes } from "../panel/nearBoxes.ts";
import type { Panel, RectangleMm } from "../panel/panels.ts";

/** A seam is a gap that a hand would not fit into. */
const SEAM_MM = 50;

/** For each panel the ids of those beside it, across a seam, in the plan's order. */
export function neighbourIds(panels: readonly Panel[]): string[][] {
  const near = nearBoxes(
    panels.map(({ finished }) => finished),
    SEAM_MM,
  );
  return panels.map(({ id, finished }, i) =>
    near(i)
      .filter((j) => panels[j]!.id !== id && besides(finished, panels[j]!.finished))
      .map((j) => panels[j]!.id),
  );
}

/** True when two finished panels face each other across a seam; corner to corner does not count. */
function besides(a: RectangleMm, b: RectangleMm): boolean {
  const across = Math.min(a.xMm + a.widthMm, b.xMm + b.widthMm) - Math.max(a.xMm, b.xMm);
  const along = Math.min(a.yMm + a.lengthMm, b.yMm + b.lengthMm) - Math.max(a.yMm, b.yMm);
  return (across > 0 && along > -SEAM_MM) || (along > 0 && across > -SEAM_MM);
}
