import { extname } from "node:path";
import { InputError } from "../plan/errors.ts";

export const RASTER_FORMATS = { ".png": "png", ".webp": "webp", ".avif": "avif" } as const;
export const PICTURE_FORMATS = { ...RASTER_FORMATS, ".svg": "svg" } as const;

/**
 * The format that a file's name asks for by its extension.
 * @param refusal what the extension is not, and what to write
 */
export function formatOf<T extends string>(
  path: string,
  formats: Readonly<Record<string, T>>,
  refusal: string,
): T {
  const extension = extname(path);
  const format = formats[extension.toLowerCase()];
  if (format === undefined) throw new InputError(`${path}: ${JSON.stringify(extension)} is ${refusal}`);
  return format;
}
