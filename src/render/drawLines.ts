import type { PointMm } from "../projection/frames.ts";
import type { InkBox } from "./font.ts";
import { toPicture } from "./labelRoom.ts";
import { boundaryColour, boundaryDash, boundaryWidth, figureColour, figureWidth } from "./labelStyle.ts";
import { unitMmOf } from "./pictureScale.ts";
import type { PreviewRaster } from "./previewRaster.ts";
import type { PreviewLines, PreviewScene } from "./previewScene.ts";

/** A straight stroke in pixels from the upper-left corner of the picture. */
interface Stroke {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/**
 * Lines of the sky into a raster that holds its dots already: of each pixel's two values the lighter stays, so that no star
 * changes. By hand, since laying a drawing of this size over the raster takes as long as all the rest.
 * @param breaks boxes in the picture frame that stay free
 */
export function drawLines(
  raster: PreviewRaster,
  scene: PreviewScene,
  lines: PreviewLines,
  breaks: readonly InkBox[],
): void {
  const pxPerMm = raster.widthPx / scene.widthMm;
  const yPxPerMm = raster.heightPx / scene.lengthMm;
  const unitPx = unitMmOf(scene, raster.widthPx) * pxPerMm;
  const boxes = breaks.map((box) => ({
    left: box.leftMm * pxPerMm,
    right: box.rightMm * pxPerMm,
    top: box.topMm * yPxPerMm,
    bottom: box.bottomMm * yPxPerMm,
  }));
  const draw = (strokes: readonly Stroke[], width: number, colour: string): void => {
    const paint = { halfPx: (width * unitPx) / 2, rgb: rgbOf(colour) };
    const near = boxesNear(boxes, strokes, paint.halfPx + 0.5); // of the whole chain first: dashes are many
    for (const stroke of strokes) drawStroke(raster, stroke, paint, near);
  };
  const strokesOf = (chain: readonly PointMm[]): Stroke[] => {
    const points = chain.map((point) => {
      const { x, y } = toPicture(scene, point);
      return { x: x * pxPerMm, y: y * yPxPerMm };
    });
    return points.slice(1).map(({ x, y }, i) => ({ x0: points[i]!.x, y0: points[i]!.y, x1: x, y1: y }));
  };
  const dash = boundaryDash.map((part) => part * unitPx);
  for (const chain of lines.boundaries) draw(dashed(strokesOf(chain), dash), boundaryWidth, boundaryColour);
  for (const chain of lines.figures) draw(strokesOf(chain), figureWidth, figureColour);
}

/** Strokes cut up as SVG's stroke-dasharray does: the pattern runs on around corners. @param dash drawn, left out, in px */
function dashed(strokes: readonly Stroke[], dash: readonly number[]): Stroke[] {
  const pieces: Stroke[] = [];
  let part = 0;
  let leftPx = dash[0]!;
  for (const { x0, y0, x1, y1 } of strokes) {
    const lengthPx = Math.hypot(x1 - x0, y1 - y0);
    for (let at = 0; at < lengthPx; ) {
      const to = Math.min(lengthPx, at + leftPx);
      const [a, b] = [at / lengthPx, to / lengthPx];
      if (part === 0)
        pieces.push({
          x0: x0 + a * (x1 - x0),
          y0: y0 + a * (y1 - y0),
          x1: x0 + b * (x1 - x0),
          y1: y0 + b * (y1 - y0),
        });
      leftPx -= to - at;
      at = to;
      if (leftPx <= 1e-9) {
        part = (part + 1) % dash.length;
        leftPx = dash[part]!;
      }
    }
  }
  return pieces;
}

interface BoxPx {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** A stroke with round ends; a pixel that it covers in part gets that part of its light. */
function drawStroke(
  { data, widthPx, heightPx }: PreviewRaster,
  { x0, y0, x1, y1 }: Stroke,
  { halfPx, rgb }: { halfPx: number; rgb: readonly number[] },
  boxes: readonly BoxPx[],
): void {
  const reach = halfPx + 0.5;
  const near = boxes.length === 0 ? boxes : boxesNear(boxes, [{ x0, y0, x1, y1 }], reach);
  const [dx, dy] = [x1 - x0, y1 - y0];
  const length2 = dx * dx + dy * dy;
  const slope = dy === 0 ? 0 : dx / dy;
  const aside = reach * Math.sqrt(1 + slope * slope);
  const firstRow = Math.max(0, Math.floor(Math.min(y0, y1) - reach));
  const lastRow = Math.min(heightPx - 1, Math.floor(Math.max(y0, y1) + reach));
  for (let row = firstRow; row <= lastRow; row++) {
    // The stroke's own columns in this row, with its width; pixel centres lie at halves.
    let [from, to] = [Math.min(x0, x1) - reach, Math.max(x0, x1) + reach];
    if (dy !== 0) {
      const x = x0 + (row + 0.5 - y0) * slope;
      [from, to] = [Math.max(from, x - aside), Math.min(to, x + aside)];
    }
    const last = Math.min(widthPx - 1, Math.floor(to));
    const py = row + 0.5 - y0;
    for (let column = Math.max(0, Math.floor(from)); column <= last; column++) {
      const px = column + 0.5 - x0;
      const part = length2 === 0 ? 0 : Math.min(1, Math.max(0, (px * dx + py * dy) / length2));
      const offX = px - part * dx;
      const offY = py - part * dy;
      const cover = Math.min(1, reach - Math.sqrt(offX * offX + offY * offY), 2 * halfPx);
      if (cover <= 0 || near.some((box) => isIn(box, column + 0.5, row + 0.5))) continue;
      for (let channel = 0, at = (row * widthPx + column) * 3; channel < 3; channel++, at++)
        data[at] = Math.max(data[at]!, Math.round(cover * rgb[channel]!));
    }
  }
}

function boxesNear(boxes: readonly BoxPx[], strokes: readonly Stroke[], reachPx: number): readonly BoxPx[] {
  const xs = strokes.flatMap(({ x0, x1 }) => [x0, x1]);
  const ys = strokes.flatMap(({ y0, y1 }) => [y0, y1]);
  const [left, right] = [Math.min(...xs) - reachPx, Math.max(...xs) + reachPx];
  const [top, bottom] = [Math.min(...ys) - reachPx, Math.max(...ys) + reachPx];
  return boxes.filter((box) => box.left < right && box.right > left && box.top < bottom && box.bottom > top);
}

const isIn = (box: BoxPx, x: number, y: number): boolean =>
  x > box.left && x < box.right && y > box.top && y < box.bottom;

const rgbOf = (hex: string): number[] => [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16));
