import { leastUnitPx } from "./labelStyle.ts";
import type { PreviewScene } from "./previewScene.ts";

/** What of an A4 sheet (ISO 216: 297 x 210 mm) a picture fills inside margins of 10 mm. */
const sheetLongMm = 277;
const sheetShortMm = 190;

/**
 * Millimetres of ceiling to a millimetre of paper, with the picture printed as large as A4 allows, whichever way the
 * sheet is turned. Stars and words are sized in paper millimetres, so that a picture looks the same at every width.
 */
export function ceilingMmPerSheetMm({
  widthMm,
  lengthMm,
}: Pick<PreviewScene, "widthMm" | "lengthMm">): number {
  const landscape = Math.max(widthMm / sheetLongMm, lengthMm / sheetShortMm);
  const portrait = Math.max(widthMm / sheetShortMm, lengthMm / sheetLongMm);
  return Math.min(landscape, portrait);
}

/** Ceiling mm to one unit of labelStyle.ts in a raster so wide (a unit being so many px at least), or in a drawing. */
export function unitMmOf(
  scene: Pick<PreviewScene, "widthMm" | "lengthMm">,
  widthPx?: number,
  leastPx = leastUnitPx,
): number {
  const leastMm = widthPx === undefined ? 0 : (leastPx * scene.widthMm) / widthPx;
  return Math.max(ceilingMmPerSheetMm(scene), leastMm);
}

/** Picture height in pixels for a width in pixels: edge to edge, at least one row. */
export function heightPxOf(
  { widthMm, lengthMm }: Pick<PreviewScene, "widthMm" | "lengthMm">,
  widthPx: number,
): number {
  return Math.max(1, Math.round((widthPx * lengthMm) / widthMm));
}
