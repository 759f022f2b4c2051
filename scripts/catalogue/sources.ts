// The open tables of data/source, checked against their published checksums and read without losing a digit.
import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { gunzipSync } from "node:zlib";

/** SHA-256 of each table, as stated by whoever reduced them: see data/README.md. */
export const SOURCES = {
  "xhip-stars.csv.gz": "a0c56d82a8537bafb7d16ea0e57f0d895987db710433c8db1e20eae90f0e72ae",
  "designations.csv": "c1bdf4a6fcf8fb344ac15a2d5edfd028fbf608feb866416d0531c0b974f95576",
  "proper-motions.csv": "5c9476c90c70cd115a079dd89647349cd074d1d4ba62323a4030a2b347d91b56",
} as const;

export interface SourceStar {
  readonly hip: number;
  readonly raE4Deg: number;
  readonly decE4Deg: number;
  readonly vCentiMag: number;
  /** Null where the source has none. */
  readonly bvMilliMag: number | null;
}

export interface SourceMotion {
  /** Line of data/source/proper-motions.csv. */
  readonly line: number;
  /** Numbers in FK5, the Bright Star Catalogue and Hipparcos, as far as given. */
  readonly fk5: string;
  readonly hr: string;
  readonly hip: number | null;
  /** Place for matching only: most are at epoch J1991.25, some at J2000. */
  readonly raDeg: number;
  readonly decDeg: number;
  readonly vCentiMag: number;
  /** Seconds of time a century, not times cos(declination). */
  readonly pmRaSecPerCentury: number;
  readonly pmDecArcsecPerCentury: number;
}

export interface SourceDesignation {
  readonly hip: number;
  readonly name: string;
  readonly bayer: string;
  readonly flamsteed: string;
  readonly variable: string;
  readonly gliese: string;
  readonly hd: string;
  readonly constellation: string;
}

export function readStars(folder: string): SourceStar[] {
  const text = gunzipSync(readVerified(folder, "xhip-stars.csv.gz")).toString("utf8");
  return table("xhip-stars.csv.gz", text, "hip,ra_deg,dec_deg,v_mag,bv_mag").map(([hip, ra, dec, v, bv]) => ({
    hip: fixed(hip!, 0),
    raE4Deg: fixed(ra!, 4),
    decE4Deg: fixed(dec!, 4),
    vCentiMag: fixed(v!, 2),
    bvMilliMag: bv === "" ? null : fixed(bv!, 3),
  }));
}

export function readMotions(folder: string): SourceMotion[] {
  const text = readVerified(folder, "proper-motions.csv").toString("utf8");
  const header = "fk5,hr,hip,ra_deg,dec_deg,v_mag,pm_ra_s_per_century,pm_dec_arcsec_per_century";
  return table("proper-motions.csv", text, header).map(([fk5, hr, hip, ra, dec, v, pmRa, pmDec], i) => ({
    line: i + 2,
    fk5: fk5!,
    hr: hr!,
    hip: hip === "" ? null : fixed(hip!, 0),
    raDeg: fixed(ra!, 5) / 1e5,
    decDeg: fixed(dec!, 5) / 1e5,
    vCentiMag: fixed(v!, 2),
    pmRaSecPerCentury: fixed(pmRa!, 4) / 1e4,
    pmDecArcsecPerCentury: fixed(pmDec!, 3) / 1e3,
  }));
}

export function readDesignations(folder: string): SourceDesignation[] {
  const text = readVerified(folder, "designations.csv").toString("utf8");
  const header = "hip,name,bayer,flamsteed,variable,gliese,hd,constellation";
  return table("designations.csv", text, header).map((cells) => {
    const [hip, name, bayer, flamsteed, variable, gliese, hd, constellation] = cells as [
      string,
      string,
      string,
      string,
      string,
      string,
      string,
      string,
    ];
    return { hip: fixed(hip, 0), name, bayer, flamsteed, variable, gliese, hd, constellation };
  });
}

function readVerified(folder: string, file: keyof typeof SOURCES): Buffer {
  const bytes = readFileSync(join(folder, file));
  const found = createHash("sha256").update(bytes).digest("hex");
  if (found !== SOURCES[file]) {
    throw new Error(`${join(folder, file)} has SHA-256 ${found}, where ${SOURCES[file]} belongs.`);
  }
  return bytes;
}

function table(file: string, text: string, header: string): string[][] {
  const [first, ...lines] = text.trimEnd().split("\n");
  if (first !== header) throw new Error(`${file} begins with "${first}", where "${header}" belongs.`);
  return lines.map((line, i) => {
    const cells = line.split(",");
    if (cells.length !== header.split(",").length || line.includes('"')) {
      throw new Error(`${file}, line ${i + 2}: "${line}" has not the columns ${header}.`);
    }
    return cells;
  });
}

/** A decimal number in whole units of its `decimals`-th place. Throws if it has more digits than that: nothing is rounded. */
function fixed(text: string, decimals: number): number {
  const match = /^(-?)(\d+)(?:\.(\d+))?$/.exec(text);
  const [, sign, whole = "", fraction = ""] = match ?? [];
  if (!match || fraction.length > decimals) {
    throw new Error(`"${text}" is no number of at most ${decimals} decimals: a column would lose digits.`);
  }
  const units = Number(whole + fraction.padEnd(decimals, "0"));
  return sign === "-" ? -units : units;
}
