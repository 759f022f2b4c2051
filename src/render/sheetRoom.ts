import Flatbush from "flatbush";
import { boxOf, type Ring, ringHolds } from "../panel/rings.ts";
import { ringCrossesBox } from "./boxInRing.ts";
import { type Disc, discGrid } from "./discGrid.ts";
import type { InkBox } from "./font.ts";
import { boxesMeet } from "./labelRoom.ts";

/** What stands where on a sheet, in paper mm, y down. */
export interface SheetRoom {
  isFree(box: InkBox): boolean;
  /** Hole symbols that touch the box. */
  holesUnder(box: InkBox): number;
  take(box: InkBox): void;
  /** How many panels' outlines run through the box, and how many battens lie under it. */
  edgesUnder(box: InkBox): number;
  battensUnder(box: InkBox): number;
}

const CELL_MM = 15;
const GAP_MM = 0.4;

export function sheetRoom(
  holes: readonly Disc[],
  outlines: readonly Ring[],
  battens: readonly Ring[],
): SheetRoom {
  const grid = discGrid(holes, 6);
  const outlinesNear = ringsNear(outlines);
  const battensNear = ringsNear(battens);
  const cells = new Map<string, InkBox[]>();
  const cellsOf = (box: InkBox): string[] => {
    const keys: string[] = [];
    for (let column = Math.floor(box.leftMm / CELL_MM); column <= Math.floor(box.rightMm / CELL_MM); column++)
      for (let row = Math.floor(box.topMm / CELL_MM); row <= Math.floor(box.bottomMm / CELL_MM); row++)
        keys.push(`${column} ${row}`);
    return keys;
  };
  return {
    isFree: (box) =>
      cellsOf({
        leftMm: box.leftMm - GAP_MM,
        rightMm: box.rightMm + GAP_MM,
        topMm: box.topMm - GAP_MM,
        bottomMm: box.bottomMm + GAP_MM,
      }).every((key) => !(cells.get(key) ?? []).some((other) => boxesMeet(box, other, GAP_MM))),
    holesUnder: (box) => grid.countNear(box, 0.2),
    edgesUnder: (box) => outlinesNear(box).filter((ring) => ringCrossesBox(ring, box)).length,
    battensUnder: (box) =>
      battensNear(box).filter((ring) => ringHolds(ring, box.leftMm, box.topMm) || ringCrossesBox(ring, box))
        .length,
    take(box) {
      for (const key of cellsOf(box)) {
        const cell = cells.get(key);
        if (cell) cell.push(box);
        else cells.set(key, [box]);
      }
    },
  };
}

/** Those of many rings whose boxes meet a box. */
function ringsNear(rings: readonly Ring[]): (box: InkBox) => Ring[] {
  if (rings.length === 0) return () => [];
  const index = new Flatbush(rings.length);
  for (const ring of rings) {
    const { xMm, yMm, widthMm, lengthMm } = boxOf(ring);
    index.add(xMm, yMm, xMm + widthMm, yMm + lengthMm);
  }
  index.finish();
  return ({ leftMm, topMm, rightMm, bottomMm }) =>
    index.search(leftMm, topMm, rightMm, bottomMm).map((i) => rings[i]!);
}
