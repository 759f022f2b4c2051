import type { FramePlan, Plan } from "../plan/plan.ts";
import { common, drawnIn, grown, without } from "./clip.ts";
import { frameOf } from "./frame.ts";
import type { Panel } from "./panels.ts";
import { boxOf, signedAreaMm2 } from "./rings.ts";
import { boardSag, type Sag } from "./sag.ts";
import { legalCells, type WorkPanel } from "./work.ts";

/** What battens laid one way cost. */
export interface FrameFigures {
  readonly lying: "flat" | "on edge" | "square";
  readonly widthMm: number;
  readonly depthMm: number;
  /** Along the edge of a finished panel no star can be within this, for the thinnest bit. */
  readonly edgeBandMm: number;
  /** Of the finished panels, 0 to 1: where the thinnest bit may not go for battens and margins; keep-outs are left aside. */
  readonly deadShare: number;
  /** From the battens' backs to the nearest thing above; null without `cavity`. */
  readonly aboveBattensMm: number | null;
  /** Of the widest bay of all panels; null when nothing is known of the board. */
  readonly sag: Sag | null;
}

/** As the plan has them, then turned by a right angle. @param plan positions in the ceiling frame */
export function frameFigures(plan: Plan, panels: readonly WorkPanel[]): FrameFigures[] {
  if (plan.frame === "none") return [];
  const { width, depth } = plan.frame.batten;
  const ways = width === depth ? [{ width, depth }] : [plan.frame.batten, { width: depth, depth: width }];
  return ways.map((batten) => figuresOf(plan, { ...(plan.frame as FramePlan), batten }, panels));
}

function figuresOf(plan: Plan, frame: FramePlan, panels: readonly WorkPanel[]): FrameFigures {
  const { width, depth } = frame.batten;
  const bitMm = Math.min(...plan.fibre.sizes.map(({ bit }) => bit));
  const framed = panels.map((panel) => ({ ...panel, frame: frameOf(panel, frame), keepOuts: [] }));
  const finishedMm2 = framed.reduce((sum, { finishedRing }) => sum + signedAreaMm2(finishedRing), 0);
  const legalMm2 = framed.reduce((sum, panel) => sum + legalAreaMm2(panel, bitMm, frame, plan), 0);
  return {
    lying: width > depth ? "flat" : width < depth ? "on edge" : "square",
    widthMm: width,
    depthMm: depth,
    edgeBandMm:
      plan.fabric.thickness + Math.max(plan.holes.edge, frame.inset + width + plan.holes.batten) + bitMm / 2,
    deadShare: 1 - legalMm2 / finishedMm2,
    aboveBattensMm: plan.cavity === undefined ? null : plan.cavity - depth,
    sag: widestSag(plan, frame, panels),
  };
}

/** Of the widest bay of all panels; null when nothing is known of the board. */
export function widestSag(plan: Plan, frame: FramePlan, panels: readonly Panel[]): Sag | null {
  const widestBayMm = Math.max(...panels.map((panel) => bayMm(panel, frame)));
  return widestBayMm > 0 ? boardSag(plan.board, widestBayMm) : null;
}

function legalAreaMm2(panel: WorkPanel, bitMm: number, frame: FramePlan, plan: Plan): number {
  const cells = legalCells(panel, bitMm, plan.holes);
  if (cells !== null)
    return cells.reduce((sum, [left, bottom, right, top]) => sum + (right - left) * (top - bottom), 0);
  const { edge, batten } = plan.holes;
  const r = bitMm / 2;
  const onBoard = drawnIn(panel.boardRing, edge + r);
  const inFrame = drawnIn(panel.boardRing, frame.inset + frame.batten.width + batten + r);
  const open = onBoard.flatMap((a) => inFrame.flatMap((b) => common(a, b)));
  const battens = panel
    .frame!.battens.filter(({ kind }) => kind !== "edge")
    .flatMap(({ ring }) => grown(ring, batten + r));
  return without(open, battens).reduce((sum, ring) => sum + signedAreaMm2(ring), 0);
}

/** Clear width that the board must bridge: the wider of the bays between battens across the longer side, or the shorter side if that is less. */
function bayMm(panel: Panel, { inset, batten, crossBattens }: FramePlan): number {
  const { widthMm, lengthMm } = boxOf(panel.boardRing);
  const between = (whole: number) => whole - 2 * (inset + batten.width);
  const centres = Math.max(widthMm, lengthMm) / (crossBattens + 1);
  const bays =
    crossBattens === 0
      ? [between(centres)]
      : [centres - 1.5 * batten.width - inset, ...(crossBattens > 1 ? [centres - batten.width] : [])];
  return Math.max(0, Math.min(Math.max(...bays), between(Math.min(widthMm, lengthMm))));
}
