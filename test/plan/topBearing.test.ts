import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { planYaml } from "../../src/outputs/planYaml.ts";
import { planJsonSchema } from "../../src/plan/jsonSchema.ts";
import type { Plan } from "../../src/plan/plan.ts";
import { readPlan } from "../../src/plan/read.ts";
import { wallLine } from "../../src/plan/wallLine.ts";
import { makeSchedule } from "../../src/schedule/makeSchedule.ts";
import { dmsDeg } from "../reference/published.ts";
import { testSky } from "../sky/testSky.ts";
import { BASE_PLAN, planWith } from "./testPlan.ts";

const bearing = (topBearing: unknown, more: Record<string, unknown> = {}): Plan =>
  planWith({ view: { ...BASE_PLAN.view, topBearing, ...more } });
/** A wall in Porto of 24 m, by coordinates of six decimals; GeographicLib 2.0 (Python): azimuth 24.753308 there, 204.753388 back, 24.459 m. */
const WALL = { from: [41.150123, -8.610345], to: [41.150323, -8.610223] };

describe("a line between two points of a map", () => {
  it("has GeographicLib's azimuth and length", () => {
    const { rows } = JSON.parse(
      readFileSync(new URL("../reference/wall-bearings.json", import.meta.url), "utf8"),
    ) as {
      rows: { from: [number, number]; to: [number, number]; bearingDeg: number; lengthM: number }[];
    };
    expect(rows).toHaveLength(24);
    for (const { from, to, bearingDeg, lengthM } of rows) {
      const line = wallLine(from, to);
      // The file is written to 1e-7 degrees and 0.1 mm; the chord of 5 km is 0.1 mm shorter than the arc.
      expect(Math.abs(line.bearingDeg - bearingDeg), `${from} to ${to}`).toBeLessThan(3e-7);
      expect(Math.abs(line.lengthM - lengthM)).toBeLessThan(3e-4);
    }
  });

  it("runs from Flinders Peak to Buninyong and back as the surveyors say", () => {
    // Oracle: the worked example of the Geocentric Datum of Australia Technical Manual (ICSM): points, azimuths 306 52 05.37
    // and 127 10 25.07, 54972.271 m. From memory; GeographicLib gives the same on GRS 80, which WGS 84 matches to 0.1 mm.
    const flinders = [-dmsDeg("+", 37, 57, 3.7203), dmsDeg("+", 144, 25, 29.5244)] as const;
    const buninyong = [-dmsDeg("+", 37, 39, 10.1561), dmsDeg("+", 143, 55, 35.3839)] as const;
    const there = wallLine(flinders, buninyong);
    const back = wallLine(buninyong, flinders);
    // Last digit 0.01 arcsec; over 55 km the geodesic leaves the normal section by 0.005 arcsec.
    expect(Math.abs(there.bearingDeg - dmsDeg("+", 306, 52, 5.37)) * 3600).toBeLessThan(0.015);
    expect(Math.abs(back.bearingDeg - dmsDeg("+", 127, 10, 25.07)) * 3600).toBeLessThan(0.015);
    expect(Math.abs(there.lengthM - 54_972.271)).toBeLessThan(0.2); // chord and arc differ by s^3 / 24 R^2
  });

  it("is as sure as the decimals of its ends allow", () => {
    // By hand: a wall that runs north, 20 m at the equator. Half a unit of the fifth decimal is 0.5566 m (a = 6378137 m), east or
    // west at both ends against each other: atan(1.1132 / 20) = 3.186 degrees; with six decimals 0.3189.
    const end = 20 / 110_574.3; // metres a degree of latitude there (a (1 - e^2))
    expect(wallLine([0, 0.00001], [Number(end.toFixed(5)), 0.00001])).toMatchObject({ decimals: 5 });
    expect(wallLine([0, 0.00001], [0.00018, 0.00001]).uncertaintyDeg).toBeCloseTo(
      (Math.atan(1.11319 / (0.00018 * 110_574.3)) * 180) / Math.PI,
      3,
    );
    expect(wallLine([0, 0.000001], [0.00018, 0.000001]).uncertaintyDeg).toBeCloseTo(
      (Math.atan(0.111319 / (0.00018 * 110_574.3)) * 180) / Math.PI,
      3,
    );
    expect(wallLine([1e-7, 0], [0.001, 0]).decimals).toBe(7);
    expect(wallLine([41, -8], [42, -8]).decimals).toBe(0);
  });
});

describe("the top bearing", () => {
  it("is the compass's plus the declination, east positive, from 0 to 360", () => {
    expect(bearing({ magnetic: 25, declination: 2.5 }).view.topBearing).toBe(27.5);
    expect(bearing({ magnetic: 1, declination: -3.2 }).view.topBearing).toBe(357.8);
    expect(bearing({ magnetic: 355, declination: 12 }).view.topBearing).toBe(7);
    expect(bearing({ magnetic: 0.1, declination: 0.2 }).view.topBearing).toBe(0.3);
  });

  it("is that of a side wall from its bottom end to its top end", () => {
    expect(bearing(WALL).view.topBearing).toBeCloseTo(24.753308, 5);
    expect(bearing({ from: WALL.to, to: WALL.from }).view.topBearing).toBeCloseTo(204.753388, 5);
  });

  it("given in any form makes the same ceiling", () => {
    const holes = (topBearing: unknown) => makeSchedule(bearing(topBearing), testSky()).holes;
    expect(holes({ magnetic: 20, declination: 4 })).toEqual(holes(24));
    expect(holes(WALL)).toEqual(holes(bearing(WALL).view.topBearing));
  });

  it("is replayed to the byte from the plan written out, with what it was made from", () => {
    for (const given of [{ magnetic: 25, declination: -2.53 }, WALL]) {
      for (const view of [BASE_PLAN.view, { kind: "eye", eye: { below: 1350 } }]) {
        const plan = planWith({ view: { ...view, topBearing: given } });
        expect(plan.view.topBearingFrom).toEqual(given);
        expect(typeof plan.view.topBearing).toBe("number");
        const again = readPlan(planYaml(plan), "again");
        expect(again).toEqual(plan);
        expect(planYaml(again)).toBe(planYaml(plan));
        expect(readPlan(JSON.stringify(plan), "again")).toEqual(plan);
      }
    }
    expect(bearing(20).view).not.toHaveProperty("topBearingFrom");
  });

  it("of a plan whose number was changed after, but not its origin, is refused", () => {
    expect(() => bearing(30, { topBearingFrom: { magnetic: 25, declination: 2.5 } })).toThrow(
      "view.topBearingFrom: gives 27.5 degrees where view.topBearing is 30",
    );
    expect(() => bearing(WALL, { topBearingFrom: WALL })).toThrow("view.topBearingFrom: leave it out");
    expect(() => bearing(27.5, { topBearingFrom: { magnetic: 25, declination: 2.5 } })).not.toThrow();
  });

  it.each([
    ["400 degrees", 400, "view.topBearing: 400 is out of range; write the true azimuth"],
    ["a word", "north", "two points of a map along a side wall, from its bottom end to its top end"],
    ["a list", [41, -8], "view.topBearing: a list does not fit; write the true azimuth"],
    [
      "no declination",
      { magnetic: 25 },
      "view.topBearing.declination: missing; write degrees from -180 to 180",
    ],
    [
      "no declination (where to get it)",
      { magnetic: 25 },
      "the national geomagnetic service's model gives it",
    ],
    [
      "a declination of no place",
      { magnetic: 25, declination: 200 },
      "view.topBearing.declination: 200 is out of",
    ],
    [
      "a compass past its circle",
      { magnetic: 361, declination: 2 },
      "view.topBearing.magnetic: 361 is out of range",
    ],
    ["one end alone", { from: WALL.from }, "view.topBearing.to: missing; write [latitude, longitude]"],
    [
      "half a point",
      { from: [41.15], to: WALL.to },
      "view.topBearing.from: a list of 1 is too short; write [latitude",
    ],
    ["a point off the Earth", { from: [91, 0], to: WALL.to }, "view.topBearing.from[0]: 91 is out of range"],
    [
      "a longitude to 360",
      { from: [41, 351.4], to: WALL.to },
      "view.topBearing.from[1]: 351.4 is out of range",
    ],
    [
      "a step",
      { from: WALL.from, to: [41.150123, -8.610333] },
      "1.01 m apart; over less than 2 m a map gives no",
    ],
    ["one point twice", { from: WALL.from, to: WALL.from }, "0.00 m apart"],
    ["a slip of a digit", { from: WALL.from, to: [41.250323, -8.610223] }, "are 11.1 km apart; no wall is"],
    [
      "longitude first",
      { from: [-8.610345, 41.150123], to: [-8.610223, 41.150323] },
      "longitude and latitude seem to have changed places",
    ],
    [
      "another town's wall",
      { from: [38.7, -9.1], to: [38.7001, -9.1] },
      "lies 275 km from the place; check both",
    ],
  ])("as %s is one clear sentence", (_, topBearing, sentence) => {
    expect(() => bearing(topBearing)).toThrow(sentence);
    try {
      bearing(topBearing);
    } catch (error) {
      expect((error as { problems: string[] }).problems).toHaveLength(1);
    }
  });

  it("of a place found by name is measured from where it was found", () => {
    const text = (from: number[], to: number[]) =>
      JSON.stringify({
        ...BASE_PLAN,
        place: { name: "Porto" },
        view: { ...BASE_PLAN.view, topBearing: { from, to } },
      });
    const lookUp = () => ({
      name: "Porto",
      country: "PT",
      latitudeDeg: 41.15,
      longitudeDeg: -8.61,
      timeZone: "Europe/Lisbon",
    });
    expect(() => readPlan(text([38.7, -9.1], [38.7001, -9.1]), "test.json", lookUp)).toThrow(
      "lies 275 km from the place",
    );
    expect(readPlan(text(WALL.from, WALL.to), "test.json", lookUp).view.topBearing).toBeCloseTo(24.753308, 5);
  });

  it("is one of three forms in the JSON Schema", () => {
    const schema = JSON.parse(JSON.stringify(planJsonSchema())) as {
      properties: { view: { oneOf: { properties: Record<string, { anyOf: object[] }> }[] } };
    };
    for (const { properties } of schema.properties.view.oneOf) {
      expect(properties.topBearing!.anyOf).toMatchObject([
        { type: "number", minimum: -360, maximum: 360 },
        { required: ["magnetic", "declination"] },
        { required: ["from", "to"] },
      ]);
    }
  });
});

describe("a builder is told of the bearing", () => {
  const warnings = (topBearing: unknown) =>
    makeSchedule(bearing(topBearing), testSky()).warnings.filter((one) => one.includes("view.topBearing"));

  it("when the map's decimals leave it open", () => {
    // By hand: 17.7 m, five decimals: half a unit is 0.557 m north, 0.419 m east at 41.15 degrees; across a wall at 28.3 degrees
    // 2 (0.557 sin 28.3 + 0.419 cos 28.3) = 1.27 m, so 4.1 degrees.
    const coarse = { from: [41.15001, -8.61011], to: [41.15015, -8.61001] };
    expect(warnings(coarse).join()).toContain(
      "over 17.7 m, half a unit of the last of 5 decimals leaves the bearing open by up to 4.1 degrees",
    );
    expect(warnings(WALL)).toEqual([]);
  });

  it("when the declination is that of no inhabited place", () => {
    expect(warnings({ magnetic: 2.5, declination: 125 }).join()).toContain("only near the magnetic poles");
    expect(warnings({ magnetic: 25, declination: -25 })).toEqual([]);
  });

  it("and the warnings of a plan written out are the same", () => {
    const coarse = bearing({ from: [41.15001, -8.61011], to: [41.15015, -8.61001] });
    const again = readPlan(planYaml(coarse), "again");
    expect(makeSchedule(again, testSky()).warnings).toEqual(makeSchedule(coarse, testSky()).warnings);
  });
});
