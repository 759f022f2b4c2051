// data/stars.bin: the layout is described where it is read, in src/sky/catalogue.ts.

import { equatorialVector } from "../../src/sky/apparent.ts";
import {
  CATALOGUE_HEADER_BYTES,
  CATALOGUE_MAGIC,
  CATALOGUE_VERSION,
  catalogueBytes,
  checksumOfWords,
  NO_COLOUR_INDEX,
} from "../../src/sky/catalogue.ts";
import type { SourceStar } from "./sources.ts";

export interface CompiledStar extends SourceStar {
  readonly constellation: number;
  readonly motion: { readonly raCosDec: number; readonly dec: number } | null;
}

/** @param stars  in the order of the catalogue */
export function encodeStars(stars: readonly CompiledStar[]): Uint8Array {
  const moving = stars.flatMap((star, row) => (star.motion === null ? [] : [{ row, ...star.motion }]));
  const bytes = new Uint8Array(catalogueBytes(stars.length, moving.length));
  const view = new DataView(bytes.buffer);
  for (let i = 0; i < CATALOGUE_MAGIC.length; i++) bytes[i] = CATALOGUE_MAGIC.charCodeAt(i);

  let at = CATALOGUE_HEADER_BYTES;
  const int = (width: 1 | 2 | 4, values: readonly number[]): void => {
    const [least, most] = width === 1 ? [0, 255] : [-(2 ** (8 * width - 1)), 2 ** (8 * width - 1) - 1];
    for (const value of values) {
      if (!Number.isInteger(value) || value < least || value > most) {
        throw new Error(`${value} does not fit a whole number of ${width} bytes.`);
      }
      if (width === 4) view.setInt32(at, value, true);
      else if (width === 2) view.setInt16(at, value, true);
      else view.setUint8(at, value);
      at += width;
    }
  };
  for (const { raE4Deg, decE4Deg } of stars) {
    for (const value of equatorialVector(raE4Deg / 10_000, decE4Deg / 10_000)) {
      view.setFloat64(at, value, true);
      at += 8;
    }
  }
  const float = (values: readonly number[]): void => {
    for (const value of values) {
      if (!Number.isFinite(value)) throw new Error(`${value} is no proper motion.`);
      view.setFloat32(at, value, true);
      at += 4;
    }
  };
  int(
    4,
    stars.map((star) => star.hip),
  );
  int(
    4,
    stars.map((star) => within(star.raE4Deg, 0, 3_599_999)),
  );
  int(
    4,
    stars.map((star) => within(star.decE4Deg, -899_999, 899_999)),
  );
  int(
    4,
    moving.map((each) => each.row),
  );
  float(moving.map((each) => each.raCosDec));
  float(moving.map((each) => each.dec));
  int(
    2,
    stars.map((star) => star.vCentiMag),
  );
  int(
    2,
    stars.map((star) => star.bvMilliMag ?? NO_COLOUR_INDEX),
  );
  int(
    1,
    stars.map((star) => within(star.constellation, 0, 87)),
  );

  const words = new Int32Array(bytes.buffer, CATALOGUE_HEADER_BYTES);
  [CATALOGUE_VERSION, stars.length, moving.length, checksumOfWords(words)].forEach((word, i) => {
    view.setUint32(8 + 4 * i, word, true);
  });
  return bytes;
}

function within(value: number, least: number, most: number): number {
  if (value < least || value > most) throw new Error(`${value} lies outside ${least} to ${most}.`);
  return value;
}
