import type { StarRecord } from "../schedule/stars.ts";
import { csvText, fixed } from "./csv.ts";

const HEADER = [
  "hip",
  "name",
  "constellation",
  "mag",
  "bv",
  "ra_deg",
  "dec_deg",
  "alt_deg",
  "az_deg",
  "x_mm",
  "y_mm",
] as const;

/** Every object of the field, brightest first. */
export const starsCsv = (stars: readonly StarRecord[]): string =>
  csvText(
    HEADER,
    stars.map((star) => [
      star.hip === null ? null : String(star.hip),
      star.name,
      star.constellation,
      fixed(star.mag, 2),
      fixed(star.bv, 3),
      fixed(star.raDeg, 6),
      fixed(star.decDeg, 6),
      fixed(star.altDeg, 6),
      fixed(star.azDeg, 6),
      fixed(star.xMm, 3),
      fixed(star.yMm, 3),
    ]),
  );
