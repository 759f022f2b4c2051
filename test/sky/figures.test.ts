import { describe, expect, it } from "vitest";
import { CONSTELLATION_CODES } from "../../src/sky/constellations.ts";
import { constellationFigures, edgeCost } from "../../src/sky/figures.ts";
import { angleBetweenDeg, minimumSpanningTree } from "../../src/sky/spanningTree.ts";
import { testSky } from "./testSky.ts";

const sky = testSky();
const { catalogue } = sky;
const figures = constellationFigures(catalogue);
const nameOf = (row: number) => sky.designations.displayName(catalogue.hip[row]!);
const direction = (row: number) => {
  const [x, y, z] = catalogue.unitJ2000.subarray(3 * row, 3 * row + 3);
  return [x!, y!, z!] as const;
};
const angle = (a: number, b: number) => angleBetweenDeg(direction(a), direction(b));

/** Joins found by following edges from each node. */
function partsOf(nodes: readonly number[], edges: readonly (readonly [number, number])[]): number {
  const root = new Map(nodes.map((node) => [node, node]));
  const find = (node: number): number => (root.get(node) === node ? node : find(root.get(node)!));
  for (const [a, b] of edges) root.set(find(a), find(b));
  return new Set(nodes.map(find)).size;
}

describe("figures of the constellations", () => {
  it("join stars of one constellation, brighter than V 4, no two of them as one", () => {
    expect(figures.length).toBeGreaterThan(70);
    for (const { code, nodes, edges } of figures) {
      for (const row of nodes) {
        expect(CONSTELLATION_CODES[catalogue.constellation[row]!]).toBe(code);
        expect(catalogue.vCentiMag[row]).toBeLessThan(400);
      }
      for (const [a, b] of edges) expect(nodes.includes(a) && nodes.includes(b) && a !== b).toBe(true);
      for (const a of nodes)
        for (const b of nodes) if (a !== b) expect(angle(a, b)).toBeGreaterThanOrEqual(0.3);
    }
  });

  it("leave out no star brighter than V 4 but those within 0.3 degrees of a brighter one", () => {
    const nodes = new Set(figures.flatMap((figure) => figure.nodes));
    const left: string[] = [];
    for (let row = 0; row < catalogue.count; row++) {
      if (catalogue.vCentiMag[row]! >= 400 || nodes.has(row)) continue;
      left.push(nameOf(row));
      expect([...nodes].some((node) => node < row && angle(node, row) < 0.3)).toBe(true);
    }
    expect(left).toEqual(expect.arrayContaining(["Toliman", "Alcor"])); // beside alpha Centauri A and Mizar
  });

  it("are spanning trees at the least cost, less the edges longer than 22 degrees", () => {
    // Second method: Kruskal's, over all pairs sorted by cost, which grows the same tree the other way round.
    let leftOut = 0;
    for (const { code, nodes, edges } of figures) {
      const pairs = nodes.flatMap((a, i) =>
        nodes.slice(i + 1).map((b) => [a, b, edgeCost(catalogue, a, b)] as const),
      );
      const tree: (readonly [number, number])[] = [];
      for (const [a, b] of pairs.sort((p, q) => p[2] - q[2]))
        if (partsOf(nodes, [...tree, [a, b]]) < partsOf(nodes, tree)) tree.push([a, b]);
      expect(tree.length).toBe(nodes.length - 1);
      const kept = tree.filter(([a, b]) => angle(a, b) <= 22);
      leftOut += tree.length - kept.length;
      const keyed = (list: readonly (readonly [number, number])[]) =>
        list.map((pair) => [...pair].sort((a, b) => a - b).join()).sort();
      expect(keyed(edges), code).toEqual(keyed(kept));
      expect(partsOf(nodes, edges)).toBe(nodes.length - edges.length); // no loop
    }
    expect(leftOut).toBe(3); // Hydra, Serpens, Pisces: counted by hand in the list of edges
  });

  it("follow the plough's handle and bowl, the scorpion's tail and the belt", () => {
    // Worked by hand from looking at the sky: neighbours along each line.
    const has = (code: string, chain: readonly string[]) => {
      const { edges } = figures.find((figure) => figure.code === code)!;
      const names = edges.map((edge) => edge.map(nameOf).sort().join());
      for (let i = 1; i < chain.length; i++)
        expect(names, code).toContain([chain[i - 1]!, chain[i]!].sort().join());
    };
    has("UMa", ["Alkaid", "Mizar", "Alioth", "Megrez", "Phecda", "Merak", "Dubhe"]);
    has("Ori", ["Mintaka", "Alnilam", "Alnitak"]);
    has("Cas", ["Caph", "Shedar"]);
    has("Cru", ["Mimosa", "Gacrux"]);
    has("Gem", ["Castor", "Pollux"]);
  });
});

describe("a minimum spanning tree", () => {
  it("costs no more than any tree there is", () => {
    // Second method: every tree of 6 nodes, by its Pruefer code (Cayley: 6^4 = 1296 of them).
    const count = 6;
    for (let seed = 1; seed <= 20; seed++) {
      const random = (k: number) => Math.abs(Math.sin(seed * 12.9898 + k * 78.233) * 43758.5453) % 1;
      const nodes = Array.from({ length: count }, (_, k) => [random(2 * k), random(2 * k + 1)] as const);
      const cost = (a: number, b: number) =>
        Math.hypot(nodes[a]![0] - nodes[b]![0], nodes[a]![1] - nodes[b]![1]);
      let least = Number.POSITIVE_INFINITY;
      for (let k = 0; k < count ** (count - 2); k++) {
        const code = Array.from({ length: count - 2 }, (_, i) => Math.floor(k / count ** i) % count);
        least = Math.min(
          least,
          treeOf(code).reduce((sum, [a, b]) => sum + cost(a, b), 0),
        );
      }
      const tree = minimumSpanningTree(count, cost);
      expect(tree.length).toBe(count - 1);
      expect(tree.reduce((sum, edge) => sum + edge.cost, 0)).toBeCloseTo(least, 12);
    }
  });

  it("has no edge for one node, or none", () => {
    expect(minimumSpanningTree(0, () => 1)).toEqual([]);
    expect(minimumSpanningTree(1, () => 1)).toEqual([]);
  });
});

/** The tree that a Pruefer code stands for. */
function treeOf(code: readonly number[]): [number, number][] {
  const degree = Array.from(
    { length: code.length + 2 },
    (_, node) => 1 + code.filter((c) => c === node).length,
  );
  const edges = code.map((node): [number, number] => {
    const leaf = degree.indexOf(1);
    degree[leaf]!--;
    degree[node]!--;
    return [leaf, node];
  });
  const [a, b] = degree.flatMap((d, node) => (d === 1 ? [node] : []));
  return [...edges, [a!, b!]];
}
