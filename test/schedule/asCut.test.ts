import { describe, expect, it } from "vitest";
import { holesCsv } from "../../src/outputs/holesCsv.ts";
import { UnbuildableError } from "../../src/plan/errors.ts";
import { setKeys } from "../../src/plan/setKeys.ts";
import { STARTER_PLAN } from "../../src/plan/starter.ts";
import { boardAsCut } from "../../src/schedule/asCut.ts";
import { makeSchedule } from "../../src/schedule/makeSchedule.ts";
import { planWith } from "../plan/testPlan.ts";
import { testSky } from "../sky/testSky.ts";

// One panel of 2380 x 1780 mm less 1 mm of fabric all round: a board of 2378 x 1778.
const made = (more: Record<string, unknown>) =>
  makeSchedule(planWith({ fabric: { thickness: 1 }, ...more }), testSky());
const cut = (width: number, length: number, diagonals?: { risingRight: number; fallingRight: number }) => ({
  asCut: { A1: { width, length, ...(diagonals && { diagonals }) } },
});

describe("a board as cut", () => {
  it("keeps every hole's distance from the reference edge, on both lists", () => {
    const schedule = made(cut(2375, 1777));
    const board = boardAsCut(schedule.panels[0]!, schedule.plan);
    expect([board.widthMm, board.lengthMm]).toEqual([2375, 1777]);
    expect(board.outlineMm).toContainEqual([2375, 1777]);
    expect(schedule.holes).toEqual(made({}).holes);
    const rows = (side: "face" | "back") =>
      holesCsv(side, board, schedule.holes)
        .trimEnd()
        .split("\r\n")
        .slice(1)
        .map((row) => row.split(","));
    for (const [i, face] of rows("face").entries()) {
      const back = rows("back")[i]!;
      expect(Number(face[1]) + Number(back[1])).toBeCloseTo(2375, 6);
      expect(back[5]).toBe(face[1]);
      expect(back[2]).toBe(face[2]);
    }
  });

  it("carries the frame that is built to it", () => {
    const schedule = made({ ...cut(2375, 1778), frame: { batten: { width: 38, depth: 19 } } });
    const right = (panel: { battensMm: readonly (readonly (readonly [number, number])[])[] }) =>
      Math.max(...panel.battensMm.flat().map(([x]) => x));
    expect(right(schedule.panels[0]!)).toBe(2378);
    expect(right(boardAsCut(schedule.panels[0]!, schedule.plan))).toBe(2375);
  });

  it("warns of lost margins and of a board out of square, by more than 1 mm", () => {
    const margin = (mm: number) =>
      made(cut(2378 - mm, 1778)).warnings.filter((one) => one.includes("as cut"));
    expect(margin(0)).toEqual([]);
    // Some hole lies within a few mm of its margin of 12 mm at the right edge of 80 and more.
    const schedule = made({});
    const nearest = Math.min(...schedule.holes.map(({ xMm, bitMm }) => 2378 - xMm - bitMm / 2 - 12));
    expect(margin(nearest + 1).join()).toMatch(/A1-\d+.* margin: down to 11 mm from rim to edge/);
    expect(margin(Math.max(0, nearest - 0.5)).join()).not.toContain("margin");
    const square = Math.hypot(2378, 1778);
    const skewed = (by: number) =>
      made(cut(2378, 1778, { risingRight: square + by / 2, fallingRight: square - by / 2 })).warnings.join();
    expect(skewed(0)).not.toContain("out of square");
    expect(skewed(0.7)).not.toContain("out of square");
    // By hand: (d1 - d2)(d1 + d2) / 4 length = 4 x 2 x 2969.2 / (4 x 1778) = 3.34 mm.
    expect(skewed(4)).toContain("diagonals differ by 4 mm, and its lower right corner lies 3.34 mm too high");
    expect(skewed(-4)).toContain("too low");
  });

  it("is refused where a hole would run off it", () => {
    expect(() => made(cut(2000, 1778))).toThrow(UnbuildableError);
    expect(() => made(cut(2000, 1778))).toThrow(/panel A1 as cut \(2000 x 1778 mm\): A1-\d+.* off the board/);
  });

  it("needs a panel that there is, that is a rectangle, and diagonals that close", () => {
    expect(() => planWith({ asCut: { A2: { width: 100, length: 100 } } })).toThrow(
      /asCut\.A2: there is no panel "A2"; /,
    );
    expect(() => planWith(cut(2378, 1778, { risingRight: 2500, fallingRight: 2500 }))).toThrow(
      /asCut\.A1\.diagonals: .* has diagonals of about 2969\.2 mm/,
    );
    expect(() =>
      planWith({
        panels: [
          {
            id: "A1",
            outline: [
              [0, 0],
              [900, 0],
              [900, 900],
            ],
          },
        ],
        asCut: { A1: { width: 900, length: 900 } },
      }),
    ).toThrow(/asCut\.A1: .* an outline is not scaled; write its corners as measured/);
    expect(() => planWith({ asCut: { A1: { width: 0, length: 5 } } })).toThrow(/asCut\.A1\.width/);
  });
});

describe("set", () => {
  it("reaches into the boards as cut, by panel", () => {
    const text = `${STARTER_PLAN}\nasCut: {A1: {width: 1206mm, length: 1205mm}}\n`;
    const { text: changed } = setKeys(text, "plan.yaml", {
      pairs: [["asCut.A1.width", "1205mm"]],
      unset: [],
    });
    expect(changed).toContain("asCut: {A1: {width: 1205mm, length: 1205mm}}");
  });
});
