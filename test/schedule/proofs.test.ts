import { describe, expect, it } from "vitest";
import { proofWords } from "../../src/outputs/proofWords.ts";
import { boardAsCut } from "../../src/schedule/asCut.ts";
import { proofsOf } from "../../src/schedule/proofs.ts";
import type { Hole, PanelRecord } from "../../src/schedule/types.ts";

const board = (outlineMm: readonly (readonly [number, number])[]): PanelRecord => ({
  id: "A1",
  xMm: 0,
  yMm: 0,
  widthMm: Math.max(...outlineMm.map(([x]) => x)),
  lengthMm: Math.max(...outlineMm.map(([, y]) => y)),
  outlineMm,
  battensMm: [],
  screwsMm: [],
  hangersMm: [],
  keepOutMm: [],
  neighbours: [],
  finishedOutlineMm: outlineMm,
  holeCount: 0,
  boredHoles: [],
  boreFirst: [],
});
const RECTANGLE = board([
  [0, 0],
  [800, 0],
  [800, 600],
  [0, 600],
]);
const hole = (number: number, xMm: number, yMm: number, mag: number | null = 3, diameterMm = 0.5): Hole =>
  ({
    hole: `A1-${number}`,
    panel: "A1",
    xMm,
    yMm,
    diameterMm,
    bitMm: diameterMm + 0.1,
    mag,
    name: "",
  }) as Hole;

describe("proofs of a board", () => {
  it("are its size, its diagonals and taped distances, by Pythagoras", () => {
    // Worked by hand: 800 x 600 has diagonals of 1000; (300, 400) lies 500 from (0, 0); (800 - 500, 400) again 500 from (800, 0).
    const proofs = proofsOf(RECTANGLE, [hole(1, 300, 400), hole(2, 500, 400)]);
    expect(proofs.diagonalsMm).toEqual({ risingRight: 1000, fallingRight: 1000 });
    const taped = (name: string) => proofs.taped.find((one) => one.hole === name)!.fromCornersMm;
    expect(taped("A1-1")[0]).toBeCloseTo(500, 9);
    expect(taped("A1-2")[1]).toBeCloseTo(500, 9);
    expect(proofs.turning).toBeNull();
    const words = proofWords(proofs, "FACE").join(" ");
    expect(words).toContain("Board A1 is 800 mm wide and 600 mm long; both diagonals are 1000 mm.");
    expect(words).toContain("A1-1, 0.5 mm fibre: 500 and 640.3 mm.");
    expect(proofWords(proofs, "BACK").join(" ")).toContain("A1-1, 0.5 mm fibre: 640.3 and 500 mm.");
  });

  it("name the brightest five that lie apart, thick fibres first", () => {
    const holes = [
      hole(1, 100, 100, 1, 1.5),
      hole(2, 110, 100, 1.1, 1.5),
      hole(3, 700, 500, 2, 1),
      hole(4, 700, 100, 2.5, 0.75),
      hole(5, 100, 500, 2.6, 0.75),
      hole(6, 400, 300, 4),
      hole(7, 405, 300, 3),
    ];
    expect(proofsOf(RECTANGLE, holes).taped.map((one) => one.hole)).toEqual([
      "A1-1",
      "A1-3",
      "A1-4",
      "A1-5",
      "A1-7",
    ]);
    expect(proofsOf(RECTANGLE, holes.slice(0, 2)).taped).toHaveLength(2);
    expect(proofsOf(RECTANGLE, []).taped).toEqual([]);
  });

  it("tell which way the largest run, the other way on the BACK, and pass over those in line", () => {
    // Right, up, left about (400, 300) with y up: anticlockwise. The brightest three lie in one line.
    const holes = [
      hole(9, 600, 300, 1, 1.5),
      hole(10, 500, 300, 1.1, 1.5),
      hole(11, 200, 300, 1.2, 1.5),
      hole(3, 400, 500, 5, 1),
    ];
    const { turning } = proofsOf(RECTANGLE, holes);
    // By number: 3 is up; 9 right; 10 between. (400,500) to (600,300) to (500,300): clockwise.
    expect(turning).toEqual({ holes: ["A1-3", "A1-9", "A1-10"], sense: "clockwise" });
    const proofs = proofsOf(RECTANGLE, holes);
    expect(proofWords(proofs, "FACE").at(-1)).toContain("A1-3, A1-9, A1-10 run clockwise on the FACE");
    expect(proofWords(proofs, "BACK").at(-1)).toContain("A1-3, A1-9, A1-10 run anticlockwise on the BACK");
    expect(proofsOf(RECTANGLE, holes.slice(0, 3)).turning).toBeNull();
  });

  it("hook the tape on real corners of an outline alone", () => {
    const notched = board([
      [200, 0],
      [800, 0],
      [800, 600],
      [0, 600],
      [0, 150],
      [200, 150],
    ]);
    const proofs = proofsOf(notched, [hole(1, 300, 200)]);
    expect(proofs.diagonalsMm).toEqual({ risingRight: null, fallingRight: 1000 });
    expect(proofs.tapeCorners.map(({ name }) => name)).toEqual(["upper left", "upper right"]);
    // 300 across and 400 down from (0, 600).
    expect(proofs.taped[0]!.fromCornersMm[0]).toBeCloseTo(500, 9);
    expect(proofWords(proofs, "BACK").join(" ")).toContain("lower left to upper right is 1000 mm");
    const diamond = proofsOf(
      board([
        [300, 0],
        [600, 200],
        [300, 400],
        [0, 200],
      ]),
      [hole(1, 300, 200)],
    );
    expect(diamond.tapeCorners.every(({ name }) => name === null)).toBe(true);
    expect(proofWords(diamond, "FACE").join(" ")).toContain("corner at 300, 0");
  });

  it("are those of the board as cut, its lower right corner where the diagonals put it", () => {
    // A board of 800 x 600 whose bottom edge rises by 8 mm over its width: 799.96 across. Diagonals by Pythagoras, by hand.
    const across = Math.sqrt(800 ** 2 - 8 ** 2);
    const diagonals = { risingRight: Math.hypot(across, 608), fallingRight: Math.hypot(across, 592) };
    const cut = boardAsCut(RECTANGLE, {
      frame: "none",
      fabric: { thickness: 0 },
      asCut: { A1: { width: 800, length: 600, diagonals } },
    });
    const proofs = proofsOf(cut, [hole(1, 200, 308)]);
    expect(proofs.diagonalsMm).toEqual(diagonals);
    expect(proofs.taped[0]!.fromCornersMm[1]).toBeCloseTo(Math.hypot(across - 200, 300), 6);
  });
});
