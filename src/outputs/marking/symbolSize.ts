import type { SizeSymbol } from "../../render/sizeSymbols.ts";

/** A symbol of 1 mm on paper, in units of the picture, and no smaller in pixels: in a small picture a unit is too little to show a shape. */
const SYMBOL_UNITS = 16;
const SYMBOL_PX = 10;
/** Of a symbol's outline. */
const STROKE_UNITS = 3.4;
const STROKE_PX = 1.8;
const CROSS_UNITS = 1.6;
const CROSS_PX = 1.1;
/** Crowded symbols shrink, but not below this: from the centre to the farthest corner, and to the nearest edge, where the cross must show. */
const LEAST_REACH_UNITS = 8;
const LEAST_REACH_PX = 5;
const LEAST_INSIDE_UNITS = 5.5;
const LEAST_INSIDE_PX = 4.5;

/** Pixels for each mm of a symbol that has room. @param unitPx pixels of a unit: 1 in a picture 2160 high */
export const symbolScalePx = (unitPx: number): number => Math.max(SYMBOL_UNITS * unitPx, SYMBOL_PX);

/** Of a crowded one: two holes at the least spacing then overlap, and can still be told apart. */
export const leastScalePx = (symbol: SizeSymbol, unitPx: number): number =>
  Math.min(
    symbolScalePx(unitPx),
    Math.max(
      Math.max(LEAST_REACH_UNITS * unitPx, LEAST_REACH_PX) / symbol.reachMm,
      Math.max(LEAST_INSIDE_UNITS * unitPx, LEAST_INSIDE_PX) / insideMm(symbol),
    ),
  );

export const strokePx = (unitPx: number): number => Math.max(STROKE_UNITS * unitPx, STROKE_PX);

export const crossWidthPx = (unitPx: number): number => Math.max(CROSS_UNITS * unitPx, CROSS_PX);

/** Least size of words on a board. */
const WORDS_PX = 11;

/** Numbers and names beside marks. */
export const wordsPx = (units: number, unitPx: number): number => Math.max(units * unitPx, WORDS_PX);

/** From the centre to the nearest edge, at scale 1. */
const insideMm = ({ ring }: SizeSymbol): number =>
  Math.min(
    ...ring.map(([x, y], k) => {
      const [nextX, nextY] = ring[(k + 1) % ring.length]!;
      return Math.abs(x * nextY - y * nextX) / Math.hypot(nextX - x, nextY - y);
    }),
  );
