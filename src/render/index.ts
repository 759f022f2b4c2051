export { type CeilingDrawing, drawCeiling } from "./ceilingDrawing.ts";
export { type CeilingScene, ceilingSceneOf } from "./ceilingScene.ts";
export { encodeDrawing, encodePreview, type PictureFormat } from "./encodePreview.ts";
export { type Font, type InkBox, loadFont, type TextAnchor, type TextPath } from "./font.ts";
export { type LabelledSvg, previewLabelsSvg } from "./previewLabelsSvg.ts";
export { type LineChoice, previewLines } from "./previewLines.ts";
export type { PreviewRaster } from "./previewRaster.ts";
export type {
  CompassMark,
  PreviewDot,
  PreviewLines,
  PreviewName,
  PreviewPanel,
  PreviewScene,
} from "./previewScene.ts";
export { previewSvg } from "./previewSvg.ts";
export { type DrawnSheet, drawProofSheet } from "./proofSheet.ts";
export { type SheetScene, sheetSceneOf } from "./proofSheetScene.ts";
export { rasterizePreview, widestPreviewPx } from "./rasterizePreview.ts";
export { compassMarks, sceneOf } from "./sceneOf.ts";
