// Middles and areas of the constellations, counted over cells of equal area.
import { Constellation } from "astronomy-engine";
import { CONSTELLATION_NAMES } from "../../src/sky/constellationNames.ts";
import { CONSTELLATION_CODES } from "../../src/sky/constellations.ts";

/**
 * Two million cells of equal area (0.0206 square degrees), as a Fibonacci lattice: each point is a step further in
 * sin(declination) and a golden section of a turn further in right ascension. Rows of one declination would not do: boundaries
 * run along the parallels and meridians of 1875, and a whole row falls to one side all at once.
 */
const CELLS = 2_000_000;
const GOLDEN_SECTION = 0.6180339887498949;
const SKY_SQUARE_DEG = 4 * Math.PI * (180 / Math.PI) ** 2;

/** Index into `CONSTELLATION_CODES` by the IAU boundaries, for a J2000 place. */
export function constellationIndex(raJ2000Deg: number, decJ2000Deg: number): number {
  const { symbol } = Constellation(raJ2000Deg / 15, decJ2000Deg);
  const index = CONSTELLATION_CODES.indexOf(symbol);
  if (index < 0) throw new Error(`"${symbol}" is no IAU code of a constellation.`);
  return index;
}

/** data/constellations.tsv. The middle is the direction of the mean unit vector over the area (of both parts of Serpens). */
export function constellationTable(): string {
  const cells = new Float64Array(88);
  const sums = new Float64Array(3 * 88);
  for (let k = 0; k < CELLS; k++) {
    const z = -1 + (2 * k + 1) / CELLS;
    const raDeg = ((k * GOLDEN_SECTION) % 1) * 360;
    const i = constellationIndex(raDeg, (Math.asin(z) * 180) / Math.PI);
    const ra = (raDeg * Math.PI) / 180;
    const r = Math.sqrt(1 - z * z);
    cells[i]! += 1;
    sums[3 * i]! += r * Math.cos(ra);
    sums[3 * i + 1]! += r * Math.sin(ra);
    sums[3 * i + 2]! += z;
  }
  const lines = CONSTELLATION_NAMES.map(([code, name, genitive], i) => {
    const [x, y, z] = [sums[3 * i]!, sums[3 * i + 1]!, sums[3 * i + 2]!];
    const raHours = ((((Math.atan2(y, x) * 12) / Math.PI) % 24) + 24) % 24;
    const decDeg = (Math.atan2(z, Math.hypot(x, y)) * 180) / Math.PI;
    const areaSquareDeg = (cells[i]! * SKY_SQUARE_DEG) / CELLS;
    return [code, name, genitive, raHours.toFixed(3), decDeg.toFixed(2), areaSquareDeg.toFixed(1)].join("\t");
  });
  return `code\tname\tgenitive\tra_j2000_hours\tdec_j2000_deg\tarea_square_deg\n${lines.join("\n")}\n`;
}
