import type { Plan } from "../plan/plan.ts";
import { resolveAim } from "../projection/aim.ts";
import { inCeilingFrame } from "../projection/frames.ts";
import { makeView } from "../projection/view.ts";
import type { Vector3 } from "../sky/matrix.ts";
import type { Observer } from "../sky/observer.ts";
import { refract } from "../sky/refraction.ts";
import type { SkyData } from "../sky/skyData.ts";
import type { SkyBody } from "../sky/solarSystem.ts";

/** Where a direction lies, seen from a plan's ceiling. */
export type OnCeiling =
  | { readonly where: "over"; readonly xCeilingMm: number; readonly yCeilingMm: number }
  | { readonly where: "belowHorizon" | "beyondProjection" | "offCeiling" };

/**
 * Whether a direction lies over a plan's ceiling, by the rule of the field: above the horizon (or anywhere, if the plan
 * shows what is below), its true point inside the ceiling's rectangle.
 * @returns takes a direction (east, north, up) as the plan shows it
 */
export function fieldTest(plan: Plan, sky: SkyData, observer: Observer): (enu: Vector3) => boolean {
  const onCeiling = ceilingTest(plan, sky, observer);
  return (enu) => onCeiling(enu).where === "over";
}

/** As `fieldTest`, with the true point in the ceiling frame, or why there is none. */
export function ceilingTest(given: Plan, sky: SkyData, observer: Observer): (enu: Vector3) => OnCeiling {
  const plan = inCeilingFrame(given);
  const { width, length } = plan.ceiling;
  const view = makeView(plan.view, plan.ceiling, resolveAim(plan.view.aim, plan.show, sky, observer));
  return (enu) => {
    if (!plan.show.belowHorizon && !(enu[2] > 0)) return { where: "belowHorizon" };
    const point = view.projectOne(enu);
    if (point === null) return { where: "beyondProjection" };
    const { xMm, yMm } = point;
    return xMm >= 0 && xMm <= width && yMm >= 0 && yMm <= length
      ? { where: "over", xCeilingMm: xMm, yCeilingMm: yMm }
      : { where: "offCeiling" };
  };
}

/** Direction (east, north, up) of a body as the plan shows it. */
export function shownDirection(body: SkyBody, refracted: boolean): Vector3 {
  const enu = Float64Array.from(body.enu);
  if (refracted) refract(enu);
  return [enu[0]!, enu[1]!, enu[2]!];
}
