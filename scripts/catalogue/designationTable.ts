// data/designations.tsv: the designations with their known faults mended or dropped, and a list of what was dropped.
import { CONSTELLATION_CODES } from "../../src/sky/constellations.ts";
import { DESIGNATIONS_HEADER } from "../../src/sky/designationRows.ts";
import type { SourceDesignation, SourceStar } from "./sources.ts";

export interface DesignationTable {
  readonly tsv: string;
  readonly rows: number;
  /** data/names-dropped.tsv: what the source has and the table has not, with the reason. */
  readonly droppedTsv: string;
  readonly doubledNames: number;
  readonly dropped: number;
}

/** @param brightestFirst  the stars in the order of the catalogue: the table follows it */
export function designationTable(
  brightestFirst: readonly SourceStar[],
  source: readonly SourceDesignation[],
): DesignationTable {
  const byHip = new Map(source.map((row) => [row.hip, row]));
  if (byHip.size !== source.length) throw new Error("designations.csv holds a star twice.");
  const dropped: string[][] = [];
  const holderOf = new Map<string, SourceStar>();
  const doubled = new Set<string>();
  const lines: string[] = [];
  for (const star of brightestFirst) {
    const row = byHip.get(star.hip);
    if (row === undefined) continue;
    byHip.delete(star.hip);
    const drop = (what: string, value: string, why: string): string => {
      dropped.push([String(star.hip), (star.vCentiMag / 100).toFixed(2), what, value, why]);
      return "";
    };

    let { name, bayer, variable, constellation } = row;
    const holder = holderOf.get(name);
    if (name !== "" && holder !== undefined) {
      doubled.add(name);
      name = drop(
        "name",
        name,
        `doubled: kept on HIP ${holder.hip}, V ${(holder.vCentiMag / 100).toFixed(2)}`,
      );
    } else if (name !== "") holderOf.set(name, star);

    if (star.hip === 20535 && bayer === "undefined3") bayer = "υ3"; // Eridanus: υ1, υ2 and υ4 are there, υ3 is 43 Eri
    if (!/^(\p{Script=Greek}|[A-Za-z])?\d?$/u.test(bayer))
      throw new Error(`HIP ${star.hip}: Bayer "${bayer}"?`);

    variable = variable.replace(/^V0+/, "V");
    if (/^NSV \d{1,2}$/.test(variable) && /^\d{3}$/.test(constellation)) {
      // A number of the New Catalogue of Suspected Variables, cut in the middle by the source's columns.
      drop("variable and constellation", `${variable}|${constellation}`, "a number cut in two by the source");
      variable = "";
      constellation = "";
    }
    if (constellation !== "" && !CONSTELLATION_CODES.includes(constellation)) {
      throw new Error(`HIP ${star.hip}: constellation "${constellation}"?`);
    }
    if (constellation === "" && `${bayer}${row.flamsteed}${variable}` !== "") {
      throw new Error(`HIP ${star.hip} has a designation and no constellation to go with it.`);
    }
    const cells = [name, bayer, row.flamsteed, variable, row.gliese, row.hd];
    if (cells.some((cell) => cell !== "")) lines.push([star.hip, ...cells, constellation].join("\t"));
  }
  if (byHip.size > 0)
    throw new Error(`designations.csv names stars that are not there: HIP ${[...byHip.keys()]}.`);
  return {
    tsv: `${DESIGNATIONS_HEADER}\n${lines.join("\n")}\n`,
    rows: lines.length,
    droppedTsv: `hip\tv_mag\twhat\tvalue\twhy\n${dropped.map((cells) => `${cells.join("\t")}\n`).join("")}`,
    doubledNames: doubled.size,
    dropped: dropped.length,
  };
}
