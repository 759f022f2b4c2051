/** Measures text as the document sets it. Sizes and widths in mm. */
export interface PdfText {
  widthMm(text: string, sizeMm: number): number;
  /** Lines that words run on over; a word wider than the room stands alone. */
  wrapped(text: string, sizeMm: number, roomMm: number): readonly string[];
}

/** Height of capitals, in parts of the size: that of the shipped font. */
export const CAPITALS = 0.714;

export function pdfText(document: PDFKit.PDFDocument): PdfText {
  const widths = new Map<string, number>();
  const em = (text: string): number => {
    let width = widths.get(text);
    if (width === undefined) {
      width = document.fontSize(1).widthOfString(text);
      widths.set(text, width);
    }
    return width;
  };
  return {
    widthMm: (text, sizeMm) => em(text) * sizeMm,
    wrapped(text, sizeMm, roomMm) {
      const spaceMm = em(" ") * sizeMm;
      const rows: string[] = [];
      let rowMm = 0;
      for (const word of text.split(/\s+/u)) {
        const wordMm = em(word) * sizeMm;
        if (rows.length > 0 && rowMm + spaceMm + wordMm <= roomMm) {
          rows[rows.length - 1] += ` ${word}`;
          rowMm += spaceMm + wordMm;
        } else {
          rows.push(word);
          rowMm = wordMm;
        }
      }
      return rows;
    },
  };
}
