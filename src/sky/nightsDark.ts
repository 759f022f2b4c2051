import type { LocalClock } from "./localClock.ts";
import { SUN_LEVELS_DEG, sunAltitudeAt } from "./nightsSun.ts";
import type { GeoPlace } from "./place.ts";
import { crossings, type OfTime, sample } from "./riseSet.ts";

/** Dark enough for the stars of a ceiling: the Sun below this. */
export const DARK_BELOW_DEG = SUN_LEVELS_DEG.nautical;

export interface DarkMoments {
  /** Last dark moment before and first after, whole minutes of the clock where those are dark; null beyond the calendar. */
  readonly beforeMs: number | null;
  readonly afterMs: number | null;
}

const DAY_MS = 86_400_000;
const MOST_DAYS = 300; // at the pole the Sun is above -12 degrees for some 250 days
const FIRST_MS = Date.UTC(1850, 0, 2);
const LAST_MS = Date.UTC(2150, 11, 30);

/** The dark moments nearest to a moment of day or twilight; null when the moment is dark itself. */
export function nearestDarkMoments(
  instantUtcMs: number,
  place: GeoPlace,
  clock: LocalClock,
): DarkMoments | null {
  const altitude = sunAltitudeAt(place);
  if (altitude(instantUtcMs) < DARK_BELOW_DEG) return null;
  return {
    beforeMs: nearestDark(instantUtcMs, -1, altitude, place, clock),
    afterMs: nearestDark(instantUtcMs, 1, altitude, place, clock),
  };
}

function nearestDark(
  instantUtcMs: number,
  way: -1 | 1,
  altitude: OfTime,
  place: GeoPlace,
  clock: LocalClock,
): number | null {
  const midnightMs = -(place.longitudeDeg / 15) * 3_600_000; // mean solar midnight of 1970-01-01
  for (let day = 0; day < MOST_DAYS; day++) {
    const ends = [instantUtcMs + way * day * DAY_MS, instantUtcMs + way * (day + 1) * DAY_MS].sort(
      (a, b) => a - b,
    );
    const [fromMs, toMs] = ends as [number, number];
    if (fromMs < FIRST_MS || toMs > LAST_MS) return null;
    // The true lower transit is within 17 minutes of the mean one, which lifts the Sun by 0.2 degrees at the most.
    const midnight = midnightMs + Math.ceil((fromMs - midnightMs) / DAY_MS) * DAY_MS;
    if (altitude(midnight) > DARK_BELOW_DEG + 1) continue;
    const passes = crossings(sample(altitude, fromMs, toMs), DARK_BELOW_DEG);
    const edge = way > 0 ? passes.find((one) => !one.rising) : passes.findLast((one) => one.rising);
    if (edge) return wholeMinute(edge.instantUtcMs, way, altitude, clock);
  }
  return null;
}

/** Toward the dark by up to a minute; a darkness shorter than that is told to the second. */
function wholeMinute(edgeMs: number, way: -1 | 1, altitude: OfTime, clock: LocalClock): number {
  const minute = clock.minuteBefore(edgeMs) + (way > 0 ? 60_000 : 0);
  if (altitude(minute) < DARK_BELOW_DEG) return minute;
  return (way > 0 ? Math.ceil(edgeMs / 1000) + 1 : Math.floor(edgeMs / 1000) - 1) * 1000;
}
