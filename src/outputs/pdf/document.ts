import PDFDocument from "pdfkit";
import type { PdfFont } from "./font.ts";
import { type PdfPage, pdfPage } from "./page.ts";
import { currentSheet } from "./sheet.ts";
import { type PdfText, pdfText } from "./text.ts";

/** ISO 32000-1: a unit is 1/72 in. */
export const POINTS_PER_MM = 72 / 25.4;

export interface PdfInfo {
  readonly title: string;
  readonly subject: string;
}

/** A document in the making. Everything on its pages is in mm from the upper-left corner of the page, y down. */
export interface Pdf {
  /** A new page; what is drawn on the one before is done. */
  page(widthMm: number, heightMm: number): PdfPage;
  readonly text: PdfText;
  /** Ends the document. */
  bytes(): Promise<Uint8Array>;
}

/** A date is part of a PDF's identity: a fixed one, so that the same plan gives the same bytes. */
const MADE_ON = new Date(Date.UTC(2000, 0, 1));

/**
 * A PDF 1.7 with one font, embedded as far as it is used; title shown in the window, language English, printed as it is
 * unless the person at the printer chooses otherwise.
 */
export function startPdf({ title, subject }: PdfInfo, font: PdfFont): Pdf {
  const document = new PDFDocument({
    autoFirstPage: false,
    font: "", // none of the standard fonts, which are not embedded
    pdfVersion: "1.7",
    lang: "en",
    displayTitle: true,
    info: { Title: title, Subject: subject, Producer: "Lacunar", Creator: "Lacunar", CreationDate: MADE_ON },
  });
  keepScale(document);
  document.registerFont("words", font.source as PDFKit.Mixins.PDFFontSource);
  document.font("words");
  const text = pdfText(document);
  const chunks: Uint8Array[] = [];
  document.on("data", (chunk: Uint8Array) => chunks.push(chunk));
  const encoded = { texts: new Map<string, string>(), paths: new Map<string, string>() };
  let done = () => {};
  return {
    text,
    page(widthMm, heightMm) {
      done();
      document.addPage({ size: [widthMm * POINTS_PER_MM, heightMm * POINTS_PER_MM], margin: 0 });
      const current = currentSheet(document, text.widthMm, encoded);
      done = current.done;
      return pdfPage(current.sheet);
    },
    bytes: () =>
      new Promise((resolve, reject) => {
        done();
        document.on("end", () => resolve(new Uint8Array(Buffer.concat(chunks))));
        document.on("error", reject);
        document.end();
      }),
  };
}

/** Viewers that heed it offer "actual size" first (ISO 32000-1, 12.2, PrintScaling); the library has no name for it. */
function keepScale(document: PDFKit.PDFDocument): void {
  const { _root } = document as unknown as {
    _root: { data: { ViewerPreferences: { data: Record<string, unknown> } } };
  };
  _root.data.ViewerPreferences.data.PrintScaling = "None";
}
