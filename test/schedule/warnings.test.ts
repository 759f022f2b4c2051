import { describe, expect, it } from "vitest";
import { makeSchedule } from "../../src/schedule/makeSchedule.ts";
import { planWith } from "../plan/testPlan.ts";
import { testSky } from "../sky/testSky.ts";

const warningsOf = (changes: Record<string, unknown>) =>
  makeSchedule(planWith(changes), testSky()).warnings.join("\n");
const porto = (more: Record<string, unknown> = {}) => ({ latitude: 41.15, longitude: -8.61, ...more });

describe("a builder is warned", () => {
  it("of a longitude whose sign cannot be meant, and of no place that has such clocks", () => {
    const at = (longitude: number, timeZone: string) =>
      warningsOf({ moment: "2004-02-28T22:00", place: { latitude: -42.88, longitude, timeZone } });
    expect(at(-147.33, "Australia/Hobart")).toContain("check the sign of the longitude");
    expect(at(147.33, "Australia/Hobart")).not.toContain("longitude");
    // Clocks far from the Sun that are real: Kashgar, Kiritimati, Attu (IANA zones; longitudes from memory).
    expect(at(75.99, "Asia/Shanghai")).not.toContain("longitude");
    expect(at(-157.4, "Pacific/Kiritimati")).not.toContain("longitude");
    expect(at(173.2, "America/Adak")).not.toContain("longitude");
  });

  it("of a ceiling that a part of stays empty, unless what the Earth hides is shown", () => {
    // An aim at 20 degrees of altitude on a chart 100 degrees wide: what lies more than 20 degrees below it is under the horizon.
    const low = { kind: "chart", span: 100, aim: { altitude: 20, azimuth: 180 } };
    expect(warningsOf({ view: low })).toMatch(
      /about \d+ % of the ceiling stays empty: it lies below the horizon/,
    );
    expect(warningsOf({ view: low, show: { belowHorizon: true } })).not.toContain("stays empty");
    expect(warningsOf({})).not.toContain("stays empty");
  });

  it("of the corners beyond an orthographic chart's rim: 1 - pi/4 of a square", () => {
    const corners = warningsOf({
      ceiling: { width: 2000, length: 2000 },
      view: { kind: "chart", projection: "orthographic", span: 180 },
    });
    expect(
      Number(/about (\d+) % of the ceiling stays empty: it lies beyond the rim/.exec(corners)![1]),
    ).toBeCloseTo(100 * (1 - Math.PI / 4), -0.5);
  });

  it("of a top bearing that has no effect", () => {
    expect(
      warningsOf({ view: { kind: "chart", span: 60, topBearing: 20, aim: { altitude: 50, azimuth: 180 } } }),
    ).toContain("topBearing has no effect");
    expect(warningsOf({ view: { kind: "chart", span: 60, topBearing: 20 } })).not.toContain("topBearing");
  });

  it("of a bit that the widest fibre will not pass: 6 % over, 0.025 mm under", () => {
    // Oracle: makers' fibre tolerance of 6 % and 0.025 mm of drill (AND10387): smallest safe drill for 0.5 mm is 0.56 mm.
    const bit = (mm: number) =>
      warningsOf({
        fibre: { sizes: [{ diameter: 0.5, bit: mm }], bundles: { count: 1, strands: { "0.5mm": 50 } } },
        place: porto(),
      });
    expect(bit(0.55)).toContain("too tight");
    expect(bit(0.56)).not.toContain("too tight");
  });
});
