import {
  type FourPoints,
  type Homography,
  homographyOf,
  type Point,
  stretchAt,
  weightAt,
} from "../projection/homography.ts";

/** Room round the boards for targets and names, and what the words beside or below them take, in pixels of a picture 2160 high. */
const MARGIN_PX = 84;
const WORDS_BESIDE_PX = 760;
const WORDS_BELOW_PX = 330;

/** Sizes of marks and words go with the shorter side of the picture. */
export const unitPxOf = (widthPx: number, heightPx: number): number => Math.min(widthPx, heightPx) / 2160;

/** Boards upright and true to scale, as large as the picture lets them beside or above its words. */
export function plainFrame(
  widthMm: number,
  lengthMm: number,
  widthPx: number,
  heightPx: number,
): { readonly toPixels: Homography; readonly mmPerPx: number } {
  const unit = unitPxOf(widthPx, heightPx);
  const margin = MARGIN_PX * unit;
  const pxPerMm = Math.max(
    scaleIn(widthPx - 2 * margin - WORDS_BESIDE_PX * unit, heightPx - 2 * margin),
    scaleIn(widthPx - 2 * margin, heightPx - 2 * margin - WORDS_BELOW_PX * unit),
  );
  function scaleIn(roomXPx: number, roomYPx: number): number {
    return Math.min(roomXPx / widthMm, roomYPx / lengthMm);
  }
  return {
    toPixels: [pxPerMm, 0, margin, 0, -pxPerMm, margin + lengthMm * pxPerMm, 0, 0, 1],
    mmPerPx: 1 / pxPerMm,
  };
}

/**
 * Four corners of boards that a tape can find, as the eye names them: those farthest out along the four diagonals. Null when a board
 * has no four of them (a triangle).
 * @param points every corner of the boards
 */
export function outerCorners(points: readonly Point[], widthMm: number, lengthMm: number): FourPoints | null {
  // Not quite along the diagonals, so that of two corners that lie equally far out always the same one is taken.
  const farthest = (u: number, v: number) =>
    points.reduce((best, point) =>
      (u * point[0]) / widthMm + (v * point[1]) / lengthMm >
      (u * best[0]) / widthMm + (v * best[1]) / lengthMm + 1e-9
        ? point
        : best,
    );
  const corners: FourPoints = [farthest(-1, -0.9), farthest(0.9, -1), farthest(1, 0.9), farthest(-0.9, 1)];
  const convex = corners.every(([x, y], k) => {
    const [ax, ay] = corners[(k + 3) % 4]!;
    const [bx, by] = corners[(k + 1) % 4]!;
    return (x - ax) * (by - y) - (y - ay) * (bx - x) > 0.01 * widthMm * lengthMm;
  });
  return convex ? corners : null;
}

/** Boards as the projector sees them, or null where a corner of theirs lies beyond its horizon. */
export function warpedFrame(
  cornersMm: FourPoints,
  cornersPx: FourPoints,
  points: readonly Point[],
): {
  readonly toPixels: Homography;
  readonly finestMmPerPx: number;
  readonly coarsestMmPerPx: number;
} | null {
  const toPixels = homographyOf(cornersMm, cornersPx);
  if (points.some((point) => weightAt(toPixels, point) <= 0.02)) return null;
  const stretches = points.map((point) => stretchAt(toPixels, point));
  return {
    toPixels,
    finestMmPerPx: 1 / Math.max(...stretches.map(({ most }) => most)),
    coarsestMmPerPx: 1 / Math.min(...stretches.map(({ least }) => least)),
  };
}
