import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checkReport } from "../../src/outputs/checkReport.ts";
import { battenMoves } from "../../src/panel/battenMoves.ts";
import { weakScrews } from "../../src/panel/buildFaults.ts";
import { frameFigures } from "../../src/panel/frameFigures.ts";
import { distanceToRing, ringHolds } from "../../src/panel/rings.ts";
import { boardSag } from "../../src/panel/sag.ts";
import { workPanels } from "../../src/panel/work.ts";
import { buildReport } from "../../src/schedule/buildReport.ts";
import { buildWarnings } from "../../src/schedule/buildWarnings.ts";
import { makeSchedule } from "../../src/schedule/makeSchedule.ts";
import { BASE_PLAN, planWith } from "../plan/testPlan.ts";
import { testSky } from "../sky/testSky.ts";

const shared = { fibre: { ...BASE_PLAN.fibre, sharing: "ceiling" } };
const batten = (width: number, depth: number, more: Record<string, unknown> = {}) => ({
  frame: { batten: { width, depth }, ...more },
});
const panel = (width: number, length: number) => ({ id: "P", x: 100, y: 100, width, length });
const figures = (changes: Record<string, unknown>) => {
  const plan = planWith(changes);
  return frameFigures(plan, workPanels(plan));
};

describe("battens flat and on edge", () => {
  it("close a share of the panel that is worked out by hand", () => {
    // 1200 x 800 mm, thinnest bit 0.6: 38 + 5 + 0.3 = 43.3 from every edge, 19 + 5.3 = 24.3 each way from the middle:
    // two fields of 532.4 x 713.4 mm. On edge 19 + 5.3 = 24.3 and 9.5 + 5.3 = 14.8: 560.9 x 751.4.
    const [flat, edge] = figures({ panels: [panel(1200, 800)], ...batten(38, 19), cavity: 60 });
    expect(flat).toMatchObject({ lying: "flat", widthMm: 38, depthMm: 19, aboveBattensMm: 41 });
    expect(flat!.deadShare).toBeCloseTo(1 - (2 * 532.4 * 713.4) / 960_000, 9);
    expect(flat!.edgeBandMm).toBeCloseTo(43.3, 9);
    expect(edge).toMatchObject({ lying: "on edge", widthMm: 19, depthMm: 38, aboveBattensMm: 22 });
    expect(edge!.deadShare).toBeCloseTo(1 - (2 * 560.9 * 751.4) / 960_000, 9);
  });

  it("close the same share of an outline with one corner too many", () => {
    const outline = [
      [100, 100],
      [700, 100],
      [1300, 100],
      [1300, 900],
      [100, 900],
    ];
    const [flat] = figures({ panels: [{ id: "P", outline }], ...batten(38, 19) });
    expect(flat!.deadShare).toBeCloseTo(1 - (2 * 532.4 * 713.4) / 960_000, 4);
  });

  it("leave a lane at the seam: a band of either panel, fabric and gap", () => {
    // By hand: 2 x (1 + 38 + 5 + 0.3) + 3 = 91.6; on edge 2 x (1 + 19 + 5 + 0.3) + 3 = 53.6.
    const plan = planWith({
      ...shared,
      panels: { columns: 2, rows: 1 },
      fabric: { thickness: 1 },
      ...batten(38, 19),
    });
    const lanes = buildReport(makeSchedule(plan, testSky())).frame!.ways.map(({ laneMm }) => laneMm!);
    expect(lanes[0]![0]).toBeCloseTo(91.6, 9);
    expect(lanes[1]![1]).toBeCloseTo(53.6, 9);
  });

  it("let the board sag by the simple beam's formula, twice", () => {
    // Worked by hand: w = (860 x 0.006 + 0.4) x 9.81 = 54.5436 N/m2, I = 6^3 / 12 = 18 mm3 a millimetre of width;
    // 5 x 54.5436e-6 x 500^4 / (384 x 2700 x 18) = 0.91333 mm, times 2.
    expect(boardSag({ material: "MDF", thickness: 6 }, 500)!.sagMm).toBeCloseTo(1.8267, 3);
    expect(boardSag({ material: "plywood", thickness: 6 }, 500)).toBeNull();
    // Bays of 1200 mm with one batten flat: 600 - 1.5 x 38 = 543; with none the shorter side decides: 800 - 76 = 724.
    expect(figures({ panels: [panel(1200, 800)], ...batten(38, 19) })[0]!.sag!.spanMm).toBe(543);
    expect(
      figures({ panels: [panel(1200, 800)], ...batten(38, 19, { crossBattens: 0 }) })[0]!.sag!.spanMm,
    ).toBe(724);
    // Two battens: the middle bay of 400 - 38 = 362 is wider than 400 - 57.
    expect(
      figures({ panels: [panel(1200, 800)], ...batten(38, 19, { crossBattens: 2 }) })[0]!.sag!.spanMm,
    ).toBe(362);
  });
});

describe("a board that would sag for all to see", () => {
  const warned = (changes: Record<string, unknown>) => {
    const plan = planWith(changes);
    return buildWarnings(plan, workPanels(plan)).join();
  };
  it("is warned of from a hundredth of its span", () => {
    // Worked out above for the same beam: the sag grows with the fourth power of the span.
    const one = { panels: [panel(1200, 1200)], ...batten(38, 19, { crossBattens: 0 }) };
    const sag = figures(one)[0]!.sag!;
    expect(sag.sagMm).toBeGreaterThan(sag.spanMm / 100);
    expect(warned(one)).toContain(
      `would sag ${sag.sagMm.toFixed(1)} mm between battens ${sag.spanMm} mm apart: add cross battens (frame.crossBattens)`,
    );
    const two = { panels: [panel(1200, 1200)], ...batten(38, 19, { crossBattens: 2 }) };
    expect(warned(two)).not.toContain("would sag");
    expect(warned({ panels: [panel(1200, 1200)] })).not.toContain("would sag");
  });
});

describe("a cross batten in the way of bright stars", () => {
  const plan = planWith({ panels: [panel(1000, 800)], ...batten(38, 19) });
  const panels = workPanels(plan);
  const move = (...xs: number[]) =>
    battenMoves(panels, [xs.map((xMm) => ({ xMm, yMm: 300, bitMm: 0.6 }))], plan.holes)[0];

  it("is moved just so far that most of them are free", () => {
    // By hand: it closes 500 +- 24.3. 478, 490 and 495 are free once it has gone 46.3 to the left (478) or 19.3 to the right (495).
    expect(move(478, 490, 495)).toMatchObject({
      panel: "P",
      batten: 1,
      of: 1,
      upright: true,
      atMm: 500,
      byMm: 20,
      frees: [0, 1, 2],
      takes: [],
    });
    // 540 would be closed from 15.7 to the right, 440 by the way to the left: two are free at 15, and three less one after.
    expect(move(478, 490, 495, 540, 440)).toMatchObject({ byMm: 15, frees: [0, 1] });
    // With 560 closed from 35.7 on, and a star at 500 too: 24.3 frees all four.
    expect(move(478, 490, 495, 500, 560)).toMatchObject({ byMm: 25, frees: [0, 1, 2, 3] });
  });

  it("is moved across itself on a board that is square to the hundredth, but not quite", () => {
    // 600.006 long and 600.004 wide: the batten divides the length and lies level at 300.003.
    const plan = planWith({ panels: [panel(600.004, 600.006)], ...batten(38, 19) });
    const level = workPanels(plan);
    const cross = level[0]!.frame!.battens.find(({ kind }) => kind === "cross")!;
    expect(cross.from[1]).toBeCloseTo(300.003, 2);
    const [move] = battenMoves(level, [[{ xMm: 200, yMm: 310, bitMm: 0.6 }]], plan.holes);
    expect(move).toMatchObject({ upright: false, frees: [0] });
    expect(move!.atMm).toBeCloseTo(300.003, 2);
  });

  it("is left where it is when no star gains, or one is closed for every one freed", () => {
    expect(move(200, 700)).toBeUndefined();
    // 500 is free from 24.3 on; until 54.3 that closes 530, and from 35.7 on 560. To the left the same.
    expect(move(500, 530, 560, 470, 440)).toBeUndefined();
    expect(move(500, 530, 560, 470)).toMatchObject({ byMm: -55, frees: [0], takes: [] });
  });
});

describe("screws and hanging points", () => {
  it("along narrow battens are too near the board's edge for MDF", () => {
    // By hand: the middle of a 19 mm batten is 9.5 mm from the edge; mdf-info.eu asks for 12.
    const narrow = planWith({ panels: [panel(1200, 800)], ...batten(19, 38) });
    expect(weakScrews(workPanels(narrow))).toMatchObject([{ panel: "P", leastEdgeMm: 9.5, nearCorner: 0 }]);
    expect(buildWarnings(narrow, workPanels(narrow)).join()).toContain(
      "nearer than 12 mm to the board's edge (9.5 mm): MDF may split there (mdf-info.eu); take wider battens, lay them flat, or raise frame.inset by 2.5 mm",
    );
    expect(weakScrews(workPanels(planWith({ panels: [panel(1200, 800)], ...batten(38, 19) })))).toEqual([]);
    expect(
      weakScrews(workPanels(planWith({ panels: [panel(1200, 800)], ...batten(19, 38, { inset: 2.5 }) }))),
    ).toEqual([]);
  });

  it("lie on battens and off each other, on any board", () => {
    const corners = fc.array(fc.tuple(fc.integer({ min: 300, max: 900 }), fc.integer({ min: 0, max: 300 })), {
      minLength: 3,
      maxLength: 24,
    });
    fc.assert(
      fc.property(
        corners,
        fc.integer({ min: 80, max: 400 }),
        fc.integer({ min: 0, max: 6 }),
        (rays, pitch, hangers) => {
          // A star-shaped outline about (1200, 900).
          const outline = rays.map(([r], i) => {
            const angle = (2 * Math.PI * i) / rays.length;
            return [
              Math.round(1200 + r * Math.cos(angle)),
              Math.round(900 + Math.min(r, 880) * Math.sin(angle)),
            ];
          });
          const plan = planWith({
            panels: [{ id: "P", outline }],
            ...batten(30, 20, { crossBattens: 0, hangers, screws: { pitch } }),
          });
          const { frame } = workPanels(plan)[0]!;
          if (frame!.within.length === 0) return;
          expect(frame!.screws.length).toBeGreaterThan(2);
          expect(frame!.hangers).toHaveLength(hangers);
          for (const [x, y] of [...frame!.screws, ...frame!.hangers])
            expect(
              frame!.battens.some(({ ring }) => ringHolds(ring, x, y) || distanceToRing(ring, x, y) < 0.02),
            ).toBe(true);
          for (const [x, y] of frame!.hangers) {
            const nearest = Math.min(...frame!.screws.map((screw) => Math.hypot(screw[0] - x, screw[1] - y)));
            expect(nearest).toBeGreaterThan(2);
          }
        },
      ),
      { seed: 44, numRuns: 200 },
    );
  });

  it("are no farther apart than the pitch, and begin 30 mm from a batten's end", () => {
    // By hand: the lower batten's middle line runs from (19, 19) to (981, 19): 902 mm between the outer screws, in 4 pieces.
    const plan = planWith({ panels: [panel(1000, 700)], ...batten(38, 19, { screws: { pitch: 250 } }) });
    const lower = workPanels(plan)[0]!.frame!.screws.filter(([x, y]) => y === 19 && x > 45 && x < 955);
    expect(lower.map(([x]) => x)).toEqual([49, 274.5, 500, 725.5, 951]);
    // The cross batten's first and last are 30 mm inside the edge battens.
    const across = workPanels(plan)[0]!.frame!.screws.filter(([x, y]) => x === 500 && y > 38 && y < 662);
    expect([across[0]![1], across.at(-1)![1]]).toEqual([68, 632]);
  });

  it("of a square board keep a hanging point between two screws, not on one", () => {
    const { frame } = workPanels(planWith({ panels: [panel(1000, 1000)], ...batten(38, 19) }))[0]!;
    for (const [x, y] of frame!.hangers)
      expect(
        Math.min(...frame!.screws.map((screw) => Math.hypot(screw[0] - x, screw[1] - y))),
      ).toBeGreaterThan(20);
  });
});

describe("what check says of a room with a grille, an alarm and a sprinkler", () => {
  const plan = planWith({
    ...batten(38, 19),
    drawnAs: "fromBelow",
    walls: { top: "window wall", left: "shelf wall" },
    cavity: 60,
    keepOut: [
      {
        id: "vent",
        kind: "grille",
        x: 1150,
        y: 1300,
        width: 200,
        length: 160,
        clearance: { front: 50, behind: 150 },
      },
      { id: "alarm", kind: "detector", at: [400, 1000], radius: 80, stars: "drop" },
      { id: "head", kind: "sprinkler", at: [2000, 500], radius: 90 },
    ],
  });
  const schedule = makeSchedule(plan, testSky());
  const warnings = schedule.warnings.join("\n");

  it("is where they are against two walls, and what to keep clear", () => {
    // By hand: 1800 - 1300 - 160 = 340 from the top, 2400 - 1150 - 200 = 1050 from the right; and so on.
    const report = checkReport(schedule, null);
    expect(report).toContain(
      "grille vent: 340 from the window wall, 1050 from the right wall; keep clear 50 mm in front and 150 mm behind; stars under it are moved",
    );
    expect(report).toContain(
      "detector alarm: its centre 800 from the window wall, 400 from the shelf wall; stars under it are left out",
    );
    expect(report).toContain("sprinkler head: its centre 500 from the bottom wall, 400 from the right wall");
    expect(report).toMatch(
      /Frames +battens 38 wide and 19 deep \(flat, as planned\): no star within 43.3 mm of the panel's edge; [\d.]+ % of the panels closed to holes; 41 mm left for fibres above them; the board sags/,
    );
  });

  it("is a caution for each, which leaves the word to local codes", () => {
    for (const words of [
      "grille vent: leave it open",
      "detector alarm: a smoke or heat alarm stays clear",
      "sprinkler head: nothing may cover or crowd it, nor fill the 457 mm",
    ])
      expect(warnings).toContain(words);
    expect(warnings.match(/Local codes and licensed trades decide/g)).toHaveLength(3);
  });

  it("is what has the place of a screw or asks for more than the cavity", () => {
    // By hand: the cross batten's middle line is x = 1200, with screws from 78 to 1722 no more than 200 apart: in 9 pieces, every
    // 182.67; that at 1356.67 is under the grille, from 1300 to 1460.
    expect(warnings).toContain("panel A1: a screw would sit in the grille vent: find another place for it");
    expect(warnings).toContain(
      "keep-out vent (grille) asks for 150 mm clear behind the face, and the cavity is 60 mm",
    );
    const deep = planWith({ ...batten(19, 60), cavity: 60 });
    expect(buildWarnings(deep, workPanels(deep)).join()).toContain(
      "battens 60 mm deep leave nothing of a cavity of 60 mm",
    );
  });

  it("is nothing at all of rooms, keep-outs and frames for a plan that has none", () => {
    expect(buildReport(makeSchedule(planWith(), testSky()))).toEqual({
      room: null,
      keepOuts: [],
      frame: null,
    });
  });
});
