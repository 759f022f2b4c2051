import type { PreviewRaster } from "./previewRaster.ts";

/*
 * Opaque paint on a raster, with soft edges. Coordinates are pixels from the upper-left corner, y down: the first pixel's
 * centre is at 0.5. Drawn into the array by hand: a drawing of this size laid out by an SVG renderer takes several times as long.
 */

export type Rgb = readonly [number, number, number];
export type PixelPoint = readonly [number, number];

export const rgbOfHex = (hex: string): Rgb =>
  [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16)) as unknown as Rgb;

export function newRaster(widthPx: number, heightPx: number, ground: Rgb): PreviewRaster {
  const data = new Uint8Array(widthPx * heightPx * 3);
  if (ground.every((value) => value === ground[0])) data.fill(ground[0]);
  else for (let i = 0; i < data.length; i++) data[i] = ground[i % 3]!;
  return { data, widthPx, heightPx, channels: 3 };
}

/** What a shape covers of each pixel in a box of whole pixels, row by row, 0 to 1. */
interface Mask {
  readonly leftPx: number;
  readonly topPx: number;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly cover: Float32Array;
}

/** One for all masks, all zero between uses: glyphs are many, and small. */
let scratch = new Float32Array(1 << 16);

/** Cut off at the raster's border; null for a shape that lies outside. */
function maskFor(raster: PreviewRaster, points: readonly PixelPoint[], reachPx: number): Mask | null {
  let [left, top, right, bottom] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of points) {
    left = Math.min(left, x);
    right = Math.max(right, x);
    top = Math.min(top, y);
    bottom = Math.max(bottom, y);
  }
  left = Math.max(0, Math.floor(left - reachPx));
  top = Math.max(0, Math.floor(top - reachPx));
  right = Math.min(raster.widthPx, Math.ceil(right + reachPx));
  bottom = Math.min(raster.heightPx, Math.ceil(bottom + reachPx));
  if (!(right > left && bottom > top)) return null;
  const [widthPx, heightPx] = [right - left, bottom - top];
  if (scratch.length < widthPx * heightPx) scratch = new Float32Array(widthPx * heightPx);
  return { leftPx: left, topPx: top, widthPx, heightPx, cover: scratch };
}

/** Paints what a mask covers, and leaves it empty. */
function blend({ data, widthPx }: PreviewRaster, mask: Mask, rgb: Rgb): void {
  for (let row = 0, i = 0; row < mask.heightPx; row++) {
    let at = ((mask.topPx + row) * widthPx + mask.leftPx) * 3;
    for (let column = 0; column < mask.widthPx; column++, i++, at += 3) {
      const cover = mask.cover[i]!;
      if (cover === 0) continue;
      mask.cover[i] = 0;
      mix(data, at, rgb, cover);
    }
  }
}

function mix(data: Uint8Array, at: number, rgb: Rgb, cover: number): void {
  for (let channel = 0; channel < 3; channel++) {
    const below = data[at + channel]!;
    data[at + channel] = Math.round(below + cover * (rgb[channel]! - below));
  }
}

/** A straight line with round ends: no mask, since it may run across the whole picture. */
export function paintLine(
  raster: PreviewRaster,
  from: PixelPoint,
  to: PixelPoint,
  widthPx: number,
  rgb: Rgb,
): void {
  const box = { leftPx: 0, topPx: 0, widthPx: raster.widthPx, heightPx: raster.heightPx };
  coverLine(box, from, to, widthPx, (index, cover) => mix(raster.data, index * 3, rgb, cover));
}

/** Lines from point to point, painted at once: where two meet nothing is painted twice. */
export function paintPolyline(
  raster: PreviewRaster,
  points: readonly PixelPoint[],
  closed: boolean,
  widthPx: number,
  rgb: Rgb,
): void {
  const mask = maskFor(raster, points, widthPx / 2 + 1);
  if (mask === null) return;
  for (let k = closed ? 0 : 1; k < points.length; k++)
    coverLine(mask, points.at(k - 1)!, points[k]!, widthPx, (index, cover) => {
      if (cover > mask.cover[index]!) mask.cover[index] = cover;
    });
  blend(raster, mask, rgb);
}

/** Visits the pixels of a box that a line with round ends covers, and how much of each. */
function coverLine(
  box: Omit<Mask, "cover">,
  [x0, y0]: PixelPoint,
  [x1, y1]: PixelPoint,
  widthPx: number,
  visit: (index: number, cover: number) => void,
): void {
  const reach = widthPx / 2 + 0.5;
  const most = Math.min(1, widthPx);
  const [dx, dy] = [x1 - x0, y1 - y0];
  const length2 = dx * dx + dy * dy;
  const slope = dy === 0 ? 0 : dx / dy;
  const aside = reach * Math.sqrt(1 + slope * slope);
  const firstRow = Math.max(box.topPx, Math.floor(Math.min(y0, y1) - reach));
  const lastRow = Math.min(box.topPx + box.heightPx - 1, Math.floor(Math.max(y0, y1) + reach));
  for (let row = firstRow; row <= lastRow; row++) {
    let from = Math.min(x0, x1) - reach;
    let to = Math.max(x0, x1) + reach;
    if (dy !== 0) {
      const x = x0 + (row + 0.5 - y0) * slope;
      from = Math.max(from, x - aside - 0.5);
      to = Math.min(to, x + aside + 0.5);
    }
    const last = Math.min(box.leftPx + box.widthPx - 1, Math.floor(to));
    const py = row + 0.5 - y0;
    for (let column = Math.max(box.leftPx, Math.floor(from)); column <= last; column++) {
      const px = column + 0.5 - x0;
      const part = length2 === 0 ? 0 : Math.min(1, Math.max(0, (px * dx + py * dy) / length2));
      const offX = px - part * dx;
      const offY = py - part * dy;
      const cover = Math.min(most, reach - Math.sqrt(offX * offX + offY * offY));
      if (cover > 0) visit((row - box.topPx) * box.widthPx + column - box.leftPx, cover);
    }
  }
}

/**
 * Fills rings, the area of each pixel that they cover to the last digit; an inner ring that runs the other way leaves a hole.
 * Each edge adds, at the pixels that it crosses, what it covers to its right; the sum along a row is the coverage.
 * Source: the signed-area accumulation of font rasterisers (common practice; R. Levien's font-rs describes it).
 */
export function paintRings(raster: PreviewRaster, rings: readonly (readonly PixelPoint[])[], rgb: Rgb): void {
  const mask = maskFor(raster, rings.flat(), 0);
  if (mask === null) return;
  for (const ring of rings) for (let k = 0; k < ring.length; k++) accumulate(mask, ring.at(k - 1)!, ring[k]!);
  for (let row = 0, i = 0; row < mask.heightPx; row++)
    for (let column = 0, sum = 0; column < mask.widthPx; column++, i++) {
      sum += mask.cover[i]!;
      mask.cover[i] = Math.min(1, Math.abs(sum));
    }
  blend(raster, mask, rgb);
}

/** Adds one edge; what lies left of the box counts fully, right of it not at all. */
function accumulate(mask: Mask, [ax, ay]: PixelPoint, [bx, by]: PixelPoint): void {
  if (ay === by) return;
  const sense = ay < by ? 1 : -1;
  const [x0, y0, x1, y1] = ay < by ? [ax, ay, bx, by] : [bx, by, ax, ay];
  const slope = (x1 - x0) / (y1 - y0);
  const firstRow = Math.max(0, Math.floor(y0) - mask.topPx);
  const lastRow = Math.min(mask.heightPx - 1, Math.ceil(y1) - 1 - mask.topPx);
  for (let row = firstRow; row <= lastRow; row++) {
    const top = Math.max(y0, row + mask.topPx);
    const bottom = Math.min(y1, row + mask.topPx + 1);
    const p = Math.min(mask.widthPx, Math.max(0, x0 + (top - y0) * slope - mask.leftPx));
    const q = Math.min(mask.widthPx, Math.max(0, x0 + (bottom - y0) * slope - mask.leftPx));
    const left = Math.min(p, q);
    const right = Math.max(p, q);
    const high = sense * (bottom - top);
    // Of the strip's area right of the edge, column by column; what a column has more than the one before is added to it.
    let before = 0;
    for (let column = Math.floor(left); column < mask.widthPx; column++) {
      const covered = rightOf(left, right, column + 1) * high;
      const at = row * mask.widthPx + column;
      mask.cover[at] = mask.cover[at]! + covered - before;
      before = covered;
      if (column >= right) break;
    }
  }
}

/** Of a pixel that ends at `end`: the part of its area that lies right of an edge running from `left` to `right` across its row. */
const rightOf = (left: number, right: number, end: number): number =>
  shareUpTo(left, right, end) - shareUpTo(left, right, end - 1);

/** The integral, up to x, of the share of the edge that lies left of it. */
function shareUpTo(left: number, right: number, x: number): number {
  if (x <= left) return 0;
  if (x >= right) return x - (left + right) / 2;
  return (x - left) ** 2 / (2 * (right - left));
}
