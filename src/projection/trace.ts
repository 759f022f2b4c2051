import type { Vector3 } from "../sky/matrix.ts";
import { angleBetweenDeg } from "../sky/spanningTree.ts";
import { farthestCornerMm, type PointMm } from "./frames.ts";
import type { View } from "./view.ts";

/** Where lines of the sky may be drawn. */
export interface Canvas {
  readonly view: View;
  /** The ceiling's rectangle from 0, 0. */
  readonly widthMm: number;
  readonly lengthMm: number;
  /** Directions with a smaller third component are not shown: 0 for the horizon, -Infinity for none. */
  readonly lowestUp: number;
  /** No direction further from the aim lies on the ceiling. */
  readonly reachDeg: number;
}

export function makeCanvas(
  view: View,
  { width, length }: { readonly width: number; readonly length: number },
  belowHorizon: boolean,
): Canvas {
  return {
    view,
    widthMm: width,
    lengthMm: length,
    lowestUp: belowHorizon ? Number.NEGATIVE_INFINITY : 0,
    reachDeg: view.angleFromAimDeg(farthestCornerMm(view.centre, { width, length })) ?? 180,
  };
}

/** A curve of the sky, 0 to 1 from end to end. */
export interface SkyCurve {
  /** Apparent direction (east, north, up). */
  readonly directionAt: (t: number) => Vector3;
  /** Its length in degrees, or a little more. */
  readonly angleDeg: number;
  /** How far its two ends are moved on the ceiling; what lies between moves in proportion. */
  readonly endShiftsMm?: readonly [PointMm, PointMm];
}

/** Furthest that a drawn chord may lie from the curve. */
const TOLERANCE_MM = 0.2;
const STEP_DEG = 2;
/** For refraction, which stretches a curve, and for ends moved to their holes. */
const MARGIN_DEG = 2;
/** Halvings of a step: what still bends then is a leap from rim to rim, and what is still half hidden ends there (0.4 arcsec). */
const MOST_HALVINGS = 14;

interface Sample {
  readonly t: number;
  /** Null where nothing is shown. */
  readonly at: PointMm | null;
}

/**
 * The pieces of a curve that are seen on the ceiling, as chains of points inside its rectangle. Cut at the horizon, at the
 * projection's limit and at the ceiling's edge; chords are as short as the projection's bending asks for.
 */
export function traceOnCeiling(curve: SkyCurve, canvas: Canvas): PointMm[][] {
  if (isElsewhere(curve, canvas)) return [];
  const pointAt = pointFinder(curve, canvas);
  const sample = (t: number): Sample => ({ t, at: pointAt(t) });
  const chains = chainCollector(canvas);
  const walk = (a: Sample, b: Sample, halvings: number): void => {
    const middle = sample((a.t + b.t) / 2);
    const seen = Number(a.at !== null) + Number(middle.at !== null) + Number(b.at !== null);
    if (seen === 0) return;
    if (seen === 3) {
      if (sameSideOutside([a.at!, middle.at!, b.at!], canvas)) return;
      if (isStraight(a.at!, middle.at!, b.at!)) {
        chains.add(a.at!, b.at!);
        return;
      }
    }
    if (halvings === MOST_HALVINGS) return;
    walk(a, middle, halvings + 1);
    walk(middle, b, halvings + 1);
  };
  const steps = Math.max(1, Math.ceil(curve.angleDeg / STEP_DEG));
  let from = sample(0);
  for (let step = 1; step <= steps; step++) {
    const to = sample(step / steps);
    walk(from, to, 0);
    from = to;
  }
  return chains.done();
}

/** Whether the whole curve lies off the ceiling or below the horizon, as its middle and length tell. */
function isElsewhere({ directionAt, angleDeg }: SkyCurve, { view, lowestUp, reachDeg }: Canvas): boolean {
  const middle = directionAt(0.5);
  const aim = view.axes.slice(6) as unknown as Vector3;
  const fromAimDeg = angleBetweenDeg(middle, aim);
  const altDeg = 90 - angleBetweenDeg(middle, [0, 0, 1]);
  const halfDeg = angleDeg / 2 + MARGIN_DEG;
  return fromAimDeg > reachDeg + halfDeg || (lowestUp === 0 && altDeg < -halfDeg);
}

function pointFinder(
  { directionAt, endShiftsMm }: SkyCurve,
  { view, lowestUp }: Canvas,
): (t: number) => PointMm | null {
  const enu = new Float64Array(3); // used again for every point: a call of projectOne makes two arrays
  const xy = new Float64Array(2);
  const [from, to] = endShiftsMm ?? [NO_SHIFT, NO_SHIFT];
  return (t) => {
    const direction = directionAt(t);
    if (!(direction[2] > lowestUp)) return null;
    enu.set(direction);
    if (!view.projectAt(enu, 0, xy)) return null;
    return {
      xMm: xy[0]! + (1 - t) * from.xMm + t * to.xMm,
      yMm: xy[1]! + (1 - t) * from.yMm + t * to.yMm,
    };
  };
}

const NO_SHIFT: PointMm = { xMm: 0, yMm: 0 };

/** The middle lies on the chord, and near its middle: a curve that runs around the rim does not pass for a short one. */
function isStraight(a: PointMm, middle: PointMm, b: PointMm): boolean {
  const [dx, dy] = [b.xMm - a.xMm, b.yMm - a.yMm];
  const [mx, my] = [middle.xMm - (a.xMm + b.xMm) / 2, middle.yMm - (a.yMm + b.yMm) / 2];
  const length = Math.hypot(dx, dy);
  if (length < TOLERANCE_MM) return Math.hypot(mx, my) < TOLERANCE_MM;
  const across = Math.abs(mx * dy - my * dx) / length;
  const along = Math.abs(mx * dx + my * dy) / length;
  return across <= TOLERANCE_MM && along <= length / 4;
}

function sameSideOutside(points: readonly PointMm[], { widthMm, lengthMm }: Canvas): boolean {
  return (
    points.every(({ xMm }) => xMm < 0) ||
    points.every(({ xMm }) => xMm > widthMm) ||
    points.every(({ yMm }) => yMm < 0) ||
    points.every(({ yMm }) => yMm > lengthMm)
  );
}

/** Clips chords to the rectangle (Liang and Barsky 1984, ACM Trans. Graph. 3, 1) and joins those that meet. */
function chainCollector({ widthMm, lengthMm }: Canvas): {
  add(a: PointMm, b: PointMm): void;
  done(): PointMm[][];
} {
  const chains: PointMm[][] = [];
  return {
    add(a, b) {
      const [dx, dy] = [b.xMm - a.xMm, b.yMm - a.yMm];
      let [from, to] = [0, 1];
      for (const [p, q] of [
        [-dx, a.xMm],
        [dx, widthMm - a.xMm],
        [-dy, a.yMm],
        [dy, lengthMm - a.yMm],
      ] as const) {
        if (p === 0 && q < 0) return;
        if (p < 0) from = Math.max(from, q / p);
        if (p > 0) to = Math.min(to, q / p);
      }
      if (from >= to) return;
      const inside = (s: number): PointMm => ({
        xMm: Math.min(widthMm, Math.max(0, a.xMm + s * dx)), // rounding may leave the edge by 1e-13
        yMm: Math.min(lengthMm, Math.max(0, a.yMm + s * dy)),
      });
      const start = from === 0 ? a : inside(from);
      const end = to === 1 ? b : inside(to);
      const last = chains.at(-1)?.at(-1);
      if (last && last.xMm === start.xMm && last.yMm === start.yMm) chains.at(-1)!.push(end);
      else chains.push([start, end]);
    },
    done: () => chains,
  };
}
