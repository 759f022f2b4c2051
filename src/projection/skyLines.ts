import { apparentDirection, apparentDirections } from "../sky/apparent.ts";
import { type BoundaryArc, boundaryPoint } from "../sky/boundaries.ts";
import type { Figure } from "../sky/figures.ts";
import { normalise, type Vector3 } from "../sky/matrix.ts";
import type { Observer } from "../sky/observer.ts";
import { refracted } from "../sky/refraction.ts";
import type { SkyData } from "../sky/skyData.ts";
import { angleBetweenDeg } from "../sky/spanningTree.ts";
import type { PointMm } from "./frames.ts";
import { type Canvas, traceOnCeiling } from "./trace.ts";

/** The sky over a ceiling, as far as lines need it. */
export interface LinesOver {
  readonly canvas: Canvas;
  readonly observer: Observer;
  readonly refraction: boolean;
}

/** One edge of a figure on the ceiling. */
export interface FigureLine {
  readonly code: string;
  /** HIP numbers of the stars that it joins. */
  readonly hips: readonly [number, number];
  /** What is seen of it: chains of points inside the ceiling's rectangle. */
  readonly chains: readonly (readonly PointMm[])[];
}

/**
 * Figures as they stand over the ceiling: each edge along the great circle between the apparent places of its stars.
 * @param dotOf the hole that shows a star, ceiling frame, if there is one: there the line ends, and bends gently toward it;
 *              at the star's true point otherwise
 */
export function figureLines(
  figures: readonly Figure[],
  { catalogue, stars }: SkyData,
  over: LinesOver,
  dotOf: (hip: number) => PointMm | undefined,
): FigureLine[] {
  const rows = Int32Array.from(new Set(figures.flatMap(({ nodes }) => nodes))).sort();
  const enu = apparentDirections(stars, over.observer, rows);
  const directionOf = new Map(
    [...rows].map((row, i): [number, Vector3] => [row, [enu[3 * i]!, enu[3 * i + 1]!, enu[3 * i + 2]!]]),
  );
  return figures.flatMap(({ code, edges }) =>
    edges.map((edge): FigureLine => {
      const [a, b] = [directionOf.get(edge[0])!, directionOf.get(edge[1])!];
      const hips = [catalogue.hip[edge[0]]!, catalogue.hip[edge[1]]!] as const;
      const angleDeg = angleBetweenDeg(a, b);
      const directionAt = lifted(over, greatCircle(a, b, angleDeg));
      const shift = (hip: number, t: 0 | 1): PointMm => {
        const dot = dotOf(hip);
        const sky = dot && over.canvas.view.projectOne(directionAt(t));
        return dot && sky ? { xMm: dot.xMm - sky.xMm, yMm: dot.yMm - sky.yMm } : { xMm: 0, yMm: 0 };
      };
      const curve = {
        directionAt,
        angleDeg,
        endShiftsMm: [shift(hips[0], 0), shift(hips[1], 1)] as const,
      };
      return { code, hips, chains: traceOnCeiling(curve, over.canvas) };
    }),
  );
}

/** Boundaries as they stand over the ceiling; they share the aberration of the stars beside them. */
export function boundaryLines(arcs: readonly BoundaryArc[], over: LinesOver): PointMm[][] {
  return arcs.flatMap((arc) => {
    const directionAt = (t: number): Vector3 => apparentDirection(boundaryPoint(arc, t), over.observer);
    const [[ra0, ra1], [dec0, dec1]] = [arc.raB1875Deg, arc.decB1875Deg];
    // One of the two is 0.
    const angleDeg = Math.abs(ra1 - ra0) * Math.cos((dec0 * Math.PI) / 180) + Math.abs(dec1 - dec0);
    return traceOnCeiling({ directionAt: lifted(over, directionAt), angleDeg }, over.canvas);
  });
}

/** The great circle from a to b, in proportion to the angle; exactly a and b at its ends. */
function greatCircle(a: Vector3, b: Vector3, angleDeg: number): (t: number) => Vector3 {
  const angle = (angleDeg * Math.PI) / 180;
  return (t) => {
    if (t === 0) return a;
    if (t === 1) return b;
    const [wa, wb] = [Math.sin((1 - t) * angle), Math.sin(t * angle)];
    return normalise([wa * a[0] + wb * b[0], wa * a[1] + wb * b[1], wa * a[2] + wb * b[2]]);
  };
}

function lifted({ refraction }: LinesOver, directionAt: (t: number) => Vector3): (t: number) => Vector3 {
  return refraction ? (t) => refracted(directionAt(t)) : directionAt;
}
