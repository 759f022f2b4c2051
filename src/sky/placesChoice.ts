import type { Gazetteer } from "./placesGazetteer.ts";
import { countryScope, withinScope } from "./placesScope.ts";
import { type PlaceHit, searchPlaces } from "./placesSearch.ts";

/** What a person writes: a name, or "Springfield, Missouri"; the country by code or name, or a division of it. */
export interface WantedPlace {
  readonly name: string;
  readonly country?: string | undefined;
}

/** A place this many times as large as every rival is meant without asking. */
export const CLEARLY_LARGER = 20;
/** What a place counts whose population the source does not have. */
const UNKNOWN_POPULATION = 1000;
/** Rivals so near are parts or doubles of one place: 0.2 degrees turn the sky by as much. */
const SAME_PLACE_DEG = 0.2;

/**
 * Places that are meant by a name and, after the last comma, a division or country. A name that itself has a comma goes first.
 * @throws InputError if the country is none (see `countryScope`)
 */
export function hitsFor(gazetteer: Gazetteer, wanted: WantedPlace, wholeOnly: boolean): PlaceHit[] {
  const scope = countryScope(gazetteer, wanted.country);
  const whole = searchPlaces(gazetteer, wanted.name, wholeOnly).filter(({ row }) => scope.holds(row));
  const { name, within } = splitName(wanted.name);
  if (whole.length > 0 || within === null) return whole;
  const narrower = withinScope(gazetteer, within);
  return searchPlaces(gazetteer, name, wholeOnly).filter(
    ({ row }) => scope.holds(row) && narrower.holds(row),
  );
}

/** "Springfield, Missouri" is Springfield within Missouri. */
export function splitName(text: string): { readonly name: string; readonly within: string | null } {
  const comma = text.lastIndexOf(",");
  const within = comma < 0 ? "" : text.slice(comma + 1).trim();
  return within === "" ? { name: text, within: null } : { name: text.slice(0, comma).trim(), within };
}

/**
 * The row that is meant, or null if that is not clear. Each place has a claim: its population, or a twentieth of it if the
 * name is not its own but another one that it has. A single place is meant; of several the one whose claim is over twenty
 * times that of every other, places within 0.2 degrees of it in the same country and zone left aside.
 */
export function chooseHit(gazetteer: Gazetteer, hits: readonly PlaceHit[]): number | null {
  const claims = hits
    .filter((hit) => hit.exact)
    .map(({ row, ownName }) => ({
      row,
      claim: (gazetteer.population[row]! || UNKNOWN_POPULATION) / (ownName ? 1 : CLEARLY_LARGER),
    }))
    .sort((a, b) => b.claim - a.claim);
  const [first, ...others] = claims;
  if (first === undefined) return null;
  const rival = others.find(({ row }) => !samePlace(gazetteer, first.row, row));
  return rival === undefined || first.claim > CLEARLY_LARGER * rival.claim ? first.row : null;
}

function samePlace(gazetteer: Gazetteer, row: number, other: number): boolean {
  const [a, b] = [gazetteer.record(row), gazetteer.record(other)];
  const eastDeg = (a.longitudeDeg - b.longitudeDeg) * Math.cos((a.latitudeDeg * Math.PI) / 180);
  return (
    a.country === b.country &&
    a.timeZone === b.timeZone &&
    Math.hypot(a.latitudeDeg - b.latitudeDeg, eastDeg) < SAME_PLACE_DEG
  );
}
