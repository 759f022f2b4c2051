import { InputError, UnbuildableError } from "../plan/errors.ts";
import type { Plan } from "../plan/plan.ts";
import type { View } from "../projection/view.ts";
import { type Darkness, darknessOf, sunAltitudeDeg } from "../sky/darkness.ts";
import { clockTime } from "../sky/nightsWords.ts";
import { observerAt } from "../sky/observer.ts";
import type { SkyData } from "../sky/skyData.ts";
import { type PlannedSky, planAndSchedule } from "./makeSchedule.ts";
import { type KeyValue, keysToSet } from "./nightsSheetSet.ts";
import { type SheetSky, sheetSky } from "./nightsSheetSky.ts";
import { sheetTimes } from "./nightsSheetTimes.ts";
import { sheetViews } from "./nightsSheetViews.ts";
import { dayWords, type ViewWords, viewWords } from "./nightsSheetWords.ts";
import { planClock, type Timed, timedBy } from "./nightsTimes.ts";
import { tenThousandths } from "./rounding.ts";
import type { Schedule } from "./types.ts";

/** One variant of a plan on a proof sheet. */
export interface SheetChoice {
  /** From 1, in the order of the sheet. */
  readonly number: number;
  /** The plan as it stands. */
  readonly own: boolean;
  readonly plan: Plan;
  readonly time: Timed;
  /** `00:30` and `Sun 12 July 1998`, by the clock on the wall. */
  readonly clockTime: string;
  readonly day: string;
  readonly sunAltDeg: number;
  readonly darkness: Darkness;
  /** What is seen, in words. */
  readonly words: ViewWords;
  /** What makes the plan into this one; empty for its own. */
  readonly set: readonly KeyValue[];
  /** What lies over the ceiling, or why nothing can. */
  readonly made: MadeChoice | { readonly why: string };
}

export interface MadeChoice {
  /** Without the records of all that was left out: they would keep every variant's whole field in memory. */
  readonly schedule: DrawnSchedule;
  readonly view: View;
  readonly sky: SheetSky;
}

export type DrawnSchedule = Pick<Schedule, "plan" | "panels" | "holes" | "warnings">;

/** Variants of a plan over the times of its night, or over views at its moment. */
export interface ProofSheet {
  readonly over: "times" | "kinds";
  readonly plan: Plan;
  readonly clock: string;
  /** `Sat 11 July 1998`: the evening that the night belongs to, or the day of the plan's moment. */
  readonly day: string;
  /** What the night is like; of times alone. */
  readonly words: readonly string[];
  readonly choices: readonly SheetChoice[];
  readonly notices: readonly string[];
}

/**
 * Variants to choose from. Pure: the same plan and data give the same.
 * @throws InputError or UnbuildableError, the plan's own, when no variant can be made
 */
export function proofSheet(plan: Plan, sky: SkyData, over: ProofSheet["over"]): ProofSheet {
  const known = planClock(plan);
  const { moment, clock } = known;
  const ownMs = moment.instantUtcMs;
  const times =
    over === "times" ? sheetTimes(known) : { instantsUtcMs: [ownMs], eveningUtcMs: ownMs, words: [] };
  const views = over === "kinds" ? sheetViews(plan) : [plan.view];
  const variants = times.instantsUtcMs.flatMap((ms) =>
    views.map((view) => {
      const text = ms === ownMs ? plan.moment : clock.momentText(ms);
      return { ms, own: ms === ownMs && view === plan.view, plan: { ...plan, moment: text, view } };
    }),
  );
  const failures: unknown[] = [];
  const choices = variants.map(({ ms, own, plan: variant }, i): SheetChoice => {
    const sunAltDeg = sunAltitudeDeg(observerAt(ms, known.geoPlace));
    return {
      number: i + 1,
      own,
      plan: variant,
      time: timedBy(clock, ms),
      clockTime: clockTime(ms, clock),
      day: dayWords(ms, clock),
      sunAltDeg: tenThousandths(sunAltDeg),
      darkness: darknessOf(sunAltDeg),
      words: viewWords(variant.view, variant),
      set: keysToSet(plan, variant),
      made: madeOrWhy(variant, sky, (error) => (own ? failures.unshift(error) : failures.push(error))),
    };
  });
  if (failures.length === choices.length) throw failures[0];
  return {
    over,
    plan,
    clock: clock.name,
    day: dayWords(times.eveningUtcMs, clock),
    words: times.words,
    choices,
    notices: moment.notices,
  };
}

/** A variant that cannot be is told on its own box: the others are still there to choose. */
function madeOrWhy(plan: Plan, sky: SkyData, failed: (error: unknown) => void): SheetChoice["made"] {
  let made: { planned: PlannedSky; schedule: Schedule };
  try {
    made = planAndSchedule(plan, sky);
  } catch (error) {
    if (!(error instanceof InputError || error instanceof UnbuildableError)) throw error;
    failed(error);
    return { why: error.message };
  }
  const { planned, schedule } = made;
  const { panels, holes, warnings } = schedule;
  return {
    schedule: { plan, panels, holes, warnings },
    view: planned.field.view,
    sky: sheetSky(schedule, planned, sky),
  };
}
