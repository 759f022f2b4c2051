import type { Plan } from "../plan/plan.ts";
import type { Field } from "../projection/field.ts";
import type { Vector3 } from "../sky/matrix.ts";
import { groupRecords } from "./fidelityGroups.ts";
import { parityOf } from "./fidelityParity.ts";
import { constellationShapes } from "./fidelityShapes.ts";
import { isGraded, shiftTruth } from "./fidelityShifts.ts";
import type { SlideRecord, Truth } from "./fidelityTypes.ts";
import { verdictOf } from "./fidelityVerdict.ts";
import type { Hole, LeftRecord } from "./types.ts";

/**
 * How true the finished holes are to the sky, found from their rows as they are written and the view they were made with.
 * @param reached  the faintest magnitude shown, and what is brighter and missing
 */
export function measureTruth(
  holes: readonly Hole[],
  field: Field,
  plan: Plan,
  slide: SlideRecord | null,
  reached: { readonly limitingMag: number | null; readonly missing: readonly LeftRecord[] },
): Truth {
  const graded = holes.filter(isGraded);
  const truth = {
    ...shiftTruth(graded, field.view),
    constellations: constellationShapes(graded),
    groups: groupRecords(graded, field),
    parity: parityOf(graded, field.view.axes.slice(6, 9) as unknown as Vector3),
    slide,
  };
  return { ...truth, verdict: verdictOf(graded, truth, reached, plan) };
}
