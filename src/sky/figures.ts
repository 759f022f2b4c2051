import type { Catalogue } from "./catalogue.ts";
import { CONSTELLATION_CODES } from "./constellations.ts";
import { angleBetweenDeg, minimumSpanningTree } from "./spanningTree.ts";

/** Stars brighter than this make a figure: 516, about what a town sky shows. */
export const FIGURE_STARS_MAG = 4;
/** Closer together than this, stars are one node, the brightest. */
export const ONE_NODE_DEG = 0.3;
/**
 * A magnitude fainter makes an edge count as 12 percent longer at that end. By eye, over all figures: with angles alone Orion,
 * Cygnus, Crux and Leo lead around their bright stars by way of faint ones; with twice as much, everything flies to them.
 */
export const LONGER_A_MAG = 10 ** 0.05;
/**
 * Longer edges are left out. By eye: up to 20 degrees they belong to a figure (Spica to the feet of Virgo, the Square of Pegasus,
 * Monoceros); the next are 25 (across Hydra), 29 (from one part of Serpens to the other) and 35 degrees (across Pisces).
 */
export const LONGEST_EDGE_DEG = 22;

/** Stars of one constellation and which of them are joined. */
export interface Figure {
  /** IAU code. */
  readonly code: string;
  /** Rows of the catalogue, brightest first. */
  readonly nodes: readonly number[];
  /** Pairs of rows. */
  readonly edges: readonly (readonly [number, number])[];
}

/**
 * A figure for every constellation that has stars bright enough: the minimum spanning tree of those inside its IAU boundary,
 * by angle on the sky (J2000 places) and brightness. Nothing of it is drawn after anyone's chart.
 */
export function constellationFigures(catalogue: Catalogue): Figure[] {
  return figureNodes(catalogue).flatMap((nodes, index) => {
    if (nodes.length === 0) return [];
    const edges = minimumSpanningTree(nodes.length, (a, b) => edgeCost(catalogue, nodes[a]!, nodes[b]!))
      .map(({ from, to }) => [nodes[from]!, nodes[to]!] as const)
      .filter(([a, b]) => edgeDeg(catalogue, a, b) <= LONGEST_EDGE_DEG);
    return [{ code: CONSTELLATION_CODES[index]!, nodes, edges }];
  });
}

/** Rows of each constellation's nodes, brightest first, in the order of `CONSTELLATION_CODES`. */
function figureNodes(catalogue: Catalogue): number[][] {
  const nodesOf = CONSTELLATION_CODES.map((): number[] => []);
  for (let row = 0; row < catalogue.count && catalogue.vCentiMag[row]! < FIGURE_STARS_MAG * 100; row++) {
    const nodes = nodesOf[catalogue.constellation[row]!]!;
    if (!nodes.some((node) => edgeDeg(catalogue, node, row) < ONE_NODE_DEG)) nodes.push(row);
  }
  return nodesOf;
}

/** Angle between two stars. */
function edgeDeg({ unitJ2000: p }: Catalogue, a: number, b: number): number {
  return angleBetweenDeg(
    [p[3 * a]!, p[3 * a + 1]!, p[3 * a + 2]!],
    [p[3 * b]!, p[3 * b + 1]!, p[3 * b + 2]!],
  );
}

/** What the tree makes least: degrees, longer for fainter stars. */
export function edgeCost(catalogue: Catalogue, a: number, b: number): number {
  const mags = (catalogue.vCentiMag[a]! + catalogue.vCentiMag[b]!) / 100;
  return edgeDeg(catalogue, a, b) * LONGER_A_MAG ** mags;
}
