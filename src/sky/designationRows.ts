/** One line of data/designations.tsv. */
export interface DesignationRow {
  readonly hip: number;
  readonly name: string;
  readonly bayer: string;
  readonly flamsteed: string;
  readonly variable: string;
  readonly gliese: string;
  readonly hd: string;
  readonly constellation: string;
}

export const DESIGNATIONS_HEADER = "hip\tname\tbayer\tflamsteed\tvariable\tgliese\thd\tconstellation";

/** Lines by Hipparcos number, brightest first; they are taken apart only when needed. */
export function designationLines(text: string): ReadonlyMap<number, string> {
  const lines = new Map<number, string>();
  for (const line of text.slice(DESIGNATIONS_HEADER.length + 1, -1).split("\n")) {
    lines.set(Number.parseInt(line, 10), line);
  }
  return lines;
}

export function readDesignationRow(line: string): DesignationRow {
  const [hip, name = "", bayer = "", flamsteed = "", variable = "", gliese = "", hd = "", constellation] =
    line.split("\t");
  if (constellation === undefined) throw new Error(`The table of designations is damaged at "${line}".`);
  return { hip: Number(hip), name, bayer, flamsteed, variable, gliese, hd, constellation };
}

/** What the star is called in its constellation, the best first: "α2 Cen", "61 Cyg", "R And". */
export function inConstellation(row: DesignationRow): string[] {
  return [row.bayer, row.flamsteed, row.variable]
    .filter((each) => each !== "")
    .map((each) => `${each} ${row.constellation}`);
}
