import { InputError } from "../plan/errors.ts";
import type { View } from "../projection/view.ts";
import {
  encodePreview,
  loadFont,
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
}

/** One preview as a file's bytes. */
export async function drawPreview(
  schedule: Schedule,
  view: View,
  format: "png" | "webp" | "avif" | "svg",
  { widthPx, labels, tint }: PictureOptions,
  terminal: Terminal,
): Promise<Uint8Array> {
  const scene = sceneOf(schedule, view);
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
    const raster = rasterizePreview(scene, { widthPx, tint });
    if (!font) return await encodePreview(raster, format);
    const overlay = previewLabelsSvg(scene, font, { widthPx });
    tellMissing(overlay.missingCharacters);
    return await encodePreview(raster, format, overlay.svg);
  } catch (error) {
    if (error instanceof RangeError) throw new InputError(error.message, { cause: error });
    throw error;
  }
}
