import type { StarVectors } from "./catalogue.ts";
import type { Vector3 } from "./matrix.ts";
import type { Observer } from "./observer.ts";

/** Schwarzschild radius of the Sun in au (IAU 2009 constants, as in SOFA's SRS). */
const SUN_SCHWARZSCHILD_AU = 1.97412574336e-8;

/**
 * Apparent, unrefracted directions of stars at an instant and place, in one pass: proper motion along a straight line,
 * bending of light by the Sun, annual and diurnal aberration, rotation to the horizon. No parallax: the catalogue has none.
 * @param stars J2000 unit vectors and proper motions, ICRS axes
 * @param rows  which of them, ascending; all when missing
 * @returns unit directions [e0, n0, u0, e1, ...]: east, north, up at the place
 * Source of the formulas: Explanatory Supplement to the Astronomical Almanac, 3rd ed. 2013, ch. 7, as in IAU SOFA's
 * `Ldsun` and `Ab`.
 */
export function apparentDirections(stars: StarVectors, observer: Observer, rows?: Int32Array): Float64Array {
  const out = rows === undefined ? stars.p.slice() : gather(stars.p, rows);
  const years = observer.yearsFromJ2000;
  const { pmRow, velocityRadPerYr } = stars;
  for (let k = 0, at = 0; k < pmRow.length; k++) {
    const row = pmRow[k]!;
    let i = 3 * row;
    if (rows !== undefined) {
      while (at < rows.length && rows[at]! < row) at++;
      if (rows[at] !== row) continue;
      i = 3 * at;
    }
    const x = out[i]! + velocityRadPerYr[k * 3]! * years;
    const y = out[i + 1]! + velocityRadPerYr[k * 3 + 1]! * years;
    const z = out[i + 2]! + velocityRadPerYr[k * 3 + 2]! * years;
    const scale = 1 / Math.sqrt(x * x + y * y + z * z);
    out[i] = x * scale;
    out[i + 1] = y * scale;
    out[i + 2] = z * scale;
  }
  turnToHorizon(out, observer, true);
  return out;
}

function gather(p: Float64Array, rows: Int32Array): Float64Array {
  const out = new Float64Array(rows.length * 3);
  for (let k = 0; k < rows.length; k++) {
    const i = 3 * rows[k]!;
    out[3 * k] = p[i]!;
    out[3 * k + 1] = p[i + 1]!;
    out[3 * k + 2] = p[i + 2]!;
  }
  return out;
}

/** One direction by the same path, for aims and bodies: a star's when `bentBySun`, a planet's when not. */
export function apparentDirection(icrs: Vector3, observer: Observer, bentBySun = true): Vector3 {
  const one = Float64Array.from(icrs);
  turnToHorizon(one, observer, bentBySun);
  return [one[0]!, one[1]!, one[2]!];
}

function turnToHorizon(directions: Float64Array, observer: Observer, bentBySun: boolean): void {
  const [sx, sy, sz] = observer.sunToEarth;
  const [vx, vy, vz] = observer.velocityOverC;
  const [m0, m1, m2, m3, m4, m5, m6, m7, m8] = observer.icrsToEnu;
  const distance = observer.sunDistanceAu;
  const bending = bentBySun ? SUN_SCHWARZSCHILD_AU / distance : 0;
  const nearest = 1e-6 / Math.max(1, distance * distance); // SOFA's limiter, for directions on the Sun itself
  const gamma = Math.sqrt(1 - (vx * vx + vy * vy + vz * vz));
  const potential = SUN_SCHWARZSCHILD_AU / distance;

  for (let i = 0; i < directions.length; i += 3) {
    let x = directions[i]!;
    let y = directions[i + 1]!;
    let z = directions[i + 2]!;

    const cosFromSun = x * sx + y * sy + z * sz;
    const w = bending / Math.max(1 + cosFromSun, nearest);
    x += w * (sx - cosFromSun * x);
    y += w * (sy - cosFromSun * y);
    z += w * (sz - cosFromSun * z);

    const pv = x * vx + y * vy + z * vz;
    const keep = gamma - potential * pv;
    const add = 1 + pv / (1 + gamma) + potential;
    x = x * keep + vx * add;
    y = y * keep + vy * add;
    z = z * keep + vz * add;
    const scale = 1 / Math.sqrt(x * x + y * y + z * z);
    x *= scale;
    y *= scale;
    z *= scale;

    directions[i] = m0 * x + m1 * y + m2 * z;
    directions[i + 1] = m3 * x + m4 * y + m5 * z;
    directions[i + 2] = m6 * x + m7 * y + m8 * z;
  }
}

const DEG = 180 / Math.PI;

/** Altitude of a direction in degrees. */
export const altitudeDeg = (e: number, n: number, u: number): number =>
  Math.atan2(u, Math.sqrt(e * e + n * n)) * DEG;

/** Azimuth of a direction in degrees, from true north through east, 0 to 360. */
export function azimuthDeg(e: number, n: number): number {
  const deg = Math.atan2(e, n) * DEG;
  return deg < 0 ? deg + 360 : deg;
}

/** Altitude and azimuth of all directions, degrees. @param enu [e0, n0, u0, ...] */
export function horizontalCoordinates(enu: Float64Array): { altDeg: Float64Array; azDeg: Float64Array } {
  const count = enu.length / 3;
  const altDeg = new Float64Array(count);
  const azDeg = new Float64Array(count);
  for (let i = 0, k = 0; i < count; i++, k += 3) {
    altDeg[i] = altitudeDeg(enu[k]!, enu[k + 1]!, enu[k + 2]!);
    azDeg[i] = azimuthDeg(enu[k]!, enu[k + 1]!);
  }
  return { altDeg, azDeg };
}

/** Unit direction (east, north, up) of an altitude and azimuth in degrees. */
export function directionOf(altDeg: number, azDeg: number): Vector3 {
  const alt = altDeg / DEG;
  const az = azDeg / DEG;
  return [Math.cos(alt) * Math.sin(az), Math.cos(alt) * Math.cos(az), Math.sin(alt)];
}

/** Unit vector in the axes of right ascension and declination, degrees. */
export function equatorialVector(raDeg: number, decDeg: number): Vector3 {
  const ra = raDeg / DEG;
  const dec = decDeg / DEG;
  return [Math.cos(dec) * Math.cos(ra), Math.cos(dec) * Math.sin(ra), Math.sin(dec)];
}
