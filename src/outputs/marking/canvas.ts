import { type Point, through } from "../../projection/homography.ts";
import type { PixelPoint } from "../../render/paint.ts";
import type { TextPainter } from "../../render/paintText.ts";
import type { PreviewRaster } from "../../render/previewRaster.ts";
import { unitPxOf } from "../../schedule/markingFrame.ts";
import type { MarkedPanel, MarkingPicture } from "../../schedule/markingTypes.ts";
import type { BoxGrid } from "./boxGrid.ts";
import type { MarkingTheme } from "./theme.ts";

/** What every part of a picture draws with. */
export interface Canvas {
  readonly raster: PreviewRaster;
  readonly text: TextPainter;
  readonly theme: MarkingTheme;
  readonly picture: MarkingPicture;
  /** A pixel of a picture 2160 high: all sizes are so many of these. */
  readonly unitPx: number;
  /** What numbers of holes keep off: the marks, words and edges so far. */
  readonly taken: BoxGrid;
}

export const canvasUnitPx = ({ widthPx, heightPx }: MarkingPicture): number => unitPxOf(widthPx, heightPx);

/** From the picture's own frame, mm, to pixels. */
export const pictureToPixels = ({ toPixels }: MarkingPicture, point: Point): PixelPoint =>
  through(toPixels, point);

/** From a panel's face frame, mm, to pixels. */
export const faceToPixels = (
  picture: MarkingPicture,
  { xMm, yMm }: Pick<MarkedPanel, "xMm" | "yMm">,
  [xFaceMm, yFaceMm]: Point,
): PixelPoint => pictureToPixels(picture, [xFaceMm + xMm, yFaceMm + yMm]);
