import { upToHundredths as mm } from "../plan/mmWords.ts";
import { type CutPanelRecord, outOfSquareMm } from "./asCut.ts";
import type { PanelRecord } from "./types.ts";

/** More than this from square is told. */
const TOLD_MM = 1;
const FLOAT = 1e-6;

/**
 * How a board is out of square and what to measure from, in one sentence for any output; null where it is square to 1 mm, or was never measured.
 * @param board as cut (`boardAsCut`)
 * @param frame the side that lies up: the corner that is off is at the left on the BACK
 */
export function outOfSquareWords(board: CutPanelRecord | PanelRecord, frame: "FACE" | "BACK"): string | null {
  const asCut = "asCut" in board ? board.asCut : undefined;
  if (asCut?.diagonals === undefined) return null;
  const { risingRight, fallingRight } = asCut.diagonals;
  const rise = outOfSquareMm(asCut);
  const apart = Math.abs(risingRight - fallingRight);
  if (Math.max(apart, Math.abs(rise)) <= TOLD_MM + FLOAT) return null;
  const [corner, where] =
    frame === "FACE"
      ? ["lower right", "FACE, reference edge upright"]
      : ["lower left", "BACK, reference edge upright at the right"];
  return `panel ${board.id} as cut is out of square: its diagonals differ by ${mm(apart)} mm, and its ${corner} corner lies ${mm(Math.abs(rise))} mm too ${rise > 0 ? "high" : "low"} (${where}): measure every hole square to the reference edge, its y from that edge's lower end, never from the other edges`;
}
