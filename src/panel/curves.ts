import type { CircleGrid } from "./circleGrid.ts";

/**
 * Calls `found` for every point where two of some straight pieces and circles meet.
 * @param lines    [ax, ay, bx, by, ...]
 * @param circles  [x, y, r, ...]
 */
export function intersections(
  lines: Float64Array,
  circles: Float64Array,
  found: (x: number, y: number) => void,
): void {
  for (let i = 0; i < lines.length; i += 4) {
    for (let j = i + 4; j < lines.length; j += 4) lineAndLine(lines, i, j, found);
    for (let j = 0; j < circles.length; j += 3) lineAndCircle(lines, i, circles, j, found);
  }
  for (let i = 0; i < circles.length; i += 3)
    for (let j = i + 3; j < circles.length; j += 3) circleAndCircle(circles, i, circles, j, found);
}

/** The same for the meetings of some circles with each other, with lines and with other circles. */
export function meetingsOfCircles(
  grid: CircleGrid,
  lines: readonly number[],
  circles: readonly number[],
  found: (x: number, y: number) => void,
): void {
  const own = grid.circles;
  grid.forEachPair((i, j) => circleAndCircle(own, i, own, j, found));
  for (let i = 0; i < own.length; i += 3) {
    for (let j = 0; j < lines.length; j += 4) lineAndCircle(lines, j, own, i, found);
    for (let j = 0; j < circles.length; j += 3) circleAndCircle(own, i, circles, j, found);
  }
}

const END = 1e-12;

function lineAndLine(lines: Float64Array, i: number, j: number, found: (x: number, y: number) => void): void {
  const [ax, ay, cx, cy] = [lines[i]!, lines[i + 1]!, lines[j]!, lines[j + 1]!];
  const [dx, dy] = [lines[i + 2]! - ax, lines[i + 3]! - ay];
  const [ex, ey] = [lines[j + 2]! - cx, lines[j + 3]! - cy];
  const cross = dx * ey - dy * ex;
  if (cross === 0) return;
  const t = ((cx - ax) * ey - (cy - ay) * ex) / cross;
  const u = ((cx - ax) * dy - (cy - ay) * dx) / cross;
  if (t >= -END && t <= 1 + END && u >= -END && u <= 1 + END) found(ax + t * dx, ay + t * dy);
}

function lineAndCircle(
  lines: ArrayLike<number>,
  i: number,
  circles: ArrayLike<number>,
  j: number,
  found: (x: number, y: number) => void,
): void {
  const ax = lines[i]!;
  const ay = lines[i + 1]!;
  const dx = lines[i + 2]! - ax;
  const dy = lines[i + 3]! - ay;
  const fx = ax - circles[j]!;
  const fy = ay - circles[j + 1]!;
  const a = dx * dx + dy * dy;
  const b = fx * dx + fy * dy;
  const discriminant = b * b - a * (fx * fx + fy * fy - circles[j + 2]! ** 2);
  if (!(discriminant >= 0) || a === 0) return;
  const root = Math.sqrt(discriminant);
  for (let sign = -1; sign <= 1; sign += 2) {
    const t = (-b + sign * root) / a;
    if (t >= -END && t <= 1 + END) found(ax + t * dx, ay + t * dy);
    if (root === 0) return;
  }
}

function circleAndCircle(
  some: ArrayLike<number>,
  i: number,
  others: ArrayLike<number>,
  j: number,
  found: (x: number, y: number) => void,
): void {
  const ax = some[i]!;
  const ay = some[i + 1]!;
  const ar = some[i + 2]!;
  const bx = others[j]!;
  const by = others[j + 1]!;
  const br = others[j + 2]!;
  const span = Math.hypot(bx - ax, by - ay);
  if (span === 0 || span > ar + br || span < Math.abs(ar - br)) return;
  const along = (ar * ar - br * br + span * span) / (2 * span);
  const up = Math.sqrt(Math.max(0, ar * ar - along * along));
  const ux = (bx - ax) / span;
  const uy = (by - ay) / span;
  found(ax + ux * along - uy * up, ay + uy * along + ux * up);
  if (up > 0) found(ax + ux * along + uy * up, ay + uy * along - ux * up);
}
