import type { DrillPlan, FramePlan } from "../plan/plan.ts";
import { shapeKeepsOff } from "./flat.ts";
import type { WorkPanel } from "./work.ts";

/**
 * Tells which holes cannot be bored from behind once the frame is on. The chuck comes to a stop with the bit's tip at the face:
 * its nose is then at projection less board thickness above the board's back. Lower than the battens are deep, it needs its
 * radius from every side of a batten (so does a hole on a batten, whose relief hole is no wider than that).
 * @returns for a point in the panel's face frame: true when it is to be bored before framing
 */
export function boreFirst(
  { frame }: WorkPanel,
  plan: FramePlan | "none",
  drill: DrillPlan,
  boardMm: number,
): (x: number, y: number) => boolean {
  if (plan === "none" || frame === null || drill.projection - boardMm >= plan.batten.depth)
    return () => false;
  const keepsOff = frame.battens.map(({ ring }) => shapeKeepsOff({ ring }, drill.chuckRadius));
  return (x, y) => keepsOff.some((keeps) => !keeps(x, y));
}
