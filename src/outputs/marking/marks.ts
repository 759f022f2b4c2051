import { type PixelPoint, paintLine, paintRings } from "../../render/paint.ts";
import type { SizeSymbol } from "../../render/sizeSymbols.ts";
import type { Hole } from "../../schedule/types.ts";
import { type Canvas, faceToPixels } from "./canvas.ts";
import { crossWidthPx, leastScalePx, strokePx, symbolScalePx } from "./symbolSize.ts";

export interface HoleMark {
  readonly hole: Hole;
  readonly at: PixelPoint;
  /** Pixels for each mm of the symbol; less where holes are crowded. */
  readonly scalePx: number;
}

/** Reaches of two neighbours over their distance: open shapes may cross a little and still be told apart. */
const CROSSING = 1.15;

/** Where holes fall in the picture, and how large each symbol may be. @param which those that are shown, or all of the panels */
export function placeMarks(
  { picture, unitPx }: Canvas,
  symbols: ReadonlyMap<number, SizeSymbol>,
  which: "holes" | "allHoles" = "holes",
): HoleMark[] {
  const placed = picture.panels.flatMap((panel) =>
    panel[which].map((hole) => ({ hole, at: faceToPixels(picture, panel, [hole.xMm, hole.yMm]) })),
  );
  // The widest symbols reach 2.2 mm each: a neighbour that matters is never two cells away.
  const cellPx = 4.5 * symbolScalePx(unitPx);
  const cellOf = ([x, y]: PixelPoint) => [Math.floor(x / cellPx), Math.floor(y / cellPx)] as const;
  const cells = new Map<string, (typeof placed)[number][]>();
  for (const mark of placed) {
    const key = cellOf(mark.at).join();
    const cell = cells.get(key);
    if (cell) cell.push(mark);
    else cells.set(key, [mark]);
  }
  const reachOf = (hole: Hole) => symbols.get(hole.diameterMm)!.reachMm;
  return placed.map((mark) => {
    const { hole, at } = mark;
    const [column, row] = cellOf(at);
    let scalePx = symbolScalePx(unitPx);
    for (let c = column - 1; c <= column + 1; c++)
      for (let r = row - 1; r <= row + 1; r++)
        for (const other of cells.get(`${c},${r}`) ?? []) {
          if (other === mark) continue;
          const gapPx = Math.hypot(other.at[0] - at[0], other.at[1] - at[1]);
          scalePx = Math.min(scalePx, (CROSSING * gapPx) / (reachOf(hole) + reachOf(other.hole)));
        }
    return { hole, at, scalePx: Math.max(scalePx, leastScalePx(symbols.get(hole.diameterMm)!, unitPx)) };
  });
}

/** All outlines, then all crosses: where two holes lie close, no outline runs over a centre. */
export function drawMarks(
  canvas: Canvas,
  marks: readonly HoleMark[],
  symbols: ReadonlyMap<number, SizeSymbol>,
): void {
  for (const { hole, at, scalePx } of marks) drawOutline(canvas, symbols.get(hole.diameterMm)!, at, scalePx);
  for (const { hole, at, scalePx } of marks) drawCross(canvas, symbols.get(hole.diameterMm)!, at, scalePx);
}

export function drawSymbol(canvas: Canvas, symbol: SizeSymbol, at: PixelPoint, scalePx: number): void {
  drawOutline(canvas, symbol, at, scalePx);
  drawCross(canvas, symbol, at, scalePx);
}

/** The symbol in its colour, open, so that nothing hides where the awl goes. */
function drawOutline(
  { raster, theme, unitPx }: Canvas,
  symbol: SizeSymbol,
  [x, y]: PixelPoint,
  scalePx: number,
): void {
  const half = strokePx(unitPx) / 2;
  const ring = symbol.ring.map(([sx, sy]): PixelPoint => [sx * scalePx, -sy * scalePx]);
  // A band between two rings, filled to the exact area of each pixel: strokes by distance would shift the middle by up to 0.2 px.
  const at = (byPx: number) => offset(ring, byPx).map(([rx, ry]): PixelPoint => [x + rx, y + ry]);
  paintRings(raster, [at(half), at(-half).reverse()], theme.colourOf(symbol));
}

/** A ring's edges moved outward by so much, and met again. @param ring clockwise to the eye, as symbols are once y runs down */
function offset(ring: readonly PixelPoint[], byPx: number): PixelPoint[] {
  return ring.map(([x, y], k) => {
    const [ax, ay] = ring.at(k - 1)!;
    const [bx, by] = ring[(k + 1) % ring.length]!;
    const before = Math.hypot(x - ax, y - ay);
    const after = Math.hypot(bx - x, by - y);
    // Normals of the two edges, outward; the corner lies where both moved edges pass.
    const [nx, ny] = [-(y - ay) / before, (x - ax) / before];
    const [mx, my] = [-(by - y) / after, (bx - x) / after];
    const k2 = byPx / (1 + nx * mx + ny * my);
    return [x + k2 * (nx + mx), y + k2 * (ny + my)];
  });
}

/** A small cross on the very centre, inside the outline also of a triangle and of a small circle. */
function drawCross(
  { raster, theme, unitPx }: Canvas,
  symbol: SizeSymbol,
  [x, y]: PixelPoint,
  scalePx: number,
): void {
  const arm = Math.min(7 * Math.max(unitPx, 0.6), 0.42 * symbol.reachMm * scalePx);
  paintLine(raster, [x - arm, y], [x + arm, y], crossWidthPx(unitPx), theme.line);
  paintLine(raster, [x, y - arm], [x, y + arm], crossWidthPx(unitPx), theme.line);
}
