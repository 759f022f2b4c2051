import { common } from "./clip.ts";
import { type BoxMm, boxOf, counterClockwise, type Ring, rectangleRing, signedAreaMm2 } from "./rings.ts";

/*
 * The largest upright rectangle inside a ring. In a convex ring its area is a log-concave function of its left and right
 * edge, so two searches within each other find it. A ring that is not convex is cut: no rectangle has a re-entrant corner inside
 * itself, so it lies wholly left, right, below or above of it, and what a cut there leaves has one such corner less.
 */

/** Steps that narrow an interval of 20 m to a ten-thousandth of a millimetre. */
const STEPS = 40;
const GOLDEN = (Math.sqrt(5) - 1) / 2;
/** What clipping and the search leave of exactness; far less than a hundredth. */
const ROUNDING_MM = 5e-4;

/** @returns null when there is none; edges are drawn in to whole hundredths */
export function largestRectangle(rings: readonly Ring[]): BoxMm | null {
  let best: BoxMm | null = null;
  const area = (box: BoxMm | null) => (box === null ? 0 : box.widthMm * box.lengthMm);
  const search = (ring: Ring): void => {
    if (Math.min(signedAreaMm2(ring), area(boxOf(ring))) <= area(best)) return;
    const corner = reentrant(ring);
    if (corner === null) {
      const found = inConvex(ring);
      if (area(found) > area(best)) best = found;
      return;
    }
    const { xMm, yMm, widthMm, lengthMm } = boxOf(ring);
    const [x, y] = corner;
    const [right, top] = [xMm + widthMm, yMm + lengthMm];
    const halves = [
      { xMm, yMm, widthMm: x - xMm, lengthMm },
      { xMm: x, yMm, widthMm: right - x, lengthMm },
      { xMm, yMm, widthMm, lengthMm: y - yMm },
      { xMm, yMm: y, widthMm, lengthMm: top - y },
    ];
    halves
      .filter((half) => half.widthMm > 0 && half.lengthMm > 0)
      .flatMap((half) => common(ring, rectangleRing(half)))
      .sort((a, b) => signedAreaMm2(b) - signedAreaMm2(a))
      .forEach(search);
  };
  for (const ring of rings) search(counterClockwise(ring));
  return best;
}

/** Less of a bend than this is a straight wall, rounded: sine of the angle. */
const STRAIGHT = 1e-6;

function reentrant(ring: Ring): readonly [number, number] | null {
  const n = ring.length;
  for (let i = 0; i < n; i++) {
    const [[ax, ay], [bx, by], [cx, cy]] = [ring[i]!, ring[(i + 1) % n]!, ring[(i + 2) % n]!];
    const cross = (bx - ax) * (cy - by) - (by - ay) * (cx - bx);
    if (cross < -STRAIGHT * Math.hypot(bx - ax, by - ay) * Math.hypot(cx - bx, cy - by)) return [bx, by];
  }
  return null;
}

function inConvex(ring: Ring): BoxMm | null {
  const { xMm, widthMm } = boxOf(ring);
  const end = xMm + widthMm;
  const bottomAndTop = (left: number, right: number): readonly [number, number] => {
    const [a, b] = [spanAt(ring, left), spanAt(ring, right)];
    return [Math.max(a[0], b[0]), Math.min(a[1], b[1])];
  };
  const areaOf = (left: number, right: number) => {
    const [bottom, top] = bottomAndTop(left, right);
    return (right - left) * (top - bottom);
  };
  const bestRight = (left: number) => highest(left, end, (right) => areaOf(left, right));
  const left = highest(xMm, end, (at) => areaOf(at, bestRight(at)));
  const right = bestRight(left);
  const [bottom, top] = bottomAndTop(left, right);
  const [x, y] = [left, bottom].map((mm) => Math.ceil((mm - ROUNDING_MM) * 100)) as [number, number];
  const [x2, y2] = [right, top].map((mm) => Math.floor((mm + ROUNDING_MM) * 100)) as [number, number];
  if (x2 <= x || y2 <= y) return null;
  return { xMm: (x + 0) / 100, yMm: (y + 0) / 100, widthMm: (x2 - x) / 100, lengthMm: (y2 - y) / 100 };
}

/** Where the highest value of a function lies that rises and then falls: golden section. */
function highest(from: number, to: number, of: (at: number) => number): number {
  let [low, high] = [from, to];
  let [a, b] = [high - GOLDEN * (high - low), low + GOLDEN * (high - low)];
  let [fa, fb] = [of(a), of(b)];
  for (let i = 0; i < STEPS; i++) {
    if (fa < fb) {
      [low, a, fa] = [a, b, fb];
      b = low + GOLDEN * (high - low);
      fb = of(b);
    } else {
      [high, b, fb] = [b, a, fa];
      a = high - GOLDEN * (high - low);
      fa = of(a);
    }
  }
  // An end may be the best of all, and is then reached exactly.
  return [from, (low + high) / 2, to].reduce((best, at) => (of(at) > of(best) ? at : best));
}

/** Lowest and highest y of a convex ring on an upright line; the first above the second where it misses. */
function spanAt(ring: Ring, x: number): readonly [number, number] {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const [a, b] = [ring[j]!, ring[i]!];
    if ((x < a[0] && x < b[0]) || (x > a[0] && x > b[0])) continue;
    const y = a[0] === b[0] ? a[1] : a[1] + ((b[1] - a[1]) * (x - a[0])) / (b[0] - a[0]);
    const other = a[0] === b[0] ? b[1] : y;
    low = Math.min(low, y, other);
    high = Math.max(high, y, other);
  }
  return [low, high];
}
