import KDBush from "kdbush";

/** Of each point. */
const NEAR = 8;

/** The nearest few of each point, nearest first, by their places in the lists. */
export function neighbourLists(x: Float64Array, y: Float64Array): Int32Array[] {
  const n = x.length;
  const wanted = Math.min(NEAR, n - 1);
  const index = new KDBush(n);
  let [left, right, bottom, top] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let i = 0; i < n; i++) {
    index.add(x[i]!, y[i]!);
    left = Math.min(left, x[i]!);
    right = Math.max(right, x[i]!);
    bottom = Math.min(bottom, y[i]!);
    top = Math.max(top, y[i]!);
  }
  index.finish();
  const area = Math.max((right - left) * (top - bottom), (right - left + top - bottom) ** 2 / (n * n));
  const firstReach = Math.sqrt((area * (wanted + 3)) / (n * Math.PI)) || 1;
  return Array.from({ length: n }, (_, i) => {
    const squared = (j: number) => (x[j]! - x[i]!) ** 2 + (y[j]! - y[i]!) ** 2;
    let found: number[] = [];
    for (let reach = firstReach; found.length <= wanted; reach *= 1.6)
      found = index.within(x[i]!, y[i]!, reach);
    return Int32Array.from(
      found
        .filter((j) => j !== i)
        .sort((a, b) => squared(a) - squared(b) || a - b)
        .slice(0, wanted),
    );
  });
}
