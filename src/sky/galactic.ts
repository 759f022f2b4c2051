import { equatorialVector } from "./apparent.ts";
import { apply, cross, type Matrix3, type Vector3 } from "./matrix.ts";

const DEG = 180 / Math.PI;

/**
 * North pole of the Milky Way in the ICRS, degrees, and the galactic longitude of the node in which the galactic equator
 * rises through the celestial one.
 * Source: IAU 1958 system as fixed for the ICRS by The Hipparcos and Tycho Catalogues (ESA SP-1200), vol. 1, section 1.5.3.
 */
const POLE_RA_DEG = 192.85948;
const POLE_DEC_DEG = 27.12825;
const NODE_LONGITUDE_DEG = 32.93192;

/** Unit vector to the north galactic pole, ICRS axes. */
export const GALACTIC_POLE = equatorialVector(POLE_RA_DEG, POLE_DEC_DEG);

/** ICRS axes to galactic ones: x to the centre (l = 0, b = 0), y to l = 90, z to the north galactic pole. */
export const ICRS_TO_GALACTIC: Matrix3 = (() => {
  const node = equatorialVector(POLE_RA_DEG + 90, 0);
  const pastNode = cross(GALACTIC_POLE, node);
  const [c, s] = [Math.cos(NODE_LONGITUDE_DEG / DEG), Math.sin(NODE_LONGITUDE_DEG / DEG)];
  const x = node.map((value, i) => c * value - s * pastNode[i]!);
  const y = node.map((value, i) => s * value + c * pastNode[i]!);
  return [...x, ...y, ...GALACTIC_POLE] as unknown as Matrix3;
})();

/** @param icrs unit vector */
export function galacticOf(icrs: Vector3): { latitudeDeg: number; longitudeDeg: number } {
  const [x, y, z] = apply(ICRS_TO_GALACTIC, icrs);
  return {
    latitudeDeg: Math.asin(Math.max(-1, Math.min(1, z))) * DEG,
    longitudeDeg: (Math.atan2(y, x) * DEG + 360) % 360,
  };
}
