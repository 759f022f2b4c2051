import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { makePlacer } from "../../src/panel/placement.ts";
import { workPanels } from "../../src/panel/work.ts";
import { UnbuildableError } from "../../src/plan/errors.ts";
import { inCeilingFrame } from "../../src/projection/frames.ts";
import { BASE_PLAN, planWith } from "../plan/testPlan.ts";
import { bruteCeiling, isIn, type Point, spareMm } from "./bruteForce.ts";
import { CEILING, layouts, lehmer, planOf } from "./randomLayouts.ts";

const RUNS = Number(process.env.LAYOUTS ?? 60);
const SEED = Number(process.env.SEED ?? 4711);
const BIT_MM = 0.85;
/** Written hundredths and what is kept for them (0.0075 mm, 0.0125 mm from circles), in a sharp corner more. */
const WRITTEN_MM = 0.05;

describe("the nearest legal place", () => {
  it(`is legal, and nothing nearer is: a dense search of the circle just inside it (seed ${SEED})`, () => {
    let searched = 0;
    fc.assert(
      fc.property(layouts, (layout) => {
        const plan = planOf(layout);
        const ceiling = bruteCeiling(plan);
        let placer: ReturnType<typeof makePlacer>;
        try {
          placer = makePlacer(workPanels(inCeilingFrame(plan)), plan.holes, plan.frame);
        } catch (error) {
          if (error instanceof UnbuildableError) return;
          throw error;
        }
        const isLegal = (p: Point, own: string | undefined) =>
          ceiling.panels.some(
            (panel) =>
              (own === undefined || own === panel.id) &&
              spareMm(p, panel, ceiling, BIT_MM, plan.holes).every(({ mm }) => mm >= -1e-6),
          );
        const random = lehmer(layout.seed);
        for (let i = 0; i < 6; i++) {
          const star: Point = [random() * CEILING.width, random() * CEILING.length];
          const place = placer.nearestPlace(...star, BIT_MM);
          const own = ceiling.panels.find(({ finished }) => isIn(star, finished))?.id;
          if (place === null) {
            expect(isLegal(star, own)).toBe(false);
            continue;
          }
          expect(Math.hypot(place.xMm - star[0], place.yMm - star[1])).toBeCloseTo(place.shiftMm, 6);
          if (place.shiftMm === 0) continue;
          expect(isLegal([place.xMm, place.yMm], own)).toBe(true);
          const radius = place.shiftMm - WRITTEN_MM;
          if (radius <= 0) continue;
          searched++;
          const steps = Math.min(600, Math.ceil((2 * Math.PI * radius) / 0.2));
          for (let k = 0; k < steps; k++) {
            const angle = (2 * Math.PI * k) / steps;
            const p: Point = [star[0] + radius * Math.cos(angle), star[1] + radius * Math.sin(angle)];
            if (isLegal(p, own)) expect.fail(`${p} is legal and nearer to ${star} than ${place.shiftMm} mm`);
          }
        }
      }),
      { numRuns: RUNS, seed: SEED },
    );
    expect(searched).toBeGreaterThan(RUNS);
  }, 300_000);

  const shared = { fibre: { ...BASE_PLAN.fibre, sharing: "ceiling" }, drawnAs: "fromBelow" };
  const nearest = (changes: Record<string, unknown>, x: number, y: number, bitMm = 0.6) => {
    const plan = planWith({ ...shared, ...changes });
    return makePlacer(workPanels(inCeilingFrame(plan)), plan.holes, plan.frame).nearestPlace(x, y, bitMm)!;
  };

  it("beside a round keep-out lies on the ray from its centre", () => {
    // By hand: 80 + 12 + 0.3 from the centre; the star is 50 from it (30 right, 40 up).
    const lamp = { id: "lamp", kind: "luminaire", at: [1000, 900], radius: 80 };
    const place = nearest({ keepOut: [lamp] }, 1030, 940);
    expect(place.shiftMm).toBeCloseTo(92.3 - 50, 1);
    expect(place.xMm).toBeCloseTo(1000 + 0.6 * 92.3, 1);
    expect(place.yMm).toBeCloseTo(900 + 0.8 * 92.3, 1);
    expect(Math.hypot(place.xMm - 1000, place.yMm - 900)).toBeGreaterThanOrEqual(92.3);
    // In the very centre every way out is as far.
    expect(nearest({ keepOut: [lamp] }, 1000, 900).shiftMm).toBeCloseTo(92.3, 1);
  });

  it("beyond the corner of a board is the corner of its legal area", () => {
    // By hand: the board begins at 10; 12 + 0.3 inside that, 22.3 from the ceiling's corner on both axes.
    expect(nearest({}, 0, 0).shiftMm).toBeCloseTo(Math.hypot(22.3, 22.3), 9);
  });

  const L = [
    [0, 0],
    [600, 0],
    [600, 300],
    [300, 300],
    [300, 600],
    [0, 600],
  ];
  it("behind a notch keeps round its corner without a frame, and off the mitre with one", () => {
    // The notch's corner is at 300, 300. A star on the board, 2 mm from it on the diagonal, goes on to 12.3 mm.
    const panels = [{ id: "L", outline: L }];
    const bare = nearest({ panels }, 300 - Math.SQRT2, 300 - Math.SQRT2);
    expect(bare.shiftMm).toBeCloseTo(12.3 - 2, 1);
    // Past the corner, in the notch, the way is straight down or straight left.
    expect(nearest({ panels }, 302, 302).shiftMm).toBeCloseTo(2 + 12.3, 9);
    // With battens of 38 the mitre's corner is at 262, 262: from 1 mm beside it to rim 5 and radius 0.3, along the diagonal.
    const frame = { batten: { width: 38, depth: 38 }, crossBattens: 0 };
    expect(nearest({ panels, frame }, 261, 261).shiftMm).toBeCloseTo(5.3 - Math.SQRT2, 1);
    // On the mitre itself straight left: 298 - (262 - 5.3).
    expect(nearest({ panels, frame }, 298, 298).shiftMm).toBeCloseTo(298 - 256.7, 9);
  });

  it("under a cross batten is beside it, on the nearer side", () => {
    // Board 2380 wide: the cross batten's centre at 1190, half of it 19, then 5.3.
    const plan = { frame: { batten: { width: 38, depth: 38 }, crossBattens: 1 } };
    const place = nearest(plan, 10 + 1195, 700);
    expect(place.xMm).toBeCloseTo(10 + 1190 + 19 + 5.3, 9);
    expect(place.yMm).toBe(700);
    expect(nearest(plan, 10 + 1185, 700).xMm).toBeCloseTo(10 + 1190 - 19 - 5.3, 9);
  });
});
