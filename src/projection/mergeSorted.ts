/**
 * Two runs of indices that are each in order, as one run in order. Made for a long run and a short one: each of `b` is
 * looked up in `a` by halving.
 */
export function mergeSorted(
  a: Int32Array,
  b: Int32Array,
  before: (i: number, j: number) => boolean,
): Int32Array {
  const out = new Int32Array(a.length + b.length);
  let from = 0;
  for (let k = 0; k < b.length; k++) {
    let to = a.length;
    let low = from;
    while (low < to) {
      const middle = (low + to) >> 1;
      if (before(a[middle]!, b[k]!)) low = middle + 1;
      else to = middle;
    }
    out.set(a.subarray(from, low), from + k);
    out[low + k] = b[k]!;
    from = low;
  }
  out.set(a.subarray(from), from + b.length);
  return out;
}
