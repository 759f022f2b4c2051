import type { MergedObjects } from "./merge.ts";
import type { StrandStock } from "./stock.ts";

/** A strand given to a light. */
export interface Graded {
  /** Index into the field of the light's brightest object. */
  readonly leader: number;
  readonly mag: number;
  readonly diameterMm: number;
  readonly bitMm: number;
}

/**
 * Gives the N brightest lights the N usable strands, brightest to thickest.
 * @param lights brightest first
 * @param stock  thickest first
 */
export function grade(lights: MergedObjects, stock: readonly StrandStock[]): Graded[] {
  const graded: Graded[] = [];
  for (const { diameterMm, bitMm, usable } of stock) {
    for (let strand = 0; strand < usable && graded.length < lights.count; strand++) {
      const i = graded.length;
      graded.push({ leader: lights.leader[i]!, mag: lights.mag[i]!, diameterMm, bitMm });
    }
  }
  return graded;
}
