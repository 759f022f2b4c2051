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

/** The thinnest strands' share that goes along the Milky Way, to the nearest whole strand. @param stock after the reserve */
export const milkyWayStrands = (stock: readonly StrandStock[], fibre: FibrePlan): number =>
  Math.round(((stock.at(-1)?.usable ?? 0) * Number.parseFloat(fibre.milkyWay)) / 100);

/** Strands that are not graded, beside the reserve. */
export interface SetAside {
  /** The Moon's ring; no holes when there is none. */
  readonly moonFibreMm: number;
  readonly moonHoles: number;
  /** Whether the Milky Way gets its share: it does not where it is not over the ceiling. */
  readonly milkyWay: boolean;
}

export const NOTHING_SET_ASIDE: SetAside = { moonFibreMm: 0, moonHoles: 0, milkyWay: false };

/** What is left for stars. @returns null when there are too few strands for the Moon's ring */
export function lessSetAside(
  stock: readonly StrandStock[],
  fibre: FibrePlan,
  { moonFibreMm, moonHoles, milkyWay }: SetAside,
): StrandStock[] | null {
  const moons = stock.find((size) => size.diameterMm === moonFibreMm);
  if (moonHoles > (moons?.usable ?? 0)) return null;
  const rest = lessStrands(stock, moonFibreMm, moonHoles);
  return milkyWay ? lessStrands(rest, rest.at(-1)!.diameterMm, milkyWayStrands(stock, fibre)) : rest;
}

/** The stock without some strands of one diameter, or without any when it has no more. */
export const lessStrands = (
  stock: readonly StrandStock[],
  diameterMm: number,
  strands: number,
): StrandStock[] =>
  stock.map((size) =>
    size.diameterMm === diameterMm ? { ...size, usable: Math.max(0, size.usable - strands) } : size,
  );

export const usableStrands = (stock: readonly StrandStock[]): number =>
  stock.reduce((sum, size) => sum + size.usable, 0);
