import { boxOf } from "../panel/rings.ts";
import { wallsOf, wallToward } from "../panel/walls.ts";
import type { Plan, WallSide } from "../plan/plan.ts";
import { inCeilingFrame } from "../projection/frames.ts";
import type { PanelRecord } from "../schedule/types.ts";

/** One side of a panel as it hangs, seen from below. */
export interface PanelEdge {
  readonly side: WallSide;
  /** The wall that one meets going that way from the panel's middle. */
  readonly wall: string;
  /** Ids of the panels across the seam on that side. */
  readonly neighbours: readonly string[];
}

export const SIDES = ["top", "right", "bottom", "left"] as const satisfies readonly WallSide[];

/** Which edge faces which wall, and beside which panels it hangs. */
export function panelEdges(panel: PanelRecord, panels: readonly PanelRecord[], plan: Plan): PanelEdge[] {
  const walls = wallsOf(inCeilingFrame(plan));
  const its = hanging(panel);
  const middle = [its.xMm + its.widthMm / 2, its.yMm + its.lengthMm / 2] as const;
  const beside = panels.filter(({ id }) => panel.neighbours.includes(id));
  return SIDES.map((side) => ({
    side,
    wall: wallToward(walls, side, ...middle)?.wall.name ?? plan.walls[side] ?? `${side} wall`,
    neighbours: beside.filter((other) => sideToward(its, hanging(other)) === side).map(({ id }) => id),
  }));
}

/** A board that is turned over shows its right edge at the left. */
export const seenFromBack = (side: WallSide): WallSide =>
  side === "left" ? "right" : side === "right" ? "left" : side;

/** The finished panel's box, ceiling frame. */
function hanging({ xMm, yMm, finishedOutlineMm }: PanelRecord) {
  const box = boxOf(finishedOutlineMm);
  return { ...box, xMm: xMm + box.xMm, yMm: yMm + box.yMm };
}

type Box = ReturnType<typeof hanging>;

/** Boxes of outlines may overlap: the side where they do so least. */
function sideToward(a: Box, b: Box): WallSide {
  const gaps: Record<WallSide, number> = {
    right: b.xMm - (a.xMm + a.widthMm),
    left: a.xMm - (b.xMm + b.widthMm),
    top: b.yMm - (a.yMm + a.lengthMm),
    bottom: a.yMm - (b.yMm + b.lengthMm),
  };
  return SIDES.reduce((best, side) => (gaps[side] > gaps[best] ? side : best));
}
