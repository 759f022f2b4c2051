import type { CutPanelRecord } from "../../schedule/asCut.ts";
import { withTrueCorners } from "../../schedule/asCut.ts";
import type { PanelRecord } from "../../schedule/types.ts";
import { datumCorner } from "../machine/datumCorner.ts";
import type { Frame } from "../proofWords.ts";

/**
 * What a tile's place is counted from, in words after "from". Where the bounding box has no board at its lower-left corner, a corner that
 * a tape can be hooked on is named too: the lower end of the reference edge if the board is out of square, else the one that the files for
 * the machine name.
 */
export function fromCornerWords(board: CutPanelRecord | PanelRecord, frame: Frame): string {
  const drawn = withTrueCorners(board);
  const nearest = datumCorner(drawn, frame);
  if (nearest.isOrigin) return `the board's lower-left corner on the ${frame}`;
  const outOfSquare = drawn !== board;
  const { xMm, yMm } = outOfSquare ? { xMm: frame === "FACE" ? 0 : board.widthMm, yMm: 0 } : nearest;
  const corner = outOfSquare ? "the reference edge's lower end" : "the board's corner";
  return `the lower-left corner of the board's bounding box on the ${frame}, which is no board: measure from ${corner} at x ${xMm.toFixed(2)}, y ${yMm.toFixed(2)} mm`;
}
