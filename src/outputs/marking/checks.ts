import type { PixelPoint } from "../../render/paint.ts";
import type { SizeSymbol } from "../../render/sizeSymbols.ts";
import { type BoxPx, boxGrid } from "./boxGrid.ts";
import { type Canvas, pictureToPixels } from "./canvas.ts";
import type { HoleMark } from "./marks.ts";
import { wordsPx } from "./symbolSize.ts";
import { drawTarget } from "./targets.ts";

/** A mark's arms, and its ring: smaller where a hole is nearer, but never too small to measure. */
const ARM_UNITS = 36;
const LEAST_ARM_UNITS = 18;
const RING = 2 / 3;
const GAP_UNITS = 4;

/**
 * The marks that tell what a lens does between the corners, and their names beside them, off the symbols of holes where there is room.
 * @param marks of all holes of the boards, shown or not, so that a mark looks the same on every picture
 */
export function drawChecks(
  canvas: Canvas,
  marks: readonly HoleMark[],
  symbols: ReadonlyMap<number, SizeSymbol>,
): void {
  const { raster, picture, theme, text, unitPx, taken } = canvas;
  const sizePx = wordsPx(24, unitPx);
  const reachPx = ({ hole, scalePx }: HoleMark) => symbols.get(hole.diameterMm)!.reachMm * scalePx;
  const covered = boxGrid(96 * unitPx);
  for (const mark of marks) covered.add(boxAround(mark.at, reachPx(mark) + 2 * unitPx));
  for (const [k, { atMm }] of picture.checks.entries()) {
    const at = pictureToPixels(picture, atMm);
    const roomPx = marks.reduce(
      (least, mark) => Math.min(least, Math.hypot(mark.at[0] - at[0], mark.at[1] - at[1]) - reachPx(mark)),
      Infinity,
    );
    const arm = Math.min(ARM_UNITS, Math.max(LEAST_ARM_UNITS, roomPx / unitPx - GAP_UNITS));
    drawTarget(canvas, at, [RING * arm], arm);
    taken.add(boxAround(at, arm * unitPx));
    const words = `check ${k + 1}`;
    const name = places(at, arm * unitPx, text.widthPx(words, sizePx), sizePx, unitPx)
      .map((box) => ({ box, met: 100 * covered.count(box) + taken.count(box) }))
      .reduce((best, one) => (one.met < best.met ? one : best)).box;
    taken.add(name);
    text.paint(raster, words, name.left, name.bottom - 0.2 * sizePx, { sizePx, rgb: theme.words });
  }
}

const boxAround = ([x, y]: PixelPoint, reach: number): BoxPx => ({
  left: x - reach,
  right: x + reach,
  top: y - reach,
  bottom: y + reach,
});

/** Where a name may stand beside a mark, the best first. */
function places([x, y]: PixelPoint, arm: number, wide: number, sizePx: number, unitPx: number): BoxPx[] {
  const high = sizePx;
  const gap = 3 * unitPx;
  const box = (left: number, top: number): BoxPx => ({ left, right: left + wide, top, bottom: top + high });
  const [right, left] = [x + RING * arm + 2 * gap, x - RING * arm - 2 * gap - wide];
  const [above, below] = [y - gap - high, y + gap];
  return [
    box(right, above),
    box(right, below),
    box(left, above),
    box(left, below),
    box(x - wide / 2, y - arm - gap - high),
    box(x - wide / 2, y + arm + gap),
    box(x + arm + gap, y - high / 2),
    box(x - arm - gap - wide, y - high / 2),
  ];
}
