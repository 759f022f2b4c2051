import type { Plan, TopBearingOrigin } from "../plan/plan.ts";
import { wallLine } from "../plan/wallLine.ts";
import { farthestCornerMm, type PointMm } from "../projection/frames.ts";
import { hundredths, rounded } from "./rounding.ts";
import type { BearingRecord } from "./types.ts";

/** Larger ones are met only near the magnetic poles, where a compass is no help anyway (from memory). */
const USUAL_DECLINATION_DEG = 30;

const OPEN_BY_MOST_DEG = 1;

const ERROR_TOLD_DEG = 5;

/** @param centre about which a wrong bearing turns the sky, ceiling frame */
export function bearingRecord({ view, ceiling }: Plan, centre: PointMm): BearingRecord {
  const farthestMm = farthestCornerMm(centre, ceiling);
  return {
    topBearingDeg: rounded((view.topBearing + 360) % 360, 1e6),
    fiveDegreesMm: hundredths(2 * farthestMm * Math.sin(((ERROR_TOLD_DEG / 2) * Math.PI) / 180)),
  };
}

/** How the true bearing came about, for people; null for a bearing given as such. */
export function bearingOrigin(from: TopBearingOrigin | undefined): string | null {
  if (from === undefined) return null;
  if ("magnetic" in from) {
    const { magnetic, declination } = from;
    return `magnetic ${magnetic} and declination ${Math.abs(declination)} ${declination < 0 ? "west" : "east"}`;
  }
  const { lengthM, uncertaintyDeg } = wallLine(from.from, from.to);
  return `from ${from.from.join(", ")} to ${from.to.join(", ")}, ${lengthM.toFixed(1)} m; its decimals leave ${openBy(uncertaintyDeg)} open`;
}

/** What makes a bearing doubtful by the way it was come by. */
export function bearingWarning({ view }: Plan): string | null {
  const from = view.topBearingFrom;
  if (from === undefined) return null;
  if ("magnetic" in from) {
    return Math.abs(from.declination) <= USUAL_DECLINATION_DEG
      ? null
      : `view.topBearing: a declination of ${from.declination} degrees is met only near the magnetic poles: check it, and that it is not the bearing itself`;
  }
  const { lengthM, uncertaintyDeg, decimals } = wallLine(from.from, from.to);
  return uncertaintyDeg <= OPEN_BY_MOST_DEG
    ? null
    : `view.topBearing: over ${lengthM.toFixed(1)} m, half a unit of the last of ${decimals} decimals leaves the bearing open by up to ${openBy(uncertaintyDeg)}: write more decimals, or take points farther apart on a line that runs as the wall does`;
}

const openBy = (deg: number): string => `${deg.toFixed(deg < 1 ? 2 : 1)} degrees`;
