import { describe, expect, it } from "vitest";
import { checkReport } from "../../src/outputs/checkReport.ts";
import { makeSchedule } from "../../src/schedule/makeSchedule.ts";
import type { Schedule } from "../../src/schedule/types.ts";
import { planWith } from "../plan/testPlan.ts";
import { testSky } from "../sky/testSky.ts";

const VIEWS = {
  wide: { kind: "chart", span: 175 },
  southern: { kind: "chart", span: 60, aim: { altitude: 25, azimuth: 180 } },
};
const made = (view: keyof typeof VIEWS, extinction: number) =>
  makeSchedule(planWith({ view: VIEWS[view], show: { extinction } }), testSky());

/** Names and numbers of all that give light to a hole: stars, those merged with them, planets. */
const lit = ({ holes }: Schedule) =>
  new Set(
    holes.flatMap(({ hip, name, merged }) => [hip === null ? name : String(hip), ...merged.map(String)]),
  );

describe("what extinction changes", () => {
  it.each(["wide", "southern"] as const)("is the difference of two schedules (%s)", (view) => {
    const [clear, dimmed] = [made(view, 0), made(view, 0.28)];
    const [without, with_] = [lit(clear), lit(dimmed)];
    const record = dimmed.fidelity.extinction!;
    expect(record.lost).toBe([...without].filter((one) => !with_.has(one)).length);
    expect(record.gained).toBe([...with_].filter((one) => !without.has(one)).length);
    expect(record.lost).toBeGreaterThan(0);
    expect(record.limitingMagWithout).toBe(clear.fidelity.limitingMag);
    expect(record.magPerAirMass).toBe(0.28);
  });

  it("at the lowest hole is the air mass of another formula, times the magnitudes per air mass", () => {
    // Oracle: Pickering, DIO 12 (2002), a formula of its own (from memory): 1 / sin(h + 244 / (165 + 47 h^1.1)), h in degrees; within
    // 1 % of Kasten and Young's from 4 degrees up.
    for (const [view, extinction] of [
      ["wide", 0.28],
      ["southern", 0.4],
    ] as const) {
      const { fidelity, holes } = made(view, extinction);
      const { altDeg, dimmedMag } = fidelity.extinction!.lowest!;
      expect(altDeg).toBe(Math.min(...holes.map((hole) => hole.altDeg)));
      expect(altDeg).toBeGreaterThan(4);
      const airMass = 1 / Math.sin(((altDeg + 244 / (165 + 47 * altDeg ** 1.1)) * Math.PI) / 180);
      expect(Math.abs(dimmedMag / (extinction * airMass) - 1)).toBeLessThan(0.015);
    }
  });

  it("is told by check, and is neither told nor worked out without it", () => {
    const dimmed = made("wide", 0.28);
    const { lost, gained, lowest, limitingMagWithout } = dimmed.fidelity.extinction!;
    expect(checkReport(dimmed, null)).toContain(
      `Extinction  0.28 magnitudes per air mass: ${lost} objects lost their light, ${gained} others gained it; the lowest hole, at ${lowest!.altDeg.toFixed(1)} degrees, is dimmed by ${lowest!.dimmedMag.toFixed(2)} magnitudes; the limit, dimmed like all magnitudes here, would be ${limitingMagWithout!.toFixed(2)} without`,
    );
    const clear = made("wide", 0);
    expect(clear.fidelity.extinction).toBeNull();
    expect(checkReport(clear, null)).not.toContain("xtinction");
  });

  it("changes no object where there are strands for all", () => {
    // Four degrees of sky hold fewer objects than the 200 strands: whatever dims them, all have light.
    const few = makeSchedule(
      planWith({ view: { kind: "chart", span: 4 }, show: { extinction: 0.28 } }),
      testSky(),
    );
    expect(few.holes.length).toBeLessThan(150);
    expect(few.fidelity.extinction).toMatchObject({ lost: 0, gained: 0 });
    expect(checkReport(few, null)).toContain("the same objects have light as without");
  });
});
