import { UnbuildableError } from "../plan/errors.ts";
import type { HoleRulesPlan, Plan } from "../plan/plan.ts";
import { battenFaults, cavityFaults, insetFaults } from "./battenFaults.ts";
import { type Beyond, beyondSides } from "./beyond.ts";
import { crossDividesWidth, type Frame, frameOf } from "./frame.ts";
import { keepOutFaults } from "./keepOutFaults.ts";
import { type KeepOut, keepOutsNear, keepOutsOf } from "./keepOuts.ts";
import type { Constraints } from "./legal.ts";
import { layOutPanels, type Panel } from "./panels.ts";
import { boxOf } from "./rings.ts";
import { ringSlackMm, shapeSlackMm, writtenMm } from "./written.ts";

/** A panel with all that keeps holes away, in its face frame. */
export interface WorkPanel extends Panel {
  readonly frame: Frame | null;
  readonly keepOuts: readonly KeepOut[];
  readonly beyond: Beyond;
}

/**
 * Panels, frames and keep-outs of a plan, in the plan's order.
 * @param plan positions in the ceiling frame (`inCeilingFrame`)
 * @throws UnbuildableError as `layOutPanels` does, for keep-outs and battens that cannot be
 */
export function workPanels(plan: Plan): WorkPanel[] {
  const bare = layOutPanels(plan);
  const faults = [...keepOutFaults(plan), ...cavityFaults(plan)];
  if (faults.length > 0) throw new UnbuildableError(faults);
  const keepOuts = keepOutsOf(plan.keepOut);
  const beyond = beyondSides(bare, plan.ceiling, plan.holes.maxShift);
  const panels = bare.map((panel, i) => ({
    ...panel,
    beyond: beyond[i]!,
    frame: plan.frame === "none" ? null : frameOf(panel, plan.frame),
    keepOuts: keepOutsNear(keepOuts, panel.board, panel.exactRing, plan.holes.edge),
  }));
  const missed =
    plan.frame === "none" ? [] : [...battenFaults(panels, plan.frame), ...insetFaults(panels, plan)];
  if (missed.length > 0) throw new UnbuildableError(missed);
  return panels;
}

/** What the centre of a hole must keep on a panel; r is half the bit. */
export function constraintsOf(panel: WorkPanel, bitMm: number, rules: HoleRulesPlan): Constraints {
  const r = bitMm / 2;
  const { frame } = panel;
  const cells = legalCells(panel, bitMm, rules);
  return {
    ...(cells === null ? {} : { cells }),
    within: [
      outlineConstraint(panel, bitMm, rules),
      ...(frame === null
        ? []
        : [{ rings: frame.within, clearanceMm: rules.batten + r + frame.withinSlackMm }]),
    ],
    off: [
      ...(frame?.battens ?? [])
        .filter((batten) => batten.kind !== "edge")
        .map(({ ring, slackMm }) => ({ shape: { ring }, clearanceMm: rules.batten + r + slackMm })),
      ...keepOutConstraints(panel, bitMm, rules),
    ],
  };
}

const outlineConstraint = ({ exactRing }: WorkPanel, bitMm: number, rules: HoleRulesPlan) => ({
  rings: [exactRing],
  clearanceMm: rules.edge + bitMm / 2 + ringSlackMm(exactRing),
});

export const keepOutConstraints = ({ keepOuts }: WorkPanel, bitMm: number, rules: HoleRulesPlan) =>
  keepOuts.map(({ shape }) => ({ shape, clearanceMm: rules.edge + bitMm / 2 + shapeSlackMm(shape) }));

/** An upright rectangle [left, bottom, right, top]. */
export type Cell = readonly [number, number, number, number];

/**
 * The legal area of a rectangle whose frame cuts it into rectangles, drawn in to whole hundredths; null for any other panel.
 */
export function legalCells(panel: WorkPanel, bitMm: number, rules: HoleRulesPlan): Cell[] | null {
  const { frame, keepOuts, isRectangle, exactRing } = panel;
  if (!isRectangle || keepOuts.length > 0 || frame?.battens.some((batten) => batten.kind === "extra"))
    return null;
  const { widthMm, lengthMm } = boxOf(exactRing);
  const r = bitMm / 2;
  if (frame !== null && frame.within.length === 0) return [];
  const inner = frame === null ? null : boxOf(frame.within[0]!);
  /** From a batten, as it is and as it is written: above its upper side, below its lower one. */
  const above = (mm: number) => Math.max(mm, writtenMm(mm)) + rules.batten + r;
  const below = (mm: number) => Math.min(mm, writtenMm(mm)) - rules.batten - r;
  const margin = rules.edge + r;
  const ends = (span: number, low = 0, its = span) =>
    inner === null
      ? ([margin, span - margin] as const)
      : ([Math.max(margin, above(low)), Math.min(span - margin, below(low + its))] as const);
  const acrossX = crossDividesWidth(panel);
  const strips = (frame?.battens ?? [])
    .filter((batten) => batten.kind === "cross")
    .map(({ ring }) => boxOf(ring))
    .map((its): readonly [number, number] =>
      acrossX ? [its.xMm, its.xMm + its.widthMm] : [its.yMm, its.yMm + its.lengthMm],
    )
    .map(([low, high]) => [below(low), above(high)] as const);
  const spans = ([from, to]: readonly [number, number], cut: readonly (readonly [number, number])[]) => {
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
  const across = spans(ends(widthMm, inner?.xMm, inner?.widthMm), acrossX ? strips : []);
  const along = spans(ends(lengthMm, inner?.yMm, inner?.lengthMm), acrossX ? [] : strips);
  return across.flatMap(([left, right]) => along.map(([bottom, top]): Cell => [left, bottom, right, top]));
}

/** From the rim of a relief hole to screws, hanging points and the ends of battens. */
const BORED_CLEARANCE_MM = 20;

/** A rectangle is drawn in to hundredths on both axes, and its battens with it. */
const DRAWN_IN_MM = 0.0142;

/**
 * The same for a star that may sit on a batten, through a relief hole bored into it: that lies wholly on one batten and cuts into the
 * side of none. Edge battens with nothing inside them, or none at all, take no holes.
 */
export function boredConstraintsOf(
  panel: WorkPanel,
  bitMm: number,
  reliefMm: number,
  rules: HoleRulesPlan,
): Constraints {
  const frame = panel.frame!;
  const clearanceMm = BORED_CLEARANCE_MM + reliefMm / 2;
  const rings = frame.within.length === 0 ? [] : frame.battens.map(({ ring }) => ring);
  const slackMm = Math.max(0, ...frame.battens.map((batten) => batten.slackMm));
  return {
    within: [
      outlineConstraint(panel, bitMm, rules),
      { rings, clearanceMm: reliefMm / 2 + Math.max(slackMm, DRAWN_IN_MM) },
    ],
    off: [
      ...[...frame.screws, ...frame.hangers].map((at) => ({ shape: { at, radiusMm: 0 }, clearanceMm })),
      ...frame.battens
        .flatMap(({ ends }) => ends)
        .map((end) => ({ shape: { ring: end }, clearanceMm: clearanceMm + DRAWN_IN_MM })),
      ...keepOutConstraints(panel, bitMm, rules),
    ],
  };
}
