/**
 * Held and Karp's bound of an open way from an origin through all points (Math. Programming 1, 1971, 6): the dearest of 1-trees, its
 * special point being one that joins the way's end to the origin at no cost. Climbed by subgradient steps, so it is from below: true, if not the last digit.
 */
export function heldKarpBound(xs: readonly number[], ys: readonly number[], upper: number): number {
  const x = [0, ...xs];
  const y = [0, ...ys];
  const n = x.length;
  const weight = new Float64Array(n);
  let best = Number.NEGATIVE_INFINITY;
  let step = 2;
  let since = 0;
  for (let round = 0; round < 1500 && step > 1e-4; round++) {
    const degree = new Int32Array(n).fill(-2);
    // Prim's tree over the points with their weights.
    const cost = new Float64Array(n).fill(Number.POSITIVE_INFINITY);
    const from = new Int32Array(n).fill(-1);
    const isIn = new Uint8Array(n);
    cost[0] = 0;
    let total = 0;
    for (let k = 0; k < n; k++) {
      let next = -1;
      for (let i = 0; i < n; i++) if (!isIn[i] && (next < 0 || cost[i]! < cost[next]!)) next = i;
      isIn[next] = 1;
      total += cost[next]!;
      if (from[next]! >= 0) {
        degree[next]!++;
        degree[from[next]!]!++;
      }
      for (let i = 0; i < n; i++) {
        const reach = Math.hypot(x[i]! - x[next]!, y[i]! - y[next]!) + weight[i]! + weight[next]!;
        if (!isIn[i] && reach < cost[i]!) {
          cost[i] = reach;
          from[i] = next;
        }
      }
    }
    let end = 1;
    for (let i = 1; i < n; i++) if (weight[i]! < weight[end]!) end = i;
    degree[0]!++;
    degree[end]!++;
    total += weight[0]! + weight[end]! - 2 * weight.reduce((sum, w) => sum + w, 0);
    if (total > best + 1e-9) {
      best = total;
      since = 0;
    } else if (++since > 20) {
      step /= 1.5;
      since = 0;
    }
    const squares = degree.reduce((sum, d) => sum + d * d, 0);
    if (squares === 0) return total;
    for (let i = 0; i < n; i++) weight[i]! += ((step * Math.max(upper - total, 1e-6)) / squares) * degree[i]!;
  }
  return best;
}
