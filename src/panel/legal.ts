import { intersections } from "./curves.ts";
import type { Shape } from "./keepOuts.ts";
import { type Ring, ringHolds, squaredToSegment } from "./rings.ts";

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
  /** [x, y, radius] of each circle that comes within so far of a point. */
  near(x: number, y: number, withinMm: number): readonly (readonly [number, number, number])[];
}

export interface FoundPoint {
  readonly x: number;
  readonly y: number;
  readonly distance: number;
}

/** What is left of a distance when its square root was taken. */
const FLOAT_MM = 1e-9;
const STEPS_PER_MM = 100;
/** How far past the first legal point a free place among other holes is sought at first. */
const OTHERS_STEP_MM = 4;

/** Where on one panel one bit may go, in the panel's face frame. */
export class LegalRegion {
  /** Straight pieces of the boundary's curves [ax, ay, bx, by, ...] and its circles [x, y, r, ...]. */
  private readonly lines: Float64Array;
  private readonly circles: Float64Array;
  /** Where two curves meet at a legal point. */
  private readonly corners: Float64Array;

  constructor(private readonly constraints: Constraints) {
    const lines: number[] = [];
    const circles: number[] = [];
    if (constraints.cells) {
      const corners: number[] = [];
      for (const [left, bottom, right, top] of constraints.cells) {
        corners.push(left, bottom, right, bottom, right, top, left, top);
        lines.push(left, bottom, right, bottom, right, bottom, right, top);
        lines.push(right, top, left, top, left, top, left, bottom);
      }
      this.lines = Float64Array.from(lines);
      this.circles = new Float64Array(0);
      this.corners = Float64Array.from(corners);
      return;
    }
    for (const { rings, clearanceMm } of constraints.within)
      for (const ring of rings) addCurves(ring, clearanceMm, 1, lines, circles);
    for (const { shape, clearanceMm } of constraints.off) {
      if ("ring" in shape) addCurves(shape.ring, clearanceMm, -1, lines, circles);
      else circles.push(shape.at[0], shape.at[1], shape.radiusMm + clearanceMm);
    }
    this.lines = Float64Array.from(lines);
    this.circles = Float64Array.from(circles);
    const corners: number[] = [];
    intersections(this.lines, this.circles, (x, y) => {
      if (this.allows(x, y)) corners.push(x, y);
    });
    this.corners = Float64Array.from(corners);
  }

  /** Exact: no tolerance is eaten but that of a square root. */
  allows(x: number, y: number): boolean {
    const { cells } = this.constraints;
    if (cells) {
      for (const [left, bottom, right, top] of cells)
        if (x >= left && x <= right && y >= bottom && y <= top) return true;
      return false;
    }
    for (const { rings, clearanceMm } of this.constraints.within) {
      let inside = false;
      for (const ring of rings) {
        if (tooClose(ring, x, y, clearanceMm)) return false;
        if (!inside && ringHolds(ring, x, y)) inside = true;
      }
      if (!inside) return false;
    }
    for (const { shape, clearanceMm } of this.constraints.off) {
      if ("ring" in shape) {
        if (tooClose(shape.ring, x, y, clearanceMm) || ringHolds(shape.ring, x, y)) return false;
      } else if (Math.hypot(x - shape.at[0], y - shape.at[1]) < shape.radiusMm + clearanceMm - FLOAT_MM)
        return false;
    }
    return true;
  }

  /** True for a region without a single point that can be written down: a closed region has corners, or is none. */
  get isEmpty(): boolean {
    for (let i = 0; i < this.corners.length; i += 2) {
      const [x, y] = [this.corners[i]!, this.corners[i + 1]!];
      if (this.written(x, y, x, y, null) !== null) return false;
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
      const [rx, ry] = [roundedMm(px), roundedMm(py)];
      if (this.allows(rx, ry) && !others?.conflicts(rx, ry)) return { x: px, y: py, distance: 0 };
    }
    if (this.constraints.cells && !legal) {
      const found = this.nearestInCells(px, py);
      if (found === null || !others?.conflicts(roundedMm(found.x), roundedMm(found.y))) return found;
    }
    const feet = this.feet(px, py, reachMm);
    if (legal) feet.push(0, px, py);
    const first = this.firstLegal(feet, px, py, null);
    if (others === null || first === null) return first;
    if (!others.conflicts(first.x, first.y)) return first;
    // Nothing legal is nearer than `first`: only what reaches beyond it matters.
    for (let beyond = OTHERS_STEP_MM; ; beyond *= 2) {
      const within = Math.min(first.distance + beyond, reachMm);
      const around = others.near(px, py, within).filter(([x, y, r]) => {
        const apart = Math.hypot(x - px, y - py);
        return apart - r <= within && apart + r >= first.distance;
      });
      const more = this.withCircles(feet, around, px, py, within);
      const found = this.firstLegal(more, px, py, others);
      if (found !== null) return found;
      if (within >= reachMm) return null;
    }
  }

  /** How far a point is from leaving the region, and the nearest place where it does; for legal points. */
  nearestBoundary(px: number, py: number): FoundPoint | null {
    return this.firstLegal(this.feet(px, py, Number.POSITIVE_INFINITY), px, py, null, false);
  }

  private nearestInCells(px: number, py: number): FoundPoint | null {
    let best: FoundPoint | null = null;
    for (const [left, bottom, right, top] of this.constraints.cells!) {
      // Bounds are whole hundredths: a point between them stays between them when it is rounded.
      const x = px < left ? left : Math.min(px, right);
      const y = py < bottom ? bottom : Math.min(py, top);
      const distance = Math.hypot(x - px, y - py);
      if (best === null || distance < best.distance) best = { x, y, distance };
    }
    return best;
  }

  /** Candidates [squared distance, x, y, ...]. */
  private feet(px: number, py: number, reachMm: number): number[] {
    const { lines, circles, corners } = this;
    const limit = reachMm * reachMm;
    const found: number[] = [];
    const offer = (x: number, y: number) => {
      const squared = (x - px) ** 2 + (y - py) ** 2;
      if (squared <= limit) found.push(squared, x, y);
    };
    for (let i = 0; i < lines.length; i += 4) {
      const [ax, ay] = [lines[i]!, lines[i + 1]!];
      const dx = lines[i + 2]! - ax;
      const dy = lines[i + 3]! - ay;
      const t = ((px - ax) * dx + (py - ay) * dy) / (dx * dx + dy * dy);
      if (t >= 0 && t <= 1) offer(ax + t * dx, ay + t * dy);
    }
    for (let i = 0; i < circles.length; i += 3) {
      const [cx, cy, r] = [circles[i]!, circles[i + 1]!, circles[i + 2]!];
      const span = Math.hypot(px - cx, py - cy);
      if (span > 0) offer(cx + ((px - cx) / span) * r, cy + ((py - cy) / span) * r);
      else offer(cx + r, cy);
    }
    for (let i = 0; i < corners.length; i += 2) offer(corners[i]!, corners[i + 1]!);
    return found;
  }

  private withCircles(
    feet: readonly number[],
    around: readonly (readonly [number, number, number])[],
    px: number,
    py: number,
    withinMm: number,
  ): number[] {
    const limit = withinMm * withinMm;
    const found: number[] = [];
    for (let i = 0; i < feet.length; i += 3)
      if (feet[i]! <= limit) found.push(feet[i]!, feet[i + 1]!, feet[i + 2]!);
    const offer = (x: number, y: number) => {
      const squared = (x - px) ** 2 + (y - py) ** 2;
      if (squared <= limit) found.push(squared, x, y);
    };
    const own = new Float64Array(around.length * 3);
    for (const [i, [cx, cy, r]] of around.entries()) {
      own.set([cx, cy, r], i * 3);
      const span = Math.hypot(px - cx, py - cy);
      if (span > 0) offer(cx + ((px - cx) / span) * r, cy + ((py - cy) / span) * r);
      else
        for (const [ux, uy] of [
          [1, 0],
          [0, 1],
          [-1, 0],
          [0, -1],
        ] as const)
          offer(cx + ux * r, cy + uy * r);
    }
    offer(px, py);
    intersections(
      this.nearLines(px, py, withinMm),
      Float64Array.from([...own, ...this.nearCircles(px, py, withinMm)]),
      offer,
    );
    return found;
  }

  private nearLines(px: number, py: number, withinMm: number): Float64Array {
    const kept: number[] = [];
    const { lines } = this;
    for (let i = 0; i < lines.length; i += 4) {
      const at = [lines[i]!, lines[i + 1]!, lines[i + 2]!, lines[i + 3]!] as const;
      if (squaredToSegment(px, py, ...at) <= withinMm * withinMm) kept.push(...at);
    }
    return Float64Array.from(kept);
  }

  private nearCircles(px: number, py: number, withinMm: number): number[] {
    const kept: number[] = [];
    const { circles } = this;
    for (let i = 0; i < circles.length; i += 3) {
      const [x, y, r] = [circles[i]!, circles[i + 1]!, circles[i + 2]!];
      if (Math.abs(Math.hypot(px - x, py - y) - r) <= withinMm) kept.push(x, y, r);
    }
    return kept;
  }

  /** The nearest of the candidates that is legal once written in hundredths. */
  private firstLegal(
    candidates: readonly number[],
    px: number,
    py: number,
    others: Others | null,
    written = true,
  ): FoundPoint | null {
    const order = Array.from({ length: candidates.length / 3 }, (_, i) => i * 3).sort(
      (i, j) =>
        candidates[i]! - candidates[j]! ||
        candidates[i + 1]! - candidates[j + 1]! ||
        candidates[i + 2]! - candidates[j + 2]!,
    );
    for (const i of order) {
      const [x, y] = [candidates[i + 1]!, candidates[i + 2]!];
      if (!this.allows(x, y)) continue;
      if (!written) return { x, y, distance: Math.sqrt(candidates[i]!) };
      const found = this.written(x, y, px, py, others);
      if (found !== null) return found;
    }
    return null;
  }

  /** The point of whole hundredths beside a legal point that is legal too and nearest to the wanted one. */
  private written(x: number, y: number, px: number, py: number, others: Others | null): FoundPoint | null {
    const [gx, gy] = [Math.floor(x * STEPS_PER_MM), Math.floor(y * STEPS_PER_MM)];
    for (const wide of [1, 4]) {
      let best: FoundPoint | null = null;
      for (let i = gx - wide + 1; i <= gx + wide; i++) {
        for (let j = gy - wide + 1; j <= gy + wide; j++) {
          const [sx, sy] = [i / STEPS_PER_MM, j / STEPS_PER_MM];
          const distance = Math.hypot(sx - px, sy - py);
          if (best !== null && distance >= best.distance) continue;
          if (this.allows(sx, sy) && !others?.conflicts(sx, sy)) best = { x: sx, y: sy, distance };
        }
      }
      if (best !== null) return best;
    }
    return null;
  }
}

const roundedMm = (value: number) => Math.round(value * STEPS_PER_MM) / STEPS_PER_MM;

function tooClose(ring: Ring, x: number, y: number, clearanceMm: number): boolean {
  const least = (clearanceMm - FLOAT_MM) ** 2;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    if (squaredToSegment(x, y, ring[j]![0], ring[j]![1], ring[i]![0], ring[i]![1]) < least) return true;
  }
  return false;
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
