import type { PointMm } from "./frames.ts";

/** How the whole sky is moved on the ceiling: turned about the aim's point, then slid; ceiling frame. */
export interface Slide {
  readonly xMm: number;
  readonly yMm: number;
  /** Counter-clockwise as seen from below. */
  readonly turnDeg: number;
}

export const NO_SLIDE: Slide = { xMm: 0, yMm: 0, turnDeg: 0 };

/**
 * Where a point of the sky's picture goes: the same as projecting with a view made with this slide.
 * @param centre where the aim lies without it
 */
export function slidPoint({ xMm, yMm }: PointMm, centre: PointMm, slide: Slide): PointMm {
  const turn = (slide.turnDeg * Math.PI) / 180;
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const [x, y] = [xMm - centre.xMm, yMm - centre.yMm];
  return {
    xMm: centre.xMm + slide.xMm + c * x - s * y,
    yMm: centre.yMm + slide.yMm + s * x + c * y,
  };
}
