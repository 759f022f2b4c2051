import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { placeNumbers, type TemplateHole } from "../../../src/outputs/paper/holeNumbers.ts";
import { marksOf } from "../../../src/outputs/paper/marks.ts";
import { tilesOf } from "../../../src/outputs/paper/tiles.ts";
import { startPdf } from "../../../src/outputs/pdf/document.ts";
import { loadPdfFont } from "../../../src/outputs/pdf/font.ts";
import { rectangleRing } from "../../../src/panel/rings.ts";
import { InputError } from "../../../src/plan/errors.ts";
import { leastOverlapMm, usualOverlapMm } from "../../../src/plan/paper.ts";
import { planWith } from "../../plan/testPlan.ts";

const board = (widthMm: number, lengthMm: number) => ({
  widthMm,
  lengthMm,
  outline: rectangleRing({ xMm: 0, yMm: 0, widthMm, lengthMm }),
});
const sizes = [
  { diameter: 0.5, bit: 0.6 },
  { diameter: 0.75, bit: 0.85 },
  { diameter: 1, bit: 1.1 },
  { diameter: 1.5, bit: 1.65 },
  { diameter: 3, bit: 3.3 },
];

describe("tiles", () => {
  const anything = fc.record({
    widthMm: fc.double({ min: 100, max: 2500, noNaN: true }),
    lengthMm: fc.double({ min: 100, max: 2500, noNaN: true }),
    size: fc.oneof(fc.constantFrom("A4", "A3", "Letter", "Tabloid"), fc.integer({ min: 300, max: 1100 })),
    overlap: fc.integer({ min: 12, max: 40 }),
    measured100: fc.double({ min: 97, max: 103, noNaN: true }),
  });

  it("hold any mark no wider than the overlap whole on one of them, and lie on their page", () => {
    fc.assert(
      fc.property(
        anything,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (it, u, v) => {
          const { paper } = planWith({
            paper: {
              size: typeof it.size === "number" ? { roll: it.size } : it.size,
              overlap: it.overlap + 2,
              measured100: it.measured100,
            },
          });
          const { tiles, pageWidthMm, pageHeightMm, scale } = tilesOf(board(it.widthMm, it.lengthMm), paper);
          const [x, y, r] = [u * it.widthMm, v * it.lengthMm, it.overlap / 2];
          // What lies beyond the board's edge by more than is shown there is no mark.
          const holds = (from: number, span: number, at: number, end: number) =>
            from <= Math.max(at - r, -5.5) + 1e-9 && from + span >= Math.min(at + r, end + 5.5) - 1e-9;
          return (
            tiles.some(
              (t) => holds(t.xMm, t.widthMm, x, it.widthMm) && holds(t.yMm, t.lengthMm, y, it.lengthMm),
            ) &&
            tiles.every(
              (t) =>
                t.widthMm * scale <= pageWidthMm - 2 * paper.margin - 8 + 1e-9 &&
                t.lengthMm * scale <= pageHeightMm - 2 * paper.margin - 20 + 1e-9 &&
                Number.isInteger(t.xMm) &&
                Number.isInteger(t.yMm),
            )
          );
        },
      ),
      { seed: 20040229, numRuns: 300 },
    );
  });

  it("leave room for the mark of any bit, with its number, where two of them meet", () => {
    for (const size of sizes) {
      const mark = marksOf([size]).get(size.diameter)!;
      const { text } = startPdf({ title: "", subject: "" }, font);
      const hole: TemplateHole = { xMm: 0, yMm: 0, mark, number: "888", below: `${size.diameter}` };
      const [place] = placeNumbers([hole], text);
      const left = Math.min(-mark.reachMm, place!.leftMm);
      const right = Math.max(mark.reachMm, place!.leftMm + place!.widthMm);
      expect(right - left).toBeLessThanOrEqual(leastOverlapMm([size]));
    }
    expect(usualOverlapMm(sizes.slice(0, 4))).toBe(14);
  });
});

const font = loadPdfFont(readFileSync("data/fonts/NotoSans-Regular.ttf"));

describe("hole numbers", () => {
  it("stand clear of every mark and of each other on a field of marks 9 mm apart", () => {
    const { text } = startPdf({ title: "", subject: "" }, font);
    const mark = marksOf(sizes).get(0.75)!;
    const holes = Array.from(
      { length: 100 },
      (_, i): TemplateHole => ({
        xMm: 9 * (i % 10),
        yMm: 9 * Math.floor(i / 10),
        mark,
        number: String(i + 1),
        below: "",
      }),
    );
    const boxes = placeNumbers(holes, text).map((place, i) => ({
      x0: holes[i]!.xMm + place.leftMm,
      y0: holes[i]!.yMm + place.bottomMm,
      x1: holes[i]!.xMm + place.leftMm + place.widthMm,
      y1: holes[i]!.yMm + place.bottomMm + place.heightMm,
    }));
    const meet = (a: (typeof boxes)[0], b: (typeof boxes)[0]) =>
      a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1;
    for (const [i, box] of boxes.entries()) {
      for (const [j, { xMm, yMm }] of holes.entries())
        if (i !== j)
          expect(
            meet(box, {
              x0: xMm - mark.reachMm,
              x1: xMm + mark.reachMm,
              y0: yMm - mark.reachMm,
              y1: yMm + mark.reachMm,
            }),
          ).toBe(false);
      for (const other of boxes.slice(i + 1)) expect(meet(box, other)).toBe(false);
    }
  });
});

describe("wrong paper is refused in one sentence", () => {
  it.each([
    [{ size: "A5" }, /paper\.size.*"A5".*A4, A3, Letter, Tabloid or \{roll: 610mm\}/],
    [{ size: { roll: "60mm" } }, /paper\.size.*a roll 60 mm wide is too small/],
    [{ size: { roll: "61m" } }, /paper\.size.*check the unit/],
    [{ size: "A4", margin: "45mm" }, /paper\.margin.*45 mm leaves too little of A4.*write 41mm or less/],
    [{ overlap: "5mm" }, /paper\.overlap.*5 mm is less than the mark.*write 14mm or more/],
    [{ overlap: "150mm" }, /paper\.overlap.*150 mm is over half of a tile/],
    [{ measured100: "110mm" }, /paper\.measured100.*not printed at 100 %/],
    [{ measured10: 100 }, /paper.*did you mean `measured100`/],
  ])("%j", (paper, words) => {
    try {
      planWith({ paper });
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(InputError);
      expect((error as InputError).problems).toHaveLength(1);
      expect((error as InputError).problems[0]).toMatch(words);
    }
  });
});
