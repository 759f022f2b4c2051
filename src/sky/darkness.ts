import { altitudeDeg } from "./apparent.ts";
import type { Observer } from "./observer.ts";
import { bodyAt } from "./solarSystem.ts";

/** True altitude of the Sun's centre in degrees, without refraction. */
export function sunAltitudeDeg(observer: Observer): number {
  return altitudeDeg(...bodyAt("Sun", observer).enu);
}

export type Darkness = "day" | "civilTwilight" | "nauticalTwilight" | "astronomicalTwilight" | "night";

/** Source: USNO definitions of rise, set and twilight: zenith distance 90 deg 50 min; -6, -12 and -18 degrees. */
export function darknessOf(sunAltDeg: number): Darkness {
  if (sunAltDeg > -50 / 60) return "day";
  if (sunAltDeg > -6) return "civilTwilight";
  if (sunAltDeg > -12) return "nauticalTwilight";
  if (sunAltDeg > -18) return "astronomicalTwilight";
  return "night";
}
