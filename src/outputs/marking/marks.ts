import { type PixelPoint, paintLine, paintPolyline } from "../../render/paint.ts";
import type { SizeSymbol } from "../../render/sizeSymbols.ts";
import type { Hole } from "../../schedule/types.ts";
import { type Canvas, faceToPixels } from "./canvas.ts";

export interface HoleMark {
  readonly hole: Hole;
  readonly at: PixelPoint;
  /** Pixels for each mm of the symbol; less where holes are crowded. */
  readonly scalePx: number;
}

/** A symbol of 1 mm on paper, in units of the picture. */
export const SYMBOL_UNITS = 16;
/** Of the distance to the nearest hole: farther out no symbol reaches, so that two never cross. */
const SHARE_OF_GAP = 0.46;
/** Smaller symbols cannot be told apart: two holes at the least spacing then touch. */
const LEAST_REACH_UNITS = 6;

/** Where the holes shown fall in the picture, and how large each symbol may be. */
export function placeMarks(
  { picture, unitPx }: Canvas,
  symbols: ReadonlyMap<number, SizeSymbol>,
): HoleMark[] {
  const placed = picture.panels.flatMap((panel) =>
    panel.holes.map((hole) => ({ hole, at: faceToPixels(picture, panel, [hole.xMm, hole.yMm]) })),
  );
  // The widest symbol reaches some 30 units: cells of twice that hold every neighbour that matters within one cell's step.
  const cellPx = 64 * unitPx;
  const cellOf = ([x, y]: PixelPoint) => [Math.floor(x / cellPx), Math.floor(y / cellPx)] as const;
  const cells = new Map<string, PixelPoint[]>();
  for (const { at } of placed) {
    const key = cellOf(at).join();
    const cell = cells.get(key);
    if (cell) cell.push(at);
    else cells.set(key, [at]);
  }
  return placed.map(({ hole, at }) => {
    const [column, row] = cellOf(at);
    let nearest = Infinity;
    for (let c = column - 1; c <= column + 1; c++)
      for (let r = row - 1; r <= row + 1; r++)
        for (const other of cells.get(`${c},${r}`) ?? [])
          if (other !== at) nearest = Math.min(nearest, Math.hypot(other[0] - at[0], other[1] - at[1]));
    const { reachMm } = symbols.get(hole.diameterMm)!;
    const reachPx = Math.max(LEAST_REACH_UNITS * unitPx, SHARE_OF_GAP * nearest);
    return { hole, at, scalePx: Math.min(SYMBOL_UNITS * unitPx, reachPx / reachMm) };
  });
}

export function drawMarks(
  canvas: Canvas,
  marks: readonly HoleMark[],
  symbols: ReadonlyMap<number, SizeSymbol>,
): void {
  for (const { hole, at, scalePx } of marks) drawSymbol(canvas, symbols.get(hole.diameterMm)!, at, scalePx);
}

/** The symbol's outline in its colour, and a small cross on the very centre: where the awl goes. */
export function drawSymbol(
  { raster, theme, unitPx }: Canvas,
  symbol: SizeSymbol,
  [x, y]: PixelPoint,
  scalePx: number,
): void {
  paintPolyline(
    raster,
    symbol.ring.map(([sx, sy]): PixelPoint => [x + sx * scalePx, y - sy * scalePx]),
    true,
    3.4 * unitPx,
    theme.colourOf(symbol),
  );
  // Inside the outline, also of a triangle and of a small circle.
  const arm = Math.min(7 * unitPx, 0.42 * symbol.reachMm * scalePx);
  paintLine(raster, [x - arm, y], [x + arm, y], 1.6 * unitPx, theme.line);
  paintLine(raster, [x, y - arm], [x, y + arm], 1.6 * unitPx, theme.line);
}
