import { type BoxMm, type Ring, ringHolds } from "../../panel/rings.ts";
import { LONGEST_PAGE_MM, pageSizeMm, WORDS_BELOW_MM, WORDS_BESIDE_MM } from "../../plan/paper.ts";
import type { PaperPlan } from "../../plan/plan.ts";
import { ringCrossesBox } from "../../render/boxInRing.ts";

/** What is shown beyond the board on each side: names of walls, and paper to fold round the edge. */
export const BEYOND_BOARD_MM = 8;
/** So much of it will do at the upper and the right edge, rather than another row or column of tiles. */
export const LEAST_BEYOND_MM = 5.5;

/** One sheet's share of a panel, in the panel's frame (face or back), mm on the board. */
export interface Tile {
  /** From the top, from 1. */
  readonly row: number;
  /** From the left, from 1. */
  readonly column: number;
  /** `row-column`. */
  readonly name: string;
  /** Its lower-left corner. */
  readonly xMm: number;
  readonly yMm: number;
  readonly widthMm: number;
  readonly lengthMm: number;
  /** False where it shows nothing but the empty corner of an outline: it is not printed. */
  readonly isOnBoard: boolean;
}

export interface Tiling {
  readonly pageWidthMm: number;
  readonly pageHeightMm: number;
  readonly marginMm: number;
  /** Paper mm that are drawn for one mm on the board. */
  readonly scale: number;
  readonly rows: number;
  readonly columns: number;
  /** Row by row from the top, each from the left: the order in which they are laid. */
  readonly tiles: readonly Tile[];
}

/**
 * The tiles of a board and of what is shown round it. Their corners are whole millimetres of the board, counted from
 * its bounding box's lower-left corner; two neighbours share at least the overlap.
 *
 * `measured100` tells how long the printer makes 100 mm. The board is drawn so much smaller or larger that it is right ON PAPER;
 * rulers stay 100 mm in the file, and measure again what they measured.
 */
export function tilesOf(
  board: {
    readonly widthMm: number;
    readonly lengthMm: number;
    readonly outline: Ring;
    /** Where the outline leaves the box of its length. */
    readonly reachYMm?: readonly [number, number];
  },
  paper: PaperPlan,
): Tiling {
  const scale = 100 / paper.measured100;
  const [pageWidthMm, sheetHeightMm] = pageSizeMm(paper.size);
  const besideMm = 2 * paper.margin + WORDS_BESIDE_MM;
  const belowMm = 2 * paper.margin + WORDS_BELOW_MM;
  const [lowest, highest] = board.reachYMm ?? [0, board.lengthMm];
  const lowestMm = Math.floor(lowest + 1e-9);
  const fullLengthMm = highest - lowestMm + 2 * BEYOND_BOARD_MM;
  // A roll is cut off where the panel ends, if it reaches.
  const pageHeightMm =
    typeof paper.size === "string"
      ? sheetHeightMm
      : Math.min(LONGEST_PAGE_MM, Math.max(sheetHeightMm, Math.ceil(fullLengthMm * scale + belowMm)));
  const across = spans(0, board.widthMm, Math.floor((pageWidthMm - besideMm) / scale), paper.overlap);
  const along = spans(lowestMm, highest, Math.floor((pageHeightMm - belowMm) / scale), paper.overlap);
  const tiles = along.toReversed().flatMap(([yMm, lengthMm], row) =>
    across.map(
      ([xMm, widthMm], column): Tile => ({
        row: row + 1,
        column: column + 1,
        name: `${row + 1}-${column + 1}`,
        xMm,
        yMm,
        widthMm,
        lengthMm,
        isOnBoard: meetsRing({ xMm, yMm, widthMm, lengthMm }, board.outline),
      }),
    ),
  );
  return {
    pageWidthMm,
    pageHeightMm,
    marginMm: paper.margin,
    scale,
    rows: along.length,
    columns: across.length,
    tiles,
  };
}

function meetsRing({ xMm, yMm, widthMm, lengthMm }: BoxMm, ring: Ring): boolean {
  const box = { leftMm: xMm, topMm: yMm, rightMm: xMm + widthMm, bottomMm: yMm + lengthMm };
  return ringHolds(ring, xMm, yMm) || ringCrossesBox(ring, box);
}

/** Where each tile starts and how much it shows; the last one stops where the paper is of no more use. */
function spans(
  fromMm: number,
  toMm: number,
  tileMm: number,
  overlapMm: number,
): (readonly [number, number])[] {
  const start = fromMm - BEYOND_BOARD_MM;
  const end = Math.ceil(toMm) + BEYOND_BOARD_MM;
  const step = Math.floor(tileMm - overlapMm);
  const found: (readonly [number, number])[] = [];
  for (let from = start; ; from += step) {
    found.push([from, Math.min(tileMm, end - from)]);
    if (from + tileMm >= toMm + LEAST_BEYOND_MM) return found;
  }
}
