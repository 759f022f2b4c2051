import type { Catalogue, StarVectors } from "./catalogue.ts";
import type { Constellations } from "./constellations.ts";
import type { Designations } from "./designations.ts";

/** The open data that a plan is computed from, read once. */
export interface SkyData {
  readonly catalogue: Catalogue;
  readonly stars: StarVectors;
  readonly designations: Designations;
  readonly constellations: Constellations;
}
