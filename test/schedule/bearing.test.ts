import { describe, expect, it } from "vitest";
import { checkReport } from "../../src/outputs/checkReport.ts";
import { inCeilingFrame } from "../../src/projection/frames.ts";
import { makeView } from "../../src/projection/view.ts";
import { makeSchedule } from "../../src/schedule/makeSchedule.ts";
import { BASE_PLAN, planWith } from "../plan/testPlan.ts";
import { testSky } from "../sky/testSky.ts";

const chart = (more: Record<string, unknown> = {}) => planWith({ view: { ...BASE_PLAN.view, ...more } });
const bearingOf = (plan: ReturnType<typeof planWith>) => makeSchedule(plan, testSky()).fidelity.bearing;
const wordsOf = (plan: ReturnType<typeof planWith>) => checkReport(makeSchedule(plan, testSky()), null);

describe("what an error of the bearing would do", () => {
  it("is the chord of 5 degrees at the farthest corner", () => {
    // By hand: 2400 x 1800 mm, half the diagonal 1500 mm: 2 x 1500 sin 2.5 = 130.86 mm.
    expect(bearingOf(chart())).toEqual({ topBearingDeg: 0, fiveDegreesMm: 130.86 });
    expect(bearingOf(chart({ topBearing: -20 }))).toEqual({ topBearingDeg: 340, fiveDegreesMm: 130.86 });
    // An eye under a corner's quarter: the corner across is hypot(1900, 1400) = 2360.08 mm off: 205.89 mm; on a reflected plan too.
    const eye = { view: { kind: "eye", eye: { below: 1350, x: 500, y: 400 } } };
    expect(bearingOf(planWith(eye))?.fiveDegreesMm).toBe(205.89);
    expect(bearingOf(planWith({ ...eye, drawnAs: "reflectedPlan" }))?.fiveDegreesMm).toBe(205.89);
  });

  it("is what the view itself does to the corner's star when the bearing is turned", () => {
    for (const changes of [
      { view: { kind: "eye", eye: { below: 1350, x: 500, y: 400 }, topBearing: 33 } },
      { view: { kind: "chart", projection: "equalArea", span: 150, topBearing: 200 } },
    ]) {
      const plan = inCeilingFrame(planWith(changes));
      const view = (topBearing: number) =>
        makeView({ ...plan.view, topBearing }, plan.ceiling, { enu: [0, 0, 1], northEnu: [0, 0, 1] });
      const corner = { xMm: 2400, yMm: 1800 };
      const star = view(plan.view.topBearing).unproject(corner)!;
      const moved = view(plan.view.topBearing + 5).projectOne(star)!;
      expect(Math.hypot(moved.xMm - corner.xMm, moved.yMm - corner.yMm)).toBeCloseTo(
        bearingOf(planWith(changes))!.fiveDegreesMm,
        2,
      );
    }
  });

  it("is told by check with the true bearing and what it was made from", () => {
    const words = wordsOf(chart({ topBearing: { magnetic: 25, declination: -2.5 } }));
    expect(words).toContain(
      "the top edge lies toward 22.5 degrees, TRUE (magnetic 25 and declination 2.5 west)",
    );
    expect(words).toContain("5 degrees of error would move stars by 131 mm at the farthest corner");
    expect(words).toContain("lacunar nights PLAN --wall right");
    const wall = { from: [41.150123, -8.610345], to: [41.150323, -8.610223] };
    // GeographicLib 2.0: 24.753308 degrees, 24.459 m. Six decimals: 2 (0.0557 sin + 0.0419 cos) = 0.1227 m over that, 0.29 degrees.
    expect(wordsOf(chart({ topBearing: wall }))).toContain(
      "toward 24.8 degrees, TRUE (from 41.150123, -8.610345 to 41.150323, -8.610223, 24.5 m; its decimals leave 0.29 degrees open)",
    );
    expect(wordsOf(chart({ topBearing: 20 }))).toContain("toward 20.0 degrees, TRUE\n");
  });

  it("is not told where the aim says which way the ceiling lies", () => {
    const aimed = chart({ aim: { altitude: 60, azimuth: 180 } });
    expect(bearingOf(aimed)).toBeNull();
    expect(wordsOf(aimed)).not.toContain("Bearing");
    const unused = chart({
      aim: { altitude: 60, azimuth: 180 },
      topBearing: { magnetic: 2, declination: -2 },
    });
    expect(makeSchedule(unused, testSky()).warnings.join()).toContain("topBearing has no effect");
  });
});
