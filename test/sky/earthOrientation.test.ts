import { describe, expect, it } from "vitest";
import { equatorialVector } from "../../src/sky/apparent.ts";
import {
  apparentSiderealTimeRad,
  earthRotationAngleRad,
  icrsToTrueOfDate,
  meanObliquityRad,
  meanSiderealTimeRad,
} from "../../src/sky/earthOrientation.ts";
import { nutation2000b } from "../../src/sky/nutation.ts";
import {
  erfaEarthRotation,
  erfaPrecessionNutation,
  meeusNutation,
  meeusPolaris,
  meeusSiderealTime,
  skyIdentities,
} from "../reference/published.ts";

const ARCSEC = Math.PI / 648_000;
const centuries = ([a, b]: readonly [number, number]) => (a - 2451545 + b) / 36525;
const jd = ([a, b]: readonly [number, number]) => a + b;

describe("the Earth's rotation", () => {
  // Oracle: ERFA 2.0.1, t_erfa_c.c. A Julian date in one number holds 40 microseconds: 0.6 mas, 3e-9 rad.
  it("angle is ERFA's era00", () => {
    expect(earthRotationAngleRad(jd(erfaEarthRotation.era00.ut1))).toBeCloseTo(
      erfaEarthRotation.era00.rad,
      8,
    );
  });
  it("mean sidereal time is ERFA's gmst06", () => {
    const { ut1, tt, rad } = erfaEarthRotation.gmst06;
    expect(meanSiderealTimeRad(jd(ut1), centuries(tt))).toBeCloseTo(rad, 8);
  });
  it("apparent sidereal time is ERFA's gst06a, but for 1 mas of nutation", () => {
    const { ut1, tt, rad } = erfaEarthRotation.gst06a;
    expect(Math.abs(apparentSiderealTimeRad(jd(ut1), centuries(tt)) - rad)).toBeLessThan(0.002 * ARCSEC);
  });
  // Oracle: Meeus ex. 12.a and 12.b. His model of 1982 and ours of 2006 differ by hundredths of an arcsecond in 1987.
  it.each(meeusSiderealTime.rows)("is Meeus' in example $example ($kind)", ({ jd: at, kind, gstDeg }) => {
    const t = (at + 56 / 86400 - 2451545) / 36525;
    const rad = kind === "mean" ? meanSiderealTimeRad(at, t) : apparentSiderealTimeRad(at, t);
    expect(Math.abs(rad / ARCSEC - gstDeg * 3600)).toBeLessThan(0.1);
  });
  it("turns the sky 360.9856 degrees a day", () => {
    const turn = earthRotationAngleRad(2451546) - earthRotationAngleRad(2451545);
    expect(360 + (turn * 180) / Math.PI).toBeCloseTo(skyIdentities.skyTurnPerUtDayDeg, 4);
  });
});

describe("precession and nutation", () => {
  it("give ERFA's mean obliquity (obl06)", () => {
    const { tt, rad } = erfaPrecessionNutation.obl06;
    expect(meanObliquityRad(centuries(tt))).toBeCloseTo(rad, 13);
  });
  it("give ERFA's nutation (nut06a) within the 1 mas of the short series", () => {
    const { tt, dPsi, dEps } = erfaPrecessionNutation.nut06a;
    const { longitudeRad, obliquityRad } = nutation2000b(centuries(tt));
    expect(Math.abs(longitudeRad - dPsi)).toBeLessThan(0.001 * ARCSEC);
    expect(Math.abs(obliquityRad - dEps)).toBeLessThan(0.001 * ARCSEC);
  });
  it("give Meeus' nutation of 1987 April 10 (ex. 22.a)", () => {
    const { longitudeRad, obliquityRad } = nutation2000b((meeusNutation.jdTt - 2451545) / 36525);
    // IAU 1980 against IAU 2000: a few hundredths of an arcsecond.
    expect(Math.abs(longitudeRad / ARCSEC - meeusNutation.dPsiArcsec)).toBeLessThan(0.05);
    expect(Math.abs(obliquityRad / ARCSEC - meeusNutation.dEpsArcsec)).toBeLessThan(0.02);
  });
  // Oracle: Meeus p. 136 and ERFA: distance of Polaris from the mean pole. The true pole nods about
  // the mean one by up to 9.2 arcsec, 0.16 arcmin.
  it.each([2000, 2024, 2050, 2100] as const)(
    "bring the pole as near to Polaris as the books say, %d",
    (year) => {
      const { raJ2000Deg, decJ2000Deg, pmRaSPerYr, pmDecArcsecPerYr } = meeusPolaris;
      const t = (year - 2000) / 100;
      const decDeg = decJ2000Deg + (pmDecArcsecPerYr * (year - 2000)) / 3600;
      const [x, y, z] = equatorialVector(raJ2000Deg + (pmRaSPerYr * 15 * (year - 2000)) / 3600, decDeg);
      const [, , , , , , poleX, poleY, poleZ] = icrsToTrueOfDate(t);
      const distanceArcmin = (Math.acos(x * poleX + y * poleY + z * poleZ) * 10_800) / Math.PI;
      expect(Math.abs(distanceArcmin - skyIdentities.polarisPolarDistanceArcmin[year])).toBeLessThan(
        0.16 + skyIdentities.polarisToleranceArcmin,
      );
    },
  );
});
