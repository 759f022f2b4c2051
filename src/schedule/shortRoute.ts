import { neighbourLists } from "./neighbourLists.ts";
import { type Distance, shortTour } from "./shortTour.ts";

/**
 * The order of points along a short open way from an origin, ending anywhere.
 * @param xs any unit, as are the others
 * @returns places in the lists
 */
export function shortRoute(
  xs: readonly number[],
  ys: readonly number[],
  origin: readonly [number, number] = [0, 0],
): number[] {
  const n = xs.length;
  if (n < 2) return xs.map((_, i) => i);
  // Two points more make a round trip of it: the origin, and one that it is no way to, which stays beside the origin.
  const x = Float64Array.from([...xs, origin[0]]);
  const y = Float64Array.from([...ys, origin[1]]);
  const nowhere = n + 1;
  const distance: Distance = (i, j) => {
    if (i === nowhere || j === nowhere) return 0;
    const dx = x[i]! - x[j]!;
    const dy = y[i]! - y[j]!;
    return Math.sqrt(dx * dx + dy * dy);
  };
  const near = neighbourLists(x, y).map((list) => Int32Array.from([nowhere, ...list]));
  near.push(new Int32Array(0));
  const tour = shortTour([n, ...byStrips(xs, ys), nowhere], distance, near, [n, nowhere]);
  const start = tour.indexOf(n);
  const step = tour[(start + 1) % (n + 2)] === nowhere ? n + 1 : 1;
  return Array.from({ length: n }, (_, k) => tour[(start + step * (k + 1)) % (n + 2)]!);
}

/** A short closed way through five points or more. @param distance of two places in the lists */
export function shortRoundTrip(xs: readonly number[], ys: readonly number[], distance: Distance): number[] {
  const near = neighbourLists(Float64Array.from(xs), Float64Array.from(ys));
  return [...shortTour(byStrips(xs, ys), distance, near, null)];
}

/** Up one strip and down the next: a way to begin with. */
function byStrips(xs: readonly number[], ys: readonly number[]): number[] {
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  const strips = Math.max(1, Math.round(Math.sqrt(xs.length / 3)));
  const stripOf = (i: number) =>
    Math.min(strips - 1, Math.floor((strips * (xs[i]! - left)) / (right - left || 1)));
  const up = (i: number) => (stripOf(i) % 2 === 0 ? ys[i]! : -ys[i]!);
  return xs.map((_, i) => i).sort((a, b) => stripOf(a) - stripOf(b) || up(a) - up(b) || a - b);
}
