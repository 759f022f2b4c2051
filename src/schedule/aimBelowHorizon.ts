import { keyError } from "../plan/errors.ts";
import type { AimPlan, Plan } from "../plan/plan.ts";
import { resolveAim } from "../projection/aim.ts";
import { altitudeDeg } from "../sky/apparent.ts";
import type { Moment } from "../sky/civilTime.ts";
import { localClock } from "../sky/localClock.ts";
import { type Observer, observerAt } from "../sky/observer.ts";
import type { SkyData } from "../sky/skyData.ts";
import { HIGH_DEG, nextHigh } from "./nextHigh.ts";

/**
 * An aim below the horizon makes a ceiling of what the Earth hid, which nobody means who does not say so. The moment and
 * the aim are both well written, but do not go together.
 * @throws InputError that says when the target next stands high enough, ready to paste
 */
export function refuseAimBelowHorizon(plan: Plan, sky: SkyData, observer: Observer, moment: Moment): void {
  const { aim } = plan.view;
  if (aim === "zenith" || plan.show.belowHorizon) return;
  const shown = (at: Observer) => resolveAim(aim, plan.show, sky, at).enu;
  const altDeg = altitudeDeg(...shown(observer));
  if (altDeg >= 0) return;
  const anyway = "or show.belowHorizon: true to show what the Earth hides";
  if ("altitude" in aim) {
    throw keyError(
      "view.aim",
      `altitude ${aim.altitude} lies below the horizon at any moment; write one from 0 to 90, ${anyway}`,
    );
  }
  const { place, instantUtcMs } = observer;
  const clock = localClock(plan.place.timeZone, moment);
  const next = nextHigh(
    (ms) => altitudeDeg(...shown(observerAt(ms, place))),
    resolveAim(aim, { ...plan.show, refraction: false }, sky, observer).enu,
    instantUtcMs,
    place,
    clock,
  );
  const stands = `${nameOf(aim)} stands ${Math.max(0.1, -altDeg).toFixed(1)} degrees below the horizon at this moment`;
  if (next === "never") {
    throw keyError(
      "view.aim",
      `${stands}, and never rises at latitude ${plan.place.latitude}; aim elsewhere, ${anyway}`,
    );
  }
  if (next === "beyond") {
    throw keyError("view.aim", `${stands}, and stands high no more before the year 2151; ${anyway.slice(3)}`);
  }
  const best = next.highestDeg < HIGH_DEG + 5 ? ` (${next.highestDeg.toFixed(0)} at its best)` : "";
  const light = next.dark ? "in the dark" : "but in daylight or twilight, as all year,";
  throw keyError(
    "view.aim",
    `${stands}; it next stands ${next.altDeg.toFixed(0)} degrees high${best} ${light} at ${clock.civil(next.instantUtcMs).slice(0, 16).replace("T", " ")}: write \`moment: ${clock.momentText(next.instantUtcMs)}\`, ${anyway}`,
  );
}

function nameOf(aim: Exclude<AimPlan, "zenith" | { altitude: number }>): string {
  if ("star" in aim) return typeof aim.star === "number" ? `HIP ${aim.star}` : aim.star;
  if ("constellation" in aim) return `the middle of ${aim.constellation}`;
  return `right ascension ${aim.rightAscension}, declination ${aim.declination},`;
}
