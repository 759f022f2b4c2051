import type {
  LightSourcePlan,
  PanelOutlinePlan,
  PanelRectanglePlan,
  Plan,
  PointPlan,
  ViewPlan,
} from "../plan/plan.ts";

/*
 * The frames, all in millimetres:
 * - ceiling: seen FROM BELOW, origin at the lower-left corner of the ceiling's bounding rectangle, +Y toward its top edge;
 * - face: one panel's BOARD seen from the room, origin at its lower-left corner, axes parallel to the ceiling's;
 * - back: the same board turned over about its vertical axis;
 * - reflected plan: the ceiling as a floor plan shows it, the mirror of what is seen from below.
 */

export interface PointMm {
  readonly xMm: number;
  readonly yMm: number;
}

/** From a point to the farthest corner of the ceiling. */
export const farthestCornerMm = (
  { xMm, yMm }: PointMm,
  { width, length }: { readonly width: number; readonly length: number },
): number => Math.hypot(Math.max(xMm, width - xMm), Math.max(yMm, length - yMm));

/** @param board lower-left corner of the board in the ceiling frame */
export const ceilingToFace = (point: PointMm, board: PointMm): PointMm => ({
  xMm: point.xMm - board.xMm,
  yMm: point.yMm - board.yMm,
});

/** Its own inverse: a board turned over twice is as before. */
export const faceToBack = (point: PointMm, boardWidthMm: number): PointMm => ({
  xMm: boardWidthMm - point.xMm,
  yMm: point.yMm,
});

/** Its own inverse. `spanMm` is the thing's own width when `xMm` is its left edge. */
export const reflectXMm = (xMm: number, ceilingWidthMm: number, spanMm = 0): number =>
  ceilingWidthMm - xMm - spanMm;

/** Anything with an outline, a centre or a lower-left corner, measured from the other side. */
function reflected<T extends object>(thing: T, ceilingWidthMm: number): T {
  const mirror = ([x, y]: PointPlan): PointPlan => [reflectXMm(x, ceilingWidthMm), y];
  if ("outline" in thing) return { ...thing, outline: (thing.outline as readonly PointPlan[]).map(mirror) };
  if ("at" in thing) return { ...thing, at: mirror(thing.at as PointPlan) };
  const { x, width } = thing as unknown as { x: number; width: number };
  return { ...thing, x: reflectXMm(x, ceilingWidthMm, width) };
}

/**
 * The plan with every position in the ceiling frame. Positions measured on a reflected plan are mirrored; a plan drawn
 * from below passes unchanged.
 */
export function inCeilingFrame(plan: Plan): Plan {
  if (plan.drawnAs === "fromBelow") return plan;
  const width = plan.ceiling.width;
  const source = (light: LightSourcePlan): LightSourcePlan => ({ ...light, x: reflectXMm(light.x, width) });
  const view: ViewPlan =
    plan.view.kind === "eye"
      ? { ...plan.view, eye: { ...plan.view.eye, x: reflectXMm(plan.view.eye.x, width) } }
      : plan.view;
  return {
    ...plan,
    drawnAs: "fromBelow",
    view,
    // Sides and diagonals are named as seen from below in any case.
    ceiling: plan.ceiling.outline === undefined ? plan.ceiling : reflected(plan.ceiling, width),
    panels: Array.isArray(plan.panels)
      ? plan.panels.map((panel: PanelRectanglePlan | PanelOutlinePlan) => reflected(panel, width))
      : plan.panels,
    keepOut: plan.keepOut.map((one) => reflected(one, width)),
    ...(plan.lightSource === undefined
      ? {}
      : {
          lightSource: Array.isArray(plan.lightSource)
            ? plan.lightSource.map(source)
            : source(plan.lightSource as LightSourcePlan),
        }),
  };
}
