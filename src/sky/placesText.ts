import { chooseHit, hitsFor } from "./placesChoice.ts";
import type { Gazetteer, PlaceRecord } from "./placesGazetteer.ts";

/**
 * What selects a place in a plan, as YAML: its name and country, with its division if that is needed, or its
 * coordinates where names do not tell it apart.
 */
export function planTextOf(gazetteer: Gazetteer, row: number): string {
  const { name, region, country, latitudeDeg, longitudeDeg, timeZone } = gazetteer.record(row);
  for (const text of region === "" ? [name] : [name, `${name}, ${region}`]) {
    if (chooseHit(gazetteer, hitsFor(gazetteer, { name: text, country }, true)) === row) {
      return `{name: ${quoted(text)}, country: ${country}}`;
    }
  }
  return `{name: ${quoted(name)}, country: ${country}, latitude: ${latitudeDeg}, longitude: ${longitudeDeg}, timeZone: ${timeZone}}`;
}

/** Quotes only where YAML needs them. */
function quoted(text: string): string {
  const plain = /^\p{L}[\p{L}\p{M}\p{N} ().'’-]*$/u.test(text) && !/^(true|false|null)$/i.test(text);
  return plain ? text : `'${text.replaceAll("'", "''")}'`;
}

/** "Springfield, Missouri, United States"; "Porto, Portugal", whose division has the same name. */
export const placeInWords = ({ name, region, countryName }: PlaceRecord): string =>
  [...new Set([name, region, countryName])].filter((each) => each !== "").join(", ");

const inhabitants = ({ population }: PlaceRecord): string =>
  population === null ? "" : `, ${population.toLocaleString("en-US")} inhabitants`;

/** The largest of some places, a line each: what to write, then what it is. */
export function choicesText(gazetteer: Gazetteer, rows: readonly number[], most: number): string {
  return largestFirst(gazetteer, rows)
    .slice(0, most)
    .map((row) => {
      const record = gazetteer.record(row);
      return `\n    ${planTextOf(gazetteer, row)}  (${placeInWords(record)}${inhabitants(record)})`;
    })
    .join("");
}

export const largestFirst = (gazetteer: Gazetteer, rows: readonly number[]): number[] =>
  [...rows].sort((a, b) => gazetteer.population[b]! - gazetteer.population[a]! || a - b);
