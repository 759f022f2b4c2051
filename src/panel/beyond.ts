import { nearBoxes } from "./nearBoxes.ts";
import type { Panel } from "./panels.ts";
import type { Ring } from "./rings.ts";

/** How far past each side of its finished box stars are a panel's to take: to the middle of the gap, or to the ceiling's edge. */
export interface Beyond {
  readonly leftMm: number;
  readonly rightMm: number;
  readonly bottomMm: number;
  readonly topMm: number;
  /** The panels about it: finished outlines, ceiling frame. */
  readonly others: readonly Ring[];
  readonly ceiling: { readonly width: number; readonly length: number };
}

type Side = "leftMm" | "rightMm" | "bottomMm" | "topMm";

/**
 * @param ceiling  where no more stars are
 * @param reachMm  no star comes from farther
 */
export function beyondSides(
  panels: readonly Panel[],
  ceiling: { readonly width: number; readonly length: number },
  reachMm: number,
): Beyond[] {
  const boxes = panels.map(({ finished }) => finished);
  const near = nearBoxes(boxes, 2 * reachMm);
  return boxes.map((box, i) => {
    const right = box.xMm + box.widthMm;
    const top = box.yMm + box.lengthMm;
    const beyond = {
      leftMm: Math.min(reachMm, Math.max(0, box.xMm)),
      rightMm: Math.min(reachMm, Math.max(0, ceiling.width - right)),
      bottomMm: Math.min(reachMm, Math.max(0, box.yMm)),
      topMm: Math.min(reachMm, Math.max(0, ceiling.length - top)),
    };
    const others: Ring[] = [];
    const halve = (side: Side, gapMm: number) => {
      if (gapMm >= -1e-6) beyond[side] = Math.min(beyond[side], Math.max(0, gapMm) / 2);
    };
    for (const j of near(i)) {
      const other = boxes[j]!;
      if (j === i) continue;
      others.push(panels[j]!.finishedRing);
      const otherRight = other.xMm + other.widthMm;
      const otherTop = other.yMm + other.lengthMm;
      if (other.yMm < top && otherTop > box.yMm) {
        halve("leftMm", box.xMm - otherRight);
        halve("rightMm", other.xMm - right);
      }
      if (other.xMm < right && otherRight > box.xMm) {
        halve("bottomMm", box.yMm - otherTop);
        halve("topMm", other.yMm - top);
      }
    }
    return { ...beyond, others, ceiling };
  });
}
