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
  const tellMissing = (missing: readonly string[]) => {
    if (missing.length > 0)
      terminal.warn(`the shipped font has no sign for ${missing.join(" ")}; a box stands in its place`);
  };
  if (format === "svg") {
    const drawn = previewSvg(scene, { tint, ...(font ? { labels: font } : {}) });
    tellMissing(drawn.missingCharacters);
    return new TextEncoder().encode(drawn.svg);
  }
  try {
    if (!font) return await encodePreview(rasterizePreview(scene, { widthPx, tint }), format);
    const overlay = previewLabelsSvg(scene, font, { widthPx });
    tellMissing(overlay.missingCharacters);
    const raster = rasterizePreview(scene, { widthPx, tint, lineBreaks: overlay.lineBreaks });
    return await encodePreview(raster, format, overlay.svg);
  } catch (error) {
    if (error instanceof RangeError) throw new InputError(error.message, { cause: error });
    throw error;
  }
}

export { previewLines } from "../render/index.ts";
