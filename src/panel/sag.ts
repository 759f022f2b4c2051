import type { Plan } from "../plan/plan.ts";

/** What a board's sag was reckoned from, for the words beside it. */
export interface Sag {
  readonly spanMm: number;
  /** In the middle of the span, years later. */
  readonly sagMm: number;
  readonly densityKgPerM3: number;
  readonly modulusNPerMm2: number;
}

/** The usual cloth is 250 to 400 g/m2 (common practice); the heavy side. */
export const CLOTH_KG_PER_M2 = 0.4;
const GRAVITY_N_PER_KG = 9.81;
/** Wood-based board goes on giving way under a standing load: common practice. */
export const CREEP = 2;

/** The heavy side of one maker's densities by thickness (EN 323; Dongwha specification rev. 12). */
const densityOf = (thicknessMm: number) => (thicknessMm <= 6 ? 860 : thicknessMm <= 12 ? 820 : 760);

/** Least modulus of elasticity in bending, dry MDF by thickness: EN 622-5, from memory. */
const modulusOf = (thicknessMm: number) =>
  thicknessMm <= 9 ? 2700 : thicknessMm <= 12 ? 2500 : thicknessMm <= 19 ? 2200 : 2150;

/**
 * Sag of a board between two battens under its own weight and cloth, as a strip on two supports that turns freely on
 * both: 5 w L^4 / (384 E I), doubled for creep. A board that is glued down on all sides and runs on over battens sags less.
 * Source: simple beam with uniform load, any handbook of mechanics (Gere and Timoshenko; Roark), from memory.
 * @returns null for a board whose stiffness is not known here
 */
export function boardSag({ material, thickness }: Plan["board"], spanMm: number): Sag | null {
  if (!/^(mdf|hdf)\b/i.test(material.trim())) return null;
  const densityKgPerM3 = densityOf(thickness);
  const modulusNPerMm2 = modulusOf(thickness);
  const newtonsPerMm2 = ((densityKgPerM3 * thickness) / 1000 + CLOTH_KG_PER_M2) * GRAVITY_N_PER_KG * 1e-6;
  const inertiaMm3 = thickness ** 3 / 12;
  const sagMm = (CREEP * 5 * newtonsPerMm2 * spanMm ** 4) / (384 * modulusNPerMm2 * inertiaMm3);
  return { spanMm, sagMm, densityKgPerM3, modulusNPerMm2 };
}
