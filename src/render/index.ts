export { encodePreview, type PictureFormat } from "./encodePreview.ts";
export { type Font, type InkBox, loadFont, type TextAnchor, type TextPath } from "./font.ts";
export { type LabelledSvg, previewLabelsSvg } from "./previewLabelsSvg.ts";
export type { CompassMark, PreviewDot, PreviewName, PreviewPanel, PreviewScene } from "./previewScene.ts";
export { previewSvg } from "./previewSvg.ts";
export { type DrawnSheet, drawProofSheet } from "./proofSheet.ts";
export { type SheetScene, sheetSceneOf } from "./proofSheetScene.ts";
export { type PreviewRaster, rasterizePreview, widestPreviewPx } from "./rasterizePreview.ts";
export { compassMarks, sceneOf } from "./sceneOf.ts";
