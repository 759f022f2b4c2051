import { beforeAll, describe, expect, it } from "vitest";
import { scheduleFrom } from "../../src/schedule/makeSchedule.ts";
import type { Hole, PanelRecord, Schedule } from "../../src/schedule/types.ts";
import { validateSchedule } from "../../src/schedule/validate.ts";
import { strewnSky } from "../panel/randomLayouts.ts";
import { BASE_PLAN, planWith } from "../plan/testPlan.ts";
import { testSky } from "../sky/testSky.ts";

const CEILING = { width: 2400, length: 1800 };
type Loose<T> = { -readonly [K in keyof T]: T[K] };

/** The board of each panel begins at its x, y: there is no fabric. */
const PLAN = planWith({
  ceiling: CEILING,
  drawnAs: "fromBelow",
  panels: [
    { id: "A", x: 10, y: 10, width: 1200, length: 1780 },
    {
      id: "B",
      outline: [
        [1213, 10],
        [2390, 10],
        [2390, 1200],
        [1800, 1790],
        [1213, 1790],
      ],
    },
  ],
  frame: {
    batten: { width: 38, depth: 38 },
    inset: 10,
    crossBattens: 1,
    bored: { brightest: 10, diameter: 10 },
  },
  keepOut: [
    { id: "lamp", kind: "luminaire", at: [400, 400], radius: 60, stars: "drop" },
    { id: "grille", kind: "grille", x: 600, y: 1200, width: 300, length: 200, upTo: 40 },
  ],
  fibre: { ...BASE_PLAN.fibre, sharing: "ceiling" },
});

let good: Schedule;
beforeAll(() => {
  good = scheduleFrom(PLAN, testSky(), strewnSky(11, 400, CEILING));
});

const faults = (change: (hole: Loose<Hole>, panel: Loose<PanelRecord>) => void, id = "A") => {
  const holes = good.holes.map((hole) => ({ ...hole }));
  const panels = good.panels.map((panel) => ({ ...panel }));
  const panel = panels.find((one) => one.id === id)!;
  change(holes.find((hole) => hole.panel === id && !panel.boredHoles.includes(hole.hole))!, panel);
  return validateSchedule({ ...good, left: good.left, holes, panels }).join("\n");
};
const put = (x: number, y: number) => (hole: Loose<Hole>, panel: Loose<PanelRecord>) => {
  Object.assign(hole, { xMm: x, yMm: y, ceilingXMm: panel.xMm + x, ceilingYMm: panel.yMm + y });
};

describe("a schedule that breaks a rule of its panels is found out", () => {
  it("while the sound one passes, holes on both panels and some through battens", () => {
    expect(validateSchedule(good)).toEqual([]);
    expect(good.panels.map(({ holeCount }) => holeCount > 20)).toEqual([true, true]);
    expect(good.panels.flatMap(({ boredHoles }) => boredHoles).length).toBeGreaterThan(1);
  });

  it("a rim too near the outline, straight or slanted, or outside it", () => {
    expect(faults(put(12, 700))).toContain("from the board's edge");
    expect(faults(put(-20, 700))).toContain("from the board's edge");
    // B's slanted side runs from [1177, 1190] to [587, 1780] of its face.
    expect(faults(put(875, 1475), "B")).toContain("from the board's edge");
  });

  it("a hole outside an inset frame, on a batten, or too near to one", () => {
    // By hand: edge battens from 10 to 48, rim 5 and a radius of 0.3 to 0.825 from that.
    expect(faults(put(52, 700))).toContain("on the edge batten or outside it");
    expect(faults(put(60, 700))).not.toContain("batten");
    // The cross batten of A, the longer side being 1780: 890, half of 38.
    expect(faults(put(300, 880))).toContain("from a batten");
    expect(faults(put(300, 913))).toContain("mm from a batten");
    expect(faults(put(300, 920))).not.toContain("batten");
  });

  it("a hole that was said to go through a batten, but too near a screw", () => {
    const [panel] = good.panels;
    const [x, y] = panel!.screwsMm.find(([sx]) => sx > 100)!;
    const through = (dx: number) => (hole: Loose<Hole>, its: Loose<PanelRecord>) => {
      put(x + dx, y)(hole, its);
      its.boredHoles = [...its.boredHoles, hole.hole];
    };
    expect(faults(through(24))).toContain("too near the screw");
    expect(faults(through(25.5))).not.toContain("too near the screw");
  });

  it("a hole that was said to go through a batten and lies beside it, or whose relief hole cuts into its side", () => {
    const through = (y: number) =>
      faults((hole, its) => {
        put(300, y)(hole, its);
        its.boredHoles = [...its.boredHoles, hole.hole];
      });
    // By hand: the cross batten lies from 871 to 909; the relief hole's radius is 5.
    expect(through(869)).toContain("lies on none");
    expect(through(912)).toContain("lies on none");
    expect(through(874)).toContain("cuts into the side of a batten, 3.000 mm away");
    expect(through(877)).not.toContain("batten");
  });

  it("a screw or a hanging point off the board, or on no batten", () => {
    const moved = (key: "screwsMm" | "hangersMm", x: number, y: number, id = "A") =>
      faults((_, panel) => {
        panel[key] = [...panel[key], [x, y]];
      }, id);
    expect(moved("screwsMm", 1210, 890)).toContain("the screw at [1210, 890] is off the board");
    // B's slanted side runs from [1177, 1190] to [587, 1780] of its face.
    expect(moved("hangersMm", 1100, 1700, "B")).toContain(
      "the hanging point at [1100, 1700] is off the board",
    );
    expect(moved("screwsMm", 300, 400)).toContain("the screw at [300, 400] is on no batten");
    expect(moved("hangersMm", 300, 890)).not.toContain("hanging point");
  });

  it("a hole under a keep-out or too near to it", () => {
    // The lamp's centre is at [390, 390] of A's face.
    expect(faults(put(390, 390))).toContain("luminaire lamp");
    expect(faults(put(390 + 72, 390))).toContain("luminaire lamp");
    expect(faults(put(390 + 73, 390))).not.toContain("lamp");
  });

  it("a star that a keep-out drops, or that was moved from under it farther than it may be", () => {
    const from = (skyXMm: number, skyYMm: number, shiftMm: number) =>
      faults((hole) => Object.assign(hole, { skyXMm, skyYMm, shiftMm }));
    expect(from(400, 400, 5)).toContain("lies under lamp, which drops its stars");
    expect(from(700, 1300, 41)).toContain("moved 41 mm from under grille");
    expect(from(700, 1300, 39)).not.toContain("grille");
  });

  it("a star of another panel", () => {
    expect(faults((hole) => Object.assign(hole, { skyXMm: 1500, skyYMm: 500, shiftMm: 5 }))).toContain(
      "its true point is on panel B",
    );
  });

  it("two holes that are too close, though on two panels", () => {
    expect(
      faults((hole) => {
        const other = good.holes.find(({ panel }) => panel === "B")!;
        Object.assign(hole, { ceilingXMm: other.ceilingXMm + 2.9, ceilingYMm: other.ceilingYMm });
      }),
    ).toContain("mm apart, not 3");
  });

  it("and twenty thousand holes are looked through in well under a second", () => {
    const many: Hole[] = [];
    for (let i = 0; many.length < 20_000; i++) {
      const hole = good.holes[i % good.holes.length]!;
      many.push({ ...hole, ceilingXMm: (i * 7.1) % 2400, ceilingYMm: (i * 3.3) % 1800 });
    }
    const before = process.cpuUsage().user;
    validateSchedule({ ...good, left: good.left, holes: many });
    // Bounded loosely: a quadratic look at all pairs would take minutes.
    expect((process.cpuUsage().user - before) / 1e6).toBeLessThan(3);
  });
});
