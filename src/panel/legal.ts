import { CircleGrid, NO_CIRCLES } from "./circleGrid.ts";
import { intersections, meetingsOfCircles } from "./curves.ts";
import { type Flat, flatRing, ringKeeps, shapeKeepsOff } from "./flat.ts";
import type { Shape } from "./keepOuts.ts";
import { type Ring, squaredToSegment } from "./rings.ts";
import { STEPS_PER_MM, writtenMm } from "./written.ts";

/** What a hole's centre must keep: inside one ring of each group and so far from all their sides, so far off each obstacle. */
export interface Constraints {
  /** The same as a whole, where it is nothing but upright rectangles [left, bottom, right, top] of whole hundredths. */
  readonly cells?: readonly (readonly [number, number, number, number])[];
  readonly within: readonly { readonly rings: readonly Ring[]; readonly clearanceMm: number }[];
  readonly off: readonly { readonly shape: Shape; readonly clearanceMm: number }[];
}

/** Circles around other holes, in the same frame. */
export interface Others {
  /** True when a hole at this point is too close to another one. */
  conflicts(x: number, y: number): boolean;
  /** [x, y, radius, ...] of the circles that come within so far of a point, and perhaps of some more. */
  near(x: number, y: number, withinMm: number): readonly number[];
}

export interface FoundPoint {
  readonly x: number;
  readonly y: number;
  readonly distance: number;
}

/** How far past the first legal point a free place among other holes is sought at first. */
const OTHERS_STEP_MM = 4;
/** Steps about a candidate among which a point of whole hundredths is sought: more only where the region is a sharp corner. */
const STEPS_ABOUT = [1, 4, 16] as const;
/** A candidate so deep in another hole's circle has no written point of the first two sizes outside it. */
const TOO_DEEP_MM = 0.06;
/** What is left of a distance when its square root was taken. */
const FLOAT_MM = 1e-9;

/** Where on one panel one bit may go, in the panel's face frame. */
export class LegalRegion {
  /** Straight pieces of the boundary's curves [ax, ay, bx, by, ...] and its circles [x, y, r, ...]. */
  private readonly lines: Float64Array;
  private readonly circles: Float64Array;
  /** Where two curves meet at a legal point. */
  private readonly corners: Float64Array;
  private readonly cells: Constraints["cells"];
  private readonly within: readonly { readonly rings: readonly Flat[]; readonly clearanceMm: number }[];
  private readonly off: readonly ReturnType<typeof shapeKeepsOff>[];
  /** Candidates [squared distance, x, y, ...] of the search under way. */
  private found: number[] = [];

  constructor(constraints: Constraints) {
    const lines: number[] = [];
    const circles: number[] = [];
    const corners: number[] = [];
    this.cells = constraints.cells;
    this.within = constraints.cells
      ? []
      : constraints.within.map(({ rings, clearanceMm }) => ({ rings: rings.map(flatRing), clearanceMm }));
    this.off = constraints.cells
      ? []
      : constraints.off.map(({ shape, clearanceMm }) => shapeKeepsOff(shape, clearanceMm));
    if (constraints.cells) {
      for (const [left, bottom, right, top] of constraints.cells) {
        corners.push(left, bottom, right, bottom, right, top, left, top);
        lines.push(left, bottom, right, bottom, right, bottom, right, top);
        lines.push(right, top, left, top, left, top, left, bottom);
      }
    } else {
      for (const { rings, clearanceMm } of constraints.within)
        for (const ring of rings) addCurves(ring, clearanceMm, 1, lines, circles);
      for (const { shape, clearanceMm } of constraints.off) {
        if ("ring" in shape) addCurves(shape.ring, clearanceMm, -1, lines, circles);
        else circles.push(shape.at[0], shape.at[1], shape.radiusMm + clearanceMm);
      }
    }
    this.lines = Float64Array.from(lines);
    this.circles = Float64Array.from(circles);
    if (!constraints.cells) {
      intersections(this.lines, this.circles, (x, y) => {
        if (this.allows(x, y)) corners.push(x, y);
      });
    }
    this.corners = Float64Array.from(corners);
  }

  /** Exact: no tolerance is eaten but that of a square root. */
  allows(x: number, y: number): boolean {
    if (this.cells) {
      for (const [left, bottom, right, top] of this.cells)
        if (x >= left && x <= right && y >= bottom && y <= top) return true;
      return false;
    }
    for (const keepsOff of this.off) if (!keepsOff(x, y)) return false;
    for (const { rings, clearanceMm } of this.within) {
      let inside = false;
      for (const ring of rings) {
        const keeps = ringKeeps(ring, x, y, clearanceMm - FLOAT_MM);
        if (keeps === "tooClose") return false;
        if (keeps === "inside") inside = true;
      }
      if (!inside) return false;
    }
    return true;
  }

  /** True for a region without a single point that can be written down: a closed region has corners, or is none. */
  get isEmpty(): boolean {
    for (let i = 0; i < this.corners.length; i += 2) {
      const [x, y] = [this.corners[i]!, this.corners[i + 1]!];
      if (this.written(x, y, x, y, NO_CIRCLES) !== null) return false;
    }
    return true;
  }

  /**
   * The legal point nearest to another, in whole hundredths: what is written down is legal. A legal point stays where it is, if it
   * is so when rounded. On the boundary the nearest is the foot on one of its curves, or one of its corners.
   * @param others    circles of other holes that count as well
   * @param reachMm   no farther than this
   */
  nearest(px: number, py: number, others: Others | null, reachMm: number): FoundPoint | null {
    const legal = this.allows(px, py);
    if (legal) {
      const [rx, ry] = [writtenMm(px), writtenMm(py)];
      if (this.allows(rx, ry) && !others?.conflicts(rx, ry)) return { x: px, y: py, distance: 0 };
    }
    const first = this.nearestAlone(px, py, legal, reachMm);
    if (others === null || first === null) return first;
    if (!others.conflicts(writtenMm(first.x), writtenMm(first.y))) return first;
    // Nothing legal is nearer than `first`: only what reaches beyond it matters.
    for (let beyond = OTHERS_STEP_MM; ; beyond *= 2) {
      const within = Math.min(first.distance + beyond, reachMm);
      const found = this.nearestAmong(
        px,
        py,
        legal,
        within,
        new CircleGrid(circlesBetween(others, px, py, first.distance, within)),
      );
      if (found !== null) return found;
      if (within >= reachMm) return null;
    }
  }

  /** How far a point is from the region's edge, and the nearest place of it; null when that is farther than `withinMm`. */
  nearestBoundary(px: number, py: number, withinMm = Number.POSITIVE_INFINITY): FoundPoint | null {
    if (withinMm < 0) return null;
    this.found = [];
    this.offerFeet(px, py, withinMm, NO_CIRCLES);
    for (let i = this.takeNearest(); i >= 0; i = this.takeNearest()) {
      const [x, y] = [this.found[i + 1]!, this.found[i + 2]!];
      this.found[i] = Number.POSITIVE_INFINITY;
      if (this.allows(x, y)) return { x, y, distance: Math.hypot(x - px, y - py) };
    }
    return null;
  }

  private nearestAlone(px: number, py: number, legal: boolean, reachMm: number): FoundPoint | null {
    if (this.cells && !legal) return nearestInCells(this.cells, px, py);
    return this.nearestAmong(px, py, legal, reachMm, NO_CIRCLES);
  }

  /** @param others circles of other holes: all that reach what is no farther than `withinMm` */
  private nearestAmong(
    px: number,
    py: number,
    legal: boolean,
    withinMm: number,
    others: CircleGrid,
  ): FoundPoint | null {
    this.found = [];
    this.offerFeet(px, py, withinMm, others);
    if (legal) this.offer(px, py, px, py, withinMm, others);
    if (others.count > 0) this.offerAmong(px, py, withinMm, others);
    let best: FoundPoint | null = null;
    for (let i = this.takeNearest(); i >= 0; i = this.takeNearest()) {
      const [squared, x, y] = [this.found[i]!, this.found[i + 1]!, this.found[i + 2]!];
      this.found[i] = Number.POSITIVE_INFINITY;
      if (best !== null && Math.sqrt(squared) >= best.distance) return best;
      if (!this.allows(x, y)) continue;
      const found = this.written(x, y, px, py, others);
      if (found !== null && (best === null || found.distance < best.distance)) best = found;
    }
    return best;
  }

  /** Index of the nearest candidate that was not taken yet, -1 for none; of equals the one farther left, then lower. */
  private takeNearest(): number {
    const { found } = this;
    let best = -1;
    for (let i = 0; i < found.length; i += 3) {
      if (found[i] === Number.POSITIVE_INFINITY) continue;
      if (best < 0 || found[i]! < found[best]! || (found[i] === found[best] && isBefore(found, i, best)))
        best = i;
    }
    return best;
  }

  private offer(x: number, y: number, px: number, py: number, withinMm: number, others: CircleGrid): void {
    const squared = (x - px) ** 2 + (y - py) ** 2;
    if (squared > withinMm * withinMm || others.isUnder(x, y, TOO_DEEP_MM)) return;
    this.found.push(squared, x, y);
  }

  private offerFeet(px: number, py: number, withinMm: number, others: CircleGrid): void {
    const { lines, circles, corners } = this;
    for (let i = 0; i < lines.length; i += 4) {
      const ax = lines[i]!;
      const ay = lines[i + 1]!;
      const dx = lines[i + 2]! - ax;
      const dy = lines[i + 3]! - ay;
      const t = ((px - ax) * dx + (py - ay) * dy) / (dx * dx + dy * dy);
      if (t >= 0 && t <= 1) this.offer(ax + t * dx, ay + t * dy, px, py, withinMm, others);
    }
    this.offerCircleFeet(circles, px, py, withinMm, others);
    for (let i = 0; i < corners.length; i += 2)
      this.offer(corners[i]!, corners[i + 1]!, px, py, withinMm, others);
  }

  private offerCircleFeet(
    circles: ArrayLike<number>,
    px: number,
    py: number,
    withinMm: number,
    others: CircleGrid,
  ): void {
    for (let i = 0; i < circles.length; i += 3) {
      const cx = circles[i]!;
      const cy = circles[i + 1]!;
      const r = circles[i + 2]!;
      const span = Math.hypot(px - cx, py - cy);
      if (span > 0) {
        this.offer(cx + ((px - cx) / span) * r, cy + ((py - cy) / span) * r, px, py, withinMm, others);
        continue;
      }
      this.offer(cx + r, cy, px, py, withinMm, others);
      this.offer(cx, cy + r, px, py, withinMm, others);
      this.offer(cx - r, cy, px, py, withinMm, others);
      this.offer(cx, cy - r, px, py, withinMm, others);
    }
  }

  /** Feet on the circles of other holes, and where they meet each other and the region's curves. */
  private offerAmong(px: number, py: number, withinMm: number, others: CircleGrid): void {
    this.offerCircleFeet(others.circles, px, py, withinMm, others);
    const nearLines: number[] = [];
    const { lines, circles } = this;
    for (let i = 0; i < lines.length; i += 4) {
      const [ax, ay, bx, by] = [lines[i]!, lines[i + 1]!, lines[i + 2]!, lines[i + 3]!];
      if (squaredToSegment(px, py, ax, ay, bx, by) <= withinMm * withinMm) nearLines.push(ax, ay, bx, by);
    }
    const nearCircles: number[] = [];
    for (let i = 0; i < circles.length; i += 3) {
      const [x, y, r] = [circles[i]!, circles[i + 1]!, circles[i + 2]!];
      if (Math.abs(Math.hypot(px - x, py - y) - r) <= withinMm) nearCircles.push(x, y, r);
    }
    meetingsOfCircles(others, nearLines, nearCircles, (x, y) => this.offer(x, y, px, py, withinMm, others));
  }

  /** The point of whole hundredths beside a legal point that is legal too and nearest to the wanted one. */
  private written(x: number, y: number, px: number, py: number, others: CircleGrid): FoundPoint | null {
    const gx = Math.floor(x * STEPS_PER_MM);
    const gy = Math.floor(y * STEPS_PER_MM);
    for (const wide of STEPS_ABOUT) {
      let best: FoundPoint | null = null;
      for (let i = gx - wide + 1; i <= gx + wide; i++) {
        for (let j = gy - wide + 1; j <= gy + wide; j++) {
          const sx = i / STEPS_PER_MM;
          const sy = j / STEPS_PER_MM;
          const distance = Math.hypot(sx - px, sy - py);
          if (best !== null && distance >= best.distance) continue;
          if (!others.isUnder(sx, sy, FLOAT_MM) && this.allows(sx, sy)) best = { x: sx, y: sy, distance };
        }
      }
      if (best !== null) return best;
    }
    return null;
  }
}

const isBefore = (found: readonly number[], i: number, j: number) =>
  found[i + 1]! < found[j + 1]! || (found[i + 1] === found[j + 1] && found[i + 2]! < found[j + 2]!);

/** The circles that reach any point at least so far from another and no farther than so much, and what is written beside it. */
function circlesBetween(others: Others, px: number, py: number, fromMm: number, toMm: number): number[] {
  const near = others.near(px, py, toMm);
  const kept: number[] = [];
  const beside = (STEPS_ABOUT[2] * Math.SQRT2) / STEPS_PER_MM;
  for (let i = 0; i < near.length; i += 3) {
    const [x, y, r] = [near[i]!, near[i + 1]!, near[i + 2]!];
    const apart = Math.hypot(x - px, y - py);
    if (apart - r <= toMm + beside && apart + r >= fromMm - beside) kept.push(x, y, r);
  }
  return kept;
}

function nearestInCells(cells: NonNullable<Constraints["cells"]>, px: number, py: number): FoundPoint | null {
  let best: FoundPoint | null = null;
  for (const [left, bottom, right, top] of cells) {
    // Bounds are whole hundredths: a point between them stays between them when it is rounded.
    const x = px < left ? left : Math.min(px, right);
    const y = py < bottom ? bottom : Math.min(py, top);
    const distance = Math.hypot(x - px, y - py);
    if (best === null || distance < best.distance) best = { x, y, distance };
  }
  return best;
}

/** Lines beside the sides of a counter-clockwise ring (or both sides of a straight piece) and circles about its corners. @param side 1: inside it, -1: outside */
function addCurves(ring: Ring, clearanceMm: number, side: 1 | -1, lines: number[], circles: number[]): void {
  const n = ring.length;
  for (let i = 0; i < n; i++) {
    const [ax, ay] = ring[i]!;
    const [bx, by] = ring[(i + 1) % n]!;
    const [zx, zy] = ring[(i + n - 1) % n]!;
    const span = Math.hypot(bx - ax, by - ay);
    const nx = (side * clearanceMm * -(by - ay)) / span;
    const ny = (side * clearanceMm * (bx - ax)) / span;
    lines.push(ax + nx, ay + ny, bx + nx, by + ny);
    const bend = (ax - zx) * (by - ay) - (ay - zy) * (bx - ax);
    if (bend * side < 0 || n === 2) circles.push(ax, ay, clearanceMm);
  }
}
