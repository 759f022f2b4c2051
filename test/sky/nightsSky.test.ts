import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { altitudeDeg, azimuthDeg, directionOf } from "../../src/sky/apparent.ts";
import { resolveMoment } from "../../src/sky/civilTime.ts";
import { darknessOf } from "../../src/sky/darkness.ts";
import { galacticOf } from "../../src/sky/galactic.ts";
import { localClock } from "../../src/sky/localClock.ts";
import { apply, dot } from "../../src/sky/matrix.ts";
import { nearestDarkMoments } from "../../src/sky/nightsDark.ts";
import { sunAltitudeAt } from "../../src/sky/nightsSun.ts";
import { wallRuns, wallShadows } from "../../src/sky/nightsWall.ts";
import { NEAR_ZENITH_DEG, zenithSky } from "../../src/sky/nightsZenith.ts";
import { observerAt } from "../../src/sky/observer.ts";
import { testSky } from "./testSky.ts";

const RAD = Math.PI / 180;
const j2000 = (raDeg: number, decDeg: number) => {
  const [x, y, z] = directionOf(decDeg, raDeg); // east, north, up of an azimuth: y toward its origin
  return [y, x, z] as const;
};

describe("the Milky Way", () => {
  it("lies where the IAU's system has it", () => {
    // Source: ERFA's test program, icrs2g: (5.9338074302227188, -1.1784870613579945) rad to (320, -45) degrees.
    const test = galacticOf(j2000(5.933807430222719 / RAD, -1.1784870613579945 / RAD));
    expect(test.longitudeDeg).toBeCloseTo(320, 8);
    expect(test.latitudeDeg).toBeCloseTo(-45, 8);
    // Source: ESA SP-1200, vol. 1, 1.5.3: the celestial pole at galactic longitude 122.93192, latitude 27.12825.
    const pole = galacticOf([0, 0, 1]);
    expect(pole.longitudeDeg).toBeCloseTo(122.93192, 8);
    expect(pole.latitudeDeg).toBeCloseTo(27.12825, 8);
  });

  it.each([
    ["1998-07-12T01:15:00Z", -33.0458, -71.6197],
    ["2024-03-01T04:00:00Z", 51.5, 0],
    ["2015-10-01T20:00:00Z", -1.3, 36.8],
    ["2040-05-05T05:00:00Z", 69.6, 18.9],
  ])("is highest where a walk along its middle line finds it, %s", (utc, latitudeDeg, longitudeDeg) => {
    const observer = observerAt(Date.parse(utc), { latitudeDeg, longitudeDeg, elevationM: 0 });
    const { milkyWay } = zenithSky(observer, testSky());
    // Second method: the galactic equator is walked in steps of half a degree of right ascension.
    let best = { alt: -90, az: 0 };
    for (let ra = 0; ra < 360; ra += 0.5) {
      // Declination of the galactic equator at a right ascension: tan(dec) = -cos(ra - ra of the pole) / tan(dec of the pole).
      const dec = Math.atan(-Math.cos((ra - 192.85948) * RAD) / Math.tan(27.12825 * RAD)) / RAD;
      const [e, n, u] = apply(observer.icrsToEnu, j2000(ra, dec));
      const alt = altitudeDeg(e, n, u);
      if (alt > best.alt) best = { alt, az: azimuthDeg(e, n) };
    }
    expect(90 - best.alt).toBeCloseTo(Math.abs(milkyWay.galacticLatitudeDeg), 0);
    if (milkyWay.highestAzDeg !== null) {
      const off = Math.abs(((milkyWay.highestAzDeg - best.az + 540) % 360) - 180);
      expect(off * Math.cos(best.alt * RAD)).toBeLessThan(1);
    }
  });
});

describe("near the zenith", () => {
  it("Vega passes overhead at its own latitude, in Lyra, once a sidereal day", () => {
    // Handbook A4: Vega's declination is 38.78; by hand: 10 minutes of time are 2.5 degrees of hour angle, 2 of arc here.
    let nearest = { distance: 90, code: "" };
    for (let minute = 0; minute < 1440; minute += 10) {
      const observer = observerAt(Date.UTC(2024, 6, 1, 0, minute), {
        latitudeDeg: 38.8,
        longitudeDeg: 0,
        elevationM: 0,
      });
      const { stars, constellation } = zenithSky(observer, testSky());
      const vega = stars.find(({ name }) => name === "Vega");
      if (vega && vega.zenithDistanceDeg < nearest.distance)
        nearest = { distance: vega.zenithDistanceDeg, code: constellation.code };
    }
    expect(nearest.distance).toBeLessThan(1.01);
    expect(nearest.code).toBe("Lyr");
  });

  it("the stars named are the brightest there are within the circle", () => {
    const observer = observerAt(Date.parse("2024-12-21T23:00Z"), {
      latitudeDeg: 40.7,
      longitudeDeg: -74,
      elevationM: 0,
    });
    const { stars, raDeg, decDeg } = zenithSky(observer, testSky());
    expect(stars).toHaveLength(8);
    // Second method: J2000 places against the zenith's own; half a degree covers aberration and motion.
    const { catalogue } = testSky();
    const zenith = j2000(raDeg, decDeg);
    const p = testSky().stars.p;
    const inside: number[] = [];
    for (let row = 0; inside.length < 8; row++) {
      const cos = dot(zenith, [p[row * 3]!, p[row * 3 + 1]!, p[row * 3 + 2]!]);
      if (cos > Math.cos(NEAR_ZENITH_DEG * RAD)) inside.push(catalogue.hip[row]!);
    }
    expect(stars.map(({ hip }) => hip)).toEqual(inside);
  });
});

describe("the nearest dark moments", () => {
  it.each([
    ["1998-07-11T15:00", "America/Santiago", -33.0458, -71.6197],
    ["2024-11-02T12:00", "America/New_York", 40.7, -74],
    ["2015-06-21T23:00", "Europe/Oslo", 69.6492, 18.9553],
    ["2024-06-20T23:50", "Europe/London", 58, 0],
    ["2024-06-20T12:00", "UTC", 90, 0],
  ])("are dark, and a minute nearer it is not: %s in %s", (text, zone, latitudeDeg, longitudeDeg) => {
    const moment = resolveMoment(text, zone);
    const clock = localClock(zone, moment);
    const place = { latitudeDeg, longitudeDeg, elevationM: 0 };
    const found = nearestDarkMoments(moment.instantUtcMs, place, clock)!;
    const altitude = sunAltitudeAt(place);
    for (const [ms, way] of [
      [found.beforeMs!, 1],
      [found.afterMs!, -1],
    ] as const) {
      expect(resolveMoment(clock.momentText(ms), zone).instantUtcMs).toBe(ms);
      expect(altitude(ms)).toBeLessThan(-12);
      expect(altitude(ms + way * 61_000)).toBeGreaterThanOrEqual(-12);
      // Nothing dark between: the Sun is looked at every half hour.
      for (
        let t = ms + way * 1_800_000;
        way > 0 ? t < moment.instantUtcMs : t > moment.instantUtcMs;
        t += way * 1_800_000
      )
        expect(altitude(t)).toBeGreaterThanOrEqual(-12);
    }
  });

  it("are not asked for where the moment is dark itself", () => {
    const moment = resolveMoment("1998-07-11T21:15", "America/Santiago");
    const place = { latitudeDeg: -33, longitudeDeg: -71.6, elevationM: 0 };
    expect(darknessOf(sunAltitudeAt(place)(moment.instantUtcMs))).toBe("night");
    expect(nearestDarkMoments(moment.instantUtcMs, place, localClock("America/Santiago", moment))).toBeNull();
  });
});

describe("a plumb line's shadow along a wall", () => {
  interface ShadowCase {
    readonly latitudeDeg: number;
    readonly longitudeDeg: number;
    readonly elevationM: number;
    readonly timeZone: string;
    readonly moment: string;
    readonly wallBearingDeg: number;
    readonly shadows: readonly { utc: string; sunAzimuthDeg: number; sunAltitudeDeg: number }[];
  }
  const { cases } = JSON.parse(
    readFileSync(new URL("../reference/night-events.json", import.meta.url), "utf8"),
  ) as { cases: ShadowCase[] };

  // Oracle: astropy's azimuth of the Sun. Measured when written: 0.7 s at the most. Tolerance: 2 s of clock.
  it.each(cases)("runs along $wallBearingDeg degrees when astropy's Sun does: $timeZone, $moment", (one) => {
    const moment = resolveMoment(one.moment, one.timeZone);
    const clock = localClock(one.timeZone, moment);
    const date = clock.wall(moment.instantUtcMs).toPlainDate();
    const shadows = wallShadows(
      "left", // runs along the top bearing itself
      one.wallBearingDeg,
      clock.startOfDay(date),
      clock.startOfDay(date.add({ days: 1 })),
      { latitudeDeg: one.latitudeDeg, longitudeDeg: one.longitudeDeg, elevationM: one.elevationM },
    );
    expect(shadows).toHaveLength(one.shadows.length);
    for (const [i, { utc, sunAzimuthDeg, sunAltitudeDeg }] of one.shadows.entries()) {
      expect(Math.abs(shadows[i]!.instantUtcMs - Date.parse(utc)) / 1000).toBeLessThan(2);
      expect(Math.abs(((shadows[i]!.sunAzDeg - sunAzimuthDeg + 540) % 360) - 180)).toBeLessThan(0.02);
      expect(shadows[i]!.sunAltDeg).toBeCloseTo(sunAltitudeDeg, 1);
    }
  });

  const greenwich = { latitudeDeg: 51.4779, longitudeDeg: 0, elevationM: 0 };
  const day = Date.parse("2024-02-11T00:00:00Z");

  it("points north at noon in the north: from the bottom wall to the top wall when the top is north", () => {
    // Source: equation of time -14 min 14 s near February 11 (HM Nautical Almanac Office; from memory): noon at 12:14.
    const [noon, ...others] = wallShadows("left", 0, day, day + 86_400_000, greenwich);
    expect(others).toEqual([]);
    expect(noon).toMatchObject({ from: "bottom", to: "top" });
    expect(((noon!.shadowAzDeg + 180) % 360) - 180).toBeCloseTo(0, 2);
    expect(Math.abs(noon!.instantUtcMs - Date.parse("2024-02-11T12:14:14Z")) / 1000).toBeLessThan(5);
    // By hand: altitude 90 - 51.48 - 14.1; the length of a shadow is the cotangent.
    expect(noon!.lengthPerMetreM).toBeCloseTo(1 / Math.tan(noon!.sunAltDeg * RAD), 6);
    expect(noon!.turnsDegPerMinute).toBeGreaterThan(0);
  });

  it("seen from below with the top to the north, the left is east: in the morning it points from left to right", () => {
    // The ceiling frame: north up, east LEFT. The morning Sun in the east throws the shadow west: to the right wall.
    expect(wallRuns("top", 0)).toEqual({ bearingDeg: 270, from: "left", to: "right" });
    const june = Date.parse("2024-06-20T00:00:00Z");
    const shadows = wallShadows("top", 0, june, june + 86_400_000, greenwich);
    expect(shadows.map(({ from, to }) => `${from} to ${to}`)).toEqual(["left to right", "right to left"]);
    expect(shadows[0]!.sunAzDeg).toBeCloseTo(90, 2);
    expect(shadows[0]!.shadowAzDeg).toBeCloseTo(270, 2);
    expect(wallShadows("bottom", 0, june, june + 86_400_000, greenwich)).toEqual(shadows);
  });

  it("turns the other way round in the south", () => {
    const [noon] = wallShadows("left", 0, day, day + 86_400_000, { ...greenwich, latitudeDeg: -51.4779 });
    expect(noon).toMatchObject({ from: "top", to: "bottom" });
    expect(noon!.turnsDegPerMinute).toBeLessThan(0);
  });
});
