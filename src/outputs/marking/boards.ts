import { ringHolds } from "../../panel/rings.ts";
import type { Point } from "../../projection/homography.ts";
import { paintLine, paintPolyline } from "../../render/paint.ts";
import type { MarkedPanel } from "../../schedule/markingTypes.ts";
import { type Canvas, faceToPixels } from "./canvas.ts";

/** Every fifth line is strong. */
const STRONG = 5;

/** Each board's outline, its own grid from its lower-left corner with mm of the face frame, and its id, large and faint. */
export function drawBoards(canvas: Canvas, gridMm: number): void {
  for (const panel of canvas.picture.panels) {
    drawId(canvas, panel);
    drawGrid(canvas, panel, gridMm);
  }
  // Outlines last: no grid line runs over a board's edge.
  for (const panel of canvas.picture.panels) {
    const outline = panel.board.outlineMm.map((corner) => faceToPixels(canvas.picture, panel, corner));
    paintPolyline(canvas.raster, outline, true, 3 * canvas.unitPx, canvas.theme.line);
    for (const [k, corner] of outline.entries()) canvas.taken.addLine(outline.at(k - 1)!, corner);
  }
}

function drawGrid(
  { raster, picture, theme, text, unitPx, taken }: Canvas,
  panel: MarkedPanel,
  gridMm: number,
): void {
  const { outlineMm, widthMm, lengthMm } = panel.board;
  for (const axis of [0, 1] as const) {
    for (let k = 1; k * gridMm < (axis === 0 ? widthMm : lengthMm); k++) {
      const at = k * gridMm;
      const strong = k % STRONG === 0;
      const stretches = stretchesInside(outlineMm, axis, at);
      for (const [from, to] of stretches) {
        const ends = [from, to].map((other): Point => (axis === 0 ? [at, other] : [other, at]));
        paintLine(
          raster,
          faceToPixels(picture, panel, ends[0]!),
          faceToPixels(picture, panel, ends[1]!),
          (strong ? 2 : 1.2) * unitPx,
          strong ? theme.strongGrid : theme.grid,
        );
      }
      const first = stretches[0];
      if (first === undefined) continue;
      const [x, y] = faceToPixels(picture, panel, axis === 0 ? [at, first[0]] : [first[0], at]);
      const label = String(Number(at.toFixed(2)));
      const sizePx = 18 * unitPx;
      const [left, baseline] = [x + 6 * unitPx, y - 7 * unitPx];
      text.paint(raster, label, left, baseline, { sizePx, rgb: theme.gridWords });
      const right = left + text.widthPx(label, sizePx);
      taken.add({ left, right, top: baseline - 0.75 * sizePx, bottom: baseline });
    }
  }
}

/** Where a line of the grid runs inside a ring: stretches of its other coordinate, from the lowest. @param axis 0: x is `at` */
function stretchesInside(ring: readonly Point[], axis: 0 | 1, at: number): [number, number][] {
  const crossings: number[] = [];
  for (const [k, corner] of ring.entries()) {
    const before = ring.at(k - 1)!;
    const [a, b] = [before[axis], corner[axis]];
    if (a < at === b < at) continue;
    const other = axis === 0 ? 1 : 0;
    crossings.push(before[other] + ((at - a) / (b - a)) * (corner[other] - before[other]));
  }
  crossings.sort((a, b) => a - b);
  return Array.from({ length: crossings.length >> 1 }, (_, k) => [crossings[2 * k]!, crossings[2 * k + 1]!]);
}

function drawId({ raster, picture, theme, text, unitPx }: Canvas, panel: MarkedPanel): void {
  const { id, outlineMm, widthMm, lengthMm } = panel.board;
  // An outline may have a notch where its middle would be.
  const tries: Point[] = [
    [0.5, 0.5],
    [0.3, 0.3],
    [0.7, 0.3],
    [0.7, 0.7],
    [0.3, 0.7],
  ];
  const place = tries
    .map(([u, v]): Point => [u * widthMm, v * lengthMm])
    .find(([x, y]) => ringHolds(outlineMm, x, y));
  if (place === undefined) return;
  const [x, y] = faceToPixels(picture, panel, place);
  const sizePx = Math.min(330, 1000 / id.length) * unitPx;
  text.paint(raster, id, x, y + 0.25 * sizePx, { sizePx, anchor: "middle", rgb: theme.watermark });
  text.paint(raster, "FACE", x, y + 0.62 * sizePx, {
    sizePx: 0.25 * sizePx,
    anchor: "middle",
    rgb: theme.watermark,
  });
}
