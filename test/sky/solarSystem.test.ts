import { describe, expect, it } from "vitest";
import { altitudeDeg, directionOf } from "../../src/sky/apparent.ts";
import { darknessOf } from "../../src/sky/darkness.ts";
import { observerAt } from "../../src/sky/observer.ts";
import { bodyAt, moonAt } from "../../src/sky/solarSystem.ts";
import { sunMoonPlanets } from "../reference/erfaFiles.ts";
import { arcsecBetween } from "./testSky.ts";

/** The library's own stated accuracy is 1 arcmin; against the better models here it was never worse than these. */
const OWN_ARCSEC = { Sun: 8, Moon: 15 } as const;

describe("Sun, Moon and planets", () => {
  // Oracle: ERFA 2.0.0 (epv00, moon98, plan94), topocentric and apparent; each with that model's own stated error.
  it.each(sunMoonPlanets())(
    "stand where ERFA has them at $utc",
    ({ utc, latitudeDeg, longitudeDeg, elevationM, bodies }) => {
      const observer = observerAt(Date.parse(utc), { latitudeDeg, longitudeDeg, elevationM });
      for (const { body, azimuthDeg, altitudeDeg: alt, toleranceArcsec } of bodies) {
        const { enu } = body === "Moon" ? moonAt(observer) : bodyAt(body, observer);
        const off = arcsecBetween(enu, directionOf(alt, azimuthDeg));
        const allowed =
          body === "Sun" ? OWN_ARCSEC.Sun : toleranceArcsec + (body === "Moon" ? OWN_ARCSEC.Moon : 5);
        expect(off, body).toBeLessThan(allowed);
      }
    },
  );

  it("see the Moon from the place, not from the Earth's centre: up to a degree apart", () => {
    const instant = Date.parse("1998-07-12T01:15:00Z");
    const here = moonAt(observerAt(instant, { latitudeDeg: 0, longitudeDeg: 0, elevationM: 0 }));
    const there = moonAt(observerAt(instant, { latitudeDeg: 0, longitudeDeg: 90, elevationM: 0 }));
    const apart = arcsecBetween(here.icrs, there.icrs) / 3600;
    expect(apart).toBeGreaterThan(0.5);
    expect(apart).toBeLessThan(2);
  });

  // From memory, textbook values: Venus is never fainter than -3.5, Jupiter at opposition about -2.7, the full Moon about -12.7.
  it("shine as bright as the textbooks say", () => {
    const observer = observerAt(Date.parse("2023-11-03T05:00:00Z"), {
      latitudeDeg: 0,
      longitudeDeg: 0,
      elevationM: 0,
    });
    expect(bodyAt("Venus", observer).vMag).toBeLessThan(-3.5);
    expect(bodyAt("Jupiter", observer).vMag).toBeCloseTo(-2.9, 0); // opposition 2023 November 3
    const full = observerAt(Date.parse("2023-10-28T20:24:00Z"), {
      latitudeDeg: 0,
      longitudeDeg: 0,
      elevationM: 0,
    });
    expect(moonAt(full).vMag).toBeLessThan(-11.5);
  });
});

describe("darkness", () => {
  // Source: USNO definitions of rise, set and twilight.
  it.each([
    [1, "day"],
    [-0.5, "day"],
    [-3, "civilTwilight"],
    [-9, "nauticalTwilight"],
    [-15, "astronomicalTwilight"],
    [-30, "night"],
  ] as const)("with the Sun at %d degrees is %s", (altitude, name) => {
    expect(darknessOf(altitude)).toBe(name);
  });

  it("noon Sun stands 90 - |latitude - declination| high at the equinox and solstices", () => {
    // Oracle: plane trigonometry, 90 - |latitude - declination|; latitude 51.5: 38.5, 61.94, 15.06 degrees; solar noon on the Greenwich meridian within the equation of time.
    for (const [utc, expected] of [
      ["2024-03-20T12:07:00Z", 38.5],
      ["2024-06-20T12:02:00Z", 61.94],
      ["2024-12-21T11:58:00Z", 15.06],
    ] as const) {
      const observer = observerAt(Date.parse(utc), { latitudeDeg: 51.5, longitudeDeg: 0, elevationM: 0 });
      // The Sun's declination moves by up to 0.4 degrees a day at the equinox, which fell 9 hours off noon.
      expect(Math.abs(altitudeDeg(...bodyAt("Sun", observer).enu) - expected)).toBeLessThan(0.2);
    }
  });
});
