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

/** Cuts miss the corner itself, lest two parts hang together by a point. */
const CUT_MM = 2e-4;

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
    // A ring that comes down to the box's lower edge and goes up again parts left from right there, and nothing else.
    const halves = [
      ...(isBetween(x, xMm, right)
        ? [
            { xMm, yMm, widthMm: x - CUT_MM - xMm, lengthMm },
            { xMm: x + CUT_MM, yMm, widthMm: right - x - CUT_MM, lengthMm },
          ]
        : []),
      ...(isBetween(y, yMm, top)
        ? [
            { xMm, yMm, widthMm, lengthMm: y - CUT_MM - yMm },
            { xMm, yMm: y + CUT_MM, widthMm, lengthMm: top - y - CUT_MM },
          ]
        : []),
    ];
    halves
      .flatMap((half) => common(ring, rectangleRing(half)))
      .sort((a, b) => signedAreaMm2(b) - signedAreaMm2(a))
      .forEach(search);
  };
  for (const ring of rings) search(counterClockwise(ring));
  return best;
}

/** A corner that stands back by less than this is what clipping makes of a straight wall. */
const STRAIGHT_MM = 3e-4;

const isBetween = (at: number, from: number, to: number) => at - from > STRAIGHT_MM && to - at > STRAIGHT_MM;

function reentrant(ring: Ring): readonly [number, number] | null {
  const { xMm, yMm, widthMm, lengthMm } = boxOf(ring);
  const n = ring.length;
  for (let i = 0; i < n; i++) {
    const [[ax, ay], [bx, by], [cx, cy]] = [ring[i]!, ring[(i + 1) % n]!, ring[(i + 2) % n]!];
    const cross = (bx - ax) * (cy - by) - (by - ay) * (cx - bx);
    const sides = Math.hypot(bx - ax, by - ay) + Math.hypot(cx - bx, cy - by);
    const cuts = isBetween(bx, xMm, xMm + widthMm) || isBetween(by, yMm, yMm + lengthMm);
    if (cross < -STRAIGHT_MM * sides && cuts) return [bx, by];
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
