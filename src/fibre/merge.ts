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
  const crowded = haveNeighbours(field, mergeMm, competes);
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
    const folded = crowded[i]
      ? index!
          .within(xMm[i]!, yMm[i]!, mergeMm)
          .map((k) => crowdedIndices[k]!)
          .filter((j) => !taken[j])
      : [];
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
 * Which competing objects have another within reach, by a sweep from left to right: most of a sky has none, and needs no
 * spatial index.
 */
function haveNeighbours({ count, xMm, yMm }: Mergeable, mergeMm: number, competes: Uint8Array): Uint8Array {
  // One number a key, x in steps of 1/64 mm above the index (up to 2^20 objects): sorts without a comparison of ours.
  const keys = new Float64Array(count);
  let competing = 0;
  for (let i = 0; i < count; i++) {
    if (competes[i]) keys[competing++] = Math.floor(xMm[i]! * 64) * INDEX_ROOM + i;
  }
  const sorted = keys.subarray(0, competing).sort();
  const order = new Int32Array(competing);
  for (let k = 0; k < competing; k++) order[k] = sorted[k]! & (INDEX_ROOM - 1); // the low bits survive the cut to 32

  const found = new Uint8Array(count);
  for (let k = 0; k < competing; k++) {
    const i = order[k]!;
    for (let m = k + 1; m < competing; m++) {
      const j = order[m]!;
      const dx = xMm[j]! - xMm[i]!;
      if (dx > mergeMm + 1 / 64) break;
      const dy = yMm[j]! - yMm[i]!;
      // Every pair is marked: i's neighbours need not be each other's.
      if (dx * dx + dy * dy <= mergeMm * mergeMm) found[i] = found[j] = 1;
    }
  }
  return found;
}

const INDEX_ROOM = 2 ** 20;
