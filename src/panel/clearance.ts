import { TakenHoles } from "./takenHoles.ts";

/** Room that rounding to hundredths of a millimetre on both holes may cost. */
const ROUNDING_MM = 0.015;

/** Least distance of two holes not yet rounded, centre to centre: the plan's spacing, or three bits of the larger. */
export const leastApartMm = (spacingMm: number, bitMm: number, moreMm = ROUNDING_MM): number =>
  Math.max(spacingMm, 3 * bitMm) + moreMm;

/** Holes already there, and whether one more keeps its distance from each of them. */
export interface Clearance {
  take(xMm: number, yMm: number, bitMm: number): void;
  isFree(xMm: number, yMm: number, bitMm: number): boolean;
}

/**
 * @param spacingMm    least distance whatever the bits
 * @param largestBitMm no hole that is asked about or taken has a larger one
 * @param moreMm       on top of the rule, for holes that are still to be rounded
 */
export function makeClearance(spacingMm: number, largestBitMm: number, moreMm = ROUNDING_MM): Clearance {
  const cellMm = Math.max(1, leastApartMm(spacingMm, largestBitMm, moreMm));
  const taken = new TakenHoles(cellMm);
  return {
    take: (xMm, yMm, bitMm) => taken.add(xMm, yMm, bitMm),
    isFree(xMm, yMm, bitMm) {
      const near = taken.near(xMm, yMm, cellMm);
      for (let i = 0; i < near.length; i += 3) {
        const apartMm = Math.hypot(near[i]! - xMm, near[i + 1]! - yMm);
        if (apartMm < leastApartMm(spacingMm, Math.max(bitMm, near[i + 2]!), moreMm)) return false;
      }
      return true;
    },
  };
}
