import type { Vector3 } from "./matrix.ts";

const RAD = Math.PI / 180;

/** Below this true altitude nothing is seen; refraction fades to nothing at the nadir so that the map stays one to one. */
const FADES_BELOW_DEG = -1;

/**
 * Refraction of the standard atmosphere (1010 hPa, 10 degrees C).
 * @param trueAltDeg true altitude, -90 to 90
 * @returns degrees to add to it; never negative
 * Source: Saemundsson, in Meeus, Astronomical Algorithms, 2nd ed., formula 16.4 (0.1 arcmin of the tables above the horizon).
 */
export function refractionDeg(trueAltDeg: number): number {
  const h = Math.max(trueAltDeg, FADES_BELOW_DEG);
  const atH = Math.max(0, 1.02 / Math.tan((h + 10.3 / (h + 5.11)) * RAD)) / 60;
  return trueAltDeg >= FADES_BELOW_DEG ? atH : (atH * (trueAltDeg + 90)) / (FADES_BELOW_DEG + 90);
}

/** Lifts directions by refraction, in place. @param enu [e0, n0, u0, ...] unit vectors */
export function refract(enu: Float64Array): void {
  for (let i = 0; i < enu.length; i += 3) {
    const e = enu[i]!;
    const n = enu[i + 1]!;
    const horizontal = Math.sqrt(e * e + n * n);
    if (horizontal === 0) continue;
    const alt = Math.atan2(enu[i + 2]!, horizontal);
    const lifted = alt + refractionDeg(alt / RAD) * RAD;
    const scale = Math.cos(lifted) / horizontal;
    enu[i] = e * scale;
    enu[i + 1] = n * scale;
    enu[i + 2] = Math.sin(lifted);
  }
}

/** One direction as it is seen through the air: `refract` for a single one, which stays as it is. */
export function refracted(enu: Vector3): Vector3 {
  const seen = Float64Array.from(enu);
  refract(seen);
  return [seen[0]!, seen[1]!, seen[2]!];
}

/** The true direction of one that is seen refracted: `refract` undone, to better than 0.01 arcsec above -1 degree. */
export function unrefracted([e, n, u]: Vector3): Vector3 {
  const horizontal = Math.hypot(e, n);
  if (horizontal === 0) return [e, n, u];
  const seenDeg = Math.atan2(u, horizontal) / RAD;
  // Refraction grows toward the horizon by a quarter of the altitude's change at the most: each round gains as much.
  let trueDeg = seenDeg;
  for (let round = 0; round < 12; round++) trueDeg = seenDeg - refractionDeg(trueDeg);
  const scale = Math.cos(trueDeg * RAD) / horizontal;
  return [e * scale, n * scale, Math.sin(trueDeg * RAD)];
}
