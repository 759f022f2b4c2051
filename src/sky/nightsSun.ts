import { sunAltitudeDeg } from "./darkness.ts";
import type { NightWindow } from "./nightsWindow.ts";
import { observerAt } from "./observer.ts";
import type { GeoPlace } from "./place.ts";
import { type Crossing, crossings, type Extreme, highest, lowest, type OfTime, sample } from "./riseSet.ts";

/**
 * True altitude of the Sun's centre at which each event falls, degrees.
 * Source: USNO definitions of rise, set and twilight (zenith distance 90 deg 50 min; -6, -12, -18); no dip of the horizon.
 */
export const SUN_LEVELS_DEG = { sunset: -50 / 60, civil: -6, nautical: -12, astronomical: -18 } as const;
export type SunLevel = keyof typeof SUN_LEVELS_DEG;
export const SUN_LEVELS = ["sunset", "civil", "nautical", "astronomical"] as const;

/** What a night is like as a whole: the deepest darkness that it reaches, and whether the Sun shows itself at all. */
export interface SunNight {
  /** When the Sun sinks below a level in the evening and rises above it in the morning; null where it does not. */
  readonly dusk: Readonly<Record<SunLevel, number | null>>;
  readonly dawn: Readonly<Record<SunLevel, number | null>>;
  readonly lowest: Extreme;
  readonly highest: Extreme;
}

const HALF_DAY_MS = 12.5 * 3_600_000;

export const sunAltitudeAt =
  (place: GeoPlace): OfTime =>
  (ms) =>
    sunAltitudeDeg(observerAt(ms, place));

/**
 * The Sun through a night. It is followed for half a day each way from its lowest point, so that the evening and the
 * morning are those of one night even where the clock's noon is hours off the Sun's.
 */
export function sunThroughNight(window: NightWindow, place: GeoPlace): SunNight {
  const altitude = sunAltitudeAt(place);
  const { fromMs, toMs } = window;
  const deepest = lowest(sample(altitude, fromMs, toMs, 3_600_000));
  // At the poles it sinks or climbs for months: then the night is only what lies between the noons.
  const turns = deepest.instantUtcMs > fromMs && deepest.instantUtcMs < toMs;
  const samples = turns
    ? sample(altitude, deepest.instantUtcMs - HALF_DAY_MS, deepest.instantUtcMs + HALF_DAY_MS)
    : sample(altitude, fromMs, toMs);

  const dusk = { sunset: null, civil: null, nautical: null, astronomical: null } as Record<
    SunLevel,
    number | null
  >;
  const dawn = { ...dusk };
  for (const level of SUN_LEVELS) {
    const passes = crossings(samples, SUN_LEVELS_DEG[level]);
    const isEvening = (one: Crossing) => !one.rising && one.instantUtcMs <= deepest.instantUtcMs;
    const isMorning = (one: Crossing) => one.rising && one.instantUtcMs >= deepest.instantUtcMs;
    dusk[level] = passes.findLast(isEvening)?.instantUtcMs ?? null;
    dawn[level] = passes.find(isMorning)?.instantUtcMs ?? null;
  }
  return { dusk, dawn, lowest: deepest, highest: highest(samples) };
}
