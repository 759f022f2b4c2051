import type { Catalogue } from "./catalogue.ts";
import { ICRS_TO_GALACTIC } from "./galactic.ts";
import { apply, type Vector3 } from "./matrix.ts";

const RAD = Math.PI / 180;

/**
 * The catalogue is complete to here all over the sky; fainter, stars near the galactic plane begin to be missing, which
 * would pale the very band that is counted. Measured by `scripts/catalogue-limit.ts`: see data/README.md.
 */
export const COMPLETE_TO_MAG = 7;

/**
 * Radius of the smoothing kernel; its standard deviation along one axis is radius / sqrt(8), 3.5 degrees. It takes in
 * about 120 stars in the band, so that chance moves the density by a tenth.
 */
const KERNEL_RADIUS_DEG = 10;
const LEAST_COS = Math.cos(KERNEL_RADIUS_DEG * RAD);
/** Integral of (cos - LEAST_COS)^2 over the sphere, in steradians. */
const KERNEL_INTEGRAL = (2 * Math.PI * (1 - LEAST_COS) ** 3) / 3;

/** Nodes in rings of galactic latitude, as far from each other along a ring as the rings are. */
const STEP_DEG = 2;
const RINGS = 180 / STEP_DEG + 1;

/** Zones of galactic latitude that stand for the band's middle and for the sky to both sides of it. */
const BAND_WITHIN_DEG = 5;
const BESIDE_DEG = [20, 40] as const;

/** Star density over the sky, in stars to `COMPLETE_TO_MAG` a steradian. */
export interface StarDensity {
  /** Smoothed. @param icrs unit vector */
  at(icrs: Vector3): number;
  /**
   * What stands out as a band: the smoothed density less the mean of the sky beside it, never below 0. Less the mean at
   * the poles it would be a glow some 60 degrees wide: so slowly do the counts of bright stars, most of them near, fall off.
   */
  excessAt(icrs: Vector3): number;
  /** Plain counts of the zones within 5 degrees of the galactic plane, and between 20 and 40 degrees from it. */
  readonly meanInBand: number;
  readonly meanBeside: number;
}

/** Counts the stars of the complete part of a catalogue; a few hundredths of a second. */
export function starDensity(catalogue: Catalogue): StarDensity {
  const { unitJ2000, vCentiMag, count } = catalogue;
  const rings = Array.from({ length: RINGS }, (_, i) => {
    const b = (i * STEP_DEG - 90) * RAD;
    const nodes = Math.max(1, Math.round((360 / STEP_DEG) * Math.cos(b)));
    const cosB = Math.cos(b);
    const xy = new Float64Array(2 * nodes);
    for (let k = 0; k < nodes; k++) {
      xy[2 * k] = cosB * Math.cos((2 * Math.PI * k) / nodes);
      xy[2 * k + 1] = cosB * Math.sin((2 * Math.PI * k) / nodes);
    }
    return { sinB: Math.sin(b), cosB, xy, density: new Float64Array(nodes) };
  });
  const [nearer, farther] = BESIDE_DEG.map((deg) => Math.sin(deg * RAD)) as [number, number];
  let [inBand, beside] = [0, 0];
  // Brightest first.
  for (let row = 0; row < count && vCentiMag[row]! <= COMPLETE_TO_MAG * 100; row++) {
    const [x, y, z] = apply(ICRS_TO_GALACTIC, [
      unitJ2000[row * 3]!,
      unitJ2000[row * 3 + 1]!,
      unitJ2000[row * 3 + 2]!,
    ]);
    if (Math.abs(z) < Math.sin(BAND_WITHIN_DEG * RAD)) inBand++;
    if (Math.abs(z) > nearer && Math.abs(z) < farther) beside++;
    const l = Math.atan2(y, x);
    const bDeg = Math.asin(Math.max(-1, Math.min(1, z))) / RAD;
    const cosB = Math.hypot(x, y);
    const first = Math.max(0, Math.ceil((bDeg - KERNEL_RADIUS_DEG + 90) / STEP_DEG));
    const last = Math.min(RINGS - 1, Math.floor((bDeg + KERNEL_RADIUS_DEG + 90) / STEP_DEG));
    for (let i = first; i <= last; i++) {
      const ring = rings[i]!;
      const nodes = ring.density.length;
      const along = ring.sinB * z;
      const across = ring.cosB * cosB;
      // Longitudes of the ring that the kernel reaches: all of it round a pole.
      const cosReach = across > 1e-12 ? (LEAST_COS - along) / across : along >= LEAST_COS ? -1 : 1;
      const reach = cosReach <= -1 ? Math.PI : cosReach >= 1 ? -1 : Math.acos(cosReach);
      const perRad = nodes / (2 * Math.PI);
      const from = Math.ceil((l - reach) * perRad);
      const to = Math.min(Math.floor((l + reach) * perRad), from + nodes - 1);
      const { xy, density } = ring;
      for (let step = from, k = ((from % nodes) + nodes) % nodes; step <= to; step++) {
        const over = xy[2 * k]! * x + xy[2 * k + 1]! * y + along - LEAST_COS;
        if (over > 0) density[k]! += (over * over) / KERNEL_INTEGRAL;
        if (++k === nodes) k = 0;
      }
    }
  }

  const onRing = (i: number, l: number): number => {
    const { density } = rings[i]!;
    const t = ((l / (2 * Math.PI) + 1) % 1) * density.length;
    const k = Math.floor(t);
    const here = density[k % density.length]!;
    return here + (t - k) * (density[(k + 1) % density.length]! - here);
  };
  const at = (icrs: Vector3): number => {
    const [x, y, z] = apply(ICRS_TO_GALACTIC, icrs);
    const l = Math.atan2(y, x);
    const t = (Math.asin(Math.max(-1, Math.min(1, z))) / RAD + 90) / STEP_DEG;
    const i = Math.min(RINGS - 2, Math.floor(t));
    const below = onRing(i, l);
    return below + (t - i) * (onRing(i + 1, l) - below);
  };
  const meanBeside = beside / (4 * Math.PI * (farther - nearer));
  return {
    at,
    excessAt: (icrs) => Math.max(0, at(icrs) - meanBeside),
    meanInBand: inBand / (4 * Math.PI * Math.sin(BAND_WITHIN_DEG * RAD)),
    meanBeside,
  };
}
