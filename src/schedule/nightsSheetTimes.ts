import type { LocalClock } from "../sky/localClock.ts";
import { SUN_LEVELS_DEG, type SunLevel, type SunNight, sunThroughNight } from "../sky/nightsSun.ts";
import { nightAround } from "../sky/nightsWindow.ts";
import { clockTime, sunWords } from "../sky/nightsWords.ts";
import type { PlanClock } from "./nightsTimes.ts";

/** Boxes on a proof sheet. */
export const SHEET_BOXES = 12;

/** Times of one night, to choose from. */
export interface SheetTimes {
  /** In order of time, the plan's own moment among them. */
  readonly instantsUtcMs: readonly number[];
  /** Noon before the night: its date is the night's. */
  readonly eveningUtcMs: number;
  /** What the night is like, in words. */
  readonly words: readonly string[];
}

interface Span {
  readonly fromMs: number;
  readonly toMs: number;
}

const MINUTE_MS = 60_000;
const HOUR_MS = 3_600_000;

/** In an hour the sky turns by 15 degrees: less is no choice. */
const LEAST_SPAN_MS = HOUR_MS;

/** Where the Sun does not set, this far each way from its lowest point. */
const POLAR_DAY_HALF_MS = 4 * HOUR_MS;

/** Whole parts of an hour on which times may fall, the roundest first, and the share of the night they must cover. */
const UNITS = [
  { unitMin: 30, leastCovered: 0.9 },
  { unitMin: 15, leastCovered: 0.9 },
  { unitMin: 10, leastCovered: 0.9 },
  { unitMin: 5, leastCovered: 0.8 },
  { unitMin: 1, leastCovered: 0 },
] as const;

/**
 * Times from the end of nautical dusk to the start of nautical dawn, evenly spaced and round by the clock on the wall; the
 * plan's own moment stands in for the one nearest to it. Where it does not get that dark for an hour, the darkest times
 * that there are.
 */
export function sheetTimes({ moment, clock, geoPlace }: PlanClock): SheetTimes {
  const ownMs = moment.instantUtcMs;
  const window = nightAround(ownMs, clock, geoPlace.longitudeDeg);
  const sun = sunThroughNight(window, geoPlace);
  const { span, level } = darkestSpan(sun, window);
  const within = ownMs >= span.fromMs && ownMs <= span.toMs;
  const grid = roundTimes(span, within ? SHEET_BOXES : SHEET_BOXES - 1, clock);
  const nearest = within ? grid.reduce((a, b) => (Math.abs(b - ownMs) < Math.abs(a - ownMs) ? b : a)) : null;
  return {
    instantsUtcMs: [...grid.filter((ms) => ms !== nearest), ownMs].sort((a, b) => a - b),
    eveningUtcMs: window.fromMs,
    words: [
      ...sunWords(sun, clock),
      `${LEVEL_WORDS[level]} from ${clockTime(span.fromMs, clock)} to ${clockTime(span.toMs, clock)}${within ? "" : "; the plan's own moment lies outside"}.`,
    ],
  };
}

type SpanLevel = Exclude<SunLevel, "astronomical"> | "day";

const LEVEL_WORDS: Readonly<Record<SpanLevel, string>> = {
  nautical: "Dark (the Sun below -12 degrees)",
  civil: "The darkest hours (the Sun below -6 degrees)",
  sunset: "The darkest hours (the Sun down)",
  day: "The hours of the lowest Sun",
};

function darkestSpan(sun: SunNight, window: Span): { span: Span; level: SpanLevel } {
  for (const level of ["nautical", "civil", "sunset"] as const) {
    if (sun.lowest.value >= SUN_LEVELS_DEG[level]) continue;
    const span = { fromMs: sun.dusk[level] ?? window.fromMs, toMs: sun.dawn[level] ?? window.toMs };
    if (span.toMs - span.fromMs >= LEAST_SPAN_MS) return { span, level };
  }
  const { instantUtcMs } = sun.lowest;
  return {
    span: { fromMs: instantUtcMs - POLAR_DAY_HALF_MS, toMs: instantUtcMs + POLAR_DAY_HALF_MS },
    level: "day",
  };
}

/** `count` evenly spaced instants inside a span, each a whole multiple of one unit on the clock. */
function roundTimes({ fromMs, toMs }: Span, count: number, clock: LocalClock): number[] {
  // By the clock's own minutes, which in an old local mean time are not those of UTC.
  const offsetMs = clock.wall(fromMs).toZonedDateTime("UTC").epochMilliseconds - Math.round(fromMs);
  for (const { unitMin, leastCovered } of UNITS) {
    const unitMs = unitMin * MINUTE_MS;
    const first = Math.ceil((fromMs + offsetMs) / unitMs) * unitMs - offsetMs;
    const stepMs = Math.floor((toMs - first) / (count - 1) / unitMs) * unitMs;
    const coveredMs = stepMs * (count - 1);
    if (stepMs <= 0 || coveredMs < leastCovered * (toMs - fromMs)) continue;
    const middledMs = Math.floor((toMs - first - coveredMs) / 2 / unitMs) * unitMs;
    return Array.from({ length: count }, (_, i) => first + middledMs + i * stepMs);
  }
  throw new Error("a span of an hour holds a dozen whole minutes");
}
