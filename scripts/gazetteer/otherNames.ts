import { foldPlaceName } from "../../src/sky/placesFold.ts";

/**
 * The folded other names of a town by which people may look for it. Left out: codes of airports (MUC), spellings of other
 * scripts letter by letter, which the source writes without a capital ("bo tu" for 波圖), and what holds digits or an address.
 */
export function otherNamesOf(name: string, others: readonly string[]): string[] {
  const own = foldPlaceName(name);
  const kept = new Set<string>();
  for (const other of others) {
    if (/^[A-Z]{3,4}$/.test(other) || /^[a-z' `-]+$/.test(other) || /\d|http/.test(other)) continue;
    const folded = foldPlaceName(other);
    if (folded !== "" && folded !== own) kept.add(folded);
  }
  return [...kept].sort();
}
