import { nearestName } from "../plan/nearestName.ts";
import {
  DESIGNATIONS_HEADER,
  designationLines,
  inConstellation,
  readDesignationRow,
} from "./designationRows.ts";
import { once } from "./once.ts";
import { type FoundStar, hasProperName, starFinder } from "./starFinder.ts";

export type { FoundStar };

export interface Designations {
  /** The proper name ("Vega"), or "". */
  properName(hip: number): string;
  /** What the star is called in its constellation, the best first: "α2 Cen", "61 Cyg", "R And"; or "". */
  designation(hip: number): string;
  /** Stars with a proper name, brightest first. */
  readonly named: readonly { readonly hip: number; readonly name: string }[];
  /** The first that the star has of: proper name, Bayer ("α2 Cen"), Flamsteed ("61 Cyg"), variable ("R And"); or "". */
  displayName(hip: number): string;
  /**
   * Stars that a text may mean, brightest first; empty if none. Understood, with case and accents ignored: proper names,
   * Bayer letters ("α2 Cen", "alpha2 Cen", "alf Centauri"; without its index a letter means all that carry it),
   * Flamsteed numbers ("61 Cyg"), variables ("R And"), "HD 128620", "GJ 559A" and "HIP 71683". Where case decides (b Cen
   * and B Cen) the spelling as typed wins, if it exists. A HIP number is handed back as it is: whether the catalogue
   * holds it is for the caller to see.
   */
  find(text: string): readonly FoundStar[];
  /** The proper name nearest to a text that `find` does not know, or null. */
  suggest(text: string): string | null;
}

/** Reads data/designations.tsv; the work is put off until a name is asked for. Throws if it is not that table. */
export function parseDesignations(text: string): Designations {
  if (!text.startsWith(`${DESIGNATIONS_HEADER}\n`) || !text.endsWith("\n")) {
    throw new Error("The table of designations is damaged: its first line or its end is missing.");
  }
  const lines = once(() => designationLines(text));
  const finder = once(() => starFinder([...lines().values()]));
  const rowOf = (hip: number) => {
    const line = lines().get(hip);
    return line === undefined ? undefined : readDesignationRow(line);
  };
  const named = once(() => [...lines().values()].filter(hasProperName).map(readDesignationRow));
  return {
    get named() {
      return named();
    },
    designation: (hip) => {
      const row = rowOf(hip);
      return row === undefined ? "" : (inConstellation(row)[0] ?? "");
    },
    properName: (hip) => rowOf(hip)?.name ?? "",
    displayName: (hip) => {
      const row = rowOf(hip);
      return row === undefined ? "" : row.name || (inConstellation(row)[0] ?? "");
    },
    find: (wanted) => finder()(wanted),
    suggest: (wanted) =>
      nearestName(
        wanted,
        named().map(({ name }) => name),
      ),
  };
}
