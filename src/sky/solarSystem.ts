import { Body, GeoMoon, GeoVector, Illumination } from "astronomy-engine";
import { apparentDirection } from "./apparent.ts";
import { astroTime } from "./ephemeris.ts";
import { normalise, type Vector3 } from "./matrix.ts";
import type { Observer } from "./observer.ts";

export const PLANETS = ["Mercury", "Venus", "Mars", "Jupiter", "Saturn", "Uranus", "Neptune"] as const;
export type PlanetName = (typeof PLANETS)[number];

export interface SkyBody {
  readonly name: PlanetName | "Moon" | "Sun";
  /** Apparent topocentric direction, unrefracted: east, north, up. */
  readonly enu: Vector3;
  /** Astrometric topocentric direction, ICRS axes: what right ascension and declination J2000 are read from. */
  readonly icrs: Vector3;
  /** From the observer. */
  readonly distanceAu: number;
  readonly vMag: number;
}

const LIGHT_DAYS_PER_AU = 499.004784 / 86_400; // IAU 2012 au over c

/**
 * A planet or the Sun: light-time and parallax of the observer taken, then aberration as for a star.
 * Places by the library astronomy-engine (truncated VSOP87, within 1 arcmin of JPL by its own tests).
 */
export function bodyAt(name: PlanetName | "Sun", observer: Observer): SkyBody {
  const time = astroTime(observer.instantUtcMs);
  const body = Body[name];
  const fromEarth = GeoVector(body, time, false);
  const { icrs, distanceAu } = fromObserver([fromEarth.x, fromEarth.y, fromEarth.z], observer);
  return {
    name,
    icrs,
    distanceAu,
    enu: apparentDirection(icrs, observer, false),
    vMag: Illumination(body, time).mag,
  };
}

/**
 * The Moon. It travels with the Earth, so annual aberration does not move it against the observer: its place is that of
 * 1.3 s before, seen from the turning Earth.
 */
export function moonAt(observer: Observer): SkyBody {
  const time = astroTime(observer.instantUtcMs);
  const now = GeoMoon(time);
  const then = GeoMoon(time.AddDays(-now.Length() * LIGHT_DAYS_PER_AU));
  const { icrs, distanceAu } = fromObserver([then.x, then.y, then.z], observer);
  const travelsAlong: Observer = { ...observer, velocityOverC: observer.diurnalVelocityOverC };
  return {
    name: "Moon",
    icrs,
    distanceAu,
    enu: apparentDirection(icrs, travelsAlong, false),
    vMag: Illumination(Body.Moon, time).mag,
  };
}

function fromObserver(
  geocentricAu: Vector3,
  { geocentricAu: observerAu }: Observer,
): { icrs: Vector3; distanceAu: number } {
  const [x, y, z] = [0, 1, 2].map((i) => geocentricAu[i]! - observerAu[i]!) as unknown as Vector3;
  return { icrs: normalise([x, y, z]), distanceAu: Math.hypot(x, y, z) };
}
