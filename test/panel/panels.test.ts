import { describe, expect, it } from "vitest";
import { layOutPanels } from "../../src/panel/panels.ts";
import { makePlacer } from "../../src/panel/placement.ts";
import { legalCells, workPanels } from "../../src/panel/work.ts";
import { UnbuildableError } from "../../src/plan/errors.ts";
import { rowLetters } from "../../src/plan/panelIds.ts";
import { inCeilingFrame } from "../../src/projection/frames.ts";
import { BASE_PLAN, planWith } from "../plan/testPlan.ts";

const shared = { fibre: { ...BASE_PLAN.fibre, sharing: "ceiling" } };
const RULES = planWith().holes;
const rectangle = (id: string, x: number, y: number, width = 500, length = 500) => ({
  id,
  x,
  y,
  width,
  length,
});

describe("a grid of panels", () => {
  it("fills the ceiling less perimeter and gaps, rows from the top, columns from the left", () => {
    // By hand: (2400 - 20 - 2 x 3) / 3 = 791.33; (1800 - 20 - 3) / 2 = 888.5.
    const panels = layOutPanels(planWith({ ...shared, panels: { columns: 3, rows: 2 } }));
    expect(panels.map((panel) => panel.id)).toEqual(["A1", "A2", "A3", "B1", "B2", "B3"]);
    expect(panels[0]!.finished.widthMm).toBeCloseTo(2374 / 3, 9);
    expect(panels[0]!.finished.lengthMm).toBeCloseTo(888.5, 9);
    expect(panels[0]!.finished).toMatchObject({ xMm: 10, yMm: 10 + 888.5 + 3 });
    expect(panels[4]!.finished.xMm).toBeCloseTo(10 + 2374 / 3 + 3, 9);
    expect(panels[4]!.finished.yMm).toBe(10);
  });

  it("goes on with AA after Z", () => {
    expect([0, 25, 26, 51, 52, 701, 702].map(rowLetters)).toEqual(["A", "Z", "AA", "AZ", "BA", "ZZ", "AAA"]);
  });

  it("cuts the board smaller than the finished panel by the fabric, all round", () => {
    const [panel] = layOutPanels(planWith({ fabric: { thickness: 1.5 } }));
    expect(panel!.board).toEqual({ xMm: 11.5, yMm: 11.5, widthMm: 2377, lengthMm: 1777 });
  });
});

describe("panels that cannot be", () => {
  const findingsOf = (changes: Record<string, unknown>) => {
    try {
      layOutPanels(inCeilingFrame(planWith({ ...shared, ...changes })));
    } catch (error) {
      if (error instanceof UnbuildableError) return error.findings;
      throw error;
    }
    return [];
  };
  it("overlap, and by how much", () => {
    expect(
      findingsOf({
        panels: [rectangle("left", 0, 0), rectangle("right", 480, 100), rectangle("far", 1000, 0)],
      }),
    ).toMatchObject([
      { code: "panels-overlap", message: expect.stringContaining("left and right overlap by 20 x 400 mm") },
    ]);
  });
  it("may touch", () => {
    expect(
      findingsOf({ panels: [rectangle("a", 0, 0), rectangle("b", 500, 0), rectangle("c", 0, 500)] }),
    ).toEqual([]);
  });
  it("leave the ceiling, every one and every side named", () => {
    const findings = findingsOf({ panels: [rectangle("a", -5, 0), rectangle("b", 2000, 1400)] });
    expect(findings.map((finding) => finding.code)).toEqual([
      "panel-outside-ceiling",
      "panel-outside-ceiling",
    ]);
    expect(findings[1]!.message).toContain("100 mm past the right edge and 100 mm past the top edge");
  });
  it("find no room between gaps, or no board under the fabric", () => {
    expect(findingsOf({ panels: { columns: 3, rows: 2, perimeter: 1300 } })[0]!.code).toBe(
      "no-room-for-panels",
    );
    expect(findingsOf({ fabric: { thickness: 900 } })[0]!.code).toBe("panel-without-board");
  });
});

describe("a reflected ceiling plan", () => {
  it("is the mirror of what is seen from below: x = width - given", () => {
    const plan = planWith({
      ...shared,
      drawnAs: "reflectedPlan",
      panels: [rectangle("door", 100, 50, 700, 600)],
      view: { kind: "eye", eye: { below: 1500, x: 800, y: 400 } },
      lightSource: { x: 2000, y: 300, above: 100 },
    });
    const [panel] = layOutPanels(inCeilingFrame(plan));
    expect(panel!.finished).toMatchObject({ xMm: 2400 - 100 - 700, yMm: 50, widthMm: 700 });
    expect(inCeilingFrame(plan).view).toMatchObject({ eye: { x: 1600, y: 400 } });
    expect(inCeilingFrame(plan).lightSource).toMatchObject({ x: 400, y: 300 });
    expect(inCeilingFrame(inCeilingFrame(plan))).toEqual(inCeilingFrame(plan));
  });
});

describe("legal places", () => {
  const panel = workPanels(planWith())[0]!;
  it("keep a hole's rim its margin away from the board's edge", () => {
    // By hand: 12 + 0.85 / 2 = 12.425, drawn in to the next hundredth.
    const [left, , right] = legalCells(panel, 0.85, RULES)![0]!;
    expect(left).toBeCloseTo(12.43, 9);
    expect(right).toBeCloseTo(panel.board.widthMm - 12.43, 9);
    expect(legalCells(panel, 0.6, { ...RULES, edge: 1200 })).toEqual([]);
  });

  it("are where the point is, or the nearest point inside the margin, on its own panel", () => {
    const panels = workPanels(planWith({ ...shared, panels: { columns: 2, rows: 1, gap: 40 } }));
    const placer = makePlacer(panels, RULES);
    expect(placer.nearestPlace(300, 300, 0.6)).toMatchObject({ panel: 0, xMm: 300, yMm: 300, shiftMm: 0 });
    // The first panel reaches to x = 10 + 1170 = 1180: a point at 1178 goes to 1180 - 12.3.
    const moved = placer.nearestPlace(1178, 300, 0.6)!;
    expect(moved).toMatchObject({ panel: 0, yMm: 300 });
    expect(moved.xMm).toBeCloseTo(1167.7, 9);
    expect(moved.shiftMm).toBeCloseTo(10.3, 9);
    // Over the gap (1180 to 1220): the nearer panel takes it.
    expect(placer.panelAt(1205, 300)).toBe(-1);
    expect(placer.nearestPlace(1205, 300, 0.6)).toMatchObject({ panel: 1 });
    expect(placer.nearestPlace(1195, 300, 0.6)).toMatchObject({ panel: 0 });
  });

  it("are the same with many panels, found through an index, as with a look at each", () => {
    const many = workPanels(
      planWith({
        ...shared,
        ceiling: { width: 6000, length: 5000 },
        panels: { columns: 12, rows: 10, gap: 25, perimeter: 40 },
      }),
    );
    const placer = makePlacer(many, RULES);
    let seed = 7;
    const random = () => {
      seed = (seed * 48_271) % 2_147_483_647; // Lehmer's generator
      return seed / 2_147_483_647;
    };
    for (let i = 0; i < 3000; i++) {
      const [x, y] = [random() * 6000, random() * 5000];
      const own = many.findIndex(
        ({ finished: f }) => x >= f.xMm && x <= f.xMm + f.widthMm && y >= f.yMm && y <= f.yMm + f.lengthMm,
      );
      expect(placer.panelAt(x, y)).toBe(own);
      const least = Math.min(
        ...many
          .filter((_, k) => own < 0 || k === own)
          .map((panel) => {
            const [left, bottom, right, top] = legalCells(panel, 0.85, RULES)![0]!;
            const [fx, fy] = [x - panel.board.xMm, y - panel.board.yMm];
            return Math.hypot(Math.max(left - fx, 0, fx - right), Math.max(bottom - fy, 0, fy - top));
          }),
      );
      expect(placer.nearestPlace(x, y, 0.85)!.shiftMm).toBeCloseTo(least, 9);
    }
  });

  it("agree with a search of every point of a fine grid", () => {
    const panels = workPanels(
      planWith({ ...shared, panels: [rectangle("a", 10, 10, 60, 50), rectangle("b", 90, 20, 50, 60)] }),
    );
    const placer = makePlacer(panels, RULES);
    for (const [x, y] of [
      [0, 0],
      [80, 40],
      [75, 90],
      [15, 58],
      [139, 79],
      [85, 5],
    ] as const) {
      let best = Number.POSITIVE_INFINITY;
      const own = placer.panelAt(x, y);
      for (const [i, { board }] of panels.entries()) {
        if (own >= 0 && own !== i) continue;
        for (let gx = board.xMm; gx <= board.xMm + board.widthMm + 1e-9; gx += 0.05) {
          for (let gy = board.yMm; gy <= board.yMm + board.lengthMm + 1e-9; gy += 0.05) {
            const rim =
              Math.min(
                gx - board.xMm,
                board.xMm + board.widthMm - gx,
                gy - board.yMm,
                board.yMm + board.lengthMm - gy,
              ) - 0.3;
            if (rim >= 12 - 1e-9) best = Math.min(best, Math.hypot(gx - x, gy - y));
          }
        }
      }
      expect(Math.abs(placer.nearestPlace(x, y, 0.6)!.shiftMm - best)).toBeLessThan(0.08);
    }
  });
});
