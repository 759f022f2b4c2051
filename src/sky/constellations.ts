import { foldName, nearestName } from "../plan/nearestName.ts";
import { CONSTELLATION_NAMES } from "./constellationNames.ts";

/**
 * The 88 constellations by IAU code, in alphabetical order of the code. `Catalogue.constellation` indexes this list:
 * the order is part of the layout of data/stars.bin and never changes.
 */
export const CONSTELLATION_CODES: readonly string[] = CONSTELLATION_NAMES.map(([code]) => code);

/** A constellation and the middle of its area. */
export interface Constellation {
  /** IAU code, three letters. */
  readonly code: string;
  /** Latin name. */
  readonly name: string;
  /** Latin genitive, as in "Alpha Centauri". */
  readonly genitive: string;
  /** J2000 right ascension, hours, and declination, degrees, of the middle of its area. */
  readonly raHours: number;
  readonly decDeg: number;
  readonly areaSquareDeg: number;
}

export interface Constellations {
  /** In the order of `CONSTELLATION_CODES`. */
  readonly all: readonly Constellation[];
  /** By IAU code, Latin name or genitive, case and accents ignored; undefined if none is meant. */
  find(text: string): Constellation | undefined;
  /** The code or name nearest to a text that `find` does not know, or null. */
  suggest(text: string): string | null;
}

/** Reads data/constellations.tsv. Throws if its rows are not the 88 codes in their order. */
export function parseConstellations(text: string): Constellations {
  const all = text
    .trimEnd()
    .split("\n")
    .slice(1)
    .map((line): Constellation => {
      const [code = "", name = "", genitive = "", raHours, decDeg, areaSquareDeg] = line.split("\t");
      return {
        code,
        name,
        genitive,
        raHours: Number(raHours),
        decDeg: Number(decDeg),
        areaSquareDeg: Number(areaSquareDeg),
      };
    });
  const order = all.map((each) => each.code).join(" ");
  const numbers = all.flatMap((each) => [each.raHours, each.decDeg, each.areaSquareDeg]);
  if (order !== CONSTELLATION_CODES.join(" ") || !numbers.every(Number.isFinite)) {
    throw new Error(
      "The table of constellations is damaged: it does not hold the 88 IAU codes in their order.",
    );
  }
  const byText = new Map(
    all.flatMap((each) => [each.genitive, each.name, each.code].map((key) => [foldName(key), each] as const)),
  );
  return {
    all,
    find: (wanted) => byText.get(foldName(wanted)),
    suggest: (wanted) =>
      nearestName(wanted, [...all.map((each) => each.code), ...all.map((each) => each.name)]),
  };
}
