import { type Rgb, rgbOfHex } from "../../render/paint.ts";
import type { SizeSymbol } from "../../render/sizeSymbols.ts";

/** Greys for all but the marks, so that colour means size. */
export interface MarkingTheme {
  readonly ground: Rgb;
  readonly line: Rgb;
  readonly words: Rgb;
  readonly grid: Rgb;
  readonly strongGrid: Rgb;
  readonly gridWords: Rgb;
  readonly watermark: Rgb;
  colourOf(symbol: SizeSymbol): Rgb;
}

const grey = (value: number): Rgb => [value, value, value];

export const THEMES: Readonly<Record<"dark" | "light", MarkingTheme>> = {
  dark: {
    ground: grey(0),
    line: grey(255),
    words: grey(235),
    grid: grey(70),
    strongGrid: grey(120),
    gridWords: grey(170),
    watermark: grey(44),
    colourOf: ({ colourOnDark }) => rgbOfHex(colourOnDark),
  },
  light: {
    ground: grey(255),
    line: grey(0),
    words: grey(20),
    grid: grey(205),
    strongGrid: grey(150),
    gridWords: grey(95),
    watermark: grey(228),
    colourOf: ({ colour }) => rgbOfHex(colour),
  },
};
