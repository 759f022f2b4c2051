import { EQUATOR_RADIUS_M, onEllipsoid } from "./wgs84.ts";

const RAD = Math.PI / 180;

/** Degrees on WGS 84: latitude (north positive), longitude (east positive). */
export type LatLonDeg = readonly [number, number];

/** A straight line between two points of a map. */
export interface WallLine {
  /** True azimuth at `from` toward `to`, from north through east, 0 to 360. */
  readonly bearingDeg: number;
  readonly lengthM: number;
  /** Decimals of the coordinates: the most that any of the four has, since a number does not keep its closing zeros. */
  readonly decimals: number;
  /** How far half a unit of the last decimal, in all four coordinates and at their worst, can turn the bearing. */
  readonly uncertaintyDeg: number;
}

/**
 * The direction in which a taut string runs: the azimuth of the normal section. Source: the definition of east, north and
 * up at a geodetic place, as in any textbook of geodesy (Bomford, Geodesy, ch. 2; from memory). The geodesic, the shortest
 * line on the ellipsoid, leaves it by e'^2 (s / a)^2 / 12 at most: under 1e-7 degrees for 5 km.
 */
export function wallLine(from: LatLonDeg, to: LatLonDeg): WallLine {
  const [sinLat, cosLat] = [Math.sin(from[0] * RAD), Math.cos(from[0] * RAD)];
  const [sinLon, cosLon] = [Math.sin(from[1] * RAD), Math.cos(from[1] * RAD)];
  const [start, end] = [earthFixedM(from), earthFixedM(to)];
  const [x, y, z] = [end[0] - start[0], end[1] - start[1], end[2] - start[2]];
  const eastM = cosLon * y - sinLon * x;
  const northM = cosLat * z - sinLat * (cosLon * x + sinLon * y);
  const lengthM = Math.hypot(x, y, z);

  const bearing = Math.atan2(eastM, northM);
  const decimals = Math.max(...[...from, ...to].map(decimalsOf));
  const halfDigitM = 0.5 * 10 ** -decimals * RAD * EQUATOR_RADIUS_M;
  // North and south, east and west: what of each lies across the wall, at both ends against each other.
  const acrossM =
    2 * halfDigitM * (Math.abs(Math.sin(bearing)) + Math.abs(cosLat) * Math.abs(Math.cos(bearing)));
  return {
    bearingDeg: (bearing / RAD + 360) % 360,
    lengthM,
    decimals,
    uncertaintyDeg: Math.atan2(acrossM, lengthM) / RAD,
  };
}

/** Position on the ellipsoid in Earth's rotating frame, metres. */
function earthFixedM([latDeg, lonDeg]: LatLonDeg): [number, number, number] {
  const { axisM, equatorM } = onEllipsoid(latDeg * RAD);
  return [axisM * Math.cos(lonDeg * RAD), axisM * Math.sin(lonDeg * RAD), equatorM];
}

function decimalsOf(value: number): number {
  const [, fraction = "", exponent = "0"] = /^-?\d+(?:\.(\d+))?(?:e([+-]\d+))?$/.exec(String(value))!;
  return Math.max(0, fraction.length - Number(exponent));
}
