import type { Hole } from "../schedule/types.ts";
import { csvText, fixed, shortest } from "./csv.ts";

const HEADER = [
  "hole",
  "panel",
  "x_mm",
  "y_mm",
  "diameter_mm",
  "bit_mm",
  "kind",
  "hip",
  "name",
  "constellation",
  "mag",
  "bv",
  "alt_deg",
  "az_deg",
  "sky_x_mm",
  "sky_y_mm",
  "ceiling_x_mm",
  "ceiling_y_mm",
  "shift_mm",
  "merged",
  "bundle",
  "length_mm",
] as const;

/** schedule.csv: one row a hole. */
export const scheduleCsv = (holes: readonly Hole[]): string =>
  csvText(
    HEADER,
    holes.map((hole) => [
      hole.hole,
      hole.panel,
      fixed(hole.xMm, 2),
      fixed(hole.yMm, 2),
      shortest(hole.diameterMm),
      shortest(hole.bitMm),
      hole.kind,
      hole.hip === null ? null : String(hole.hip),
      hole.name,
      hole.constellation,
      fixed(hole.mag, 2),
      fixed(hole.bv, 3),
      fixed(hole.altDeg, 4),
      fixed(hole.azDeg, 4),
      fixed(hole.skyXMm, 2),
      fixed(hole.skyYMm, 2),
      fixed(hole.ceilingXMm, 2),
      fixed(hole.ceilingYMm, 2),
      fixed(hole.shiftMm, 2),
      hole.merged.join(" "),
      hole.bundle,
      fixed(hole.lengthMm, 2),
    ]),
  );
