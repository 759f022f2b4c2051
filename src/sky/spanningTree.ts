import { dot, type Vector3 } from "./matrix.ts";

/** Angle between two unit vectors, degrees; good for small angles too. */
export function angleBetweenDeg(a: Vector3, b: Vector3): number {
  const chord = Math.sqrt((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2 + (a[2] - b[2]) ** 2);
  const rad = dot(a, b) > 0 ? 2 * Math.asin(chord / 2) : Math.acos(Math.max(-1, dot(a, b)));
  return (rad * 180) / Math.PI;
}

export interface TreeEdge {
  /** Indices of the nodes that it joins. */
  readonly from: number;
  readonly to: number;
  readonly cost: number;
}

/**
 * The tree that joins all nodes at the least sum of costs (Prim's method: grown from node 0 by the cheapest edge that leads
 * out). Of equal edges the first in the order of nodes is taken.
 * @returns count - 1 edges, in the order of growth; none for less than two nodes
 */
export function minimumSpanningTree(count: number, costOf: (a: number, b: number) => number): TreeEdge[] {
  const edges: TreeEdge[] = [];
  /** Of each node outside the tree: the cheapest edge to it from inside. */
  let outside = Array.from(
    { length: Math.max(0, count - 1) },
    (_, i): TreeEdge => ({
      from: 0,
      to: i + 1,
      cost: costOf(0, i + 1),
    }),
  );
  while (outside.length > 0) {
    const edge = outside.reduce((best, each) => (each.cost < best.cost ? each : best));
    edges.push(edge);
    outside = outside
      .filter((each) => each !== edge)
      .map((each) => {
        const cost = costOf(edge.to, each.to);
        return cost < each.cost ? { from: edge.to, to: each.to, cost } : each;
      });
  }
  return edges;
}
