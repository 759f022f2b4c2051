import { loadSkyData } from "../../src/cli/dataFiles.ts";
import { equatorialVector } from "../../src/sky/apparent.ts";
import type { StarVectors } from "../../src/sky/catalogue.ts";
import type { SkyData } from "../../src/sky/skyData.ts";

let loaded: SkyData | undefined;

/** The shipped catalogue, read once for all tests of a file. */
export const testSky = (): SkyData => {
  loaded ??= loadSkyData();
  return loaded;
};

const RAD = Math.PI / 180;

/** Star vectors from catalogue places: proper motion in mas a year, in right ascension times cos(declination). */
export function starsFrom(
  rows: readonly { raDeg: number; decDeg: number; pmRaCosDecMasPerYr: number; pmDecMasPerYr: number }[],
): StarVectors {
  const p = new Float64Array(rows.length * 3);
  const velocityRadPerYr = new Float64Array(rows.length * 3);
  for (const [i, { raDeg, decDeg, pmRaCosDecMasPerYr, pmDecMasPerYr }] of rows.entries()) {
    p.set(equatorialVector(raDeg, decDeg), i * 3);
    const [ra, dec] = [raDeg * RAD, decDeg * RAD];
    const east = (pmRaCosDecMasPerYr / 3_600_000) * RAD;
    const north = (pmDecMasPerYr / 3_600_000) * RAD;
    velocityRadPerYr.set(
      [
        -Math.sin(ra) * east - Math.cos(ra) * Math.sin(dec) * north,
        Math.cos(ra) * east - Math.sin(ra) * Math.sin(dec) * north,
        Math.cos(dec) * north,
      ],
      i * 3,
    );
  }
  return { p, pmRow: Int32Array.from(rows, (_, i) => i), velocityRadPerYr };
}

/** Angle between two unit vectors in arcseconds; good for small angles too. */
export const arcsecBetween = (a: readonly number[], b: readonly number[]): number =>
  (2 * Math.asin(Math.min(1, Math.hypot(a[0]! - b[0]!, a[1]! - b[1]!, a[2]! - b[2]!) / 2)) * 3600) / RAD;
