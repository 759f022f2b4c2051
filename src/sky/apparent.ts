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
 * @param into  reused when given: three values a star
 * @returns unit directions [e0, n0, u0, e1, ...]: east, north, up at the place
 */
export function apparentDirections(
  stars: StarVectors,
  observer: Observer,
  rows?: Int32Array,
  into?: Float64Array,
): Float64Array {
  const from = rows === undefined ? stars.p : gather(stars.p, rows);
  const out = into ?? new Float64Array(from.length);
  turnToHorizon(from, out, observer, true);

  // The few that move are done again, from where they have moved to.
  const { pmRow, velocityRadPerYr } = stars;
  const at = rows === undefined ? pmRow : new Int32Array(pmRow.length);
  const moved = new Float64Array(pmRow.length * 3);
  let count = 0;
  for (let k = 0, j = 0; k < pmRow.length; k++) {
    const row = pmRow[k]!;
    if (rows !== undefined) {
      while (j < rows.length && rows[j]! < row) j++;
      if (rows[j] !== row) continue;
      at[count] = j;
    }
    const x = stars.p[row * 3]! + velocityRadPerYr[k * 3]! * observer.yearsFromJ2000;
    const y = stars.p[row * 3 + 1]! + velocityRadPerYr[k * 3 + 1]! * observer.yearsFromJ2000;
    const z = stars.p[row * 3 + 2]! + velocityRadPerYr[k * 3 + 2]! * observer.yearsFromJ2000;
    const scale = 1 / Math.sqrt(x * x + y * y + z * z);
    moved[count * 3] = x * scale;
    moved[count * 3 + 1] = y * scale;
    moved[count * 3 + 2] = z * scale;
    count++;
  }
  turnToHorizon(moved, moved, observer, true);
  for (let k = 0; k < count; k++) {
    const i = at[k]! * 3;
    out[i] = moved[k * 3]!;
    out[i + 1] = moved[k * 3 + 1]!;
    out[i + 2] = moved[k * 3 + 2]!;
  }
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
  turnToHorizon(one, one, observer, bentBySun);
  return [one[0]!, one[1]!, one[2]!];
}

/**
 * @param from unit vectors, ICRS axes
 * @param out  filled with unit vectors (east, north, up); may be `from` itself
 * Source of the formulas: Explanatory Supplement to the Astronomical Almanac, 3rd ed. 2013, ch. 7, as in ERFA's `ldsun` and
 * `ab` (BSD 3-Clause, data/LICENCE-erfa.txt).
 */
function turnToHorizon(from: Float64Array, out: Float64Array, observer: Observer, bentBySun: boolean): void {
  const [sx, sy, sz] = observer.sunToEarth;
  const [vx, vy, vz] = observer.velocityOverC;
  const [m0, m1, m2, m3, m4, m5, m6, m7, m8] = observer.icrsToEnu;
  const distance = observer.sunDistanceAu;
  const bending = bentBySun ? SUN_SCHWARZSCHILD_AU / distance : 0;
  const nearest = 1e-6 / Math.max(1, distance * distance); // SOFA's limiter, for directions on the Sun itself
  const gamma = Math.sqrt(1 - (vx * vx + vy * vy + vz * vz));
  const perGamma = 1 / (1 + gamma);
  const potential = SUN_SCHWARZSCHILD_AU / distance;

  for (let i = 0; i < from.length; i += 3) {
    let x = from[i]!;
    let y = from[i + 1]!;
    let z = from[i + 2]!;

    const cosFromSun = x * sx + y * sy + z * sz;
    const w = bending / Math.max(1 + cosFromSun, nearest);
    x += w * (sx - cosFromSun * x);
    y += w * (sy - cosFromSun * y);
    z += w * (sz - cosFromSun * z);

    // The Lorentz form keeps the length at 1; what the two small terms of the Sun add to it is below 1e-11.
    const pv = x * vx + y * vy + z * vz;
    const scale = 1 / (1 + pv);
    const keep = (gamma - potential * pv) * scale;
    const add = (1 + pv * perGamma + potential) * scale;
    x = x * keep + vx * add;
    y = y * keep + vy * add;
    z = z * keep + vz * add;

    out[i] = m0 * x + m1 * y + m2 * z;
    out[i + 1] = m3 * x + m4 * y + m5 * z;
    out[i + 2] = m6 * x + m7 * y + m8 * z;
  }
}

const DEG = 180 / Math.PI;

/**
 * Altitude of a unit direction in degrees. The arc sine is quicker, but loses digits toward the zenith: there the arc
 * tangent takes over.
 */
export const altitudeDeg = (e: number, n: number, u: number): number =>
  (u < 0.9 && u > -0.9 ? Math.asin(u) : Math.atan2(u, Math.sqrt(e * e + n * n))) * DEG;

/** Azimuth of a direction in degrees, from true north through east, 0 to 360. */
export function azimuthDeg(e: number, n: number): number {
  const deg = Math.atan2(e, n) * DEG;
  return deg < 0 ? deg + 360 : deg;
}

/**
 * Altitude and azimuth of all directions, degrees.
 * @param enu  unit vectors [e0, n0, u0, ...]
 * @param into reused when given
 */
export function horizontalCoordinates(
  enu: Float64Array,
  into: { altDeg: Float64Array; azDeg: Float64Array } = {
    altDeg: new Float64Array(enu.length / 3),
    azDeg: new Float64Array(enu.length / 3),
  },
): { altDeg: Float64Array; azDeg: Float64Array } {
  const { altDeg, azDeg } = into;
  for (let i = 0, k = 0; k < enu.length; i++, k += 3) {
    altDeg[i] = altitudeDeg(enu[k]!, enu[k + 1]!, enu[k + 2]!);
    azDeg[i] = azimuthDeg(enu[k]!, enu[k + 1]!);
  }
  return into;
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
