import { countryName } from "./placesCountry.ts";
import { type PlacesFile, readPlacesFile } from "./placesFile.ts";
import { foldPlaceName } from "./placesFold.ts";

export interface PlaceRecord {
  /** As it is written: English where the source has an English name, else the local one. */
  readonly name: string;
  /** Name of the first-order division (state, province), or "". */
  readonly region: string;
  /** ISO 3166 alpha-2, and XK for Kosovo. */
  readonly country: string;
  /** In English. */
  readonly countryName: string;
  /** Null where the source has none. */
  readonly population: number | null;
  /** North positive, rounded to 0.001. */
  readonly latitudeDeg: number;
  /** East positive, rounded to 0.001. */
  readonly longitudeDeg: number;
  /** IANA name. */
  readonly timeZone: string;
}

export interface Region {
  readonly country: string;
  /** As GeoNames has it: MO for Missouri, 02 for Bavaria; may be empty. */
  readonly code: string;
  /** In English as far as the source goes, or "". */
  readonly name: string;
}

/** A text with a line for each place, and where each line starts. */
export interface PlaceLines {
  /** A line break before the first line and after the last. */
  readonly text: string;
  /** Index in `text` of the line break before each row's line. */
  readonly starts: Uint32Array;
}

export interface Gazetteer {
  readonly count: number;
  /** Codes of all countries that have a place, in alphabetical order. */
  readonly countries: readonly string[];
  readonly population: Uint32Array;
  countryOf(row: number): string;
  /** First-order divisions (states, provinces) of that folded name or code. */
  regionsCalled(folded: string): readonly Region[];
  regionOf(row: number): Region;
  record(row: number): PlaceRecord;
  /** Folded names, parted by whether they are plain ASCII; each part is read only when it is asked for. */
  lines(letters: "ascii" | "other"): PlaceLines;
}

/**
 * Reads the unpacked bytes of data/places.bin.br. Names are decoded as far as they are asked for.
 * @throws Error if the file is damaged
 */
export function decodeGazetteer(bytes: ArrayBuffer): Gazetteer {
  const file = readPlacesFile(bytes);
  const regions = file.regionLines.map((line): Region => {
    const [country = "", code = "", name = ""] = line.split("\t");
    return { country, code, name };
  });
  const kept = new Map<string, PlaceLines>();
  let nameStarts: Uint32Array | undefined;
  let called: ReadonlyMap<string, readonly Region[]> | undefined;
  const regionOf = (row: number) => regions[file.region[row]!]!;

  return {
    count: file.count,
    countries: [...new Set(regions.map((region) => region.country))].sort(),
    population: file.population,
    countryOf: (row) => regionOf(row).country,
    regionOf,
    regionsCalled(folded) {
      called ??= regionIndex(regions);
      return called.get(folded) ?? [];
    },
    record(row) {
      nameStarts ??= lineStarts(file);
      const { country, name: region } = regionOf(row);
      return {
        name: new TextDecoder().decode(file.names.subarray(nameStarts[row]!, nameStarts[row + 1]! - 1)),
        region,
        country,
        countryName: countryName(country),
        population: file.population[row]! || null,
        latitudeDeg: file.latitudeMilliDeg[row]! / 1000,
        longitudeDeg: file.longitudeMilliDeg[row]! / 1000,
        timeZone: file.timeZones[file.timeZone[row]!]!,
      };
    },
    lines(letters) {
      const lines =
        kept.get(letters) ?? splitLines(letters === "ascii" ? file.asciiNames : file.otherNames, file.count);
      kept.set(letters, lines);
      return lines;
    },
  };
}

function regionIndex(regions: readonly Region[]): ReadonlyMap<string, readonly Region[]> {
  const index = new Map<string, Region[]>();
  for (const region of regions) {
    for (const key of new Set([foldPlaceName(region.name), foldPlaceName(region.code)])) {
      if (key === "") continue;
      const alike = index.get(key);
      if (alike === undefined) index.set(key, [region]);
      else alike.push(region);
    }
  }
  return index;
}

function lineStarts({ names, count }: PlacesFile): Uint32Array {
  const starts = new Uint32Array(count + 1);
  let row = 0;
  for (let i = names.indexOf(10); i >= 0; i = names.indexOf(10, i + 1)) starts[++row] = i + 1;
  if (row !== count) throw new Error("The gazetteer is damaged: it has not a name for each place.");
  return starts;
}

function splitLines(bytes: Uint8Array, count: number): PlaceLines {
  const text = `\n${new TextDecoder().decode(bytes)}`;
  const starts = new Uint32Array(count);
  let row = 0;
  for (let i = 0; i < text.length - 1 && i >= 0; i = text.indexOf("\n", i + 1)) starts[row++] = i;
  if (row !== count) throw new Error("The gazetteer is damaged: it has not a line of names for each place.");
  return { text, starts };
}
