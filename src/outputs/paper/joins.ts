import type { PdfPage } from "../pdf/page.ts";
import type { TileOnPage } from "./tileOnPage.ts";
import type { Tiling } from "./tiles.ts";

const CUT = { widthMm: 0.18, dashMm: [2, 1.2] } as const;
const COVERED = { widthMm: 0.13, colour: "#777777", dashMm: [0.6, 1.4] } as const;
const MATCH = "#555555";
const WORDS = { sizeMm: 2, colour: "#555555" } as const;
/** Parts of a tile's side at which the match marks stand. */
const MATCH_AT = [0.2, 0.8];

/**
 * Where tiles meet. Each is laid over those to its left and above it, so that its left and upper side are cut and words and rulers, below
 * and at the right, stay on the paper. A match mark is drawn on both sheets: two triangles whose points meet on the cut.
 */
export function drawJoins(page: PdfPage, { tiles, rows, columns }: Tiling, on: TileOnPage): void {
  const { tile, box } = on;
  const at = (row: number, column: number) => {
    const neighbour =
      row < 1 || row > rows || column < 1 || column > columns
        ? undefined
        : tiles[(row - 1) * columns + column - 1];
    return neighbour?.isOnBoard ? neighbour : undefined;
  };
  const right = box.leftMm + box.widthMm;
  const bottom = box.topMm + box.heightMm;
  const upright = (x: number) => {
    for (const part of MATCH_AT) matchMark(page, x, box.topMm + part * box.heightMm, true);
  };
  const level = (y: number) => {
    for (const part of MATCH_AT) matchMark(page, box.leftMm + part * box.widthMm, y, false);
  };
  if (at(tile.row, tile.column - 1)) {
    page.line(box.leftMm, box.topMm, box.leftMm, bottom, CUT);
    upright(box.leftMm);
    page.words("cut here", box.leftMm + 1.2 + WORDS.sizeMm, box.topMm + box.heightMm / 2 - 30, {
      ...WORDS,
      turnedDeg: 90,
    });
  }
  const next = at(tile.row, tile.column + 1);
  if (next) {
    const x = on.to(next.xMm, 0)[0];
    page.line(x, box.topMm, x, bottom, COVERED);
    upright(x);
    page.words(
      `${next.name} is laid over this strip`,
      (x + right) / 2 + 0.7,
      box.topMm + box.heightMm / 2 - 30,
      {
        ...WORDS,
        turnedDeg: 90,
      },
    );
  }
  if (at(tile.row - 1, tile.column)) {
    page.line(box.leftMm, box.topMm, right, box.topMm, CUT);
    level(box.topMm);
    page.words("cut here", box.leftMm + 0.3 * box.widthMm, box.topMm + 1.2 + WORDS.sizeMm, WORDS);
  }
  const below = at(tile.row + 1, tile.column);
  if (below) {
    const y = on.to(0, below.yMm + below.lengthMm)[1];
    page.line(box.leftMm, y, right, y, COVERED);
    level(y);
    page.words(
      `${below.name} is laid over this strip`,
      box.leftMm + 0.3 * box.widthMm,
      (y + bottom) / 2 + 0.7,
      WORDS,
    );
  }
}

const MARK_MM = 3;

/** @param upright the cut it stands on */
function matchMark(page: PdfPage, x: number, y: number, upright: boolean): void {
  for (const sign of [-1, 1])
    page.filled(
      upright
        ? [
            [x, y],
            [x + sign * MARK_MM, y - MARK_MM / 3],
            [x + sign * MARK_MM, y + MARK_MM / 3],
          ]
        : [
            [x, y],
            [x - MARK_MM / 3, y + sign * MARK_MM],
            [x + MARK_MM / 3, y + sign * MARK_MM],
          ],
      MATCH,
    );
}
