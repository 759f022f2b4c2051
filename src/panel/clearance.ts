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
  const cells = new Map<number, number[]>();
  const key = (column: number, row: number) => column * 2 ** 20 + row;
  const cellOf = (mm: number) => Math.floor(mm / cellMm);
  return {
    take(xMm, yMm, bitMm) {
      const at = key(cellOf(xMm), cellOf(yMm));
      const cell = cells.get(at);
      if (cell) cell.push(xMm, yMm, bitMm);
      else cells.set(at, [xMm, yMm, bitMm]);
    },
    isFree(xMm, yMm, bitMm) {
      const [column, row] = [cellOf(xMm), cellOf(yMm)];
      for (let c = column - 1; c <= column + 1; c++) {
        for (let r = row - 1; r <= row + 1; r++) {
          const cell = cells.get(key(c, r));
          if (!cell) continue;
          for (let i = 0; i < cell.length; i += 3) {
            const apartMm = Math.hypot(cell[i]! - xMm, cell[i + 1]! - yMm);
            if (apartMm < leastApartMm(spacingMm, Math.max(bitMm, cell[i + 2]!), moreMm)) return false;
          }
        }
      }
      return true;
    },
  };
}
