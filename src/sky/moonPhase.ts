import { dot, normalise, type Vector3 } from "./matrix.ts";
import type { Observer } from "./observer.ts";
import { bodyAt, moonAt } from "./solarSystem.ts";

const AU_KM = 149_597_870.7; // IAU 2012 resolution B2
const MOON_RADIUS_KM = 1737.4; // IAU WGCCRE 2015, mean radius

/** What of the Moon's disk is lit. */
export interface LitMoon {
  /** Cosine of the angle Sun, Moon, observer: 1 full, 0 half, -1 new. The lit part of the disk is half of 1 + this. */
  readonly cosPhaseAngle: number;
  /** Unit vector across the direction of the Moon, toward the Sun along the great circle: the middle of the bright limb. */
  readonly towardSun: Vector3;
}

/**
 * @param moon, sun directions from the observer, unit vectors in any one frame; the distances in one unit
 * Source: Meeus, Astronomical Algorithms, 2nd ed., 48.3 (phase angle) and 48.5 (position angle of the bright limb), as vectors.
 */
export function litMoon(moon: Vector3, moonDistance: number, sun: Vector3, sunDistance: number): LitMoon {
  const cosApart = dot(moon, sun);
  // From the Moon: to the Sun, and back to the observer.
  const toSun = normalise([0, 1, 2].map((i) => sunDistance * sun[i]! - moonDistance * moon[i]!) as never);
  return {
    cosPhaseAngle: -dot(toSun, moon),
    towardSun: normalise([0, 1, 2].map((i) => sun[i]! - cosApart * moon[i]!) as never),
  };
}

export interface MoonSeen extends LitMoon {
  /** Apparent direction from the place, unrefracted: east, north, up; `towardSun` is in the same axes. */
  readonly enu: Vector3;
  /** Radius of the disk as seen from the place. */
  readonly semidiameterDeg: number;
}

/** The Moon's disk from a place, which sees it up to a degree from where the Earth's centre does. */
export function moonSeen(observer: Observer): MoonSeen {
  const moon = moonAt(observer);
  const sun = bodyAt("Sun", observer);
  return {
    ...litMoon(moon.enu, moon.distanceAu, sun.enu, sun.distanceAu),
    enu: moon.enu,
    semidiameterDeg: (Math.asin(MOON_RADIUS_KM / (moon.distanceAu * AU_KM)) * 180) / Math.PI,
  };
}
