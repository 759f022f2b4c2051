/** A closed ring of corners, counter-clockwise, the first not repeated; mm in whichever frame is said beside it. */
export type Ring = readonly (readonly [number, number])[];

export interface BoxMm {
  readonly xMm: number;
  readonly yMm: number;
  readonly widthMm: number;
  readonly lengthMm: number;
}

/** Signed area in mm2: positive when counter-clockwise (the shoelace formula). */
export function signedAreaMm2(ring: Ring): number {
  let twice = 0;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    twice += ring[j]![0] * ring[i]![1] - ring[i]![0] * ring[j]![1];
  }
  return twice / 2;
}

export const counterClockwise = (ring: Ring): Ring => (signedAreaMm2(ring) < 0 ? [...ring].reverse() : ring);

export function boxOf(ring: Ring): BoxMm {
  const xs = ring.map(([x]) => x);
  const ys = ring.map(([, y]) => y);
  const xMm = Math.min(...xs);
  const yMm = Math.min(...ys);
  return { xMm, yMm, widthMm: Math.max(...xs) - xMm, lengthMm: Math.max(...ys) - yMm };
}

export const rectangleRing = ({ xMm, yMm, widthMm, lengthMm }: BoxMm): Ring => [
  [xMm, yMm],
  [xMm + widthMm, yMm],
  [xMm + widthMm, yMm + lengthMm],
  [xMm, yMm + lengthMm],
];

/** True for four corners with sides parallel to the axes. */
export function isRectangle(ring: Ring): boolean {
  if (ring.length !== 4) return false;
  const { xMm, yMm, widthMm, lengthMm } = boxOf(ring);
  const corners = new Set(ring.map(([x, y]) => `${x},${y}`));
  return rectangleRing({ xMm, yMm, widthMm, lengthMm }).every(([x, y]) => corners.has(`${x},${y}`));
}

/** Inside by the even-odd rule; a point on the ring itself may fall either way. */
export function ringHolds(ring: Ring, x: number, y: number): boolean {
  let inside = false;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const [xi, yi] = ring[i]!;
    const [xj, yj] = ring[j]!;
    if (yi > y !== yj > y && x < ((xj - xi) * (y - yi)) / (yj - yi) + xi) inside = !inside;
  }
  return inside;
}

/** Square of the distance from a point to a straight piece. */
export function squaredToSegment(
  x: number,
  y: number,
  ax: number,
  ay: number,
  bx: number,
  by: number,
): number {
  const dx = bx - ax;
  const dy = by - ay;
  const span = dx * dx + dy * dy;
  const t = span === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / span));
  const ex = x - ax - t * dx;
  const ey = y - ay - t * dy;
  return ex * ex + ey * ey;
}

export function distanceToRing(ring: Ring, x: number, y: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    least = Math.min(least, squaredToSegment(x, y, ring[j]![0], ring[j]![1], ring[i]![0], ring[i]![1]));
  }
  return Math.sqrt(least);
}

/** The two sides of a ring that cross or touch each other first, or null for a simple ring. */
export function selfCrossing(ring: Ring): readonly [number, number] | null {
  const n = ring.length;
  for (let i = 0; i < n; i++) {
    const a = ring[i]!;
    const b = ring[(i + 1) % n]!;
    if (a[0] === b[0] && a[1] === b[1]) return [i, (i + 1) % n];
    for (let j = i + 1; j < n; j++) {
      const c = ring[j]!;
      const d = ring[(j + 1) % n]!;
      const besides = j === i + 1 || (i === 0 && j === n - 1);
      if (besides ? foldsBack(a, b, c, d, j === i + 1) : segmentsMeet(a, b, c, d)) return [i, j];
    }
  }
  return null;
}

type Corner = readonly [number, number];

const turn = (a: Corner, b: Corner, c: Corner) =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

/** Neighbouring sides share a corner; they are at fault only when one runs back over the other. */
function foldsBack(a: Corner, b: Corner, c: Corner, d: Corner, second: boolean): boolean {
  const [from, corner, to] = second ? [a, b, d] : [c, d, b];
  if (turn(from, corner, to) !== 0) return false;
  return (corner[0] - from[0]) * (to[0] - corner[0]) + (corner[1] - from[1]) * (to[1] - corner[1]) < 0;
}

/** True when two straight pieces cross or touch. */
export function segmentsMeet(a: Corner, b: Corner, c: Corner, d: Corner): boolean {
  const [abc, abd, cda, cdb] = [turn(a, b, c), turn(a, b, d), turn(c, d, a), turn(c, d, b)];
  if (abc * abd < 0 && cda * cdb < 0) return true;
  const on = (p: Corner, q: Corner, r: Corner) =>
    Math.min(p[0], q[0]) <= r[0] &&
    r[0] <= Math.max(p[0], q[0]) &&
    Math.min(p[1], q[1]) <= r[1] &&
    r[1] <= Math.max(p[1], q[1]);
  return (
    (abc === 0 && on(a, b, c)) ||
    (abd === 0 && on(a, b, d)) ||
    (cda === 0 && on(c, d, a)) ||
    (cdb === 0 && on(c, d, b))
  );
}

/** The part of a straight piece that lies in a convex counter-clockwise ring; null for none (or a single point). */
export function pieceInside(convex: Ring, a: Corner, b: Corner): readonly [Corner, Corner] | null {
  let [from, to] = [0, 1];
  for (let i = 0; i < convex.length; i++) {
    const c = convex[i]!;
    const d = convex[(i + 1) % convex.length]!;
    const [inA, inB] = [turn(c, d, a), turn(c, d, b)];
    if (inA < 0 && inB < 0) return null;
    if (inA < 0) from = Math.max(from, inA / (inA - inB));
    if (inB < 0) to = Math.min(to, inA / (inA - inB));
  }
  if (from >= to) return null;
  const at = (t: number): Corner => [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
  return [at(from), at(to)];
}
