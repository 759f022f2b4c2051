import { describe, expect, it } from "vitest";
import { equatorialVector } from "../../src/sky/apparent.ts";
import { julianDateUtc } from "../../src/sky/timeScales.ts";
import {
  brightestStars,
  epochTrap,
  meeusJulianDates,
  meeusSeparations,
  starCounts,
  starPairs,
} from "../reference/published.ts";
import { arcsecBetween, testSky } from "./testSky.ts";

const { catalogue } = testSky();
const rowOf = (hip: number) => catalogue.hip.indexOf(hip);
const vectorOf = (hip: number) => [...catalogue.unitJ2000.subarray(rowOf(hip) * 3, rowOf(hip) * 3 + 3)];

describe("the compiled catalogue against published tables", () => {
  it.each(brightestStars.rows)("has $name where the Bright Star Catalogue has it", (star) => {
    // 0.1 s of right ascension is 1.5 arcsec, the catalogue's 0.0001 degree 0.2; Rigil Kentaurus' place there lies 6.4 arcsec
    // from Hipparcos', as its measured components do from the pair.
    const allowed = star.hip === 71683 ? 7 : 1.5;
    expect(arcsecBetween(vectorOf(star.hip), equatorialVector(star.raDeg, star.decDeg))).toBeLessThan(
      allowed,
    );
    if (star.icrsJ2000Deg) {
      // Half a step of 0.0001 degree in each coordinate: 0.26 arcsec.
      expect(arcsecBetween(vectorOf(star.hip), equatorialVector(...star.icrsJ2000Deg))).toBeLessThan(0.27);
    }
    // Two photometric systems, and variables: Betelgeuse ranges over a magnitude.
    expect(Math.abs(catalogue.vCentiMag[rowOf(star.hip)]! / 100 - star.vMag)).toBeLessThan(
      star.hip === 27989 ? 0.5 : 0.11,
    );
  });

  it("has as many stars to each magnitude as the source table says, and about as many as others count", () => {
    const upTo = (mag: number) => catalogue.vCentiMag.reduce((sum, v) => sum + (v <= mag * 100 ? 1 : 0), 0);
    for (const [mag, count] of Object.entries(starCounts.xhipUpTo)) expect(upTo(Number(mag))).toBe(count);
    // Hipparcos by OEIS A053406, "below" in place of "to", and other photometry for doubles: within 4 in 100, or 2 stars.
    for (const [mag, count] of Object.entries(starCounts.hipparcosBelow)) {
      const below = catalogue.vCentiMag.reduce((sum, v) => sum + (v < Number(mag) * 100 ? 1 : 0), 0);
      expect(Math.abs(below - count)).toBeLessThanOrEqual(Math.max(2, 0.04 * count));
    }
  });

  it.each(starPairs.rows)(
    "has $a and $b as far apart as they are",
    ({ hipA, hipB, separationDeg, toleranceDeg }) => {
      // The catalogue's steps of 0.0001 degree and the pair's printed digits; Alpha Centauri as above.
      const allowed = toleranceDeg + 0.0005 + (hipA === 71683 ? 0.002 : 0);
      expect(Math.abs(arcsecBetween(vectorOf(hipA), vectorOf(hipB)) / 3600 - separationDeg)).toBeLessThan(
        allowed,
      );
    },
  );

  it("stands at J2000, not at Hipparcos' own epoch of 1991.25", () => {
    for (const { hip, j1991p25Deg, j2000Deg } of epochTrap.rows) {
      expect(arcsecBetween(vectorOf(hip), equatorialVector(j2000Deg[0], j2000Deg[1]))).toBeLessThan(0.3);
      expect(arcsecBetween(vectorOf(hip), equatorialVector(j1991p25Deg[0], j1991p25Deg[1]))).toBeGreaterThan(
        5,
      );
    }
  });
});

describe("the tools of the tests themselves", () => {
  it("measure angles as Meeus does (ex. 17.a)", () => {
    for (const { a, b, separationDeg, toleranceDeg } of meeusSeparations.rows) {
      expect(
        Math.abs(arcsecBetween(equatorialVector(...a), equatorialVector(...b)) / 3600 - separationDeg),
      ).toBeLessThanOrEqual(toleranceDeg);
    }
  });
});

describe("Julian Dates", () => {
  it.each(meeusJulianDates.rows.filter((row) => row.calendar === "gregorian"))(
    "of $year $month $day is Meeus' $jd",
    ({ year, month, day, jd }) => {
      const ms = Date.UTC(year, month - 1, 1) + (day - 1) * 86_400_000;
      expect(julianDateUtc(ms)).toBeCloseTo(jd, 6);
    },
  );
});
