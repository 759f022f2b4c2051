import type { Font } from "../../render/font.ts";
import { newRaster } from "../../render/paint.ts";
import { textPainter } from "../../render/paintText.ts";
import type { PreviewRaster } from "../../render/previewRaster.ts";
import { symbolsOf } from "../../render/sizeSymbols.ts";
import type { MarkingPicture } from "../../schedule/markingTypes.ts";
import type { Schedule } from "../../schedule/types.ts";
import { drawBoards } from "./boards.ts";
import { boxGrid } from "./boxGrid.ts";
import { type Canvas, canvasUnitPx } from "./canvas.ts";
import { drawChecks } from "./checks.ts";
import { drawLegend } from "./legend.ts";
import { drawMarks, placeMarks } from "./marks.ts";
import { drawNumbers } from "./numbers.ts";
import { drawCorners, drawEdgeNames } from "./targets.ts";
import { THEMES } from "./theme.ts";
import { legendWords } from "./words.ts";

export interface DrawnMarking {
  readonly raster: PreviewRaster;
  /** Characters that the font cannot draw. */
  readonly missingCharacters: readonly string[];
}

/**
 * A picture for a projector: boards in true proportion or as measured corners warp them, FACE up, a symbol at each hole whose middle
 * is the hole's centre. Points are transformed, symbols and words are not. Colour is for the marks alone: all else is grey.
 */
export function drawMarking(picture: MarkingPicture, { plan, holes }: Schedule, font: Font): DrawnMarking {
  const { marking, walls } = plan;
  const theme = THEMES[marking.background];
  const canvas: Canvas = {
    raster: newRaster(picture.widthPx, picture.heightPx, theme.ground),
    text: textPainter(font),
    theme,
    picture,
    unitPx: canvasUnitPx(picture),
    taken: boxGrid(96 * canvasUnitPx(picture)),
  };
  // Of the whole plan, so that a size has one symbol on every sheet.
  const symbols = symbolsOf(plan.fibre.sizes.map(({ diameter }) => diameter));
  const marks = placeMarks(canvas, symbols);
  drawBoards(canvas, marking.grid);
  drawEdgeNames(canvas, walls);
  drawCorners(canvas);
  drawChecks(canvas, placeMarks(canvas, symbols, "allHoles"), symbols);
  drawLegend(canvas, legendWords(picture, plan, holes, symbols), symbols, marks);
  if (marking.numbers) drawNumbers(canvas, marks, symbols);
  drawMarks(canvas, marks, symbols);
  return { raster: canvas.raster, missingCharacters: canvas.text.missing() };
}
