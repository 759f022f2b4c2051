import type { Plan } from "../plan/plan.ts";
import { resolveAim } from "../projection/aim.ts";
import { inCeilingFrame } from "../projection/frames.ts";
import { makeView, type View } from "../projection/view.ts";
import type { Vector3 } from "../sky/matrix.ts";
import type { Observer } from "../sky/observer.ts";
import { refracted } from "../sky/refraction.ts";
import type { SkyData } from "../sky/skyData.ts";

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
  return testBy(makeView(plan.view, plan.ceiling, resolveAim(plan.view.aim, plan.show, sky, observer)), plan);
}

/** As `ceilingTest`, by a view that is there already. */
export function testBy(view: View, { ceiling, show }: Plan): (enu: Vector3) => OnCeiling {
  return (enu) => {
    if (!show.belowHorizon && !(enu[2] > 0)) return { where: "belowHorizon" };
    const point = view.projectOne(enu);
    if (point === null) return { where: "beyondProjection" };
    const { xMm, yMm } = point;
    return xMm >= 0 && xMm <= ceiling.width && yMm >= 0 && yMm <= ceiling.length
      ? { where: "over", xCeilingMm: xMm, yCeilingMm: yMm }
      : { where: "offCeiling" };
  };
}

/** An apparent direction (east, north, up) as the plan shows it. */
export const shownDirection = (enu: Vector3, show: Plan["show"]): Vector3 =>
  show.refraction ? refracted(enu) : enu;
