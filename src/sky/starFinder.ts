import { foldName } from "../plan/nearestName.ts";
import { type DesignationRow, inConstellation, readDesignationRow } from "./designationRows.ts";
import { canonicalDesignation } from "./designationText.ts";

/** A star that a text may mean, and the name or designation by which it was found. */
export interface FoundStar {
  readonly hip: number;
  readonly matched: string;
}

type Index = ReadonlyMap<string, readonly FoundStar[]>;

/**
 * Finds stars by name or designation, in the order of the lines. Lines are taken apart as far as a text asks for: a command
 * looks up one star, and to fold the 4,870 rows takes longer than all the rest of it.
 */
export function starFinder(lines: readonly string[]): (text: string) => readonly FoundStar[] {
  const rowsWhere = (holds: (line: string) => boolean): DesignationRow[] =>
    lines.filter(holds).map(readDesignationRow);
  const indexes = new Map<string, Index>();
  const kept = (key: string, make: () => Index): Index => {
    const index = indexes.get(key) ?? make();
    indexes.set(key, index);
    return index;
  };
  const names = () => kept("names", () => indexOf(rowsWhere(hasProperName), (row) => [[row.name, row.name]]));
  const constellation = (code: string) =>
    kept(code, () =>
      indexOf(
        rowsWhere((line) => line.endsWith(`\t${code}`)),
        keysInConstellation,
      ),
    );
  const numbers = () =>
    kept("numbers", () =>
      indexOf(
        rowsWhere(() => true),
        (row) => [row.hd, row.gliese].filter((each) => each !== "").map((each) => [each, each]),
      ),
    );

  return (text) => {
    const hip = /^\s*hip\s*0*(\d{1,6})\s*$/i.exec(text)?.[1];
    if (hip !== undefined) return [{ hip: Number(hip), matched: `HIP ${hip}` }];
    // "NU Ori" is a variable and "nu Ori" a Bayer letter: the spelling as typed comes first, then letters spelled out.
    const asTyped = canonicalDesignation(text, false);
    const spellings = [...new Set([text.trim(), asTyped, canonicalDesignation(text, true)])];
    const index = [
      names(),
      constellation(asTyped.slice(-3)),
      ...(/^(HD|GJ|NN|Wo) \d/.test(asTyped) ? [numbers()] : []),
    ];
    const alike = (spelling: string) => index.flatMap((each) => each.get(foldName(spelling)) ?? []);
    for (const spelling of spellings) {
      const exact = alike(spelling).filter((each) => hasLettersOf(each.matched, spelling));
      if (exact.length > 0) return exact;
    }
    const folded = spellings.flatMap(alike);
    return folded.filter((each, i) => folded.findIndex((other) => other.hip === each.hip) === i);
  };
}

export function hasProperName(line: string): boolean {
  return line[line.indexOf("\t") + 1] !== "\t";
}

/** A letter without its index finds all that carry it: "α Cen" α1 and α2. */
function keysInConstellation(row: DesignationRow): (readonly [key: string, matched: string])[] {
  const bare = row.bayer.replace(/\d+$/, "");
  const keys = inConstellation(row).map((each) => [each, each] as const);
  return bare === row.bayer
    ? keys
    : [...keys, [`${bare} ${row.constellation}`, `${row.bayer} ${row.constellation}`] as const];
}

function indexOf(
  rows: readonly DesignationRow[],
  keysOf: (row: DesignationRow) => readonly (readonly [key: string, matched: string])[],
): Index {
  const index = new Map<string, FoundStar[]>();
  for (const row of rows) {
    for (const [key, matched] of keysOf(row)) {
      const folded = foldName(key);
      const found = index.get(folded);
      if (found === undefined) index.set(folded, [{ hip: row.hip, matched }]);
      else if (found.every((each) => each.hip !== row.hip)) found.push({ hip: row.hip, matched });
    }
  }
  return index;
}

/** Whether a designation has the letters as typed, apart from an index that was not typed ("α Cen" and "α2 Cen"). */
function hasLettersOf(matched: string, typed: string): boolean {
  return matched === typed || matched.replace(/\d+ /, " ") === typed;
}
