import { InputError } from "../plan/errors.ts";
import { nearestName } from "../plan/nearestName.ts";
import { countryName, findCountry, findCountryAtHome } from "./placesCountry.ts";
import { foldPlaceName } from "./placesFold.ts";
import type { Gazetteer } from "./placesGazetteer.ts";

/** Where a place must lie. */
export interface Scope {
  /** As in "in Portugal". */
  readonly inWords: string;
  holds(row: number): boolean;
}

export const EVERYWHERE: Scope = { inWords: "", holds: () => true };

/**
 * What a plan writes as `country`: a country, by ISO code or name, or else a division of one (Wales).
 * @throws InputError that suggests the nearest name of a country
 */
export function countryScope(gazetteer: Gazetteer, text: string | undefined): Scope {
  if (text === undefined) return EVERYWHERE;
  const code = findCountry(text, gazetteer.countries);
  if (code !== null) return inCountry(gazetteer, code);
  const regions = gazetteer.regionsCalled(foldPlaceName(text));
  if (regions.length > 0) {
    return { inWords: ` in ${text.trim()}`, holds: (row) => regions.includes(gazetteer.regionOf(row)) };
  }
  const atHome = findCountryAtHome(text, gazetteer.countries);
  if (atHome !== null) return inCountry(gazetteer, atHome);
  const near = nearestName(text, gazetteer.countries.map(countryName));
  throw new InputError(
    `${JSON.stringify(text)} is not a country with towns; ${near === null ? "write its two-letter code (CL) or its English name (Chile)" : `did you mean ${near}?`}`,
  );
}

/** What follows the last comma of a name: a division by name or code, or a country; Georgia is both. */
export function withinScope(gazetteer: Gazetteer, text: string): Scope {
  const regions = gazetteer.regionsCalled(foldPlaceName(text));
  const code =
    findCountry(text, gazetteer.countries) ??
    (regions.length > 0 ? null : findCountryAtHome(text, gazetteer.countries));
  return {
    inWords: ` in ${text}`,
    holds: (row) => gazetteer.countryOf(row) === code || regions.includes(gazetteer.regionOf(row)),
  };
}

function inCountry(gazetteer: Gazetteer, code: string): Scope {
  return { inWords: ` in ${countryName(code)}`, holds: (row) => gazetteer.countryOf(row) === code };
}
