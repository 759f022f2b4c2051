/** What a page needs of the library, which has no public names for some of it: kept to this file. */
export interface PdfSheet {
  write(operators: string): void;
  /** Name of the document's font on this page. */
  font(): string;
  widthMm(text: string, sizeMm: number): number;
  /** Glyphs of a text, in hexadecimal. */
  encoded(text: string): string;
  /** Operators of SVG path data, numbers as they are. */
  path(data: string): string;
}

/** The library's font of a document. */
interface EmbeddedFont {
  readonly id: string;
  ref(): unknown;
  encode(text: string): [string[], unknown[]];
}

/** Kept for a whole document: words and symbols come again on every page. */
export interface Encoded {
  readonly texts: Map<string, string>;
  readonly paths: Map<string, string>;
}

/**
 * The page that the document is at. Its operators are handed to the library all at once: it turns each into bytes of its own, which
 * takes most of the time.
 * @returns the page, and what ends it
 */
export function currentSheet(
  document: PDFKit.PDFDocument,
  widthMm: (text: string, sizeMm: number) => number,
  { texts, paths }: Encoded,
): { readonly sheet: PdfSheet; readonly done: () => void } {
  const { _font: font } = document as unknown as { _font: EmbeddedFont };
  const page = document.page as PDFKit.PDFPage & { fonts: Record<string, unknown> };
  const toContent = page.write.bind(page);
  let operators: string[] = [];
  page.write = (operator) => {
    operators.push(String(operator));
  };
  return {
    done: () => toContent(operators.join("\n")),
    sheet: {
      write: (operator) => {
        operators.push(operator);
      },
      font() {
        page.fonts[font.id] ??= font.ref();
        return font.id;
      },
      widthMm,
      encoded(text) {
        let hex = texts.get(text);
        if (hex === undefined) {
          hex = font.encode(text.normalize("NFC"))[0].join("");
          texts.set(text, hex);
        }
        return hex;
      },
      path(data) {
        let drawn = paths.get(data);
        if (drawn === undefined) {
          const before = operators;
          operators = [];
          document.path(data);
          drawn = operators.join("\n");
          operators = before;
          paths.set(data, drawn);
        }
        return drawn;
      },
    },
  };
}
