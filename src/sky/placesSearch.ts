import { foldPlaceName } from "./placesFold.ts";
import type { Gazetteer, PlaceLines } from "./placesGazetteer.ts";

/** How a text names a place: its own name or another one of it, whole or only the beginning. */
export interface PlaceHit {
  readonly row: number;
  readonly exact: boolean;
  readonly ownName: boolean;
}

/** The part of the names in which a folded name stands, if it stands anywhere. */
export const linesFor = (gazetteer: Gazetteer, folded: string): PlaceLines =>
  gazetteer.lines(/^[ -~]*$/.test(folded) ? "ascii" : "other");

/**
 * Every place that a name may mean, one hit each, in the order of the file.
 * @param wholeOnly  leave out places whose names only begin so
 */
export function searchPlaces(gazetteer: Gazetteer, name: string, wholeOnly: boolean): PlaceHit[] {
  const folded = foldPlaceName(name);
  if (folded === "") return [];
  const best = new Map<number, PlaceHit>();
  const { text, starts } = linesFor(gazetteer, folded);
  for (let at = text.indexOf(folded); at >= 0; at = text.indexOf(folded, at + 1)) {
    const before = text[at - 1];
    if (before !== "\n" && before !== "|") continue;
    const next = text[at + folded.length];
    const exact = next === "\n" || next === "|";
    if (wholeOnly && !exact) continue;
    const hit = { row: rowAt(starts, at), exact, ownName: before === "\n" };
    const seen = best.get(hit.row);
    if (seen === undefined || rank(hit) > rank(seen)) best.set(hit.row, hit);
  }
  return [...best.values()].sort((a, b) => a.row - b.row);
}

const rank = (hit: PlaceHit): number => (hit.exact ? 2 : 0) + (hit.ownName ? 1 : 0);

/** The row whose line holds an index of the text: the last that starts at or before it. */
function rowAt(starts: Uint32Array, at: number): number {
  let low = 0;
  let high = starts.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (starts[middle]! <= at) low = middle;
    else high = middle - 1;
  }
  return low;
}
