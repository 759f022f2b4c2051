import type { Point } from "../projection/homography.ts";
import { hundredths } from "./rounding.ts";
import type { PanelRecord } from "./types.ts";

export interface LaidOutBoards {
  readonly boards: readonly { readonly board: PanelRecord; readonly xMm: number; readonly yMm: number }[];
  readonly widthMm: number;
  readonly lengthMm: number;
  /** Every corner of every board. */
  readonly points: readonly Point[];
}

/** Boards as they will hang, in a frame of their own: 0, 0 is the lower-left corner of their bounding box. */
export function layOutBoards(together: readonly PanelRecord[]): LaidOutBoards {
  const left = Math.min(...together.map(({ xMm }) => xMm));
  const bottom = Math.min(...together.map(({ yMm }) => yMm));
  const boards = together.map((board) => ({
    board,
    xMm: hundredths(board.xMm - left),
    yMm: hundredths(board.yMm - bottom),
  }));
  return {
    boards,
    widthMm: hundredths(Math.max(...together.map(({ xMm, widthMm }) => xMm + widthMm)) - left),
    lengthMm: hundredths(Math.max(...together.map(({ yMm, lengthMm }) => yMm + lengthMm)) - bottom),
    points: boards.flatMap(({ board, xMm, yMm }) =>
      board.outlineMm.map(([x, y]): Point => [x + xMm, y + yMm]),
    ),
  };
}
