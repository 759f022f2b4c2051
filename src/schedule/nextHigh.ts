import type { LocalClock } from "../sky/localClock.ts";
import type { Vector3 } from "../sky/matrix.ts";
import { DARK_BELOW_DEG } from "../sky/nightsDark.ts";
import { sunAltitudeAt } from "../sky/nightsSun.ts";
import type { GeoPlace } from "../sky/place.ts";
import { crossings, type OfTime, sample } from "../sky/riseSet.ts";

/** When a target among the stars, now below the horizon, is next worth building. */
export type NextHigh =
  | {
      readonly instantUtcMs: number;
      readonly altDeg: number;
      /** What it gets to there at its best. */
      readonly highestDeg: number;
      readonly dark: boolean;
    }
  /** It stays below the horizon at that place. */
  | "never"
  /** Not before the years of plans end. */
  | "beyond";

const RAD = Math.PI / 180;
const DAY_MS = 86_400_000;
const MINUTE_MS = 60_000;
const SIDEREAL_DAY_MS = 86_164_090.5; // 23 h 56 min 4.0905 s (Explanatory Supplement to the Astronomical Almanac)
const LAST_YEAR = 2150;
const MOST_DAYS = 367;

/** High enough: 30 degrees; where the target never gets so far, 5 degrees short of its highest, or half of that if it is low. */
export const HIGH_DEG = 30;
const highEnoughDeg = (highestDeg: number) => Math.min(HIGH_DEG, Math.max(highestDeg - 5, highestDeg / 2));

/** The true transit of the Sun is up to 17 minutes from the mean one: it moves by 5 degrees at the most in that time. */
const MEAN_SUN_WITHIN_DEG = 5;

/**
 * Finds the first whole minute of the clock at which the target stands high enough and the Sun is below -12 degrees; within a
 * year, since by then every night has had its turn. Where none of them is dark, the first at which it stands high enough.
 * @param altitude  of the target, degrees, as the plan shows it
 * @param direction of the target at `fromMs`, without refraction, below the horizon
 */
export function nextHigh(
  altitude: OfTime,
  direction: Vector3,
  fromMs: number,
  place: GeoPlace,
  clock: LocalClock,
): NextHigh {
  // The turning sky of one year: what precession and aberration add is under a minute of time, and looked at below.
  const [e, n, u] = direction;
  const [sinLat, cosLat] = [Math.sin(place.latitudeDeg * RAD), Math.cos(place.latitudeDeg * RAD)];
  const sinDec = u * sinLat + n * cosLat;
  const cosDec = Math.sqrt(Math.max(0, 1 - sinDec ** 2));
  const westOfSouthRad = Math.atan2(-e, u * cosLat - n * sinLat); // hour angle
  const turns = ((2 - westOfSouthRad / (2 * Math.PI)) % 1) * SIDEREAL_DAY_MS;
  const transitMs = fromMs + turns;

  const highestDeg = altitude(transitMs);
  if (highestDeg <= 0) return "never";
  const wantedDeg = highEnoughDeg(highestDeg);
  const cosHalf = (Math.sin(wantedDeg * RAD) - sinLat * sinDec) / (cosLat * cosDec);
  const halfMs = (Math.acos(Math.max(-1, Math.min(1, cosHalf))) / (2 * Math.PI)) * SIDEREAL_DAY_MS;

  const sun = sunAltitudeAt(place);
  const isHigh = (ms: number) => altitude(ms) >= wantedDeg;
  let inLight: number | null = null;
  for (let day = 0; day < MOST_DAYS; day++) {
    const middleMs = transitMs + day * SIDEREAL_DAY_MS;
    const [startMs, endMs] = [middleMs - halfMs, middleMs + halfMs];
    if (clock.wall(endMs).year > LAST_YEAR) break;
    inLight ??= wholeMinuteFrom(startMs, clock, isHigh);
    if (!mayBeDark(startMs, middleMs, endMs, sun, place)) continue;
    const isGood = (ms: number) => isHigh(ms) && sun(ms) < DARK_BELOW_DEG;
    const nightfalls = crossings(sample(sun, startMs, endMs), DARK_BELOW_DEG).filter((one) => !one.rising);
    for (const from of [startMs, ...nightfalls.map((one) => one.instantUtcMs)]) {
      const instantUtcMs = wholeMinuteFrom(from, clock, isGood);
      if (instantUtcMs !== null)
        return { instantUtcMs, altDeg: altitude(instantUtcMs), highestDeg, dark: true };
    }
  }
  return inLight === null
    ? "beyond"
    : { instantUtcMs: inLight, altDeg: altitude(inLight), highestDeg, dark: false };
}

/** Looks at the time nearest to the mean midnight alone: most days of a year need no more. */
function mayBeDark(startMs: number, middleMs: number, endMs: number, sun: OfTime, place: GeoPlace): boolean {
  const midnightMs = -(place.longitudeDeg / 360) * DAY_MS;
  const nearest = midnightMs + Math.round((middleMs - midnightMs) / DAY_MS) * DAY_MS;
  return sun(Math.max(startMs, Math.min(endMs, nearest))) < DARK_BELOW_DEG + MEAN_SUN_WITHIN_DEG;
}

const MINUTES_TRIED = 4;

function wholeMinuteFrom(ms: number, clock: LocalClock, isGood: (ms: number) => boolean): number | null {
  const first = clock.minuteBefore(ms);
  for (let minute = 0; minute <= MINUTES_TRIED; minute++) {
    const at = first + minute * MINUTE_MS;
    if (at >= ms - MINUTE_MS && isGood(at)) return at;
  }
  return null;
}
