import { distanceToRing, ringHolds } from "../panel/rings.ts";
import type { PointPlan } from "../plan/plan.ts";
import { type Point, through } from "../projection/homography.ts";
import type { CheckMark, MarkingPicture } from "./markingTypes.ts";

/**
 * Where on the boards, in parts of width and length: away from the four corners, where even a bent picture is held true. A lens that bends
 * lines evenly about its axis is farthest off at 0.58 of the corners' distance from that axis; projectors have their axis anywhere
 * between the picture's middle and its lower edge, so the marks lie at different distances from both.
 */
const PLACES: readonly Point[] = [
  [0.2, 0.35],
  [0.5, 0.55],
  [0.75, 0.8],
];

/** Marks stand on whole multiples of this in the face frame, so that a tape finds them. */
const STEP_MM = 10;
const EDGE_MM = 40;
/** Clear of holes, so that neither hides the other, as far as there is room. */
const CLEAR_MM = [60, 45, 30] as const;

/** Three marks on boards, apart from corners and holes. @param measured face mm, in the order of the marks */
export function checkMarks(
  picture: Omit<MarkingPicture, "checks">,
  measured: readonly [PointPlan, PointPlan, PointPlan] | null,
): CheckMark[] {
  return PLACES.flatMap(([u, v], k): CheckMark[] => {
    const found = nearestClear(picture, u * picture.widthMm, v * picture.lengthMm);
    if (found === null) return [];
    const { panel, faceMm } = found;
    const atMm: Point = [faceMm[0] + panel.xMm, faceMm[1] + panel.yMm];
    const given = measured?.[k];
    if (given === undefined) return [{ panel: panel.board.id, faceMm, atMm, measured: null }];
    const [px, py] = through(picture.toPixels, atMm);
    const [qx, qy] = through(picture.toPixels, [given[0] + panel.xMm, given[1] + panel.yMm]);
    return [
      {
        panel: panel.board.id,
        faceMm,
        atMm,
        measured: {
          faceMm: given,
          offMm: Math.hypot(given[0] - faceMm[0], given[1] - faceMm[1]),
          offPx: Math.hypot(qx - px, qy - py),
        },
      },
    ];
  });
}

/** Steps to places round a point, the nearest first. */
const AROUND: readonly Point[] = Array.from(
  { length: 41 * 41 },
  (_, k): Point => [((k % 41) - 20) * STEP_MM, (Math.floor(k / 41) - 20) * STEP_MM],
).sort((a, b) => Math.hypot(...a) - Math.hypot(...b));

/** The place on a board nearest to a point that keeps clear of its edge, and of holes if any such is near. */
function nearestClear({ panels }: Pick<MarkingPicture, "panels">, xMm: number, yMm: number) {
  const onBoard = panels.flatMap((panel) => {
    const places = AROUND.flatMap(([dx, dy]): { panel: typeof panel; faceMm: Point; awayMm: number }[] => {
      const x = Math.round((xMm - panel.xMm) / STEP_MM) * STEP_MM + dx;
      const y = Math.round((yMm - panel.yMm) / STEP_MM) * STEP_MM + dy;
      const { outlineMm } = panel.board;
      if (!ringHolds(outlineMm, x, y) || distanceToRing(outlineMm, x, y) < EDGE_MM) return [];
      return [{ panel, faceMm: [x, y], awayMm: Math.hypot(x + panel.xMm - xMm, y + panel.yMm - yMm) }];
    });
    return places;
  });
  onBoard.sort((a, b) => a.awayMm - b.awayMm);
  const clearance = ({ panel, faceMm: [x, y] }: (typeof onBoard)[number]) =>
    panel.holes.reduce((least, hole) => Math.min(least, Math.hypot(hole.xMm - x, hole.yMm - y)), Infinity);
  const clear = CLEAR_MM.map((mm) => onBoard.find((place) => clearance(place) >= mm));
  return clear.find((place) => place !== undefined) ?? onBoard[0] ?? null;
}
