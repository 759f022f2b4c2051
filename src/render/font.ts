import opentype from "opentype.js";
import { svgNumber } from "./svgText.ts";

/** Height of capitals of the shipped font, in parts of the size. */
export const CAPITALS = 0.714;

export type TextAnchor = "start" | "middle" | "end";

/** The rectangle that a text's ink fills, y down. */
export interface InkBox {
  readonly leftMm: number;
  readonly topMm: number;
  readonly rightMm: number;
  readonly bottomMm: number;
}

export interface TextPath {
  /** Path data of an SVG; empty for a text without ink. */
  readonly d: string;
  /** Advance width. */
  readonly widthMm: number;
  readonly ink: InkBox;
}

/** A font as the drawings need it: text in, outlines out. */
export interface Font {
  /** Height of capitals, in parts of the text size. */
  readonly capHeightEm: number;
  /**
   * Outlines of one line of text with its baseline at (xMm, yMm), y DOWN as in SVG; any other unit than mm will do.
   * `trackingEm` widens the gaps between letters, in parts of the size. White space counts as single spaces. A character that the font lacks is drawn as its empty box: see `missing`.
   */
  textPath(
    text: string,
    xMm: number,
    yMm: number,
    sizeMm: number,
    anchor: TextAnchor,
    trackingEm?: number,
  ): TextPath;
  /**
   * One line of text glyph by glyph, kerned, from (0, 0), for a sheet that draws each glyph once.
   * @returns names of the glyphs (see `glyphPath`) and where each starts, and the width of the whole
   */
  glyphs(
    text: string,
    sizeMm: number,
  ): {
    readonly placed: readonly { readonly name: string; readonly xMm: number }[];
    readonly widthMm: number;
  };
  /** Path data of a glyph at a size, from (0, 0), y down; empty for one without ink. */
  glyphPath(name: string, sizeMm: number): string;
  /** Characters of a text that the font has no shape for, each once, in order. */
  missing(text: string): readonly string[];
}

/** @param bytes  a TrueType or OpenType file */
export function loadFont(bytes: ArrayBuffer): Font {
  const font = opentype.parse(bytes);
  const capHeight: unknown = font.tables.os2?.sCapHeight;
  if (typeof capHeight !== "number" || capHeight <= 0)
    throw new Error("the font's OS/2 table gives no height of capitals");

  // A word is measured first and drawn later, and the same words come again.
  const measured = new Map<string, number>();
  const advance = (line: string, sizeMm: number, trackingEm: number): number => {
    const key = `${sizeMm} ${trackingEm} ${line}`;
    let widthMm = measured.get(key);
    if (widthMm === undefined) {
      widthMm = font.getAdvanceWidth(line, sizeMm, { letterSpacing: trackingEm });
      measured.set(key, widthMm);
    }
    return widthMm;
  };

  return {
    capHeightEm: capHeight / font.unitsPerEm,
    textPath(text, xMm, yMm, sizeMm, anchor, trackingEm = 0) {
      const line = oneLine(text);
      const options = { letterSpacing: trackingEm };
      const widthMm = advance(line, sizeMm, trackingEm);
      const startMm = xMm - (anchor === "start" ? 0 : anchor === "middle" ? widthMm / 2 : widthMm);
      return {
        ...outline(font.getPath(line, startMm, yMm, sizeMm, options).commands, startMm, yMm),
        widthMm,
      };
    },
    glyphs(text, sizeMm) {
      // Sign by sign: the library's way through scripts and ligatures takes a hundred times as long, for Latin and Greek in vain.
      const perUnit = sizeMm / font.unitsPerEm;
      const placed: { name: string; xMm: number }[] = [];
      let widthMm = 0;
      let before: opentype.Glyph | null = null;
      for (const character of oneLine(text)) {
        const glyph = font.charToGlyph(character);
        if (before !== null) widthMm += font.getKerningValue(before, glyph) * perUnit;
        placed.push({ name: String(glyph.index), xMm: widthMm });
        widthMm += (glyph.advanceWidth ?? 0) * perUnit;
        before = glyph;
      }
      return { placed, widthMm };
    },
    glyphPath: (name, sizeMm) =>
      outline(font.glyphs.get(Number(name)).getPath(0, 0, sizeMm).commands, 0, 0).d,
    missing(text) {
      const lacking = new Set<string>();
      for (const character of oneLine(text))
        if (character !== " " && font.charToGlyphIndex(character) === 0) lacking.add(character);
      return [...lacking];
    },
  };
}

/** Composed letters (the font has é, not e plus an accent to be stacked), single spaces. */
function oneLine(text: string): string {
  return text.normalize("NFC").replace(/\s+/gu, " ").trim();
}

/** The library's own path writer turns text upside down in 1.3.5 and writes numbers its own way: hence this one. */
function outline(
  commands: readonly opentype.PathCommand[],
  xMm: number,
  yMm: number,
): Pick<TextPath, "d" | "ink"> {
  let d = "";
  const ink = { leftMm: Infinity, topMm: Infinity, rightMm: -Infinity, bottomMm: -Infinity };
  const point = (x: number, y: number): string => {
    // Control points bound a curve: the box is never too small.
    ink.leftMm = Math.min(ink.leftMm, x);
    ink.rightMm = Math.max(ink.rightMm, x);
    ink.topMm = Math.min(ink.topMm, y);
    ink.bottomMm = Math.max(ink.bottomMm, y);
    return `${svgNumber(x)} ${svgNumber(y)}`;
  };
  for (const c of commands) {
    if (c.type === "Z") d += "Z";
    else if (c.type === "C") d += `C${point(c.x1, c.y1)} ${point(c.x2, c.y2)} ${point(c.x, c.y)}`;
    else if (c.type === "Q") d += `Q${point(c.x1, c.y1)} ${point(c.x, c.y)}`;
    else d += `${c.type}${point(c.x, c.y)}`;
  }
  return { d, ink: d === "" ? { leftMm: xMm, topMm: yMm, rightMm: xMm, bottomMm: yMm } : ink };
}
