import type { PixelPoint } from "../../render/paint.ts";
import { paintLine } from "../../render/paint.ts";
import type { SizeSymbol } from "../../render/sizeSymbols.ts";
import type { BoxPx } from "./boxGrid.ts";
import type { Canvas } from "./canvas.ts";
import type { HoleMark } from "./marks.ts";
import { wordsPx } from "./symbolSize.ts";

/** Round the mark, the nearest first; a number that lies farther off has a line to its hole. */
const DISTANCES_UNITS = [5, 22, 44, 70, 110];
const DIRECTIONS = 12;

/** Each hole's number beside its mark, where it covers neither another mark nor another number. */
export function drawNumbers(
  canvas: Canvas,
  marks: readonly HoleMark[],
  symbols: ReadonlyMap<number, SizeSymbol>,
): void {
  const { raster, picture, text, theme, unitPx, taken } = canvas;
  const sizePx = wordsPx(22, unitPx);
  const reachOf = ({ hole, scalePx }: HoleMark) => symbols.get(hole.diameterMm)!.reachMm * scalePx;
  for (const mark of marks) {
    const reach = reachOf(mark) + 2 * unitPx;
    const [x, y] = mark.at;
    taken.add({ left: x - reach, right: x + reach, top: y - reach, bottom: y + reach });
  }
  for (const mark of marks) {
    const number = mark.hole.hole.slice(mark.hole.hole.lastIndexOf("-") + 1);
    const [halfWidth, halfHeight] = [text.widthPx(number, sizePx) / 2 + unitPx, 0.4 * sizePx];
    let best: { box: BoxPx; centre: PixelPoint; overlaps: number; far: boolean } | null = null;
    for (const [ring, distance] of DISTANCES_UNITS.entries()) {
      for (let k = 0; k < DIRECTIONS; k++) {
        const angle = -Math.PI / 6 + (2 * Math.PI * k) / DIRECTIONS;
        const [ux, uy] = [Math.cos(angle), Math.sin(angle)];
        const out = reachOf(mark) + distance * unitPx;
        const centre: PixelPoint = [
          mark.at[0] + ux * (out + halfWidth),
          mark.at[1] + uy * (out + halfHeight),
        ];
        const box = {
          left: centre[0] - halfWidth,
          right: centre[0] + halfWidth,
          top: centre[1] - halfHeight,
          bottom: centre[1] + halfHeight,
        };
        if (box.left < 0 || box.top < 0 || box.right > picture.widthPx || box.bottom > picture.heightPx)
          continue;
        const overlaps = taken.count(box);
        if (best === null || overlaps < best.overlaps) best = { box, centre, overlaps, far: ring > 0 };
        if (overlaps === 0) break;
      }
      if (best?.overlaps === 0) break;
    }
    if (best === null) continue; // only in a picture narrower than a number
    taken.add(best.box);
    if (best.far) {
      const [dx, dy] = [best.centre[0] - mark.at[0], best.centre[1] - mark.at[1]];
      const long = Math.hypot(dx, dy);
      const from = reachOf(mark) / long;
      const to = 1 - Math.min(halfWidth / Math.abs(dx || 1e-9), halfHeight / Math.abs(dy || 1e-9), 1);
      if (to > from)
        paintLine(
          raster,
          [mark.at[0] + from * dx, mark.at[1] + from * dy],
          [mark.at[0] + to * dx, mark.at[1] + to * dy],
          1.2 * unitPx,
          theme.gridWords,
        );
    }
    text.paint(raster, number, best.centre[0], best.centre[1] + 0.36 * sizePx, {
      sizePx,
      anchor: "middle",
      rgb: theme.words,
    });
  }
}
