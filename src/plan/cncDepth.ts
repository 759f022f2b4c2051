import type { CncPlan } from "./plan.ts";

/** A spot is a dimple this deep. */
export const SPOT_MM = 1;

/** Above the board: where a stroke begins. */
export const RETRACT_MM = 1;

/** Between holes the bit travels so far above where a stroke begins, or more: boards bow, and clamps pull them. */
const CLEAR_MM = 2;

export const LEAST_SAFE_HEIGHT_MM = RETRACT_MM + CLEAR_MM;

/** Deeper than so many bits is pecked: common among drilling texts. */
const PECK_RATIO = 5;

type DepthPlan = Pick<CncPlan, "mode" | "peck"> & { readonly overdrill?: number | undefined };

/** How far below the board a through hole ends: the cone of a drill's point is about 0.3 of its diameter (118 degrees). */
export const overdrillMm = ({ overdrill }: DepthPlan, bitMm: number): number =>
  overdrill ?? 0.3 * bitMm + 0.5;

/** How deep below the board's upper side a hole ends; positive. */
export const holeDepthMm = (cnc: DepthPlan, boardMm: number, bitMm: number): number =>
  cnc.mode === "spot" ? SPOT_MM : boardMm + overdrillMm(cnc, bitMm);

/** True where one stroke would clog: deeper than five bits, or than the flute is long. */
export const mustPeck = (depthMm: number, bitMm: number, fluteMm: number | undefined): boolean =>
  depthMm > PECK_RATIO * bitMm + 1e-9 || (fluteMm !== undefined && depthMm > fluteMm + 1e-9);
