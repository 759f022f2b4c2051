/** A rectangle on the page: paper mm from its upper-left corner, y down. */
export interface PageBox {
  readonly xMm: number;
  readonly yMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
}

/** Where everything of a proof sheet stands on its paper. */
export interface SheetPage {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly header: PageBox;
  /** One a box of the sheet, row by row. */
  readonly cells: readonly { readonly picture: PageBox; readonly words: PageBox }[];
}

/** A4, ISO 216. */
const LONG_MM = 297;
const SHORT_MM = 210;
/** Printers leave about 5 mm white. */
const MARGIN_MM = 10;
const GAP_MM = { across: 5, down: 4 } as const;
/** Rows drift no farther apart than this where the sheet is longer than they need. */
const WIDEST_GAP_MM = 9;
/** Narrower, words would run over too many lines. */
const NARROWEST_CELL_MM = 42;
/** From the picture to the words under it. */
const WORDS_BELOW_MM = 1.8;

/** Pixels to a millimetre of paper (203 dpi): page, cells and pictures all lie on whole pixels. */
export const SHEET_PX_PER_MM = 8;

export interface PageNeeds {
  readonly boxes: number;
  /** Height of the title and its lines, and of the words of one box. */
  readonly headerMm: number;
  readonly wordsMm: number;
  /** Of the ceiling: pictures keep its proportions. */
  readonly ceiling: { readonly widthMm: number; readonly lengthMm: number };
}

/** The sheet upright or across, in as many columns as give the largest pictures. */
export function layOutPage(needs: PageNeeds): SheetPage {
  const pages: SheetPage[] = [];
  for (const [widthMm, heightMm] of [
    [SHORT_MM, LONG_MM],
    [LONG_MM, SHORT_MM],
  ] as const)
    for (let columns = 1; columns <= needs.boxes; columns++) {
      const page = pageOf(needs, widthMm, heightMm, columns);
      if (page) pages.push(page);
    }
  return pages.reduce((best, page) => (pictureArea(page) > pictureArea(best) ? page : best));
}

const pictureArea = ({ cells }: SheetPage): number => cells[0]!.picture.widthMm * cells[0]!.picture.heightMm;

function pageOf(needs: PageNeeds, widthMm: number, heightMm: number, columns: number): SheetPage | null {
  const { boxes, headerMm, wordsMm, ceiling } = needs;
  const rows = Math.ceil(boxes / columns);
  const header = { xMm: MARGIN_MM, yMm: MARGIN_MM, widthMm: widthMm - 2 * MARGIN_MM, heightMm: headerMm };
  const cellWidthMm = (header.widthMm - (columns - 1) * GAP_MM.across) / columns;
  const topMm = MARGIN_MM + headerMm + GAP_MM.down;
  const cellHeightMm = (heightMm - MARGIN_MM - topMm - (rows - 1) * GAP_MM.down) / rows;
  const roomMm = cellHeightMm - WORDS_BELOW_MM - wordsMm;
  if (roomMm <= 0 || (columns > 1 && cellWidthMm < NARROWEST_CELL_MM)) return null;
  const pictureWidthMm = downToPx(Math.min(cellWidthMm, (roomMm * ceiling.widthMm) / ceiling.lengthMm));
  if (pictureWidthMm <= 0) return null;
  const pictureHeightMm = (pictureWidthMm * ceiling.lengthMm) / ceiling.widthMm;
  const rowMm = Math.min(
    cellHeightMm + GAP_MM.down,
    pictureHeightMm + WORDS_BELOW_MM + wordsMm + WIDEST_GAP_MM,
  );
  const cells = Array.from({ length: boxes }, (_, i) => {
    const xMm = downToPx(MARGIN_MM + (i % columns) * (cellWidthMm + GAP_MM.across));
    const yMm = downToPx(topMm + Math.floor(i / columns) * rowMm);
    const belowMm = yMm + pictureHeightMm + WORDS_BELOW_MM;
    return {
      picture: { xMm, yMm, widthMm: pictureWidthMm, heightMm: pictureHeightMm },
      words: { xMm, yMm: belowMm, widthMm: cellWidthMm, heightMm: wordsMm },
    };
  });
  return { widthMm, heightMm, header, cells };
}

/** A hair of rounding is no pixel. */
const downToPx = (mm: number): number => Math.floor(mm * SHEET_PX_PER_MM + 1e-9) / SHEET_PX_PER_MM;
