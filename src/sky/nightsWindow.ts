import { Temporal } from "temporal-polyfill";
import type { LocalClock } from "./localClock.ts";

/** A night as a span of time, from noon to noon around a moment. */
export interface NightWindow {
  readonly fromMs: number;
  readonly toMs: number;
  /** Mean solar noon where the clock is so far from the Sun that its noon falls in the night. */
  readonly noon: "civil" | "meanSolar";
}

const DAY_MS = 86_400_000;
const HOUR_MS = 3_600_000;

/** No zone in use is that far from its Sun; an offset written to a place it does not belong to is. */
const CLOCK_FITS_WITHIN_HOURS = 5;

/** The evening and night that a moment belongs to: before noon that is the night before. */
export function nightAround(instantUtcMs: number, clock: LocalClock, longitudeDeg: number): NightWindow {
  const date = clock.wall(instantUtcMs).toPlainDate();
  // A date that the clock skipped (Apia, 2011-12-30) has no noon: the night is then between those that exist.
  const noons = [-2, -1, 0, 1, 2].flatMap((days) =>
    clock.instantsOf(date.add({ days }).toPlainDateTime(Temporal.PlainTime.from({ hour: 12 }))).slice(0, 1),
  );
  const fromMs = Math.max(...noons.filter((ms) => ms <= instantUtcMs));
  const hoursUtc = (fromMs / HOUR_MS) % 24;
  const offNoon = ((((hoursUtc + longitudeDeg / 15 - 12 + 12) % 24) + 24) % 24) - 12;
  if (Math.abs(offNoon) <= CLOCK_FITS_WITHIN_HOURS) {
    return { fromMs, toMs: Math.min(...noons.filter((ms) => ms > instantUtcMs)), noon: "civil" };
  }
  const first = (12 - longitudeDeg / 15) * HOUR_MS;
  const solar = first + Math.floor((instantUtcMs - first) / DAY_MS) * DAY_MS;
  return { fromMs: solar, toMs: solar + DAY_MS, noon: "meanSolar" };
}
