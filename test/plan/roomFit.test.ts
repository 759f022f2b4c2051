import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { planYaml } from "../../src/outputs/planYaml.ts";
import { InputError, UnbuildableError } from "../../src/plan/errors.ts";
import type { RoomMeasuresPlan } from "../../src/plan/plan.ts";
import { readPlan } from "../../src/plan/read.ts";
import { fitRoom, type RoomFit } from "../../src/plan/roomFit.ts";
import { inCeilingFrame } from "../../src/projection/frames.ts";
import { planWith } from "./testPlan.ts";

/**
 * Worked by hand with the law of cosines. Lower wall 4000, right wall 3000 and the diagonal between them 5000: a 3-4-5
 * triangle, so the upper right corner is (4000, 3000). Left wall 2500 at an angle of cosine 0.28 (7-24-25) to the lower wall: the
 * upper left corner is (700, 2400), and the other diagonal is the root of 4000^2 + 2500^2 - 2 x 4000 x 2500 x 0.28. The upper
 * wall is the root of 3300^2 + 600^2.
 */
const BY_HAND: RoomMeasuresPlan = {
  sides: { bottom: 4000, right: 3000, left: 2500, top: Math.sqrt(3300 ** 2 + 600 ** 2) },
  diagonals: {
    risingRight: 5000,
    fallingRight: Math.sqrt(4000 ** 2 + 2500 ** 2 - 2 * 4000 * 2500 * 0.28),
  },
  squareTo: "bottom",
};

const fitted = (measures: RoomMeasuresPlan): RoomFit => {
  const fit = fitRoom(measures);
  if (typeof fit === "string") throw new Error(fit);
  return fit;
};

describe("a room of four measured sides and two diagonals", () => {
  it("has its corners where plane trigonometry puts them", () => {
    const fit = fitted(BY_HAND);
    expect(fit.outline).toEqual([
      [0, 0],
      [4000, 0],
      [4000, 3000],
      [700, 2400],
    ]);
    expect(fit).toMatchObject({ widthMm: 4000, lengthMm: 3000 });
    expect(fit.rmsMm).toBeLessThan(1e-6);
  });

  it("is turned to the wall that it is squared to, and moved to the corner of its bounding rectangle", () => {
    // By hand: turned by the angle of sine 0.28 and cosine 0.96, the left wall stands upright.
    const turned = fitted({ ...BY_HAND, squareTo: "left" });
    const wanted = [
      [0, 0],
      [3840, 1120],
      [3000, 4000],
      [0, 2500],
    ];
    for (const [i, [x, y]] of wanted.entries()) {
      expect(turned.outline[i]![0]).toBeCloseTo(x!, 2);
      expect(turned.outline[i]![1]).toBeCloseTo(y!, 2);
    }
    const flat = fitted({ ...BY_HAND, squareTo: "top" }).outline;
    expect(flat[3]![1]).toBe(flat[2]![1]);
    const upright = fitted({ ...BY_HAND, squareTo: "right" }).outline;
    expect(upright[1]![0]).toBe(upright[2]![0]);
    for (const outline of [flat, upright]) {
      expect(Math.min(...outline.map(([x]) => x))).toBe(0);
      expect(Math.min(...outline.map(([, y]) => y))).toBe(0);
    }
  });

  it("shares an error of one diagonal as statics says", () => {
    // By hand: the measures of a square keep one condition, whose slopes are those of a square frame's state of self-stress: sides 1,
    // diagonals the root of 2 the other way. Least squares leaves the wrong diagonal 2/8 of its error, the other the same, each side 1/8 times the root of 2.
    const diagonal = 3000 * Math.SQRT2;
    const fit = fitted({
      sides: { top: 3000, right: 3000, bottom: 3000, left: 3000 },
      diagonals: { risingRight: diagonal + 8, fallingRight: diagonal },
      squareTo: "bottom",
    });
    const off = fit.misfits.map(({ measuredMm, fittedMm }) => fittedMm - measuredMm);
    for (const side of off.slice(0, 4)) expect(side).toBeCloseTo(Math.SQRT2, 1);
    for (const each of off.slice(4)) expect(each).toBeCloseTo(-2, 1);
    expect(fit.misfits[4]!.aloneMm).toBeCloseTo(diagonal, 4);
    expect(fit.misfits[5]!.aloneMm).toBeCloseTo(diagonal - 8, 1);
  });

  it("fits no worse than any room near it", () => {
    // Second method: the sum of squares in terms of corners, tried all round the fit.
    const length = fc.integer({ min: -4, max: 4 });
    const nudge = fc.double({ min: -3, max: 3, noNaN: true });
    fc.assert(
      fc.property(
        fc.tuple(length, length, length, length, length, length),
        fc.array(nudge, { minLength: 8, maxLength: 8 }),
        (errors, by) => {
          const { sides, diagonals } = BY_HAND;
          const measures: RoomMeasuresPlan = {
            sides: {
              top: sides.top + errors[0],
              right: sides.right + errors[1],
              bottom: sides.bottom + errors[2],
              left: sides.left + errors[3],
            },
            diagonals: {
              risingRight: diagonals.risingRight + errors[4],
              fallingRight: diagonals.fallingRight + errors[5],
            },
            squareTo: "bottom",
          };
          const fit = fitted(measures);
          const squares = (corners: readonly (readonly [number, number])[]) => {
            const span = (i: number, j: number) =>
              Math.hypot(corners[i]![0] - corners[j]![0], corners[i]![1] - corners[j]![1]);
            const { top, right, bottom, left } = measures.sides;
            const { risingRight, fallingRight } = measures.diagonals;
            return (
              (span(2, 3) - top) ** 2 +
              (span(1, 2) - right) ** 2 +
              (span(0, 1) - bottom) ** 2 +
              (span(3, 0) - left) ** 2 +
              (span(0, 2) - risingRight) ** 2 +
              (span(3, 1) - fallingRight) ** 2
            );
          };
          const told = fit.misfits.reduce(
            (sum, { measuredMm, fittedMm }) => sum + (measuredMm - fittedMm) ** 2,
            0,
          );
          // Corners are written to hundredths.
          expect(Math.abs(Math.sqrt(squares(fit.outline)) - Math.sqrt(told))).toBeLessThan(0.03);
          const near = fit.outline.map(([x, y], i) => [x + by[2 * i]!, y + by[2 * i + 1]!] as const);
          expect(squares(near)).toBeGreaterThan(told - 1e-6);
        },
      ),
      { seed: 41, numRuns: 300 },
    );
  });
});

describe("measures that make no room", () => {
  const errorOf = (ceiling: unknown, more: Record<string, unknown> = {}): Error => {
    try {
      planWith({ ceiling, ...more });
    } catch (error) {
      return error as Error;
    }
    throw new Error("no error");
  };
  const square = {
    sides: { top: 2400, right: 1800, bottom: 2400, left: 1800 },
    diagonals: { risingRight: 3000, fallingRight: 3000 },
  };

  it.each([
    [
      "a diagonal longer than the way round the corner",
      { ...square, diagonals: { risingRight: 4300, fallingRight: 3000 } },
      "room-cannot-close",
      "sides.bottom (2400 mm) and sides.right (1800 mm) make 4200 mm together and cannot close with diagonals.risingRight (4300 mm)",
    ],
    [
      "a diagonal 50 mm too long",
      { ...square, diagonals: { risingRight: 3050, fallingRight: 3000 } },
      "room-measures-disagree",
      "diagonals.risingRight 3050 would be 3000",
    ],
    [
      // By hand: upper corners at x = 205 over the right end and 795 over the left end.
      "side walls that cross",
      {
        sides: { top: 590, right: 3000, bottom: 1000, left: 3000 },
        diagonals: { risingRight: 2900, fallingRight: 2900 },
      },
      "room-cannot-close",
      "do not close to a room",
    ],
  ])("%s: geometry, with the measures named", (_, ceiling, code, words) => {
    const error = errorOf(ceiling);
    expect(error).toBeInstanceOf(UnbuildableError);
    expect((error as UnbuildableError).findings).toMatchObject([
      { code, message: expect.stringContaining(words) },
    ]);
  });

  it("are told after what is wrong in the text", () => {
    const error = errorOf(
      { ...square, diagonals: { risingRight: 4300, fallingRight: 3000 } },
      { lightSource: { x: 0, y: 0, above: -1 } },
    );
    expect(error).toBeInstanceOf(InputError);
  });
});

describe("a filled plan of a measured room", () => {
  const ceiling = {
    sides: { top: 3648, right: 2452, bottom: 3660, left: 2440 },
    diagonals: { risingRight: 4410, fallingRight: 4390 },
  };
  it.each(["fromBelow", "reflectedPlan"] as const)("drawn %s is replayed to the same bytes", (drawnAs) => {
    const plan = planWith({ ceiling, drawnAs });
    const again = readPlan(planYaml(plan), "again");
    expect(again).toEqual(plan);
    expect(planYaml(again)).toBe(planYaml(plan));
    expect(plan.ceiling).toMatchObject({ ...ceiling, squareTo: "bottom" });
  });

  it("is the same room from below, whichever way x was measured: names of walls are never turned", () => {
    const below = inCeilingFrame(planWith({ ceiling, drawnAs: "fromBelow" })).ceiling;
    const plan = planWith({ ceiling, drawnAs: "reflectedPlan" });
    const reflected = inCeilingFrame(plan).ceiling;
    for (const [i, [x, y]] of below.outline!.entries()) {
      expect(reflected.outline![i]![0]).toBeCloseTo(x, 9);
      expect(reflected.outline![i]![1]).toBe(y);
      expect(plan.ceiling.outline![i]![0]).toBeCloseTo(below.width - x, 9);
    }
  });

  it("of an outline is replayed too", () => {
    const plan = planWith({
      ceiling: {
        outline: [
          [0, 0],
          ["2.4m", 0],
          [2400, 1800],
          [30, 1790],
        ],
      },
    });
    expect(plan.ceiling).toMatchObject({ width: 2400, length: 1800 });
    expect(planYaml(readPlan(planYaml(plan), "again"))).toBe(planYaml(plan));
  });
});
