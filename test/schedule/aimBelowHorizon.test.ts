import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/plan/errors.ts";
import { makeSchedule, planSky } from "../../src/schedule/makeSchedule.ts";
import { planNights } from "../../src/schedule/nights.ts";
import { planWith } from "../plan/testPlan.ts";
import { testSky } from "../sky/testSky.ts";

interface NextHighRow {
  readonly what: string;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  readonly fromUtc: string;
  readonly rightAscension: number;
  readonly declination: number;
  readonly belowDeg: number;
  readonly highestDeg: number;
  readonly utc: string | null;
  readonly inLightUtc: string | null;
}

const { rows } = JSON.parse(
  readFileSync(new URL("../reference/next-high.json", import.meta.url), "utf8"),
) as { rows: NextHighRow[] };

const aimed = (aim: unknown, changes: Record<string, unknown> = {}) =>
  planWith({
    moment: "2004-02-29T21:00",
    place: { latitude: 41.15, longitude: -8.61, timeZone: "Europe/Lisbon" },
    view: { kind: "chart", span: 100, aim },
    ...changes,
  });

function refusal(plan: ReturnType<typeof planWith>): InputError {
  try {
    planSky(plan, testSky());
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  throw new Error("nothing was refused");
}

describe("an aim below the horizon", () => {
  // Oracle: astropy, minute by minute (test/reference/next-high.json). A target may reach its height on either side of a minute.
  it.each(rows)("is refused with the next time that it stands high: $what", (row) => {
    const started = performance.now();
    const { rightAscension, declination } = row;
    const plan = aimed(
      { rightAscension, declination },
      {
        moment: row.fromUtc,
        place: { latitude: row.latitudeDeg, longitude: row.longitudeDeg },
      },
    );
    const { message, key } = refusal(plan);
    expect(performance.now() - started).toBeLessThan(5000); // a year of nights, without thinking for long
    expect(key).toBe("view.aim");
    const below = Number(/stands (\d+\.\d) degrees below the horizon at this moment/.exec(message)![1]);
    expect(Math.abs(below - row.belowDeg)).toBeLessThan(0.06);
    const wanted = row.utc ?? row.inLightUtc;
    if (wanted === null) {
      expect(message).toContain(`never rises at latitude ${row.latitudeDeg}`);
      expect(message).not.toContain("moment:");
      return;
    }
    const moment = /write `moment: ([^`]+)`/.exec(message)![1]!;
    expect(Math.abs(Date.parse(moment) - Date.parse(wanted)), `${moment} for ${wanted}`).toBeLessThanOrEqual(
      60_000,
    );
    expect(message.includes("in the dark at")).toBe(row.utc !== null);
    expect(message.includes("but in daylight or twilight, as all year,")).toBe(row.utc === null);
    if (row.highestDeg < 35) expect(message).toContain(`(${row.highestDeg.toFixed(0)} at its best)`);
    // What it offers is taken, and the aim is up.
    expect(planSky({ ...plan, moment }, testSky()).field.count).toBeGreaterThan(0);
  });

  it("is told by its name, at the local time of the clock", () => {
    // Vega is the first row's target: 03:09 UTC, which is 03:09 in Lisbon's winter.
    expect(refusal(aimed({ star: "Vega" })).message).toMatch(
      /^view\.aim: Vega stands 9\.9 degrees below the horizon at this moment; it next stands 30 degrees high in the dark at 2004-03-01 03:(08|09|10): write `moment: 2004-03-01T03:\d\d`, or show\.belowHorizon: true/,
    );
    expect(refusal(aimed({ star: 91262 })).message).toContain("HIP 91262 stands 9.9 degrees");
    expect(refusal(aimed({ constellation: "Cru" })).message).toContain("the middle of Cru stands");
    // By hand: Lisbon's clocks are an hour ahead of UTC in June (IANA); the second row's 03:41 UTC is 04:41 there.
    const fomalhaut = refusal(aimed({ rightAscension: 22.9608, declination: -29.6222 })).message;
    expect(fomalhaut).toMatch(/`moment: 2004-06-20T04:4[012]`/);
  });

  it("given as an altitude lies there at any moment", () => {
    expect(refusal(aimed({ altitude: -5, azimuth: 3 })).message).toContain(
      "view.aim: altitude -5 lies below the horizon at any moment; write one from 0 to 90",
    );
    expect(() => planSky(aimed({ altitude: 0, azimuth: 3 }), testSky())).not.toThrow();
  });

  it("ends with the years of plans", () => {
    const late = refusal(aimed({ star: "Fomalhaut" }, { moment: "2150-12-31T22:00" })).message;
    expect(late).toContain("stands high no more before the year 2151");
  });

  it("is built when the plan shows what the Earth hides, without a warning of it", () => {
    const shown = makeSchedule(aimed({ star: "Vega" }, { show: { belowHorizon: true } }), testSky());
    expect(shown.holes.length).toBeGreaterThan(100);
    expect(shown.warnings.join()).not.toMatch(/aim stands|stays empty/);
    expect(() =>
      planSky(aimed({ altitude: -5, azimuth: 3 }, { show: { belowHorizon: true } }), testSky()),
    ).not.toThrow();
  });

  it("does not keep the nights from being told", () => {
    const nights = planNights(aimed({ star: "Vega" }), testSky(), { aroundDays: 2, wall: "right" });
    expect(nights.around!.nights).toHaveLength(5);
    expect(nights.moment.darkness).toBe("night");
  });
});
