import { describe, expect, it } from "vitest";
import { bought, freeReport, timberOf } from "../../src/outputs/freeReport.ts";
import type { Plan } from "../../src/plan/plan.ts";
import { type FreeMoment, freeMoments } from "../../src/schedule/freeMoments.ts";
import { makeSchedule, planSky } from "../../src/schedule/makeSchedule.ts";
import { listStars } from "../../src/schedule/stars.ts";
import { planWith } from "../plan/testPlan.ts";
import { testSky } from "../sky/testSky.ts";

/** A framed room under the southern winter sky. */
const FRAMED = {
  moment: "1998-07-11T21:15",
  place: { latitude: -33.0458, longitude: -71.6197, timeZone: "America/Santiago" },
  view: { kind: "eye", eye: { below: 1350 }, topBearing: 20 },
  ceiling: { width: 4200, length: 3000 },
  panels: { columns: 3, rows: 2 },
  frame: { batten: { width: 38, depth: 19 } },
  fibre: { bundles: { count: 2, strands: { "0.5mm": 80, "1mm": 12 } }, sharing: "ceiling" },
  holes: { spacing: 0 },
};
const at = (plan: Plan, moment: string) => makeSchedule({ ...plan, moment }, testSky());

describe("a moment that may slip", () => {
  const plan = planWith({ ...FRAMED, placement: { spread: false } });
  const free = freeMoments(plan, testSky(), 8);
  const own = free.moments.find(({ minutes }) => minutes === 0)!;

  it("is tried minute by minute both ways, each ready to paste", () => {
    expect(free.moments.map(({ minutes }) => minutes)).toEqual(Array.from({ length: 17 }, (_, i) => i - 8));
    expect(free.moments[0]!.moment).toBe("1998-07-11T21:07");
    expect(free.moments.at(-1)!.moment).toBe("1998-07-11T21:23");
    expect(own).toMatchObject({ moment: plan.moment, keeps: [], costs: [], leaves: [], comes: [] });
    expect(free.best.rmsMm).toBe(Math.min(...free.moments.map(({ rmsMm }) => rmsMm)));
  });

  it("is told as the schedules of both moments have it", () => {
    // A second way: whole schedules, no spreading, no spacing to speak of; names of stars by their holes.
    const before = new Map(at(plan, plan.moment).holes.map((hole) => [hole.name, hole]));
    let told = 0;
    for (const minutes of [-8, -3, 5, 8]) {
      const row = free.moments.find((one) => one.minutes === minutes)!;
      const after = new Map(at(plan, row.moment).holes.map((hole) => [hole.name, hole]));
      for (const name of row.keeps) {
        expect(before.get(name)?.shiftMm ?? Number.POSITIVE_INFINITY).toBeGreaterThan(3);
        expect(after.get(name)!.shiftMm).toBeLessThanOrEqual(3);
      }
      for (const name of row.costs) {
        expect(before.get(name)!.shiftMm).toBeLessThanOrEqual(3);
        expect(after.get(name)?.shiftMm ?? Number.POSITIVE_INFINITY).toBeGreaterThan(3);
      }
      // And nothing bright that changes goes untold.
      for (const [name, hole] of before) {
        const its = after.get(name);
        if (hole.mag! > free.faintestMag! || its === undefined) continue;
        if (hole.shiftMm > 3 && its.shiftMm <= 3) expect(row.keeps).toContain(name);
        if (hole.shiftMm <= 3 && its.shiftMm > 3) expect(row.costs).toContain(name);
      }
      told += row.keeps.length + row.costs.length;
      const over = (moment: string) =>
        new Set(
          listStars(planSky({ ...plan, moment }, testSky()).field, testSky(), free.faintestMag!).map(
            ({ name, hip }) => name || `HIP ${hip}`,
          ),
        );
      const [then, now] = [over(plan.moment), over(row.moment)];
      expect([...row.leaves].sort()).toEqual([...then].filter((name) => !now.has(name)).sort());
      expect([...row.comes].sort()).toEqual([...now].filter((name) => !then.has(name)).sort());
    }
    expect(told).toBeGreaterThan(5);
    const moved = [...before.values()].filter(
      ({ mag, shiftMm }) => mag! <= free.faintestMag! && shiftMm > 3,
    ).length;
    expect(own.moved).toBe(moved);
  });

  it("is judged after a slide of its own where the plan lets the sky slide", () => {
    const sliding = freeMoments(planWith({ ...FRAMED, placement: { shift: 30, turn: 1 } }), testSky(), 2);
    for (const one of sliding.moments)
      expect(one.rmsMm).toBeLessThanOrEqual(
        free.moments.find(({ minutes }) => minutes === one.minutes)!.rmsMm + 0.01,
      );
    expect(freeReport(sliding, planWith({ ...FRAMED, placement: { shift: 30 } }))).toContain(
      "after a slide of its own for each moment",
    );
  });

  it("leaves out the minutes at which the aim has set", () => {
    // Procyon sets that winter evening: its minutes below the horizon are no moments for a plan that aims there.
    const aimed = planWith({
      ...FRAMED,
      moment: "1998-07-11T18:00",
      view: { kind: "chart", span: 60, aim: { star: "Procyon" } },
    });
    let last = 0;
    for (let minute = 0; minute < 240; minute++) {
      const moment = `1998-07-11T${String(18 + Math.floor(minute / 60)).padStart(2, "0")}:${String(minute % 60).padStart(2, "0")}`;
      try {
        planSky({ ...aimed, moment }, testSky());
        last = minute;
      } catch {
        break;
      }
    }
    const near = `1998-07-11T${String(18 + Math.floor((last - 3) / 60)).padStart(2, "0")}:${String((last - 3) % 60).padStart(2, "0")}`;
    const { moments } = freeMoments({ ...aimed, moment: near }, testSky(), 10);
    expect(moments.at(-1)!.minutes).toBe(3);
    expect(moments[0]!.minutes).toBe(-10);
  });
});

describe("what a minute buys, in words", () => {
  const row = (changes: Partial<FreeMoment>): FreeMoment => ({
    minutes: 6,
    moment: "1998-07-11T21:21",
    moved: 3,
    rmsMm: 2,
    keeps: [],
    costs: [],
    leaves: [],
    comes: [],
    ...changes,
  });
  it("names the stars that it serves and those that pay", () => {
    const timber = timberOf(planWith(FRAMED));
    expect(bought(row({ keeps: ["Antares", "Acrux"] }), timber)).toBe(
      "6 minutes later keeps Antares and Acrux off the timber",
    );
    expect(
      bought(row({ minutes: -1, costs: ["Spica"], leaves: ["Arcturus"], comes: ["Vega"] }), timber),
    ).toBe(
      "1 minute earlier puts Spica on the timber; loses Arcturus over the rim; brings Vega onto the ceiling",
    );
    expect(bought(row({ keeps: ["A", "B", "C", "D", "E", "F", "G"] }), timber)).toBe(
      "6 minutes later keeps A, B, C, D, E and 2 more off the timber",
    );
    expect(bought(row({}), timberOf(planWith()))).toBe("6 minutes later changes nothing among them");
  });

  it("ends with the moment to paste, unless there is little in it", () => {
    const plan = planWith(FRAMED);
    const own = row({ minutes: 0, moment: plan.moment, rmsMm: 6 });
    const free = (best: FreeMoment) => ({
      bright: 80,
      faintestMag: 3.5,
      movedOverMm: 3,
      moments: [own, best],
      best,
    });
    expect(freeReport(free(row({ keeps: ["Antares"] })), plan)).toMatch(
      /Best: 6 minutes later, RMS 2\.00 mm in place of 6\.00\. To take it, write\nmoment: 1998-07-11T21:21\n$/,
    );
    expect(freeReport(free(row({ rmsMm: 5.9 })), plan)).toContain("much better: the least RMS, 5.90 mm");
  });
});
