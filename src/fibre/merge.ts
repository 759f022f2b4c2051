import KDBush from "kdbush";
import { mergeSorted } from "../projection/mergeSorted.ts";

/** Columns that merging needs of a field, brightest first. */
export interface Mergeable {
  readonly count: number;
  readonly mag: Float64Array;
  readonly xMm: Float64Array;
  readonly yMm: Float64Array;
  /** Settles equal light: the lower goes first. */
  readonly rank: Int32Array;
}

/** Light graded as one: the brightest object of each spot and all merged into it, brightest light first. */
export interface MergedObjects {
  readonly count: number;
  /** Index into the field of the brightest; its true point is the spot's. */
  readonly leader: Int32Array;
  /** Magnitude of all the light together. */
  readonly mag: Float64Array;
  /** Indices into the field of those folded in, brightest first, by leader; leaders that stand alone are not in it. */
  readonly foldedInto: ReadonlyMap<number, readonly number[]>;
}

/**
 * Magnitude of several lights together: m = -2.5 log10(sum of 10^(-0.4 m)).
 * Source: Pogson's ratio, 100^(1/5) a magnitude; Meeus, Astronomical Algorithms, 2nd ed., ch. 56.
 */
export const summedMag = (mags: readonly number[]): number =>
  mags.length === 1 ? mags[0]! : -2.5 * Math.log10(mags.reduce((sum, mag) => sum + 10 ** (-0.4 * mag), 0));

/**
 * Merges greedily from the brightest: each takes every object not yet merged within `mergeMm` of its own true point.
 * No chains: what is folded in takes nothing itself.
 * @param field    sorted brightest first
 * @param competes 1 for each object that takes part; the others are passed over
 */
export function mergeClose(field: Mergeable, mergeMm: number, competes: Uint8Array): MergedObjects {
  const { count, mag, xMm, yMm, rank } = field;
  const crowded = mayHaveNeighbours(field, mergeMm, competes);
  const crowdedIndices: number[] = [];
  for (let i = 0; i < count; i++) if (crowded[i]) crowdedIndices.push(i);
  const index = crowdedIndices.length > 0 ? new KDBush(crowdedIndices.length) : null;
  if (index) {
    for (const i of crowdedIndices) index.add(xMm[i]!, yMm[i]!);
    index.finish();
  }

  const alone = new Int32Array(count);
  let aloneCount = 0;
  const together: number[] = [];
  const light = mag.slice();
  const foldedInto = new Map<number, readonly number[]>();
  const taken = new Uint8Array(count);
  for (let i = 0; i < count; i++) {
    if (!competes[i] || taken[i]) continue;
    taken[i] = 1;
    if (!crowded[i]) {
      alone[aloneCount++] = i;
      continue;
    }
    const folded = index!
      .within(xMm[i]!, yMm[i]!, mergeMm)
      .map((k) => crowdedIndices[k]!)
      .filter((j) => !taken[j]);
    if (folded.length === 0) {
      alone[aloneCount++] = i;
      continue;
    }
    folded.sort((a, b) => a - b);
    for (const j of folded) taken[j] = 1;
    foldedInto.set(i, folded);
    light[i] = summedMag([mag[i]!, ...folded.map((j) => mag[j]!)]);
    together.push(i);
  }

  const before = (i: number, j: number) =>
    light[i]! < light[j]! || (light[i] === light[j] && rank[i]! < rank[j]!);
  together.sort((i, j) => (before(i, j) ? -1 : 1));
  const leader = mergeSorted(alone.subarray(0, aloneCount), Int32Array.from(together), before);
  const lightOfLeader = new Float64Array(leader.length);
  for (let i = 0; i < leader.length; i++) lightOfLeader[i] = light[leader[i]!]!;
  return { count: leader.length, leader, mag: lightOfLeader, foldedInto };
}

/**
 * Which competing objects may have another within reach; a few that have none are among them. In strips at least twice as wide as the
 * reach, laid once and then again half a strip aside, both of a pair lie in the same strip at least once; sorted by strip and y, all
 * between them are in reach of their neighbours too. So a look at each and the next is enough, and most of a sky needs no index.
 */
function mayHaveNeighbours(
  { count, xMm, yMm }: Mergeable,
  mergeMm: number,
  competes: Uint8Array,
): Uint8Array {
  let [left, right, bottom, top] = [Infinity, -Infinity, Infinity, -Infinity];
  let competing = 0;
  for (let i = 0; i < count; i++) {
    if (!competes[i]) continue;
    competing++;
    const x = xMm[i]!;
    const y = yMm[i]!;
    if (x < left) left = x;
    if (x > right) right = x;
    if (y < bottom) bottom = y;
    if (y > top) top = y;
  }
  const stripMm = Math.max(2.001 * mergeMm, (right - left) / (STRIPS - 2), 1e-6);
  const stepMm = Math.max((top - bottom) / (Y_STEPS - 1), 1e-9);
  const near = (Math.ceil(mergeMm / stepMm) + 2) * INDEX_ROOM;
  const found = new Uint8Array(count);
  const keys = new Float64Array(competing);
  for (let aside = 0; aside <= 1; aside++) {
    // One number a key: the strip above the step of y above the index. It sorts without a comparison of ours.
    const from = left - (aside * stripMm) / 2;
    let k = 0;
    for (let i = 0; i < count; i++) {
      if (!competes[i]) continue;
      const strip = Math.floor((xMm[i]! - from) / stripMm);
      const step = Math.floor((yMm[i]! - bottom) / stepMm);
      keys[k++] = (strip * Y_STEPS + step) * INDEX_ROOM + i;
    }
    keys.sort();
    let before = Number.NEGATIVE_INFINITY;
    for (k = 0; k < competing; k++) {
      const key = keys[k]!;
      if (key - before < near) found[key % INDEX_ROOM] = found[before % INDEX_ROOM] = 1;
      before = key;
    }
  }
  return found;
}

/** Together no more than the 53 bits of a whole number; there are never 2^20 objects. */
const STRIPS = 2 ** 10;
const Y_STEPS = 2 ** 22;
const INDEX_ROOM = 2 ** 20;
