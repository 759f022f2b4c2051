import type { FibrePlan } from "../plan/plan.ts";
import { lessSetAside, NOTHING_SET_ASIDE, type SetAside, strandStock, usableStrands } from "./stock.ts";

/** What a number of objects asks for, in the bundle's own mix. */
export interface StrandOrder {
  readonly objects: number;
  /** Whole bundles, reserve included. */
  readonly bundles: number;
  readonly strands: readonly {
    readonly diameterMm: number;
    readonly bought: number;
    readonly heldBack: number;
    /** For the Moon's ring and the Milky Way. */
    readonly setAside: number;
    /** For the objects. */
    readonly needed: number;
    readonly spare: number;
  }[];
}

/**
 * The fewest whole bundles whose usable strands light so many objects, and how many strands of each diameter that takes:
 * brightest to thickest, so that what is spare is thin.
 */
export function strandsFor(
  objects: number,
  fibre: FibrePlan,
  setAside: SetAside = NOTHING_SET_ASIDE,
): StrandOrder {
  let bundles = 0;
  const perBundle = Object.values(fibre.bundles.strands).reduce((sum, count) => sum + count, 0);
  const forStars = () => lessSetAside(strandStock(fibre, bundles), fibre, setAside);
  if (objects > 0 || setAside.moonHoles > 0) {
    bundles = Math.max(1, Math.floor(objects / perBundle));
    while (usableStrands(forStars() ?? []) < objects || forStars() === null) bundles++;
  }
  let rest = objects;
  const left = forStars()!;
  const strands = strandStock(fibre, bundles).map((size, i) => {
    const usable = left[i]!.usable;
    const needed = Math.min(rest, usable);
    rest -= needed;
    return {
      diameterMm: size.diameterMm,
      bought: size.owned,
      heldBack: size.heldBack,
      setAside: size.usable - usable,
      needed,
      spare: usable - needed,
    };
  });
  return { objects, bundles, strands };
}
