import type { FibrePlan } from "../plan/plan.ts";
import { strandStock, usableStrands } from "./stock.ts";

/** What a number of objects asks for, in the bundle's own mix. */
export interface StrandOrder {
  readonly objects: number;
  /** Whole bundles, reserve included. */
  readonly bundles: number;
  readonly strands: readonly {
    readonly diameterMm: number;
    readonly bought: number;
    readonly heldBack: number;
    readonly needed: number;
    readonly spare: number;
  }[];
}

/**
 * The fewest whole bundles whose usable strands light so many objects, and how many strands of each diameter that takes:
 * brightest to thickest, so that what is spare is thin.
 */
export function strandsFor(objects: number, fibre: FibrePlan): StrandOrder {
  let bundles = 0;
  const perBundle = Object.values(fibre.bundles.strands).reduce((sum, count) => sum + count, 0);
  if (objects > 0) {
    bundles = Math.max(1, Math.floor(objects / perBundle));
    while (usableStrands(strandStock(fibre, bundles)) < objects) bundles++;
  }
  let rest = objects;
  const strands = strandStock(fibre, bundles).map((size) => {
    const needed = Math.min(rest, size.usable);
    rest -= needed;
    return {
      diameterMm: size.diameterMm,
      bought: size.owned,
      heldBack: size.heldBack,
      needed,
      spare: size.usable - needed,
    };
  });
  return { objects, bundles, strands };
}
