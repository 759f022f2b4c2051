import { UnbuildableError } from "../plan/errors.ts";
import type { HoleRulesPlan, Plan } from "../plan/plan.ts";
import { drawnIn } from "./clip.ts";
import { type Frame, frameOf } from "./frame.ts";
import { keepOutFaults } from "./keepOutFaults.ts";
import { type KeepOut, keepOutsNear, keepOutsOf } from "./keepOuts.ts";
import type { Constraints } from "./legal.ts";
import { layOutPanels, type Panel } from "./panels.ts";
import { boxOf } from "./rings.ts";

/** A panel with all that keeps holes away, in its face frame. */
export interface WorkPanel extends Panel {
  readonly frame: Frame | null;
  readonly keepOuts: readonly KeepOut[];
}

/**
 * Panels, frames and keep-outs of a plan, in the plan's order.
 * @param plan positions in the ceiling frame (`inCeilingFrame`)
 * @throws UnbuildableError as `layOutPanels` does, and for keep-outs that cannot be
 */
export function workPanels(plan: Plan): WorkPanel[] {
  const panels = layOutPanels(plan);
  const faults = keepOutFaults(plan);
  if (faults.length > 0) throw new UnbuildableError(faults);
  const keepOuts = keepOutsOf(plan.keepOut);
  return panels.map((panel) => ({
    ...panel,
    frame: plan.frame === "none" ? null : frameOf(panel, plan.frame),
    keepOuts: keepOutsNear(keepOuts, panel.board, panel.boardRing, plan.holes.edge),
  }));
}

/** What the centre of a hole must keep on a panel; r is half the bit. */
export function constraintsOf(panel: WorkPanel, bitMm: number, rules: HoleRulesPlan): Constraints {
  const r = bitMm / 2;
  const { frame } = panel;
  const cells = legalCells(panel, bitMm, rules);
  return {
    ...(cells === null ? {} : { cells }),
    within: [
      { rings: [panel.boardRing], clearanceMm: rules.edge + r },
      ...(frame === null ? [] : [{ rings: frame.within, clearanceMm: rules.batten + r }]),
    ],
    off: [
      ...(frame?.battens ?? [])
        .filter((batten) => batten.kind !== "edge")
        .map(({ ring }) => ({ shape: { ring }, clearanceMm: rules.batten + r })),
      ...panel.keepOuts.map(({ shape }) => ({ shape, clearanceMm: rules.edge + r })),
    ],
  };
}

/** An upright rectangle [left, bottom, right, top]. */
export type Cell = readonly [number, number, number, number];

/**
 * The legal area of a rectangle whose frame cuts it into rectangles, drawn in to whole hundredths; null for any other panel.
 */
export function legalCells(panel: WorkPanel, bitMm: number, rules: HoleRulesPlan): Cell[] | null {
  const { frame, keepOuts, isRectangle, boardRing } = panel;
  if (!isRectangle || keepOuts.length > 0 || frame?.battens.some((batten) => batten.kind === "extra"))
    return null;
  const { widthMm, lengthMm } = boxOf(boardRing);
  const r = bitMm / 2;
  if (frame !== null && frame.within.length === 0) return [];
  const inner = frame === null ? null : boxOf(frame.within[0]!);
  const margin = (innerMm: number | undefined) =>
    Math.max(rules.edge + r, innerMm === undefined ? 0 : innerMm + rules.batten + r);
  const [mx, my] = [margin(inner?.xMm), margin(inner?.yMm)];
  const acrossX = widthMm >= lengthMm;
  const strips = (frame?.battens ?? [])
    .filter((batten) => batten.kind === "cross")
    .map(({ ring }) => boxOf(ring))
    .map((its): readonly [number, number] =>
      acrossX ? [its.xMm, its.xMm + its.widthMm] : [its.yMm, its.yMm + its.lengthMm],
    )
    .map(([low, high]) => [low - rules.batten - r, high + rules.batten + r] as const);
  const spans = (from: number, to: number, cut: readonly (readonly [number, number])[]) => {
    const left: [number, number][] = [];
    let start = from;
    for (const [low, high] of [...cut].sort((a, b) => a[0] - b[0])) {
      if (low >= start) left.push([start, Math.min(low, to)]);
      start = Math.max(start, high);
    }
    left.push([start, to]);
    return left
      .map(([low, high]) => [Math.ceil(low * 100 - 1e-6) / 100, Math.floor(high * 100 + 1e-6) / 100] as const)
      .filter(([low, high]) => high >= low);
  };
  const across = spans(mx, widthMm - mx, acrossX ? strips : []);
  const along = spans(my, lengthMm - my, acrossX ? [] : strips);
  return across.flatMap(([left, right]) => along.map(([bottom, top]): Cell => [left, bottom, right, top]));
}

/** From the rim of a relief hole to screws, hanging points and the ends of battens. */
const BORED_CLEARANCE_MM = 20;

/** The same for a star that may sit on a batten, through a relief hole bored into it. */
export function boredConstraintsOf(
  panel: WorkPanel,
  bitMm: number,
  reliefMm: number,
  insetMm: number,
  rules: HoleRulesPlan,
): Constraints {
  const frame = panel.frame!;
  const clearanceMm = BORED_CLEARANCE_MM + reliefMm / 2;
  const points = [...frame.screws, ...frame.hangers, ...frame.battens.flatMap(({ from, to }) => [from, to])];
  return {
    within: [
      { rings: [panel.boardRing], clearanceMm: rules.edge + bitMm / 2 },
      ...(insetMm > 0 ? [{ rings: drawnIn(panel.boardRing, insetMm), clearanceMm: reliefMm / 2 }] : []),
    ],
    off: [
      ...points.map((at) => ({ shape: { at, radiusMm: 0 }, clearanceMm })),
      ...panel.keepOuts.map(({ shape }) => ({ shape, clearanceMm: rules.edge + bitMm / 2 })),
    ],
  };
}
