import type { WallNames } from "../../plan/plan.ts";
import type { Point } from "../../projection/homography.ts";
import { type PixelPoint, paintLine, paintPolyline } from "../../render/paint.ts";
import { cornerNames } from "../../schedule/markingTypes.ts";
import { type Canvas, pictureToPixels } from "./canvas.ts";

/** Where the picture is set on the board: a target on each of four real corners, named. */
export function drawCorners(canvas: Canvas): void {
  const { raster, picture, theme, text, unitPx } = canvas;
  if (picture.cornersMm === null) return;
  const [cx, cy] = pictureToPixels(picture, [picture.widthMm / 2, picture.lengthMm / 2]);
  for (const [k, corner] of picture.cornersMm.entries()) {
    const at = pictureToPixels(picture, corner);
    drawTarget(canvas, at, [20, 40], 62);
    // Beside the target, away from the board's middle.
    const [left, below] = [at[0] < cx, at[1] > cy];
    text.paint(
      raster,
      cornerNames[k]!,
      at[0] + (left ? 1 : -1) * 70 * unitPx,
      inside(at[1] + (below ? 44 : -22) * unitPx, picture.heightPx, unitPx),
      { sizePx: 26 * unitPx, anchor: left ? "start" : "end", rgb: theme.words },
    );
  }
}

const inside = (y: number, heightPx: number, unitPx: number): number =>
  Math.min(heightPx - 10 * unitPx, Math.max(30 * unitPx, y));

/** A cross with rings about it, sizes in units of the picture. */
export function drawTarget(
  { raster, theme, unitPx }: Canvas,
  [x, y]: PixelPoint,
  ringUnits: readonly number[],
  armUnits: number,
): void {
  const width = 1.8 * unitPx;
  for (const radius of ringUnits) {
    const ring = Array.from({ length: 64 }, (_, k): PixelPoint => {
      const angle = (k / 32) * Math.PI;
      return [x + radius * unitPx * Math.cos(angle), y + radius * unitPx * Math.sin(angle)];
    });
    paintPolyline(raster, ring, true, width, theme.line);
  }
  const arm = armUnits * unitPx;
  paintLine(raster, [x - arm, y], [x + arm, y], width, theme.line);
  paintLine(raster, [x, y - arm], [x, y + arm], width, theme.line);
}

/** Which edge is which, and the wall that it faces: outside the boards, along their edges. */
export function drawEdgeNames(canvas: Canvas, walls: WallNames): void {
  const { raster, picture, theme, text, unitPx } = canvas;
  const { widthMm: w, lengthMm: l } = picture;
  // Between the real corners, where names of corners stand: a box's corner may be air.
  const [ll, lr, ur, ul] = picture.cornersMm ?? [
    [0, 0],
    [w, 0],
    [w, l],
    [0, l],
  ];
  const edges: [keyof WallNames, Point, Point][] = [
    ["top", [ul[0], l], [ur[0], l]],
    ["right", [w, ur[1]], [w, lr[1]]],
    ["bottom", [ll[0], 0], [lr[0], 0]],
    ["left", [0, ll[1]], [0, ul[1]]],
  ];
  const sizePx = 28 * unitPx;
  for (const [side, from, to] of edges) {
    const [a, b] = [pictureToPixels(picture, from), pictureToPixels(picture, to)];
    const turnedDeg = (Math.atan2(b[1] - a[1], b[0] - a[0]) * 180) / Math.PI;
    const turn = (turnedDeg * Math.PI) / 180;
    // Outward lies above the words, but for the bottom edge, which is read from the same side as the top.
    const off = (side === "bottom" ? 50 : -28) * unitPx;
    const wall = walls[side];
    const words = `${side.toUpperCase()} edge${side === "left" ? " = reference edge" : ""}${wall === undefined ? "" : `, toward the ${wall}`}`;
    const room = Math.hypot(b[0] - a[0], b[1] - a[1]) - 620 * unitPx;
    const fits = Math.min(1, room / text.widthPx(words, sizePx));
    if (fits < 0.5) continue;
    text.paint(
      raster,
      words,
      (a[0] + b[0]) / 2 - off * Math.sin(turn),
      (a[1] + b[1]) / 2 + off * Math.cos(turn),
      { sizePx: sizePx * fits, anchor: "middle", turnedDeg, rgb: theme.words },
    );
  }
}
