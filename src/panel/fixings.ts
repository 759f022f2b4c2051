import type { FramePlan } from "../plan/plan.ts";
import { type EdgeLine, FROM_END_MM, fromSideMm, LEAST_END_MM, pointOn } from "./edgeLines.ts";
import { hangersRound } from "./hangers.ts";
import { boxOf, type Ring, ringHolds } from "./rings.ts";

type Point = readonly [number, number];

/** A batten as it is cut: what this needs to know of it. */
interface Bar {
  readonly kind: "edge" | "cross" | "extra";
  readonly ring: Ring;
  /** Its centre line, not cut. */
  readonly from: Point;
  readonly to: Point;
}

export interface Fixings {
  /** Countersunk from the face. */
  readonly screws: readonly Point[];
  /** On the edge battens. */
  readonly hangers: readonly Point[];
  /** Hanging points that found no place clear of screws, of each other and of the ends of battens. */
  readonly crowdedHangers: number;
  /** About the middle of battens, too short or too narrow, that no screw holds. */
  readonly unscrewed: readonly Point[];
}

/** A batten without a screw of its own is held by one so near. */
const HELD_BY_MM = 2 * FROM_END_MM;

/**
 * Screws along edge battens and along what of the others lies clear of them, evenly, no farther apart than the pitch, each on its
 * batten as it is cut; and hanging points on the edge battens.
 * @param edges  centre lines of the edge battens
 * @param zone   where the centre lines of the other battens may take screws
 */
export function fixingsOf(
  battens: readonly Bar[],
  edges: readonly EdgeLine[],
  zone: readonly Ring[],
  plan: FramePlan,
): Fixings {
  const screws: [number, number][] = [];
  const bare: Point[] = [];
  const { pitch } = plan.screws;
  const isNear = ([x, y]: Point, mm: number) =>
    screws.some((screw) => Math.hypot(screw[0] - x, screw[1] - y) <= mm);

  /** Evenly between two places of a line; one in the middle, unless there is one close by, where they cross over. */
  const along = (from: Point, to: Point, lowMm: number, highMm: number): void => {
    const span = Math.hypot(to[0] - from[0], to[1] - from[1]);
    const run = highMm - lowMm;
    if (run <= 0) {
      const middle = pointOn(from, to, (lowMm + highMm) / 2 / span);
      if (!isNear(middle, Math.min(pitch / 2, HELD_BY_MM))) screws.push(middle);
      return;
    }
    const pieces = Math.max(1, Math.ceil(run / pitch - 1e-9));
    for (let i = 0; i <= pieces; i++) screws.push(pointOn(from, to, (lowMm + (run * i) / pieces) / span));
  };

  for (const { from, to, startMm, endMm, leastMm } of edges) {
    const span = Math.hypot(to[0] - from[0], to[1] - from[1]);
    if (span >= leastMm) along(from, to, startMm, span - endMm);
    else bare.push(pointOn(from, to, 0.5));
  }
  const sideMm = fromSideMm(plan.batten.width);
  for (const { kind, from, to, ring } of battens) {
    if (kind === "edge") continue;
    const span = Math.hypot(to[0] - from[0], to[1] - from[1]);
    const before = screws.length;
    for (const [s, t] of spansInside(from, to, ring, zone)) {
      // The zone begins so far from what crosses the batten; the square ends of a batten of one's own are not drawn in.
      const low = s * span + (s === 0 ? FROM_END_MM : FROM_END_MM - sideMm);
      const high = t * span - (t === 1 ? FROM_END_MM : FROM_END_MM - sideMm);
      if (((t - s) * span) / 2 >= LEAST_END_MM) along(from, to, low, high);
    }
    if (screws.length > before) continue;
    const { xMm, yMm, widthMm, lengthMm } = boxOf(ring);
    bare.push([xMm + widthMm / 2, yMm + lengthMm / 2]);
  }
  const { hangers, crowded } = hangersRound(edges, plan.hangers, screws);
  return {
    screws,
    hangers,
    crowdedHangers: crowded,
    unscrewed: bare.filter((point) => !isNear(point, HELD_BY_MM)),
  };
}

/** The parts of a centre line, as shares of it, that lie on a batten and in one of the rings of a zone. */
function spansInside(from: Point, to: Point, batten: Ring, zone: readonly Ring[]): [number, number][] {
  const cuts = [0, 1];
  const [ux, uy] = [to[0] - from[0], to[1] - from[1]];
  for (const ring of [batten, ...zone]) {
    for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
      const [ax, ay] = ring[j]!;
      const [wx, wy] = [ring[i]![0] - ax, ring[i]![1] - ay];
      const bent = ux * wy - uy * wx;
      if (bent === 0) continue;
      const t = ((ax - from[0]) * wy - (ay - from[1]) * wx) / bent;
      if (t > 0 && t < 1) cuts.push(t);
    }
  }
  cuts.sort((a, b) => a - b);
  const spans: [number, number][] = [];
  for (let k = 1; k < cuts.length; k++) {
    const [s, t] = [cuts[k - 1]!, cuts[k]!];
    const [x, y] = [from[0] + (ux * (s + t)) / 2, from[1] + (uy * (s + t)) / 2];
    if (t - s < 1e-12 || !ringHolds(batten, x, y) || !zone.some((ring) => ringHolds(ring, x, y))) continue;
    const last = spans.at(-1);
    if (last?.[1] === s) last[1] = t;
    else spans.push([s, t]);
  }
  return spans;
}
