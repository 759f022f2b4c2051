import { describe, expect, it } from "vitest";
import { frameOf } from "../../src/panel/frame.ts";
import { signedAreaMm2 } from "../../src/panel/rings.ts";
import { type WorkPanel, workPanels } from "../../src/panel/work.ts";
import type { FramePlan } from "../../src/plan/plan.ts";
import { inCeilingFrame } from "../../src/projection/frames.ts";
import { BASE_PLAN, planWith } from "../plan/testPlan.ts";
import { isIn, isInBand, isSimple, type Point, toLoop } from "./bruteForce.ts";
import { lehmer } from "./randomLayouts.ts";

const framed = (outline: readonly (readonly number[])[], frame: Record<string, unknown>): WorkPanel =>
  workPanels(
    inCeilingFrame(
      planWith({
        fibre: { ...BASE_PLAN.fibre, sharing: "ceiling" },
        panels: [{ id: "P", outline }],
        frame: { batten: { width: 38, depth: 38 }, crossBattens: 0, ...frame },
      }),
    ),
  )[0]!;

const regular = (n: number, radius: number) =>
  Array.from({ length: n }, (_, i) => [
    900 + radius * Math.cos((2 * Math.PI * i) / n),
    900 + radius * Math.sin((2 * Math.PI * i) / n),
  ]);

const edgesOf = ({ frame }: WorkPanel) => frame!.battens.filter(({ kind }) => kind === "edge");
const areaOf = (panel: WorkPanel) => edgesOf(panel).reduce((sum, { ring }) => sum + signedAreaMm2(ring), 0);

describe("edge battens", () => {
  it("of a regular polygon cover its mitred ring", () => {
    // Closed form: a regular n-gon of apothem a has the area n a^2 tan(pi / n).
    for (const n of [3, 4, 5, 6, 8, 12]) {
      const apothem = 400 * Math.cos(Math.PI / n);
      const area = (a: number) => n * a * a * Math.tan(Math.PI / n);
      const panel = framed(regular(n, 400), { inset: 6 });
      expect(areaOf(panel) / (area(apothem - 6) - area(apothem - 44))).toBeCloseTo(1, 9);
      expect(edgesOf(panel)).toHaveLength(n);
      const within = panel.frame!.within.reduce((sum, ring) => sum + signedAreaMm2(ring), 0);
      expect(within / area(apothem - 44)).toBeCloseTo(1, 9);
    }
  });

  it("of an L cover what a sum of rectangles says", () => {
    // By hand: 600 x 300 + 300 x 300 = 270,000; drawn in by 38 it is 524 x 224 + 224 x 300 (from 262 to 562 up) = 184,576.
    const panel = framed(
      [
        [0, 0],
        [600, 0],
        [600, 300],
        [300, 300],
        [300, 600],
        [0, 600],
      ],
      {},
    );
    expect(signedAreaMm2(panel.boardRing)).toBe(270_000);
    expect(areaOf(panel)).toBeCloseTo(270_000 - 184_576, 6);
  });

  const CHAMFERED = [
    [20, 0],
    [700, 0],
    [720, 20],
    [720, 500],
    [700, 520],
    [15, 520],
    [0, 505],
    [0, 25],
  ];
  const NARROW = [
    [0, 0],
    [700, 0],
    [700, 70],
    [400, 70],
    [400, 500],
    [0, 500],
  ];
  const STEPPED = [
    [0, 0],
    [700, 0],
    [700, 300],
    [690, 300],
    [690, 310],
    [680, 310],
    [680, 320],
    [300, 320],
    [300, 330],
    [0, 330],
  ];
  const FIXTURE = [
    [0, 0],
    [270, 0],
    [270, 60],
    [290, 75],
    [310, 60],
    [310, 0],
    [640, 0],
    [640, 400],
    [0, 400],
  ];
  for (const [name, outline] of Object.entries({
    CHAMFERED,
    NARROW,
    STEPPED,
    FIXTURE,
    seven: regular(7, 300),
  })) {
    for (const inset of [0, 9]) {
      it(`cover exactly the points from ${inset} to ${inset + 38} mm inside the outline: ${name}`, () => {
        const panel = framed(outline, { inset });
        const rings = edgesOf(panel).map(({ ring }) => ring);
        expect(rings.length).toBeGreaterThan(0);
        for (const ring of rings) {
          expect(isSimple(ring)).toBe(true);
          expect(signedAreaMm2(ring)).toBeGreaterThan(0);
        }
        const board = panel.exactRing as readonly Point[];
        const random = lehmer(99);
        let [on, off] = [0, 0];
        for (let i = 0; i < 4000; i++) {
          const p: Point = [random() * panel.board.widthMm, random() * panel.board.lengthMm];
          // Beside a border rounding decides (pieces of short-sided outlines are whole 1/10,000 mm).
          if (!isIn(p, board) || rings.some((ring) => toLoop(p, ring) < 1e-3)) continue;
          const wood = isInBand(p, board, inset + 38) && (inset === 0 || !isInBand(p, board, inset));
          expect([...p, rings.filter((ring) => isIn(p, ring)).length]).toEqual([...p, wood ? 1 : 0]);
          if (wood) on++;
          else off++;
        }
        expect(on).toBeGreaterThan(300);
        expect(off).toBeGreaterThan(300);
      });
    }
  }
});

describe("cross battens", () => {
  it("stand at k/(n+1) of the longer side, along the shorter, cut at the outline", () => {
    const panel = framed(
      [
        [0, 0],
        [900, 0],
        [900, 200],
        [600, 200],
        [600, 100],
        [300, 100],
        [300, 200],
        [0, 200],
      ],
      { crossBattens: 2 },
    );
    // By hand: centres at 300 and 600 of 900; each half under the notch, half beside it.
    const crosses = panel.frame!.battens.filter(({ kind }) => kind === "cross");
    expect(crosses.map(({ from }) => from[0])).toEqual([300, 600]);
    expect(crosses.map(({ ring }) => signedAreaMm2(ring))).toEqual([
      19 * 200 + 19 * 100,
      19 * 200 + 19 * 100,
    ]);
  });

  it("divide the width of a square", () => {
    const plan = planWith({
      panels: [{ id: "P", x: 0, y: 0, width: 600, length: 600 }],
      frame: { batten: { width: 38, depth: 38 }, crossBattens: 1 },
    });
    const [panel] = workPanels(inCeilingFrame(plan));
    const cross = frameOf(panel!, plan.frame as FramePlan).battens.find(({ kind }) => kind === "cross")!;
    expect([cross.from, cross.to]).toEqual([
      [300, 0],
      [300, 600],
    ]);
  });
});
