import type { Finding } from "./errors.ts";
import { upToHundredths as mm } from "./mmWords.ts";
import type { CeilingPlan, PointPlan, RoomMeasuresPlan } from "./plan.ts";
import { fitRoom } from "./roomFit.ts";
import type { PlanInput } from "./schema.ts";

type Filled = { readonly plan: CeilingPlan } | { readonly plan: null; readonly finding: Finding };

/** Larger than this is no rounding of what Lacunar wrote itself. */
const SAME_MM = 0.0051;

/** Further off the best fit than this, some tape was read wrong by 40 mm or more (see `buildWarnings.ts`). */
const WORST_MISFIT_MM = 10;

/**
 * Width, length and outline of the ceiling in the person's own frame, from whichever of its three forms they wrote. A filled plan has
 * several forms at once: they must agree.
 * @returns null after problems; a finding for measures that make no room
 */
export function fillCeiling(
  input: PlanInput["ceiling"],
  drawnAs: PlanInput["drawnAs"],
  problem: (path: readonly PropertyKey[], message: string) => void,
): Filled | null {
  const wrong = (key: string, message: string) => {
    problem(["ceiling", key], message);
    return null;
  };
  const { sides, diagonals, squareTo, outline, width, length } = input;
  if (sides === undefined && diagonals === undefined) {
    if (squareTo !== undefined) {
      return wrong(
        "squareTo",
        "belongs to `sides` and `diagonals`; panels lie along the axes of a width and length or of an outline",
      );
    }
    if (outline !== undefined) return fromOutline(outline);
    if (width === undefined || length === undefined) {
      return wrong(
        width === undefined ? "width" : "length",
        "missing; write {width: 4.8m, length: 3.6m}, or measured {sides, diagonals}, or {outline}",
      );
    }
    return { plan: { width, length } };
  }
  if (sides === undefined)
    return wrong("sides", "missing; write the length of each wall, {top, right, bottom, left}");
  if (diagonals === undefined)
    return wrong("diagonals", "missing; four sides alone fix no shape; write {risingRight, fallingRight}");
  return fromMeasures({ sides, diagonals, squareTo: squareTo ?? "bottom" });

  function fromOutline(corners: readonly PointPlan[]): Filled | null {
    const [xs, ys] = [corners.map(([x]) => x), corners.map(([, y]) => y)];
    for (const [axis, values] of [
      ["x", xs],
      ["y", ys],
    ] as const) {
      const least = Math.min(...values);
      if (Math.abs(least) > SAME_MM) {
        return wrong(
          "outline",
          `its least ${axis} is ${mm(least)}, but positions count from the lower-left corner of its bounding rectangle; ${least < 0 ? "add" : "take"} ${mm(Math.abs(least))} ${least < 0 ? "to" : "from"} every ${axis} of the plan`,
        );
      }
    }
    return agreeing({ width: Math.max(...xs), length: Math.max(...ys), outline: corners });
  }

  function fromMeasures(measures: RoomMeasuresPlan): Filled | null {
    const fit = fitRoom(measures);
    if (typeof fit === "string") {
      return { plan: null, finding: { code: "room-cannot-close", message: `ceiling: ${fit}` } };
    }
    const { measure, measuredMm, fittedMm } = fit.worst;
    if (Math.abs(measuredMm - fittedMm) > WORST_MISFIT_MM) {
      const others = fit.misfits
        .filter(({ aloneMm }) => Number.isFinite(aloneMm))
        .map(
          ({ measure: one, measuredMm: was, aloneMm }) => `${one} ${mm(was)} would be ${aloneMm.toFixed(0)}`,
        );
      return {
        plan: null,
        finding: {
          code: "room-measures-disagree",
          message: `ceiling: the six measures disagree: ${measure} (${mm(measuredMm)} mm) is ${Math.abs(measuredMm - fittedMm).toFixed(1)} mm off the best fit, and ${WORST_MISFIT_MM} mm is the most; measure again. Were a single one wrong: ${others.join(", ")}`,
        },
      };
    }
    const mirrored = ([x, y]: PointPlan): PointPlan =>
      drawnAs === "reflectedPlan" ? [Math.round((fit.widthMm - x) * 100) / 100, y] : [x, y];
    return agreeing({
      width: fit.widthMm,
      length: fit.lengthMm,
      outline: fit.outline.map(mirrored),
      ...measures,
    });
  }

  /** The same plan, unless what is written beside the form that counts says otherwise. */
  function agreeing(plan: CeilingPlan): Filled | null {
    const off = (a: number, b: number) => Math.abs(a - b) > SAME_MM;
    const from = plan.sides === undefined ? "`outline`" : "`sides` and `diagonals`";
    for (const key of ["width", "length"] as const) {
      const given = input[key];
      if (given !== undefined && off(given, plan[key])) {
        return wrong(key, `${mm(given)} mm is not the ${mm(plan[key])} mm that ${from} give; leave it out`);
      }
    }
    const same =
      outline === undefined ||
      (outline.length === plan.outline!.length &&
        outline.every(([x, y], i) => !off(x, plan.outline![i]![0]) && !off(y, plan.outline![i]![1])));
    if (!same) return wrong("outline", `it is not the one that ${from} give; leave it out`);
    return { plan };
  }
}
