import type { InkBox } from "./font.ts";

/** A round thing in the picture frame (mm from the upper-left corner, y down). */
export interface Disc {
  readonly x: number;
  readonly y: number;
  readonly radiusMm: number;
}

export function discMeetsBox(disc: Disc, box: InkBox, gapMm: number): boolean {
  const dx = Math.max(box.leftMm - disc.x, 0, disc.x - box.rightMm);
  const dy = Math.max(box.topMm - disc.y, 0, disc.y - box.bottomMm);
  return dx * dx + dy * dy < (disc.radiusMm + gapMm) ** 2;
}

/** Discs sorted into square cells, so that asking about one word does not walk over every star. */
export interface DiscGrid {
  /** How many discs come closer to the box than `gapMm`. */
  countNear(box: InkBox, gapMm: number): number;
}

export function discGrid(discs: readonly Disc[], cellMm: number): DiscGrid {
  const cells = new Map<string, Disc[]>();
  let widestMm = 0;
  for (const disc of discs) {
    const key = `${Math.floor(disc.x / cellMm)} ${Math.floor(disc.y / cellMm)}`;
    const cell = cells.get(key);
    if (cell) cell.push(disc);
    else cells.set(key, [disc]);
    widestMm = Math.max(widestMm, disc.radiusMm);
  }
  return {
    countNear(box, gapMm) {
      const reachMm = widestMm + gapMm;
      let count = 0;
      const lastColumn = Math.floor((box.rightMm + reachMm) / cellMm);
      const lastRow = Math.floor((box.bottomMm + reachMm) / cellMm);
      for (let column = Math.floor((box.leftMm - reachMm) / cellMm); column <= lastColumn; column++)
        for (let row = Math.floor((box.topMm - reachMm) / cellMm); row <= lastRow; row++)
          for (const disc of cells.get(`${column} ${row}`) ?? []) if (discMeetsBox(disc, box, gapMm)) count++;
      return count;
    },
  };
}
