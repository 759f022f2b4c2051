import type { Plan } from "../plan/plan.ts";
import { type Moment, momentOf } from "../sky/civilTime.ts";
import { type LocalClock, localClock } from "../sky/localClock.ts";
import { type GeoPlace, geoPlaceOf } from "../sky/place.ts";

/** An instant as programs and as people read it. */
export interface Timed {
  readonly utc: string;
  readonly civil: string;
}

/** `moment` is what a plan says. */
export interface PasteableMoment extends Timed {
  readonly moment: string;
}

/** A plan's moment, the clock on its wall and its place. */
export interface PlanClock {
  readonly moment: Moment;
  readonly clock: LocalClock;
  readonly geoPlace: GeoPlace;
}

/** @throws InputError for a moment or a zone that cannot be */
export function planClock(plan: Plan): PlanClock {
  const moment = momentOf(plan);
  return { moment, clock: localClock(plan.place.timeZone, moment), geoPlace: geoPlaceOf(plan.place) };
}

/** To the second. */
export const timedBy = (clock: LocalClock, ms: number): Timed => ({
  utc: `${new Date(Math.round(ms / 1000) * 1000).toISOString().slice(0, 19)}Z`,
  civil: clock.civil(ms),
});
