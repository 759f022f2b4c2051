import { distanceToRing, ringHolds } from "../panel/rings.ts";
import type { PointPlan } from "../plan/plan.ts";
import { type Point, through } from "../projection/homography.ts";
import { plainFrame, unitPxOf } from "./markingFrame.ts";
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
/** From a mark to a hole, in units of the picture: the mark's arm, the widest symbol and a gap; more where there is room for a keystone. */
const CLEAR_UNITS = [100, 71, 50] as const;
/** No nearer, however fine the picture. */
const CLEAR_MM = 30;
/** A mark leaves its place for a clear one by so much of the boards' shorter side: farther it would tell less of a lens. */
const ASIDE = 0.12;

/**
 * Three marks on boards, apart from corners and holes. They follow from boards, all their holes and the size of the picture alone, neither
 * from the holes that are shown nor from measured corners: a mark stays where somebody has measured it.
 * @param measured face mm, in the order of the marks
 */
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

/** The place on a board nearest to a point that keeps clear of its edge, and of holes if any such is near; else the clearest near it. */
function nearestClear(picture: Omit<MarkingPicture, "checks">, xMm: number, yMm: number) {
  const { panels, widthMm, lengthMm, widthPx, heightPx } = picture;
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
  if (onBoard.length === 0) return null;
  const farthest = onBoard[0]!.awayMm + ASIDE * Math.min(widthMm, lengthMm);
  const near = onBoard.slice(0, onBoard.findLastIndex(({ awayMm }) => awayMm <= farthest) + 1);
  const holes = panels.flatMap((panel) =>
    panel.allHoles.map((hole): Point => [hole.xMm + panel.xMm, hole.yMm + panel.yMm]),
  );
  const clearances = near.map(({ panel, faceMm: [x, y] }) =>
    holes.reduce(
      (least, [hx, hy]) => Math.min(least, Math.hypot(hx - x - panel.xMm, hy - y - panel.yMm)),
      Infinity,
    ),
  );
  const mmPerUnit = plainFrame(widthMm, lengthMm, widthPx, heightPx).mmPerPx * unitPxOf(widthPx, heightPx);
  for (const units of CLEAR_UNITS) {
    const k = clearances.findIndex((clear) => clear >= Math.max(CLEAR_MM, units * mmPerUnit));
    if (k >= 0) return near[k]!;
  }
  return near[clearances.indexOf(Math.max(...clearances))]!;
}
