import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { weakScrews } from "../../src/panel/buildFaults.ts";
import { type WorkPanel, workPanels } from "../../src/panel/work.ts";
import { buildWarnings } from "../../src/schedule/buildWarnings.ts";
import { BASE_PLAN, planWith } from "../plan/testPlan.ts";
import { isIn, type Point, toLoop } from "./bruteForce.ts";

const planOf = (panel: Record<string, unknown>, frame: Record<string, unknown>) =>
  planWith({
    fibre: { ...BASE_PLAN.fibre, sharing: "ceiling" },
    panels: [{ id: "C", ...panel }],
    frame: { batten: { width: 38, depth: 19 }, ...frame },
  });
const framed = (panel: Record<string, unknown>, frame: Record<string, unknown>): WorkPanel =>
  workPanels(planOf(panel, frame))[0]!;
const warned = (panel: Record<string, unknown>, frame: Record<string, unknown>) => {
  const plan = planOf(panel, frame);
  return buildWarnings(plan, workPanels(plan)).join("\n");
};

describe("screws along a batten that is cut", () => {
  it("stop where the board does, though its centre line runs on", () => {
    const battens = [{ panel: "C", from: [0, 300], to: [2500, 300] }];
    const { frame } = framed({ x: 0, y: 0, width: 1770, length: 1000 }, { battens, crossBattens: 0 });
    // By hand: between the edge battens, 38 to 1732, 30 mm from either: 68 to 1702 in 9 pieces of 181.56.
    const along = frame!.screws.filter(([x, y]) => y === 300 && x > 38 && x < 1732).map(([x]) => x);
    expect(along).toHaveLength(10);
    expect([along[0], along.at(-1)]).toEqual([68, 1702]);
    expect(Math.max(...frame!.screws.map(([x]) => x))).toBeLessThan(1770);
  });

  it("stay out of a notch that the batten grazes", () => {
    // The middle line, x = 500, runs 0.7 mm inside the notch's side: edge battens lie there, with screws of their own.
    const notched = [
      [0, 0],
      [1000, 0],
      [1000, 600],
      [499.3, 600],
      [499.3, 400],
      [300, 400],
      [300, 600],
      [0, 600],
    ];
    const panel = framed({ outline: notched }, { inset: 5 });
    for (const at of panel.frame!.screws) {
      expect(isIn(at as Point, panel.boardRing as Point[])).toBe(true);
      expect(toLoop(at as Point, panel.boardRing as Point[])).toBeGreaterThanOrEqual(12);
    }
    // By hand: the free part of the line, from 43 to 357, is 30 mm short at both ends.
    const along = panel.frame!.screws.filter(([x, y]) => x === 500 && y > 43 && y < 357).map(([, y]) => y);
    expect([along[0], along.at(-1)]).toEqual([73, 327]);
    expect(weakScrews([panel]).filter(({ nearEdge }) => nearEdge > 0)).toEqual([]);
  });

  it("are none on a batten too short for them, which is said", () => {
    // From the board's lower edge up: 38 mm of it lie under the edge batten, 16 free of it, 12 of which a screw keeps off.
    const battens = [{ panel: "C", from: [500, 0], to: [500, 54] }];
    expect(
      warned({ x: 0, y: 0, width: 1000, length: 800 }, { battens, crossBattens: 0, screws: { pitch: 400 } }),
    ).toMatch(/panel C: a piece of batten about \[500, 27\] .*too short or too narrow for a screw/);
    expect(warned({ x: 0, y: 0, width: 1000, length: 800 }, {})).not.toContain("too short");
  });
});

describe("hanging points", () => {
  it("keep 20 mm from screws and each other, or that is said", () => {
    const board = { x: 0, y: 0, width: 600, length: 400 };
    for (const [hangers, pitch] of [
      [6, 60],
      [4, 45],
      [12, 200],
    ] as const) {
      const { frame } = framed(board, { hangers, screws: { pitch } });
      expect([frame!.hangers.length, frame!.crowdedHangers]).toEqual([hangers, 0]);
      for (const [k, [x, y]] of frame!.hangers.entries()) {
        const others = [...frame!.screws, ...frame!.hangers.slice(0, k)];
        expect(
          Math.min(...others.map((other) => Math.hypot(other[0] - x, other[1] - y))),
        ).toBeGreaterThanOrEqual(20);
      }
    }
    expect(warned(board, { hangers: 200 })).toMatch(
      /panel C: \d+ hanging points find no place 20 mm from every screw/,
    );
  });
});

describe("screws and hanging points of random boards", () => {
  const rays = fc.array(fc.integer({ min: 120, max: 880 }), { minLength: 3, maxLength: 14 });
  const bar = fc.tuple(...Array.from({ length: 4 }, () => fc.integer({ min: -400, max: 1800 })));
  it("lie on the board and on a batten as it is cut, clear of its sides", () => {
    let [screws, cut] = [0, 0];
    fc.assert(
      fc.property(
        rays,
        fc.constantFrom(19, 25, 38),
        fc.constantFrom(0, 7.33, 20),
        fc.integer({ min: 0, max: 3 }),
        fc.array(bar, { maxLength: 2 }),
        fc.integer({ min: 40, max: 400 }),
        (radii, width, inset, crossBattens, extra, pitch) => {
          const outline = radii.map((r, i): Point => {
            const angle = (2 * Math.PI * i) / radii.length;
            return [Math.round(1200 + r * Math.cos(angle)), Math.round(900 + r * Math.sin(angle))];
          });
          const board = { batten: { width, depth: 19 }, inset, crossBattens, screws: { pitch } };
          let panel: WorkPanel;
          try {
            const battens = extra.map(([a, b, c, d]) => ({ panel: "C", from: [a, b], to: [c! + 3, d] }));
            panel = framed({ outline }, { ...board, battens });
          } catch {
            return; // a batten that misses the board, or an inset that leaves none: said elsewhere
          }
          const { frame, boardRing } = panel;
          const ring = boardRing as Point[];
          cut += frame!.battens.filter(({ kind }) => kind === "extra").length;
          for (const at of [...frame!.screws, ...frame!.hangers] as Point[]) {
            expect(isIn(at, ring)).toBe(true);
            // Half a narrow batten or 12 mm; where a mitre is cut off (sharper than 11.5 degrees) the middle line bends.
            expect(toLoop(at, ring)).toBeGreaterThan(Math.min(12, width / 2) - 0.03);
            const on = frame!.battens.some(
              (batten) => isIn(at, batten.ring as Point[]) || toLoop(at, batten.ring as Point[]) < 0.02,
            );
            expect(on).toBe(true);
          }
          screws += frame!.screws.length;
        },
      ),
      { seed: 44, numRuns: 400 },
    );
    expect(screws).toBeGreaterThan(4000);
    expect(cut).toBeGreaterThan(50);
  });
});
