import { Constellation } from "astronomy-engine";
import { altitudeDeg, azimuthDeg } from "./apparent.ts";
import type { Vector3 } from "./matrix.ts";

/** Where a direction lies among the stars. */
export interface EquatorialPlace {
  readonly raDeg: number;
  readonly decDeg: number;
  /** IAU code of the constellation it lies in. */
  readonly constellation: string;
}

/** @param icrs unit vector, ICRS axes (J2000 to 0.02 arcsec) */
export function equatorialPlace([x, y, z]: Vector3): EquatorialPlace {
  const raDeg = azimuthDeg(y, x); // the same arc tangent, counted from x toward y
  const decDeg = altitudeDeg(x, y, z);
  return { raDeg, decDeg, constellation: Constellation(raDeg / 15, decDeg).symbol };
}
