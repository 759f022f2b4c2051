import type { PdfPage } from "./page.ts";
import type { PdfText } from "./text.ts";

/** A column of a page that words run down. */
export interface Column {
  readonly page: PdfPage;
  readonly leftMm: number;
  readonly topMm: number;
  readonly widthMm: number;
  readonly bottomMm: number;
}

const SIZE_MM = 2.75;
const LEADING = 1.36;
const HEADING_MM = 3.8;
const INDENT_MM = 4.5;
const BOX_MM = 2.1;
const BETWEEN_MM = 0.9;

export interface Flow {
  heading(words: string): void;
  paragraph(words: string): void;
  /** A paragraph with a mark or a number before it. */
  item(mark: string, words: string): void;
  /** A paragraph with a box before it, to be ticked. */
  toTick(words: string): void;
}

/** Words from column to column. @param next the column after the last one; asked as often as words need it */
export function textFlow(text: PdfText, next: () => Column): Flow {
  let column = next();
  let y = column.topMm;
  const room = (heightMm: number) => {
    if (y + heightMm <= column.bottomMm) return;
    column = next();
    y = column.topMm;
  };
  const lines = (words: string, indentMm: number, mark: string | null = "") => {
    text.wrapped(words, SIZE_MM, column.widthMm - indentMm).forEach((line, i) => {
      room(SIZE_MM * LEADING);
      y += SIZE_MM * LEADING;
      if (i === 0 && mark === null)
        column.page.box(
          { leftMm: column.leftMm, topMm: y - BOX_MM, widthMm: BOX_MM, heightMm: BOX_MM },
          { widthMm: 0.2 },
        );
      else if (i === 0 && mark !== null && mark !== "")
        column.page.words(mark, column.leftMm, y, { sizeMm: SIZE_MM });
      column.page.words(line, column.leftMm + indentMm, y, {
        sizeMm: SIZE_MM,
        roomMm: column.widthMm - indentMm,
      });
    });
    y += BETWEEN_MM;
  };
  return {
    heading(words) {
      // Not alone at the foot of a column.
      room(HEADING_MM * 1.6 + 2 * SIZE_MM * LEADING);
      y += HEADING_MM * (y === column.topMm ? 1 : 1.6);
      column.page.words(words, column.leftMm, y, { sizeMm: HEADING_MM, roomMm: column.widthMm });
      y += BETWEEN_MM;
    },
    paragraph: (words) => lines(words, 0),
    item: (mark, words) => lines(words, INDENT_MM, mark),
    toTick: (words) => lines(words, INDENT_MM, null),
  };
}
