import { InputError } from "../plan/errors.ts";
import { chooseHit, hitsFor, splitName, type WantedPlace } from "./placesChoice.ts";
import { foldPlaceName } from "./placesFold.ts";
import type { Gazetteer, PlaceRecord } from "./placesGazetteer.ts";
import { nearestPlaceName } from "./placesNear.ts";
import { countryScope } from "./placesScope.ts";
import { type PlaceHit, searchPlaces } from "./placesSearch.ts";
import { choicesText, largestFirst, placeInWords, planTextOf } from "./placesText.ts";

export type { WantedPlace } from "./placesChoice.ts";
export { decodeGazetteer, type Gazetteer, type PlaceRecord } from "./placesGazetteer.ts";

/** How many of several places a message lists. */
const LISTED = 5;

export interface FoundPlace extends PlaceRecord {
  /** The text is a whole name of the place, not only the beginning of one. */
  readonly exact: boolean;
  /** What to write after `place:` in a plan, as YAML. Made when read, since it takes a search of its own. */
  readonly planText: string;
  /** "Springfield, Missouri, United States". */
  readonly inWords: string;
}

/**
 * Places that a text may mean: those of that name first, then those whose names begin so, each from the largest down.
 * Case and accents are ignored, other names of a place (Oporto, München) used, and "Springfield, Missouri" understood.
 * @param country  ISO code or name, or a division such as Wales
 * @throws InputError if `country` is none
 */
export function findPlaces(gazetteer: Gazetteer, text: string, country?: string): FoundPlace[] {
  const hits = hitsFor(gazetteer, { name: text, country }, false);
  const rows = (exact: boolean) =>
    largestFirst(
      gazetteer,
      hits.filter((hit) => hit.exact === exact).map((hit) => hit.row),
    ).map((row) => ({ row, exact }));
  return [...rows(true), ...rows(false)].map(({ row, exact }) => ({
    ...gazetteer.record(row),
    exact,
    inWords: placeInWords(gazetteer.record(row)),
    get planText() {
      return planTextOf(gazetteer, row);
    },
  }));
}

/**
 * The one place that a plan's name and country mean; `chooseHit` tells when that is clear.
 * @throws InputError if no place has that name (with the nearest), or if several may be meant (with the five largest and
 *   the text that selects each)
 */
export function resolvePlace(gazetteer: Gazetteer, wanted: WantedPlace): PlaceRecord {
  const hits = hitsFor(gazetteer, wanted, true);
  const row = chooseHit(gazetteer, hits);
  if (row !== null) return gazetteer.record(row);
  if (hits.length === 0) throw new InputError(nothingFound(gazetteer, wanted));
  const rows = hits.map((hit) => hit.row);
  throw new InputError(
    `${JSON.stringify(wanted.name)} may mean any of ${hits.length} places${countryScope(gazetteer, wanted.country).inWords}; write ${hits.length > LISTED ? `one of these, the ${LISTED} largest, or its latitude, longitude and timeZone` : "one of these"}:${choicesText(gazetteer, rows, LISTED)}`,
  );
}

/** Why a name means no place, in one sentence, with the next thing to try. */
export function nothingFound(gazetteer: Gazetteer, wanted: WantedPlace): string {
  const typed = JSON.stringify(wanted.name);
  const { name, within } = splitName(wanted.name);
  if (foldPlaceName(name) === "") return `${typed} is no name of a place; write one such as Valparaíso`;
  const scope = countryScope(gazetteer, wanted.country);
  const asIs = `no place of that name${scope.inWords} is known`;
  const list = (hits: readonly PlaceHit[]) =>
    choicesText(gazetteer, [...new Set(hits.map((hit) => hit.row))], LISTED);
  const here = (text: string, wholeOnly: boolean) =>
    searchPlaces(gazetteer, text, wholeOnly).filter(({ row }) => scope.holds(row));

  const elsewhere = searchPlaces(gazetteer, name, true);
  if (elsewhere.length > 0) {
    const what = within === null ? "elsewhere" : `of ${JSON.stringify(name)}`;
    return `${typed}: ${asIs}, but ${what} there ${elsewhere.length === 1 ? "is" : "are"}:${list(elsewhere)}`;
  }
  const near = nearestPlaceName(gazetteer, name, scope);
  const alike = near === null ? [] : here(near, true);
  const own = alike.filter((hit) => hit.ownName);
  const meant = [...(own.length > 0 ? own : alike), ...here(name, false)];
  if (meant.length > 0) return `${typed}: ${asIs}; did you mean:${list(meant)}`;
  return `${typed}: ${asIs}, nor any like it, among all towns of over 1,000 inhabitants; try a larger town near it, or write its latitude, longitude and timeZone`;
}
