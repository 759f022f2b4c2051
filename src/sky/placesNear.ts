import { nearestName } from "../plan/nearestName.ts";
import { foldPlaceName } from "./placesFold.ts";
import type { Gazetteer } from "./placesGazetteer.ts";
import type { Scope } from "./placesScope.ts";
import { linesFor } from "./placesSearch.ts";

/** No more slips than this are ever taken for one (see `nearestName`). */
const MOST_SLIPS = 3;
const BAR = "|".charCodeAt(0);

/**
 * The folded name nearest to one that no place has, that of the largest place among equally near ones; or null.
 * @param scope  only places within it
 */
export function nearestPlaceName(gazetteer: Gazetteer, name: string, scope: Scope): string | null {
  const typed = foldPlaceName(name);
  const couldBe = letterFilter(typed);
  const largest = new Map<string, number>();
  const { text, starts } = linesFor(gazetteer, typed);
  for (let row = 0; row < gazetteer.count; row++) {
    if (!scope.holds(row)) continue;
    const end = starts[row + 1] ?? text.length - 1;
    let from = starts[row]! + 1;
    for (let i = from; i <= end; i++) {
      if (i < end && text.charCodeAt(i) !== BAR) continue;
      if (couldBe(text, from, i)) {
        const known = text.slice(from, i);
        largest.set(known, Math.max(largest.get(known) ?? 0, gazetteer.population[row]!));
      }
      from = i + 1;
    }
  }
  const known = [...largest].sort((a, b) => b[1] - a[1]).map(([each]) => each);
  return nearestName(typed, known);
}

/** Quick and never wrong to let through: two texts whose letters differ by more than the slips are not near each other. */
function letterFilter(typed: string): (text: string, from: number, to: number) => boolean {
  const wanted = new Int8Array(65_536);
  for (let i = 0; i < typed.length; i++) wanted[typed.charCodeAt(i)]!++;
  const left = new Int8Array(65_536);
  return (text, from, to) => {
    const length = to - from;
    if (length === 0 || Math.abs(length - typed.length) > MOST_SLIPS) return false;
    let added = 0;
    for (let i = from; i < to; i++) {
      const code = text.charCodeAt(i);
      if (left[code]! >= wanted[code]!) added++;
      else left[code]!++;
    }
    for (let i = from; i < to; i++) left[text.charCodeAt(i)] = 0;
    return added <= MOST_SLIPS && typed.length - (length - added) <= MOST_SLIPS;
  };
}
