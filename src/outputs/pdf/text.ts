import { wrapWords } from "../../render/wrapWords.ts";

/** Measures text as the document sets it. Sizes and widths in mm. */
export interface PdfText {
  widthMm(text: string, sizeMm: number): number;
  /** Lines that words run on over; a word wider than the room stands alone. */
  wrapped(text: string, sizeMm: number, roomMm: number): readonly string[];
}

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
    wrapped: (text, sizeMm, roomMm) => wrapWords(text, (word) => em(word) * sizeMm, em(" ") * sizeMm, roomMm),
  };
}
