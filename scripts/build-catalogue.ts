// Compiles the open tables of data/source into the files that Lacunar reads. Deterministic: the same tables give the same
// bytes. `--check` rebuilds in memory and fails, naming the files, if what lies in data differs.
import { createHash } from "node:crypto";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { CONSTELLATION_CODES } from "../src/sky/constellations.ts";
import { boundaryTable } from "./catalogue/boundaryTable.ts";
import { constellationIndex, constellationTable } from "./catalogue/constellationAreas.ts";
import { designationTable } from "./catalogue/designationTable.ts";
import { encodeStars } from "./catalogue/encodeStars.ts";
import { joinMotions, masPerYr } from "./catalogue/joinMotions.ts";
import { motionReport } from "./catalogue/motionReport.ts";
import { readDesignations, readMotions, readStars, SOURCES } from "./catalogue/sources.ts";

/** Goes up whenever a compiled file changes; written into every manifest. */
const DATA_VERSION = "2026.1";
const data = join(dirname(fileURLToPath(import.meta.url)), "..", "data");

function compile(): Map<string, Uint8Array> {
  const source = join(data, "source");
  const stars = readStars(source).sort((a, b) => a.vCentiMag - b.vCentiMag || a.hip - b.hip);
  const motions = readMotions(source);
  const designations = readDesignations(source);

  const { joined, left } = joinMotions(stars, motions);
  const motionOf = new Map(joined.map(({ star, motion }) => [star.hip, masPerYr(motion)]));
  const compiled = stars.map((star) => ({
    ...star,
    constellation: constellationIndex(star.raE4Deg / 1e4, star.decE4Deg / 1e4),
    motion: motionOf.get(star.hip) ?? null,
  }));
  const names = designationTable(stars, designations);
  const standsIn = new Map(compiled.map((star) => [star.hip, CONSTELLATION_CODES[star.constellation]]));
  const report = motionReport(stars, joined, left);
  const boundaries = boundaryTable();

  const files = new Map<string, Uint8Array>();
  const rows: Record<string, number> = {};
  const add = (file: string, content: string | Uint8Array, count: number): void => {
    files.set(file, typeof content === "string" ? new TextEncoder().encode(content) : content);
    rows[file] = count;
  };
  add("stars.bin", encodeStars(compiled), compiled.length);
  add("designations.tsv", names.tsv, names.rows);
  add("names-dropped.tsv", names.droppedTsv, names.dropped);
  add("constellations.tsv", constellationTable(), CONSTELLATION_CODES.length);
  add("boundaries.tsv", boundaries.tsv, boundaries.rows);
  add("proper-motion-report.tsv", report.tsv, report.rows);

  const summary = {
    version: DATA_VERSION,
    sources: {
      "xhip-stars.csv.gz": { rows: stars.length, sha256: SOURCES["xhip-stars.csv.gz"] },
      "designations.csv": { rows: designations.length, sha256: SOURCES["designations.csv"] },
      "proper-motions.csv": { rows: motions.length, sha256: SOURCES["proper-motions.csv"] },
    },
    compiled: Object.fromEntries(
      [...files].map(([file, bytes]) => [
        file,
        { rows: rows[file], bytes: bytes.length, sha256: sha256(bytes) },
      ]),
    ),
    stars: {
      withoutColourIndex: stars.filter((star) => star.bvMilliMag === null).length,
      designatedInAnotherConstellation: designations.filter(
        (row) =>
          CONSTELLATION_CODES.includes(row.constellation) && row.constellation !== standsIn.get(row.hip),
      ).length,
      doubledNames: names.doubledNames,
    },
    properMotions: report.counts,
  };
  // The package leaves data/source out: the licences go along with what was made from it.
  for (const licence of ["LICENCE-star-table.txt", "LICENCE-proper-motions.txt"]) {
    files.set(licence, readFileSync(join(source, licence)));
  }
  files.set("checksums.json", new TextEncoder().encode(`${JSON.stringify(summary, null, 2)}\n`));
  return files;
}

function sha256(bytes: Uint8Array): string {
  return createHash("sha256").update(bytes).digest("hex");
}

const options = process.argv.slice(2);
const unknown = options.find((option) => option !== "--check");
if (unknown !== undefined) {
  console.error(`Unknown option "${unknown}". Known: --check.`);
  process.exit(2);
}
const files = compile();
if (options.includes("--check")) {
  const differing = [...files].filter(([file, bytes]) => {
    const path = join(data, file);
    return !existsSync(path) || !readFileSync(path).equals(bytes);
  });
  for (const [file] of differing)
    console.error(`data/${file} differs from what data/source gives. Run: npm run catalogue`);
  if (differing.length > 0) process.exit(1);
  console.error(`All ${files.size} compiled files are what data/source gives.`);
} else {
  for (const [file, bytes] of files) writeFileSync(join(data, file), bytes);
  console.error(new TextDecoder().decode(files.get("checksums.json")));
}
