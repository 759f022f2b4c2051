import { darknessOf } from "./darkness.ts";
import type { LocalClock } from "./localClock.ts";
import { SUN_LEVELS, type SunLevel, type SunNight } from "./nightsSun.ts";
import type { MilkyWay } from "./nightsZenith.ts";

/** `21:15`, rounded to the minute. */
export const clockTime = (instantUtcMs: number, clock: LocalClock): string =>
  clock
    .wall(instantUtcMs + 30_000)
    .toPlainTime()
    .toString({ smallestUnit: "minute", roundingMode: "floor" });

const height = (deg: number) =>
  `${Math.abs(deg).toFixed(1)} degrees ${deg >= 0 ? "above" : "below"} the horizon`;

/** Sixteen points of the compass, by true azimuth. */
export function compassPoint(azDeg: number): string {
  const points = "N NNE NE ENE E ESE SE SSE S SSW SW WSW W WNW NW NNW".split(" ");
  return points[Math.round(azDeg / 22.5) % 16]!;
}

const LEVEL_WORDS: Readonly<Record<SunLevel, readonly [dusk: string, dawn: string]>> = {
  sunset: ["sunset", "sunrise"],
  civil: ["civil dusk", "civil dawn"],
  nautical: ["nautical dusk", "nautical dawn"],
  astronomical: ["astronomical dusk", "astronomical dawn"],
};

/** What is unusual about the Sun on this night; nothing where it sets, gets fully dark and rises. */
export function sunWords({ dusk, dawn, lowest, highest }: SunNight, clock: LocalClock): string[] {
  const least = `at its lowest, at ${clockTime(lowest.instantUtcMs, clock)}, the Sun stands ${height(lowest.value)}`;
  const words: string[] = [];
  const darkest = darknessOf(lowest.value);
  if (darkest === "day") words.push(`There is no night: the Sun does not set (polar day); ${least}.`);
  if (darkest === "civilTwilight") words.push(`There is no night: it stays civil twilight; ${least}.`);
  if (darkest === "nauticalTwilight")
    words.push(`There is no dark night: it stays nautical twilight; ${least}. Bright stars alone are seen.`);
  if (darkest === "astronomicalTwilight")
    words.push(`It does not get fully dark: it stays astronomical twilight; ${least}.`);
  if (darknessOf(highest.value) !== "day") {
    words.push(
      `The Sun does not rise (polar night); at its highest, at ${clockTime(highest.instantUtcMs, clock)}, it stands ${height(highest.value)}.`,
    );
  }
  for (const level of SUN_LEVELS) {
    const [evening, morning] = LEVEL_WORDS[level];
    if (dusk[level] !== null && dawn[level] === null)
      words.push(`A night with ${evening} and no ${morning}: the Sun stays below that all the next morning.`);
    if (dusk[level] === null && dawn[level] !== null)
      words.push(`A night with ${morning} and no ${evening}: the Sun was below that all the evening.`);
  }
  return words;
}

/** Why an event of the Sun is missing from a night. */
export function whyNoEvent(levelDeg: number, { lowest, highest }: SunNight): string {
  if (lowest.value >= levelDeg) return "none: the Sun stays higher";
  if (highest.value < levelDeg) return "none: the Sun stays lower";
  return "none in this night";
}

export function milkyWayWords({ galacticLatitudeDeg, highestAzDeg, where }: MilkyWay): string {
  const away = Math.abs(galacticLatitudeDeg).toFixed(0);
  const toward = highestAzDeg === null ? "" : ` toward ${compassPoint(highestAzDeg)}`;
  if (where === "overhead")
    return `overhead: its middle line passes ${away} degrees from the zenith${toward}`;
  if (where === "horizon") return `not overhead: it lies along the horizon, ${away} degrees from the zenith`;
  return `not overhead, but ${where === "high" ? "high up" : "low down"}: its middle line passes ${away} degrees from the zenith${toward}`;
}
