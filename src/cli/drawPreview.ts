import { InputError } from "../plan/errors.ts";
import type { View } from "../projection/view.ts";
import {
  ceilingSceneOf,
  drawCeiling,
  encodeDrawing,
  encodePreview,
  type Font,
  loadFont,
  type PreviewLines,
  previewLabelsSvg,
  previewSvg,
  rasterizePreview,
  sceneOf,
} from "../render/index.ts";
import type { Schedule } from "../schedule/types.ts";
import { fontBytes } from "./dataFiles.ts";
import type { Terminal } from "./terminal.ts";

export type PictureFormat = "png" | "webp" | "avif" | "svg";

export interface PictureOptions {
  readonly widthPx: number;
  readonly labels: boolean;
  readonly tint: boolean;
  /** Lines of the sky to draw under the dots. */
  readonly lines?: PreviewLines;
}

/** Of words that are drawn with the shipped font. */
export function warnOfMissing(characters: readonly string[], terminal: Terminal): void {
  if (characters.length > 0)
    terminal.warn(`the shipped font has no sign for ${characters.join(" ")}; a box stands in its place`);
}

/** One preview as a file's bytes. */
export async function drawPreview(
  schedule: Schedule,
  view: View,
  format: PictureFormat,
  { widthPx, labels, tint, lines }: PictureOptions,
  terminal: Terminal,
): Promise<Uint8Array> {
  const scene = sceneOf(schedule, view, lines);
  const font = labels ? shippedFont() : undefined;
  if (format === "svg") {
    const drawn = previewSvg(scene, { tint, ...(font ? { labels: font } : {}) });
    warnOfMissing(drawn.missingCharacters, terminal);
    return new TextEncoder().encode(drawn.svg);
  }
  return await withinLimits(async () => {
    if (!font) return await encodePreview(rasterizePreview(scene, { widthPx, tint }), format);
    const overlay = previewLabelsSvg(scene, font, { widthPx });
    warnOfMissing(overlay.missingCharacters, terminal);
    const raster = rasterizePreview(scene, { widthPx, tint, lineBreaks: overlay.lineBreaks });
    return await encodePreview(raster, format, overlay.svg);
  });
}

/** The working drawing of the ceiling as a file's bytes. @param widthPx of a picture; an SVG is in mm of paper */
export async function drawWorkingDrawing(
  schedule: Schedule,
  view: View,
  format: PictureFormat,
  widthPx: number,
  terminal: Terminal,
): Promise<Uint8Array> {
  const scene = ceilingSceneOf(schedule, view);
  const drawn = drawCeiling(scene, shippedFont(), format === "svg" ? undefined : widthPx);
  warnOfMissing(drawn.missingCharacters, terminal);
  if (format === "svg") return new TextEncoder().encode(drawn.svg);
  return await withinLimits(() => encodeDrawing(drawn.svg, format));
}

let font: Font | undefined;
/** Read once: `make` draws with it more than once. */
export const shippedFont = (): Font => {
  font ??= loadFont(fontBytes());
  return font;
};

/** A size that a format cannot hold is the caller's to change. */
async function withinLimits<T>(act: () => Promise<T>): Promise<T> {
  try {
    return await act();
  } catch (error) {
    if (error instanceof RangeError) throw new InputError(error.message, { cause: error });
    throw error;
  }
}

export { previewLines } from "../render/index.ts";
