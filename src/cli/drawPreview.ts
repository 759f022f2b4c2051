import { InputError } from "../plan/errors.ts";
import type { View } from "../projection/view.ts";
import {
  encodePreview,
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
  format: "png" | "webp" | "avif" | "svg",
  { widthPx, labels, tint, lines }: PictureOptions,
  terminal: Terminal,
): Promise<Uint8Array> {
  const scene = sceneOf(schedule, view, lines);
  const font = labels ? loadFont(fontBytes()) : undefined;
  if (format === "svg") {
    const drawn = previewSvg(scene, { tint, ...(font ? { labels: font } : {}) });
    warnOfMissing(drawn.missingCharacters, terminal);
    return new TextEncoder().encode(drawn.svg);
  }
  try {
    if (!font) return await encodePreview(rasterizePreview(scene, { widthPx, tint }), format);
    const overlay = previewLabelsSvg(scene, font, { widthPx });
    warnOfMissing(overlay.missingCharacters, terminal);
    const raster = rasterizePreview(scene, { widthPx, tint, lineBreaks: overlay.lineBreaks });
    return await encodePreview(raster, format, overlay.svg);
  } catch (error) {
    if (error instanceof RangeError) throw new InputError(error.message, { cause: error });
    throw error;
  }
}

export { previewLines } from "../render/index.ts";
