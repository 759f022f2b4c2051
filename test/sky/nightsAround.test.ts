import { describe, expect, it } from "vitest";
import { planSky } from "../../src/schedule/makeSchedule.ts";
import { planNights } from "../../src/schedule/nights.ts";
import { listStars } from "../../src/schedule/stars.ts";
import { planWith } from "../plan/testPlan.ts";
import { testSky } from "./testSky.ts";

/** The bookshop's place, with a chart wide enough for planets. */
const PLACE = { latitude: -33.0458, longitude: -71.6197, timeZone: "America/Santiago" };
const plan = (changes: Record<string, unknown> = {}) =>
  planWith({ moment: "1998-07-11T21:15", place: PLACE, view: { kind: "chart", span: 160 }, ...changes });
const hour = (civil: string) => civil.slice(11, 16);

describe("nearby nights", () => {
  const { around } = planNights(plan(), testSky(), { aroundDays: 60 });
  const { nights } = around!;

  it("are all of them, each once, at the same time of the clock, the best first", () => {
    expect(nights).toHaveLength(121);
    expect(new Set(nights.map(({ days }) => days)).size).toBe(121);
    expect(nights.map(({ rank }) => rank)).toEqual(nights.map((_, i) => i + 1));
    for (const night of nights) expect(hour(night.civil)).toBe("21:15");
    for (const [i, night] of nights.slice(1).entries())
      expect(night.points).toBeLessThanOrEqual(nights[i]!.points);
    expect(nights.find(({ days }) => days === 0)!.utc).toBe("1998-07-12T01:15:00Z");
  });

  it("the Moon is down or up as its rising and setting say", () => {
    for (const night of nights.filter(({ days }) => days % 9 === 0)) {
      const { moon, moment } = planNights(plan({ moment: night.moment }), testSky());
      const passes = [
        ...moon.rises.map(({ utc }) => ({ utc, up: true })),
        ...moon.sets.map(({ utc }) => ({ utc, up: false })),
      ].sort((a, b) => a.utc.localeCompare(b.utc));
      const last = passes.findLast(({ utc }) => utc <= moment.utc);
      const up = last?.up ?? (passes[0] ? !passes[0].up : moon.up);
      expect(night.moonUp, night.moment).toBe(up);
      expect(night.reasons.join()).toContain(up ? "Moon" : "the Moon down");
    }
  });

  it("a planet is in the field just when the field of that night's plan holds it", () => {
    for (const night of nights.filter(({ days }) => days % 12 === 0)) {
      const moved = plan({ moment: night.moment });
      const stars = listStars(planSky(moved, testSky()).field, testSky(), 3);
      const planets = stars
        .filter(({ hip, name }) => hip === null && name !== "Moon")
        .map(({ name }) => name);
      expect([...night.planetsInField].sort(), night.moment).toEqual(planets.sort());
    }
    // Something must be found for this to mean anything: Jupiter rose earlier every evening of that winter.
    expect(nights.some(({ planetsInField }) => planetsInField.includes("Jupiter"))).toBe(true);
  });

  it("no night in daylight ranks before a dark one, and a day's clock time has none", () => {
    const summer = planNights(plan({ moment: "1998-11-20T21:15" }), testSky(), { aroundDays: 60 }).around!;
    const firstLight = summer.nights.findIndex(({ dark }) => !dark);
    expect(firstLight).toBeGreaterThan(0);
    expect(summer.nights.slice(firstLight).every(({ dark }) => !dark)).toBe(true);
    const noon = planNights(plan({ moment: "1998-07-11T12:30" }), testSky(), { aroundDays: 3 }).around!;
    expect(noon.nights.every(({ dark }) => !dark)).toBe(true);
  });

  it("leaves out a time that clocks skipped, and what lies beyond the years of plans", () => {
    const place = { latitude: 40.7, longitude: -74, timeZone: "America/New_York" };
    const gap = planNights(plan({ moment: "2024-03-09T02:30", place }), testSky(), { aroundDays: 1 }).around!;
    expect(gap.leftOut).toEqual([{ date: "2024-03-10", why: "the clock skipped this time of day" }]);
    expect(gap.nights).toHaveLength(2);
    const last = planNights(plan({ moment: "2150-12-31T22:00" }), testSky(), { aroundDays: 2 }).around!;
    expect(last.leftOut.map(({ date }) => date)).toEqual(["2151-01-01", "2151-01-02"]);
  });
});

describe("the night as data", () => {
  it("a moment in the evening and one after midnight tell of the same night", () => {
    const events = ({ sun, night, moon }: ReturnType<typeof planNights>) => ({
      night,
      sun,
      moon: { rises: moon.rises, sets: moon.sets },
    });
    const evening = planNights(plan({ moment: "1998-07-11T21:15" }), testSky());
    const morning = planNights(plan({ moment: "1998-07-12T05:00" }), testSky());
    expect(events(morning)).toEqual(events(evening));
  });

  it("names the walls, their bearing and the day of a shadow", () => {
    const walls = { top: "window wall", right: "stair wall" };
    const { wall } = planNights(plan({ walls, view: { kind: "chart", topBearing: 20 } }), testSky(), {
      wall: "right",
      wallDate: "2024-12-20",
    });
    expect(wall).toMatchObject({ date: "2024-12-20", bearingDeg: 20, from: "bottom", to: "top" });
    // By hand: near the southern solstice the Sun at Valparaíso (33 south, declination -23.4) passes north of the zenith at noon,
    // and in line with a wall along 20/200 degrees while it is north-north-east: the shadow falls to the south-south-west.
    const north = wall!.shadows.find(({ sunAzDeg }) => sunAzDeg < 90)!;
    expect(north.words).toBe(
      "points from the top wall (window wall) toward the bottom wall, true bearing 200.0",
    );
    expect(north.civil.slice(0, 10)).toBe("2024-12-20");
  });

  it("refuses a date that is none, or without a wall", () => {
    const ask = (wallDate: string) => planNights(plan(), testSky(), { wall: "top", wallDate });
    expect(() => ask("2023-02-29")).toThrow("not in the calendar");
    expect(() => ask("20/6/2024")).toThrow("write it as 2024-06-20");
    expect(() => ask("1800-01-01")).toThrow("from 1850 to 2150");
    expect(() => planNights(plan(), testSky(), { wallDate: "2024-06-20" })).toThrow("--wall top");
  });
});
