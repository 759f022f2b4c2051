import { create, type Font, type Glyph } from "fontkit";

/** A font for any number of documents: read once. */
export interface PdfFont {
  /** What pdfkit takes for a font: an object of fontkit's with a layout of our own. */
  readonly source: unknown;
  /** Characters of a text that the font has no shape for, each once, in order. */
  missing(text: string): readonly string[];
}

/**
 * The library's way through scripts, ligatures and kerning takes most of a template's time, for Latin and Greek words and for
 * numbers in vain: here glyphs are set sign by sign, composed letters first (é, not e and an accent).
 * @param bytes a TrueType or OpenType file
 */
export function loadPdfFont(bytes: Uint8Array): PdfFont {
  const font = create(bytes as Buffer) as Font;
  const glyphs = new Map<string, Glyph>();
  const glyphOf = (sign: string): Glyph => {
    let glyph = glyphs.get(sign);
    if (glyph === undefined) {
      glyph = font.glyphForCodePoint(sign.codePointAt(0)!);
      glyphs.set(sign, glyph);
    }
    return glyph;
  };
  const layout = (text: string) => {
    const run = [...text.normalize("NFC")].map(glyphOf);
    const positions = run.map(({ advanceWidth }) => ({
      xAdvance: advanceWidth,
      yAdvance: 0,
      xOffset: 0,
      yOffset: 0,
    }));
    return {
      glyphs: run,
      positions,
      // Read after the caller has scaled the positions.
      get advanceWidth() {
        return positions.reduce((sum, { xAdvance }) => sum + xAdvance, 0);
      },
    };
  };
  return {
    source: Object.assign(Object.create(font), { layout }),
    missing: (text) => [
      ...new Set([...text.normalize("NFC")].filter((sign) => !/\s/u.test(sign) && glyphOf(sign).id === 0)),
    ],
  };
}
