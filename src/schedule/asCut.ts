import { frameOf } from "../panel/frame.ts";
import { type Ring, rectangleRing } from "../panel/rings.ts";
import type { CutBoardPlan, Plan } from "../plan/plan.ts";
import { hundredths } from "./rounding.ts";
import type { PanelRecord } from "./types.ts";

/** A panel as its board came from the saw; what was measured stands beside what follows from it. */
export interface CutPanelRecord extends PanelRecord {
  readonly asCut?: CutBoardPlan;
}

/**
 * The board that outputs speak of: as measured, where the plan says so, else as planned. Frame FACE; x is measured from the
 * reference edge (the face's left edge) and y from that edge's lower end, so holes keep their places and xBack is the width as
 * cut less xFace. The frame is built to the board as cut. Its outline is square here, width by length;
 * `withTrueCorners` gives what is drawn.
 */
export function boardAsCut(
  panel: PanelRecord,
  plan: Pick<Plan, "asCut" | "frame" | "fabric">,
): CutPanelRecord {
  const asCut = Object.hasOwn(plan.asCut, panel.id) ? plan.asCut[panel.id] : undefined;
  if (asCut === undefined) return panel;
  const widthMm = hundredths(asCut.width);
  const lengthMm = hundredths(asCut.length);
  const box = { xMm: 0, yMm: 0, widthMm, lengthMm };
  const ring = rectangleRing(box);
  const fabric = plan.fabric.thickness;
  const finished = {
    xMm: -fabric,
    yMm: -fabric,
    widthMm: widthMm + 2 * fabric,
    lengthMm: lengthMm + 2 * fabric,
  };
  const frame =
    plan.frame === "none"
      ? null
      : frameOf(
          {
            id: panel.id,
            finished,
            finishedRing: rectangleRing(finished),
            board: box,
            boardRing: ring,
            exactRing: ring,
            isRectangle: true,
          },
          plan.frame,
        );
  return {
    ...panel,
    widthMm,
    lengthMm,
    outlineMm: ring,
    battensMm: (frame?.battens ?? []).map((batten) => written(batten.ring)),
    screwsMm: frame?.screws ?? [],
    hangersMm: frame?.hangers ?? [],
    finishedOutlineMm: written(rectangleRing(finished)),
    asCut,
  };
}

/**
 * The same board with its true outline, for what is drawn or projected: out of square, its right-hand corners lie a little above or
 * below the bounding box of width by length, which stays. Holes are measured from the reference edge and do not move.
 */
export const withTrueCorners = <T extends CutPanelRecord | PanelRecord>(board: T): T =>
  "asCut" in board && board.asCut?.diagonals !== undefined
    ? { ...board, outlineMm: ringAsCut(board.asCut) }
    : board;

const written = (ring: Ring): Ring => ring.map(([x, y]) => [hundredths(x), hundredths(y)] as const);

/**
 * How far the bottom edge runs out of square to the reference edge over the board's width: positive when its right end
 * lies too high. With opposite sides equal, risingRight² - fallingRight² = 4 width length cos(lower-left angle).
 */
export const outOfSquareMm = ({ length, diagonals }: CutBoardPlan): number =>
  diagonals === undefined || length === 0
    ? 0
    : (diagonals.risingRight ** 2 - diagonals.fallingRight ** 2) / (4 * length);

/** The board's true outline, reference edge upright on x = 0, its lower end at the origin; FACE. */
export function ringAsCut(cut: CutBoardPlan): Ring {
  const rise = outOfSquareMm(cut);
  const across = Math.sqrt(Math.max(0, cut.width ** 2 - rise ** 2));
  return [
    [0, 0],
    [across, rise],
    [across, cut.length + rise],
    [0, cut.length],
  ];
}
