import type { FibrePlan } from "../plan/plan.ts";

/** The strands of one diameter over all bundles. */
export interface StrandStock {
  readonly diameterMm: number;
  readonly bitMm: number;
  readonly owned: number;
  /** Held back before grading: the reserve's share, rounded up to whole strands. */
  readonly heldBack: number;
  readonly usable: number;
}

const reserveShare = (fibre: FibrePlan): number => Number.parseFloat(fibre.reserve) / 100;

/** What the bundles bring, thickest first: the order in which strands go to stars. */
export function strandStock(fibre: FibrePlan, bundleCount: number = fibre.bundles.count): StrandStock[] {
  const share = reserveShare(fibre);
  return fibre.sizes
    .filter(({ diameter }) => (fibre.bundles.strands[`${diameter}mm`] ?? 0) > 0)
    .map(({ diameter, bit }) => {
      const owned = bundleCount * (fibre.bundles.strands[`${diameter}mm`] ?? 0);
      // A count times a share may come out a hair over a whole number; that hair is no strand.
      const heldBack = Math.ceil(owned * share - 1e-9);
      return { diameterMm: diameter, bitMm: bit, owned, heldBack, usable: owned - heldBack };
    })
    .sort((a, b) => b.diameterMm - a.diameterMm);
}

export const usableStrands = (stock: readonly StrandStock[]): number =>
  stock.reduce((sum, size) => sum + size.usable, 0);
