import { shortRoute } from "./shortRoute.ts";

/** What hole numbers are given by. */
export interface Numberable {
  readonly bitMm: number;
  readonly xFaceMm: number;
  readonly yFaceMm: number;
}

/**
 * The order in which a panel is drilled: thinnest bit first, and with each bit along a short way that begins at the datum (the lower-left
 * corner of the board's face), where bits are changed, and may end anywhere. The same holes give the same order, however listed.
 */
export function drillOrder<T extends Numberable>(holes: readonly T[]): T[] {
  const byBit = new Map<number, T[]>();
  // From the bottom up, then from the left: the search has a start of its own choosing.
  for (const hole of [...holes].sort((a, b) => a.yFaceMm - b.yFaceMm || a.xFaceMm - b.xFaceMm)) {
    const list = byBit.get(hole.bitMm);
    if (list) list.push(hole);
    else byBit.set(hole.bitMm, [hole]);
  }
  return [...byBit]
    .sort(([a], [b]) => a - b)
    .flatMap(([, list]) => {
      const route = shortRoute(
        list.map((hole) => hole.xFaceMm),
        list.map((hole) => hole.yFaceMm),
      );
      return route.map((i) => list[i]!);
    });
}
