import { InputError } from "../plan/errors.ts";
import type { Plan } from "../plan/plan.ts";
import { altitudeDeg, azimuthDeg } from "../sky/apparent.ts";
import { type Darkness, darknessOf, sunAltitudeDeg } from "../sky/darkness.ts";
import { equatorialPlace } from "../sky/equatorialPlace.ts";
import type { Vector3 } from "../sky/matrix.ts";
import { nearestDarkMoments } from "../sky/nightsDark.ts";
import { moonAboveRisingDeg, moonLight, moonThroughNight } from "../sky/nightsMoon.ts";
import { SUN_LEVELS_DEG, type SunLevel, sunThroughNight } from "../sky/nightsSun.ts";
import { type NightWindow, nightAround } from "../sky/nightsWindow.ts";
import { milkyWayWords, sunWords, whyNoEvent } from "../sky/nightsWords.ts";
import { type ZenithSky, zenithSky } from "../sky/nightsZenith.ts";
import { type Observer, observerAt } from "../sky/observer.ts";
import type { SkyData } from "../sky/skyData.ts";
import { bodyAt, moonAt, PLANETS } from "../sky/solarSystem.ts";
import { type NearbyNights, rankNights } from "./nightsAround.ts";
import { fieldTest, shownDirection } from "./nightsField.ts";
import { type PasteableMoment, type PlanClock, planClock, type Timed, timedBy } from "./nightsTimes.ts";
import { type ShadowsOfWall, shadowsOfWall } from "./nightsWall.ts";
import { hundredths, rounded, tenThousandths } from "./rounding.ts";

/** An event of the Sun; without a time it says why. */
export type SunEvent = Timed | { readonly utc: null; readonly civil: null; readonly why: string };

export interface PlanetUp {
  readonly name: string;
  readonly constellation: string;
  readonly mag: number;
  /** Apparent, with refraction only if the plan shows it. */
  readonly altDeg: number;
  readonly azDeg: number;
  /** Over the ceiling of this plan. */
  readonly inField: boolean;
}

/** All that `lacunar nights` tells, as plain data. */
export interface Nights {
  readonly place: { readonly name: string | null; readonly latitude: number; readonly longitude: number };
  readonly clock: string;
  readonly moment: Timed & { readonly sunAltDeg: number; readonly darkness: Darkness };
  readonly night: { readonly from: Timed; readonly to: Timed; readonly noon: NightWindow["noon"] };
  readonly sun: Readonly<Record<SunEventName, SunEvent>> & {
    readonly lowest: Timed & { readonly altDeg: number };
    readonly highest: Timed & { readonly altDeg: number };
    /** What is unusual: a night without darkness, without dawn, a day without Sun. */
    readonly words: readonly string[];
  };
  readonly moon: {
    readonly rises: readonly Timed[];
    readonly sets: readonly Timed[];
    readonly litFraction: number;
    readonly phase: string;
    readonly altDeg: number;
    readonly azDeg: number;
    readonly up: boolean;
    readonly words: string;
  };
  /** Those above the horizon at the moment, the brightest first. */
  readonly planets: readonly PlanetUp[];
  readonly zenith: ZenithSky & { readonly words: string };
  /** The nearest dark moments of a moment in daylight or twilight; null for a dark one. */
  readonly darkMoments: {
    readonly before: PasteableMoment | null;
    readonly after: PasteableMoment | null;
  } | null;
  readonly around: NearbyNights | null;
  readonly wall: ShadowsOfWall | null;
  readonly notices: readonly string[];
}

const SUN_EVENTS = {
  sunset: ["sunset", "dusk"],
  civilDusk: ["civil", "dusk"],
  nauticalDusk: ["nautical", "dusk"],
  astronomicalDusk: ["astronomical", "dusk"],
  astronomicalDawn: ["astronomical", "dawn"],
  nauticalDawn: ["nautical", "dawn"],
  civilDawn: ["civil", "dawn"],
  sunrise: ["sunset", "dawn"],
} as const satisfies Record<string, readonly [SunLevel, "dusk" | "dawn"]>;
export type SunEventName = keyof typeof SUN_EVENTS;
export const SUN_EVENT_NAMES = Object.keys(SUN_EVENTS) as readonly SunEventName[];

export interface NightsQuestion {
  /** Rank the nights of so many days before and after. */
  readonly aroundDays?: number;
  readonly wall?: "top" | "right" | "bottom" | "left";
  /** Day for the wall's shadows, `2024-06-20`; the plan's own when missing. */
  readonly wallDate?: string;
}

/**
 * The evening and night around a plan's moment. Pure: the same plan and data tell the same.
 * @throws InputError for a moment, a zone, a view or a date that cannot be
 */
export function planNights(plan: Plan, sky: SkyData, question: NightsQuestion = {}): Nights {
  if (question.wallDate !== undefined && question.wall === undefined)
    throw new InputError("--date is the day for --wall: name a wall too, as in --wall top --date 2024-06-20");
  const { place } = plan;
  const known = planClock(plan);
  const { moment, clock, geoPlace } = known;
  const { instantUtcMs } = moment;
  const observer = observerAt(instantUtcMs, geoPlace);
  const window = nightAround(instantUtcMs, clock, place.longitude);
  const sunAltDeg = sunAltitudeDeg(observer);
  const zenith = zenithSky(observer, sky);
  const dark = nearestDarkMoments(instantUtcMs, geoPlace, clock);
  const timed = (ms: number) => timedBy(clock, ms);
  const pasteable = (ms: number | null) =>
    ms === null ? null : { moment: clock.momentText(ms), ...timed(ms) };
  return {
    place: { name: place.name ?? null, latitude: place.latitude, longitude: place.longitude },
    clock: clock.name,
    moment: { ...timed(instantUtcMs), sunAltDeg: tenThousandths(sunAltDeg), darkness: darknessOf(sunAltDeg) },
    night: { from: timed(window.fromMs), to: timed(window.toMs), noon: window.noon },
    sun: sunOf(window, known),
    moon: moonOf(window, known, observer, plan.show),
    planets: planetsUp(plan, sky, observer),
    zenith: { ...roundedZenith(zenith), words: milkyWayWords(zenith.milkyWay) },
    darkMoments: dark && { before: pasteable(dark.beforeMs), after: pasteable(dark.afterMs) },
    around: question.aroundDays === undefined ? null : rankNights(plan, sky, known, question.aroundDays),
    wall: question.wall === undefined ? null : shadowsOfWall(plan, known, question.wall, question.wallDate),
    notices: moment.notices,
  };
}

function sunOf(window: NightWindow, { clock, geoPlace }: PlanClock): Nights["sun"] {
  const sun = sunThroughNight(window, geoPlace);
  const event = (name: SunEventName): SunEvent => {
    const [level, side] = SUN_EVENTS[name];
    const ms = sun[side][level];
    return ms === null
      ? { utc: null, civil: null, why: whyNoEvent(SUN_LEVELS_DEG[level], sun) }
      : timedBy(clock, ms);
  };
  const extreme = ({ instantUtcMs, value }: typeof sun.lowest) => ({
    ...timedBy(clock, instantUtcMs),
    altDeg: tenThousandths(value),
  });
  return {
    ...(Object.fromEntries(SUN_EVENT_NAMES.map((name) => [name, event(name)])) as Record<
      SunEventName,
      SunEvent
    >),
    lowest: extreme(sun.lowest),
    highest: extreme(sun.highest),
    words: sunWords(sun, clock),
  };
}

function moonOf(
  window: NightWindow,
  { clock, geoPlace }: PlanClock,
  observer: Observer,
  show: Plan["show"],
): Nights["moon"] {
  const { risesMs, setsMs, upAtStart } = moonThroughNight(window, geoPlace);
  const { litFraction, phase } = moonLight(observer.instantUtcMs);
  const { altDeg, azDeg } = horizontal(shownDirection(moonAt(observer).enu, show));
  const passes = risesMs.length + setsMs.length;
  return {
    rises: risesMs.map((ms) => timedBy(clock, ms)),
    sets: setsMs.map((ms) => timedBy(clock, ms)),
    litFraction: tenThousandths(litFraction),
    phase,
    altDeg: tenThousandths(altDeg),
    azDeg: tenThousandths(azDeg),
    up: moonAboveRisingDeg(observer) >= 0,
    words:
      passes > 0
        ? ""
        : upAtStart
          ? "the Moon neither rises nor sets: it is up from noon to noon"
          : "the Moon neither rises nor sets: it is down from noon to noon",
  };
}

const horizontal = ([e, n, u]: Vector3): { altDeg: number; azDeg: number } => ({
  altDeg: altitudeDeg(e, n, u),
  azDeg: azimuthDeg(e, n),
});

function planetsUp(plan: Plan, sky: SkyData, observer: Observer): PlanetUp[] {
  const isOverCeiling = fieldTest(plan, sky, observer);
  return PLANETS.map((name) => bodyAt(name, observer))
    .map((body): PlanetUp => {
      const seen = shownDirection(body.enu, plan.show);
      const { altDeg, azDeg } = horizontal(seen);
      return {
        name: body.name,
        constellation: equatorialPlace(body.icrs).constellation,
        mag: hundredths(body.vMag),
        altDeg: tenThousandths(altDeg),
        azDeg: tenThousandths(azDeg),
        inField: isOverCeiling(seen),
      };
    })
    .filter(({ altDeg }) => altDeg > 0)
    .sort((a, b) => a.mag - b.mag);
}

function roundedZenith(zenith: ZenithSky): ZenithSky {
  const { milkyWay } = zenith;
  return {
    ...zenith,
    raDeg: tenThousandths(zenith.raDeg),
    decDeg: tenThousandths(zenith.decDeg),
    stars: zenith.stars.map((star) => ({
      ...star,
      zenithDistanceDeg: tenThousandths(star.zenithDistanceDeg),
      azDeg: tenThousandths(star.azDeg),
    })),
    milkyWay: {
      ...milkyWay,
      galacticLatitudeDeg: tenThousandths(milkyWay.galacticLatitudeDeg),
      galacticLongitudeDeg: tenThousandths(milkyWay.galacticLongitudeDeg),
      highestAzDeg: milkyWay.highestAzDeg === null ? null : rounded(milkyWay.highestAzDeg, 100),
    },
  };
}
