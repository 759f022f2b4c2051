import { listed } from "../plan/listed.ts";
import type { Plan } from "../plan/plan.ts";
import { darknessOf, sunAltitudeDeg } from "../sky/darkness.ts";
import { DARK_BELOW_DEG } from "../sky/nightsDark.ts";
import { moonAboveRisingDeg, moonLight } from "../sky/nightsMoon.ts";
import { SUN_LEVELS_DEG } from "../sky/nightsSun.ts";
import { observerAt } from "../sky/observer.ts";
import type { SkyData } from "../sky/skyData.ts";
import { bodyAt, PLANETS } from "../sky/solarSystem.ts";
import { fieldTest, shownDirection } from "./nightsField.ts";
import { type PasteableMoment, type PlanClock, timedBy } from "./nightsTimes.ts";
import { hundredths, tenThousandths } from "./rounding.ts";

/** A night at the plan's clock time, and how good it is to build. */
export interface RankedNight extends PasteableMoment {
  /** 1 is the best. */
  readonly rank: number;
  /** Days from the plan's moment. */
  readonly days: number;
  /** 0 to 100: see `points`. */
  readonly points: number;
  readonly dark: boolean;
  readonly sunAltDeg: number;
  readonly moonUp: boolean;
  readonly moonLitFraction: number;
  /** Planets brighter than magnitude 3 over this plan's ceiling, the brightest first. */
  readonly planetsInField: readonly string[];
  readonly reasons: readonly string[];
}

export interface NearbyNights {
  readonly days: number;
  /** The best first; equally good ones by nearness. */
  readonly nights: readonly RankedNight[];
  /** Dates left out, with why. */
  readonly leftOut: readonly { readonly date: string; readonly why: string }[];
}

const BRIGHT_PLANET_MAG = 3;
const THIN_MOON = 0.25;

/** Ranks the nights of `days` before and after a plan's moment, each at the same time of the clock. */
export function rankNights(plan: Plan, sky: SkyData, known: PlanClock, days: number): NearbyNights {
  const own = known.clock.wall(known.moment.instantUtcMs);
  const leftOut: { date: string; why: string }[] = [];
  const found: Omit<RankedNight, "rank">[] = [];
  for (let day = -days; day <= days; day++) {
    const wall = own.add({ days: day });
    const date = wall.toPlainDate().toString();
    const [first] = day === 0 ? [known.moment.instantUtcMs] : known.clock.instantsOf(wall);
    if (wall.year < 1850 || wall.year > 2150) leftOut.push({ date, why: "outside the years 1850 to 2150" });
    else if (first === undefined) leftOut.push({ date, why: "the clock skipped this time of day" });
    else found.push(nightAt(plan, sky, known, day, first));
  }
  found.sort(
    (a, b) =>
      Number(b.dark) - Number(a.dark) ||
      b.points - a.points ||
      Math.abs(a.days) - Math.abs(b.days) ||
      a.days - b.days,
  );
  return { days, nights: found.map((night, i) => ({ rank: i + 1, ...night })), leftOut };
}

function nightAt(
  plan: Plan,
  sky: SkyData,
  { clock, geoPlace }: PlanClock,
  days: number,
  instantUtcMs: number,
): Omit<RankedNight, "rank"> {
  const observer = observerAt(instantUtcMs, geoPlace);
  const sunAltDeg = sunAltitudeDeg(observer);
  const moonUp = moonAboveRisingDeg(observer) >= 0;
  const { litFraction } = moonLight(instantUtcMs);
  const isOverCeiling = fieldTest(plan, sky, observer);
  const planetsInField = PLANETS.map((name) => bodyAt(name, observer))
    .filter((body) => body.vMag < BRIGHT_PLANET_MAG && isOverCeiling(shownDirection(body.enu, plan.show)))
    .sort((a, b) => a.vMag - b.vMag)
    .map((body) => body.name);
  return {
    moment: clock.momentText(instantUtcMs),
    ...timedBy(clock, instantUtcMs),
    days,
    points: Math.round(points(sunAltDeg, moonUp ? litFraction : 0, planetsInField.length)),
    dark: sunAltDeg < DARK_BELOW_DEG,
    sunAltDeg: hundredths(sunAltDeg),
    moonUp,
    moonLitFraction: tenThousandths(litFraction),
    planetsInField,
    reasons: [
      sunReason(sunAltDeg),
      moonReason(moonUp, litFraction),
      planetsInField.length === 0
        ? "no bright planet in the field"
        : `${listed(planetsInField)} in the field`,
    ],
  };
}

/**
 * Half for darkness (full below -18 degrees, half of it at -12, none above), 30 for a Moon that is down, less by its lit
 * part when it is up, 10 for the first bright planet in the field and 5 for each further one, 20 at the most.
 */
function points(sunAltDeg: number, moonlight: number, planets: number): number {
  const { nautical, astronomical } = SUN_LEVELS_DEG;
  const depth = (nautical - sunAltDeg) / (nautical - astronomical);
  const darkness = depth < 0 ? 0 : 25 + 25 * Math.min(1, depth);
  return darkness + 30 * (1 - moonlight) + (planets === 0 ? 0 : Math.min(20, 5 + 5 * planets));
}

function sunReason(sunAltDeg: number): string {
  const down = `the Sun ${Math.abs(sunAltDeg).toFixed(1)} degrees ${sunAltDeg < 0 ? "below" : "above"} the horizon`;
  const words = {
    day: "not dark: day",
    civilTwilight: "not dark: civil twilight",
    nauticalTwilight: "not dark: nautical twilight",
    astronomicalTwilight: "dark, astronomical twilight",
    night: "fully dark",
  }[darknessOf(sunAltDeg)];
  return `${words} (${down})`;
}

function moonReason(up: boolean, litFraction: number): string {
  const lit = `${Math.round(litFraction * 100)} % lit`;
  if (!up) return "the Moon down";
  return litFraction < THIN_MOON ? `a thin Moon, ${lit}` : `the Moon up, ${lit}`;
}
