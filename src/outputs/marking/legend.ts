import { ringHolds } from "../../panel/rings.ts";
import type { SizeSymbol } from "../../render/sizeSymbols.ts";
import { type Canvas, faceToPixels, pictureToPixels } from "./canvas.ts";
import { drawSymbol, type HoleMark } from "./marks.ts";
import { symbolScalePx } from "./symbolSize.ts";
import type { LegendItem } from "./words.ts";

interface Region {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** In units of the picture; a small picture's words never get smaller than the last, in pixels. */
const LARGEST_UNITS = 38;
const SMALLEST_UNITS = 17;
const SMALLEST_PX = 11;

/** In parts of the text size. */
const LINE = 1.3;
const AFTER = 0.45;
const NARROWEST = 17;
const USUAL = 24;
const WIDEST = 34;
const GUTTER = 2;
const TITLE = 1.6;

/**
 * Words where no board is: beside, above or below, as large as they go. In a picture that the boards fill they stand on a board, where they
 * lie under the fewest marks: draw them before the marks.
 */
export function drawLegend(
  canvas: Canvas,
  items: readonly LegendItem[],
  symbols: ReadonlyMap<number, SizeSymbol>,
  marks: readonly HoleMark[],
): void {
  const { unitPx } = canvas;
  const regions = freeRegions(canvas);
  const smallestPx = Math.max(SMALLEST_PX, SMALLEST_UNITS * unitPx);
  for (let sizePx = LARGEST_UNITS * unitPx; sizePx >= smallestPx; sizePx -= unitPx)
    for (const region of regions) {
      const columns = flowed(canvas, items, sizePx, region);
      if (columns === null) continue;
      drawColumns(canvas, evened(canvas, items, sizePx, region, columns), sizePx, region, symbols);
      return;
    }
  const region = leastCovered(canvas, items, smallestPx, marks);
  const columns = flowed(canvas, items, smallestPx, region);
  if (columns === null) throw new Error(`the words of picture ${canvas.picture.id} fit nowhere`);
  drawColumns(canvas, columns, smallestPx, region, symbols);
}

/** Strips beside the boards and what is written round them, the largest first. */
function freeRegions(canvas: Canvas): Region[] {
  const { picture, unitPx } = canvas;
  const points = picture.panels.flatMap((panel) =>
    panel.board.outlineMm.map((corner) => faceToPixels(picture, panel, corner)),
  );
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  const [aside, rim] = [90 * unitPx, 36 * unitPx];
  const [left, right] = [Math.min(...xs) - aside, Math.max(...xs) + aside];
  const [top, bottom] = [Math.min(...ys) - aside, Math.max(...ys) + aside];
  const [width, height] = [picture.widthPx - 2 * rim, picture.heightPx - 2 * rim];
  return [
    { left: right, top: rim, width: picture.widthPx - rim - right, height },
    { left: rim, top: rim, width: left - rim, height },
    { left: rim, top: bottom, width, height: picture.heightPx - rim - bottom },
    { left: rim, top: rim, width, height: top - rim },
  ].sort((a, b) => Math.max(0, b.width) * b.height - Math.max(0, a.width) * a.height);
}

interface SetItem {
  readonly item: LegendItem;
  readonly lines: readonly string[];
  readonly sizePx: number;
  readonly highPx: number;
}

interface Columns {
  readonly widthPx: number;
  readonly columns: readonly (readonly SetItem[])[];
}

/** Items one after another into columns, none broken; null where they do not fit. */
function flowed(
  { text }: Canvas,
  items: readonly LegendItem[],
  sizePx: number,
  { width, height }: Region,
): Columns | null {
  const gutter = GUTTER * sizePx;
  const most = Math.max(1, Math.floor((width + gutter) / (USUAL * sizePx + gutter)));
  const widthPx = Math.min(WIDEST * sizePx, (width - (most - 1) * gutter) / most);
  if (widthPx < NARROWEST * sizePx) return null;
  const columns: SetItem[][] = [[]];
  let usedPx = 0;
  for (const item of items) {
    const own = item.style === "title" ? TITLE * sizePx : sizePx;
    const lines = text.wrapped(item.text, own, widthPx - indentPx(item, sizePx));
    const highPx = lines.length * LINE * own + AFTER * sizePx;
    if (usedPx + highPx > height) {
      columns.push([]);
      usedPx = 0;
      if (highPx > height) return null;
    }
    columns.at(-1)!.push({ item, lines, sizePx: own, highPx });
    usedPx += highPx;
  }
  return columns.length <= most ? { widthPx, columns } : null;
}

/** The same columns, about equally long. */
function evened(
  canvas: Canvas,
  items: readonly LegendItem[],
  sizePx: number,
  region: Region,
  columns: Columns,
): Columns {
  let best = columns;
  for (let part = 0.98; part > 0.1; part -= 0.02) {
    const shorter = flowed(canvas, items, sizePx, { ...region, height: part * region.height });
    if (shorter === null || shorter.columns.length > columns.columns.length) return best;
    best = shorter;
  }
  return best;
}

const indentPx = ({ diameterMm }: LegendItem, sizePx: number): number =>
  diameterMm === undefined ? 0 : 2 * sizePx;

function drawColumns(
  canvas: Canvas,
  { widthPx, columns }: Columns,
  sizePx: number,
  { left, top }: Region,
  symbols: ReadonlyMap<number, SizeSymbol>,
): void {
  const { raster, text, theme, unitPx } = canvas;
  for (const [k, column] of columns.entries()) {
    const x = left + k * (widthPx + GUTTER * sizePx);
    let y = top;
    for (const { item, lines, sizePx: own, highPx } of column) {
      if (item.diameterMm !== undefined) {
        const symbol = symbols.get(item.diameterMm)!;
        drawSymbol(
          canvas,
          symbol,
          [x + 0.8 * sizePx, y + 0.65 * sizePx],
          legendScalePx(symbol, sizePx, unitPx),
        );
      }
      for (const [row, line] of lines.entries())
        text.paint(raster, line, x + indentPx(item, sizePx), y + (row * LINE + 1) * own, {
          sizePx: own,
          rgb: item.style === "title" || item.style === "strong" ? theme.line : theme.words,
        });
      y += highPx;
    }
  }
}

/** As on the board, unless a line of words has no room for it. */
const legendScalePx = (symbol: SizeSymbol, sizePx: number, unitPx: number): number =>
  Math.min(symbolScalePx(unitPx), (0.85 * sizePx) / symbol.reachMm);

/** A place for all words in the fewest columns that leave two thirds of the height, where they meet the fewest marks. */
function leastCovered(
  canvas: Canvas,
  items: readonly LegendItem[],
  sizePx: number,
  marks: readonly HoleMark[],
): Region {
  const { picture, unitPx } = canvas;
  let size = { width: picture.widthPx, height: picture.heightPx };
  for (let columns = 1; columns <= 8; columns++) {
    const width = columns * WIDEST * sizePx + (columns - 1) * GUTTER * sizePx;
    const set = flowed(canvas, items, sizePx, { left: 0, top: 0, width, height: (2 / 3) * picture.heightPx });
    if (set === null || width > picture.widthPx) continue;
    const high = set.columns.map((column) => column.reduce((sum, { highPx }) => sum + highPx, 0));
    size = { width, height: Math.max(...high) + 1 };
    break;
  }
  let best: Region = { left: 0, top: 0, ...size };
  let fewest = Infinity;
  const step = 40 * unitPx;
  const outlines = picture.panels.map((panel) =>
    panel.board.outlineMm.map((corner) => faceToPixels(picture, panel, corner)),
  );
  const checks = picture.checks.map(({ atMm }) => pictureToPixels(picture, atMm));
  const around = (left: number, top: number) => {
    const [right, bottom] = [left + size.width + step, top + size.height + step];
    return ([x, y]: readonly [number, number]) =>
      x > left - step && x < right && y > top - step && y < bottom;
  };
  for (let left = step; left + size.width <= picture.widthPx - step; left += step)
    for (let top = step; top + size.height <= picture.heightPx - step; top += step) {
      const covers = around(left, top);
      const box = [
        [left - step, top - step],
        [left + size.width + step, top - step],
        [left + size.width + step, top + size.height + step],
        [left - step, top + size.height + step],
      ] as const;
      // Off the edges, where the names of edges and corners stand, and off the check marks.
      const across = outlines.some((ring) => box.every(([x, y]) => ringHolds(ring, x, y))) ? 0 : 1000;
      const met = marks.filter(({ at }) => covers(at)).length + 50 * checks.filter(covers).length + across;
      if (met < fewest) [best, fewest] = [{ left, top, ...size }, met];
    }
  return best;
}
