import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { altitudeDeg, directionOf } from "../../src/sky/apparent.ts";
import { airMass } from "../../src/sky/extinction.ts";
import { refract, refractionDeg } from "../../src/sky/refraction.ts";
import { meeusRefraction, refractionTable } from "../reference/published.ts";

describe("refraction", () => {
  it("is Saemundsson's in Meeus' example 16.a", () => {
    const { trueAltitudeArcmin, refractionArcmin } = meeusRefraction.saemundsson;
    expect(refractionDeg(trueAltitudeArcmin / 60) * 60).toBeCloseTo(refractionArcmin, 3);
  });
  it("follows the table of the formula", () => {
    for (const [i, altitude] of refractionTable.altitudeDeg.entries()) {
      expect(
        Math.abs(refractionDeg(altitude) * 60 - refractionTable.saemundssonFromTrueArcmin[i]!),
      ).toBeLessThan(refractionTable.toleranceArcmin + 1e-9);
    }
  });
  it("vanishes at the zenith and at the nadir, and is never negative", () => {
    expect(refractionDeg(90)).toBe(0);
    expect(refractionDeg(-90)).toBe(0);
  });
  it("never swaps two altitudes", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -90, max: 90, noNaN: true }),
        fc.double({ min: 1e-4, max: 5, noNaN: true }),
        (low, gap) => {
          const high = Math.min(90, low + gap);
          expect(high + refractionDeg(high)).toBeGreaterThanOrEqual(low + refractionDeg(low));
        },
      ),
    );
  });
  it("lifts a direction without turning it", () => {
    const enu = Float64Array.from(directionOf(10, 75));
    refract(enu);
    expect(altitudeDeg(enu[0]!, enu[1]!, enu[2]!)).toBeCloseTo(10 + refractionDeg(10), 10);
    expect((Math.atan2(enu[0]!, enu[1]!) * 180) / Math.PI).toBeCloseTo(75, 10);
    expect(Math.hypot(...enu)).toBeCloseTo(1, 14);
  });
});

describe("air mass", () => {
  // Source: Kasten and Young, Applied Optics 28, 4735 (1989): 38 at the horizon, 1 at the zenith; values of the formula
  // worked by hand: at 30 degrees 1/(0.5 + 0.50572 x 36.07995^-1.6364) = 1.9939.
  it("is 1 at the zenith, 2 at 30 degrees and about 38 at the horizon", () => {
    expect(airMass(90)).toBeCloseTo(1, 3);
    expect(airMass(30)).toBeCloseTo(1.9939, 3);
    expect(airMass(0)).toBeCloseTo(37.92, 1);
    expect(airMass(-5)).toBe(airMass(0));
  });
});
