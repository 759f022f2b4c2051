import type { Sharp } from "sharp";
import { MADE_BY } from "./madeBy.ts";
import type { PreviewRaster } from "./previewRaster.ts";

export type PictureFormat = "png" | "webp" | "avif";

/** WebP stores sides of up to 14 bits; AVIF as sharp writes it, 16 bits. */
const longestSidePx: Readonly<Record<PictureFormat, number>> = { png: 2 ** 31 - 1, webp: 16383, avif: 16384 };

/**
 * A picture file of a raster, through sharp with fixed options and no metadata but our mark: the same bytes each time for one build
 * of sharp. Stars shine through an overlay (of each pair of pixels the lighter stays).
 * PNG and WebP are lossless; AVIF is not.
 * @param overlaySvg  an SVG of the raster's size in px
 */
export async function encodePreview(
  raster: PreviewRaster,
  format: PictureFormat,
  overlaySvg?: string,
): Promise<Uint8Array> {
  const { data, widthPx, heightPx, channels } = raster;
  refuseTooLarge(widthPx, heightPx, format);
  const { default: sharp } = await import("sharp"); // native, slow to load: only when a picture is made
  const raw = { width: widthPx, height: heightPx, channels };
  let pixels = data;
  if (overlaySvg !== undefined) {
    const overlay = sharp(Buffer.from(overlaySvg), { limitInputPixels: false, unlimited: true });
    const { data: words, info } = await overlay
      .flatten()
      .toColourspace("srgb")
      .raw()
      .toBuffer({ resolveWithObject: true });
    if (info.width !== widthPx || info.height !== heightPx || info.channels !== channels)
      throw new Error(
        `the overlay is ${info.width} x ${info.height} px, the picture ${widthPx} x ${heightPx}`,
      );
    // By hand: sharp's own "lighten" thins out the soft edges of letters.
    for (let i = 0; i < words.length; i++) words[i] = Math.max(words[i]!, data[i]!);
    pixels = words;
  }
  return encoded(sharp(pixels, { raw, limitInputPixels: false }), format);
}

/** A picture file of a drawing on an opaque ground. @param svg its root says the size in px */
export async function encodeDrawing(svg: string, format: PictureFormat): Promise<Uint8Array> {
  const { default: sharp } = await import("sharp");
  const drawn = sharp(Buffer.from(svg), { limitInputPixels: false, unlimited: true });
  const { width, height } = await drawn.metadata();
  refuseTooLarge(width, height, format);
  return encoded(drawn.flatten().toColourspace("srgb"), format);
}

function refuseTooLarge(widthPx: number, heightPx: number, format: PictureFormat): void {
  const longestPx = longestSidePx[format];
  if (Math.max(widthPx, heightPx) > longestPx)
    throw new RangeError(
      `${format} holds pictures of up to ${longestPx} px a side, this one is ${widthPx} x ${heightPx}: ask for a smaller width, or for png`,
    );
}

async function encoded(pixels: Sharp, format: PictureFormat): Promise<Uint8Array> {
  let picture = pixels.withExif({ IFD0: { Software: MADE_BY } });
  // Little effort: files grow by about a tenth and take half the time or less.
  if (format === "png") picture = picture.png({ compressionLevel: 3, adaptiveFiltering: false });
  else if (format === "webp") picture = picture.webp({ lossless: true, effort: 0 });
  else picture = picture.avif({ quality: 75, effort: 1, chromaSubsampling: "4:4:4" });
  return new Uint8Array(await picture.toBuffer());
}
