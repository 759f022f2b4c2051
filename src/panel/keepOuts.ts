import type { KeepOutKind, KeepOutPlan } from "../plan/plan.ts";
import {
  type BoxMm,
  boxOf,
  counterClockwise,
  distanceToRing,
  type Ring,
  rectangleRing,
  ringHolds,
  segmentsMeet,
} from "./rings.ts";

/** A place on the ceiling that holes keep away from. */
export interface KeepOut {
  readonly id: string;
  readonly kind: KeepOutKind;
  readonly stars: "move" | "drop";
  /** Farthest that a star under it is moved; null: as far as any. */
  readonly upToMm: number | null;
  readonly frontMm: number;
  readonly behindMm: number;
  /** In the frame of whoever holds it. */
  readonly shape: Shape;
}

export type Shape =
  | { readonly ring: Ring }
  | { readonly at: readonly [number, number]; readonly radiusMm: number };

/** @param plans positions in the ceiling frame */
export const keepOutsOf = (plans: readonly KeepOutPlan[]): KeepOut[] =>
  plans.map((plan) => ({
    id: plan.id,
    kind: plan.kind,
    stars: plan.stars,
    upToMm: plan.upTo ?? null,
    frontMm: plan.clearance.front,
    behindMm: plan.clearance.behind,
    shape:
      "at" in plan
        ? { at: plan.at, radiusMm: plan.radius }
        : {
            ring: counterClockwise(
              "outline" in plan
                ? plan.outline
                : rectangleRing({ xMm: plan.x, yMm: plan.y, widthMm: plan.width, lengthMm: plan.length }),
            ),
          },
  }));

/** True for a point under it; its clearance does not count. */
export const shapeHolds = (shape: Shape, x: number, y: number): boolean =>
  "ring" in shape
    ? ringHolds(shape.ring, x, y)
    : Math.hypot(x - shape.at[0], y - shape.at[1]) < shape.radiusMm;

/**
 * How far a star may be moved whose true point lies here, and the keep-out that drops it; of several the last.
 * @param keepOuts ceiling frame, as is the point
 */
export function starReach(
  keepOuts: readonly KeepOut[],
  x: number,
  y: number,
  maxShiftMm: number,
): { readonly reachMm: number; readonly droppedBy: KeepOut | null } {
  let reachMm = maxShiftMm;
  let droppedBy: KeepOut | null = null;
  for (const keepOut of keepOuts) {
    if (!shapeHolds(keepOut.shape, x, y)) continue;
    if (keepOut.stars === "drop") droppedBy = keepOut;
    reachMm = Math.min(reachMm, keepOut.upToMm ?? maxShiftMm);
  }
  return { reachMm, droppedBy };
}

export function shapeBox(shape: Shape): BoxMm {
  if ("ring" in shape) return boxOf(shape.ring);
  const { at, radiusMm } = shape;
  return { xMm: at[0] - radiusMm, yMm: at[1] - radiusMm, widthMm: 2 * radiusMm, lengthMm: 2 * radiusMm };
}

const moved = (shape: Shape, dx: number, dy: number): Shape =>
  "ring" in shape
    ? { ring: shape.ring.map(([x, y]) => [x + dx, y + dy] as const) }
    : { at: [shape.at[0] + dx, shape.at[1] + dy], radiusMm: shape.radiusMm };

/**
 * The keep-outs on a board or within a margin of it, in its face frame.
 * @param board lower-left corner of the board's box, ceiling frame
 */
export function keepOutsNear(
  keepOuts: readonly KeepOut[],
  board: { readonly xMm: number; readonly yMm: number },
  outline: Ring,
  marginMm: number,
): KeepOut[] {
  const its = boxOf(outline);
  return keepOuts.flatMap((keepOut) => {
    const box = shapeBox(keepOut.shape);
    const [x, y] = [box.xMm - board.xMm, box.yMm - board.yMm];
    const apartMm = Math.max(
      x - its.xMm - its.widthMm,
      its.xMm - x - box.widthMm,
      y - its.yMm - its.lengthMm,
      its.yMm - y - box.lengthMm,
    );
    if (apartMm > marginMm + 1e-6) return [];
    const shape = moved(keepOut.shape, -board.xMm, -board.yMm);
    return isWithin(shape, outline, marginMm) ? [{ ...keepOut, shape }] : [];
  });
}

function isWithin(shape: Shape, outline: Ring, marginMm: number): boolean {
  if ("at" in shape) {
    const [x, y] = shape.at;
    return ringHolds(outline, x, y) || distanceToRing(outline, x, y) <= shape.radiusMm + marginMm;
  }
  return (
    shape.ring.some(([x, y]) => ringHolds(outline, x, y) || distanceToRing(outline, x, y) <= marginMm) ||
    outline.some(([x, y]) => ringHolds(shape.ring, x, y) || distanceToRing(shape.ring, x, y) <= marginMm) ||
    sidesMeet(shape.ring, outline)
  );
}

/** Two rings none of whose corners is near the other may still cross like the strokes of a plus. */
const sidesMeet = (a: Ring, b: Ring): boolean =>
  a.some((p, i) => b.some((r, j) => segmentsMeet(p, a[(i + 1) % a.length]!, r, b[(j + 1) % b.length]!)));
