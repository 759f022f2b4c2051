import type { MarkingPlan } from "../../plan/plan.ts";
import type { Font } from "../../render/font.ts";
import { newRaster, paintLine, type Rgb } from "../../render/paint.ts";
import { textPainter } from "../../render/paintText.ts";
import type { PreviewRaster } from "../../render/previewRaster.ts";
import { THEMES } from "./theme.ts";

const FINE_PX = 10;
const STEP_PX = 100;

/**
 * A picture that tells on the board which pixel falls where, for `marking.keystone`: lines every 10 pixels, strong ones every 100 with
 * their place beside each crossing, x before y, from the picture's upper-left corner, y down. A line at 100 lies between pixels 100 and 101.
 */
export function drawPixelRuler({ pixels, background }: MarkingPlan, font: Font): PreviewRaster {
  const [widthPx, heightPx] = pixels;
  const theme = THEMES[background];
  const raster = newRaster(widthPx, heightPx, theme.ground);
  const text = textPainter(font);
  const lines = (stepPx: number, linePx: number, rgb: Rgb) => {
    for (let x = 0; x <= widthPx; x += stepPx) paintLine(raster, [x, 0], [x, heightPx], linePx, rgb);
    for (let y = 0; y <= heightPx; y += stepPx) paintLine(raster, [0, y], [widthPx, y], linePx, rgb);
  };
  lines(FINE_PX, 1, theme.grid);
  lines(FINE_PX * 5, 1, theme.strongGrid);
  lines(STEP_PX, 2, theme.gridWords);
  for (let x = 0; x < widthPx; x += STEP_PX)
    for (let y = 0; y < heightPx; y += STEP_PX)
      text.paint(raster, `${x}, ${y}`, x + 5, y + 18, { sizePx: 15, rgb: theme.line });
  return raster;
}
