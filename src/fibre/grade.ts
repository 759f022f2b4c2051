import type { StrandStock } from "./stock.ts";

/** A strand given to a light. */
export interface Graded {
  /** Index into the field of the light's brightest object. */
  readonly leader: number;
  readonly mag: number;
  readonly diameterMm: number;
  readonly bitMm: number;
}

/** The usable strands one by one, in the order in which the brightest lights take them. @param stock thickest first */
export const strandBySize = (stock: readonly StrandStock[]): StrandStock[] =>
  stock.flatMap((size) => new Array<StrandStock>(size.usable).fill(size));
