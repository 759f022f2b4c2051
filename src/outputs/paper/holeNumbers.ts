import { CAPITALS } from "../../render/font.ts";
import type { PdfText } from "../pdf/text.ts";
import type { Mark } from "./marks.ts";

export const NUMBER_MM = 2.8;
export const SIZE_MM = 2.1;

/** A hole as a template shows it, in the panel's frame (face or back). */
export interface TemplateHole {
  readonly xMm: number;
  readonly yMm: number;
  readonly mark: Mark;
  /** Its number on this panel. */
  readonly number: string;
  /** Under the number: size, and bundle once it is known; empty for none. */
  readonly below: string;
}

/** Box of a hole's words from its centre, y up. */
export interface NumberPlace {
  readonly leftMm: number;
  readonly bottomMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
}

interface Box {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** Ways in which words may stand: between the arms of the cross, then beyond their ends. */
const SEATS = [
  [1, 1],
  [-1, 1],
  [1, -1],
  [-1, -1],
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
] as const;
const CELL_MM = 12;

/**
 * A place for the words of each hole, clear of other marks and words where there is one; else the place that is least
 * in their way. The same holes give the same places.
 */
export function placeNumbers(holes: readonly TemplateHole[], text: PdfText): NumberPlace[] {
  const cells = new Map<string, Box[]>();
  const eachCell = (box: Box, act: (key: string) => void) => {
    for (let i = Math.floor(box.x0 / CELL_MM); i <= Math.floor(box.x1 / CELL_MM); i++)
      for (let j = Math.floor(box.y0 / CELL_MM); j <= Math.floor(box.y1 / CELL_MM); j++) act(`${i} ${j}`);
  };
  const take = (box: Box) =>
    eachCell(box, (key) => {
      const list = cells.get(key);
      if (list === undefined) cells.set(key, [box]);
      else list.push(box);
    });
  const inTheWay = (box: Box, own: Box) => {
    const met = new Set<Box>();
    eachCell(box, (key) => {
      for (const other of cells.get(key) ?? []) if (other !== own) met.add(other);
    });
    let area = 0;
    for (const other of met) {
      const w = Math.min(box.x1, other.x1) - Math.max(box.x0, other.x0);
      const h = Math.min(box.y1, other.y1) - Math.max(box.y0, other.y0);
      if (w > 0 && h > 0) area += w * h;
    }
    return area;
  };
  const marks = holes.map(({ xMm, yMm, mark: { reachMm: r } }) => ({
    x0: xMm - r,
    y0: yMm - r,
    x1: xMm + r,
    y1: yMm + r,
  }));
  marks.forEach(take);
  return holes.map((hole, i) => {
    const widthMm = Math.max(text.widthMm(hole.number, NUMBER_MM), text.widthMm(hole.below, SIZE_MM));
    const heightMm = CAPITALS * NUMBER_MM + (hole.below === "" ? 0 : CAPITALS * SIZE_MM + 0.6);
    const seats = SEATS.map(([sx, sy]) => seatOf(hole.mark, sx, sy, widthMm, heightMm));
    let best = seats[0]!;
    let least = Number.POSITIVE_INFINITY;
    for (const seat of seats) {
      const cost = inTheWay(boxAt(hole, seat), marks[i]!);
      if (cost < least) [best, least] = [seat, cost];
      if (cost === 0) break;
    }
    take(boxAt(hole, best));
    return best;
  });
}

function seatOf(mark: Mark, sx: number, sy: number, widthMm: number, heightMm: number): NumberPlace {
  // Between the arms a symbol leaves the corner beyond four fifths of its reach.
  const off =
    sx !== 0 && sy !== 0 ? Math.max(0.9, 0.8 * mark.symbol.reachMm * mark.symbolScale) : mark.reachMm + 0.4;
  const along = (sign: number, size: number) => (sign > 0 ? off : sign < 0 ? -off - size : -size / 2);
  return { leftMm: along(sx, widthMm), bottomMm: along(sy, heightMm), widthMm, heightMm };
}

const boxAt = ({ xMm, yMm }: TemplateHole, seat: NumberPlace): Box => ({
  x0: xMm + seat.leftMm - 0.2,
  y0: yMm + seat.bottomMm - 0.2,
  x1: xMm + seat.leftMm + seat.widthMm + 0.2,
  y1: yMm + seat.bottomMm + seat.heightMm + 0.2,
});
