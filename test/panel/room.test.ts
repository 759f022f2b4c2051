import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { keepOutPlaces } from "../../src/panel/keepOutPlace.ts";
import { largestRectangle } from "../../src/panel/largestRectangle.ts";
import { layOutPanels, panelBlock } from "../../src/panel/panels.ts";
import { perimeterOf } from "../../src/panel/perimeter.ts";
import { distanceToRing, type Ring, ringHolds, selfCrossing } from "../../src/panel/rings.ts";
import { wallsOf } from "../../src/panel/walls.ts";
import { workPanels } from "../../src/panel/work.ts";
import { UnbuildableError } from "../../src/plan/errors.ts";
import { inCeilingFrame } from "../../src/projection/frames.ts";
import { buildWarnings } from "../../src/schedule/buildWarnings.ts";
import { BASE_PLAN, planWith } from "../plan/testPlan.ts";

const shared = { fibre: { ...BASE_PLAN.fibre, sharing: "ceiling" } };
/** A right-angled room whose upper wall rises by 1 in 40. */
const TAPERED = {
  outline: [
    [0, 0],
    [4000, 0],
    [4000, 3000],
    [0, 2900],
  ],
};
const L_ROOM = {
  outline: [
    [0, 0],
    [5000, 0],
    [5000, 2000],
    [3000, 2000],
    [3000, 4000],
    [0, 4000],
  ],
};

describe("the largest rectangle along the axes", () => {
  it("in a triangle is half of it (Euclid's parallelograms; any analysis text)", () => {
    const box = largestRectangle([
      [
        [0, 0],
        [1000, 0],
        [300, 800],
      ],
    ])!;
    expect(box.widthMm * box.lengthMm).toBeCloseTo((1000 * 800) / 4, -2);
    expect(box.widthMm).toBeCloseTo(500, 1);
    expect(box.lengthMm).toBeCloseTo(400, 1);
  });

  it("in a rectangle is all of it, to the last hundredth", () => {
    expect(
      largestRectangle([
        [
          [10, 10],
          [2390, 10],
          [2390, 1790.55],
          [10, 1790.55],
        ],
      ]),
    ).toEqual({ xMm: 10, yMm: 10, widthMm: 2380, lengthMm: 1780.55 });
  });

  it("in a room with a corner taken out is the larger leg", () => {
    // By hand: 3000 x 4000 is more than 5000 x 2000.
    expect(largestRectangle([L_ROOM.outline as unknown as Ring])).toEqual({
      xMm: 0,
      yMm: 0,
      widthMm: 3000,
      lengthMm: 4000,
    });
  });

  it("is inside, and no smaller than what a search of all pairs of grid points finds", () => {
    const corner = fc.tuple(fc.integer({ min: 0, max: 12 }), fc.integer({ min: 0, max: 12 }));
    let tried = 0;
    fc.assert(
      fc.property(fc.array(corner, { minLength: 4, maxLength: 7 }), (corners) => {
        const ring = corners.map(([x, y]) => [x * 100, y * 100] as const);
        fc.pre(selfCrossing(ring) === null);
        tried++;
        const found = largestRectangle([ring]);
        if (found !== null) {
          const { xMm: x, yMm: y, widthMm: w, lengthMm: l } = found;
          for (let i = 0; i <= 20; i++) {
            for (const [px, py] of [
              [x + (w * i) / 20, y],
              [x + (w * i) / 20, y + l],
              [x, y + (l * i) / 20],
              [x + w, y + (l * i) / 20],
            ] as const)
              expect(ringHolds(ring, px, py) || distanceToRing(ring, px, py) < 0.002).toBe(true);
          }
        }
        expect((found?.widthMm ?? 0) * (found?.lengthMm ?? 0)).toBeGreaterThan(byGrid(ring) - 40);
      }),
      { seed: 42, numRuns: 400 },
    );
    expect(tried).toBeGreaterThan(100);
  });
});

/** Whole squares of 25 mm inside the ring, and the largest rectangle of them: no code shared. */
function byGrid(ring: Ring): number {
  const n = 48;
  const free = Array.from({ length: n }, (_, row) =>
    Array.from({ length: n }, (_, column) => ringHolds(ring, column * 25 + 12.3, row * 25 + 12.1)),
  );
  // Squares that a side runs through, walked in short steps; one that only grazes a square's rim does not count.
  for (const [i, [ax, ay]] of ring.entries()) {
    const [bx, by] = ring[(i + 1) % ring.length]!;
    const steps = Math.ceil(Math.hypot(bx - ax, by - ay) / 0.5);
    for (let k = 0; k <= steps; k++) {
      const [x, y] = [ax + ((bx - ax) * k) / steps, ay + ((by - ay) * k) / steps];
      const grazes = (at: number) => Math.min(at % 25, 25 - (at % 25)) < 0.5;
      const row = free[Math.floor(y / 25)];
      if (row !== undefined && !grazes(x) && !grazes(y)) row[Math.floor(x / 25)] = false;
    }
  }
  const heights = new Array<number>(n).fill(0);
  let best = 0;
  for (const row of free) {
    for (const [i, cell] of row.entries()) heights[i] = cell ? heights[i]! + 1 : 0;
    for (let i = 0; i < n; i++) {
      let low = heights[i]!;
      for (let j = i; j < n && low > 0; j++) {
        low = Math.min(low, heights[j]!);
        best = Math.max(best, low * (j - i + 1));
      }
    }
  }
  // A side may graze as many squares as the rectangle is long, by half a millimetre each: less than two squares in all.
  return Math.max(0, best - 2) * 625;
}

describe("a grid of panels in a room that is no rectangle", () => {
  it("is square to the axes and leaves all taper to the perimeter", () => {
    // By hand: the upper wall's line is y = 2900 + x / 40; 10 mm square to it is 10 x root(1 + 1/1600) = 10.003 below. At x = 10 that is 2890.247.
    const plan = planWith({ ...shared, ceiling: TAPERED, panels: { columns: 2, rows: 1 } });
    expect(panelBlock(plan, 10)).toEqual({ xMm: 10, yMm: 10, widthMm: 3980, lengthMm: 2880.24 });
    const panels = layOutPanels(plan);
    expect(panels.map(({ finished }) => finished.widthMm)).toEqual([1988.5, 1988.5]);
    const gaps = new Map(
      perimeterOf(plan, panels).map(({ wall, fromMm, toMm }) => [wall.side, [fromMm, toMm]]),
    );
    expect(gaps.get("bottom")).toEqual([10, 10]);
    expect(gaps.get("left")![0]).toBeCloseTo(10, 9);
    expect(gaps.get("top")![0]).toBeCloseTo(10.007, 2);
    // At x = 3990: (2900 + 99.75 - 2890.24) / root(1 + 1/1600) = 109.476.
    expect(gaps.get("top")![1]).toBeCloseTo(109.476, 2);
  });

  it("keeps the perimeter to every wall of any measured room", () => {
    const error = fc.integer({ min: -30, max: 30 });
    fc.assert(
      fc.property(
        fc.array(error, { minLength: 8, maxLength: 8 }),
        fc.constantFrom("top", "right", "bottom", "left"),
        fc.integer({ min: 0, max: 40 }),
        (by, squareTo, perimeter) => {
          const c = [
            [0, 0],
            [3660, 0],
            [3660, 2440],
            [0, 2440],
          ].map(([x, y], i) => [x! + by[2 * i]!, y! + by[2 * i + 1]!]);
          const span = (i: number, j: number) => Math.hypot(c[i]![0]! - c[j]![0]!, c[i]![1]! - c[j]![1]!);
          const plan = planWith({
            ...shared,
            ceiling: {
              sides: { top: span(2, 3), right: span(1, 2), bottom: span(0, 1), left: span(3, 0) },
              diagonals: { risingRight: span(0, 2), fallingRight: span(3, 1) },
              squareTo,
            },
            panels: { columns: 2, rows: 2, perimeter },
          });
          const ring = plan.ceiling.outline! as Ring;
          const least = layOutPanels(plan).flatMap(({ finishedRing }) =>
            finishedRing.map(([x, y]) => (ringHolds(ring, x, y) ? 1 : -1) * distanceToRing(ring, x, y)),
          );
          expect(Math.min(...least)).toBeGreaterThan(perimeter - 0.002);
          // And wastes nothing: some panel stands at the perimeter.
          expect(Math.min(...least)).toBeLessThan(perimeter + 0.02);
        },
      ),
      { seed: 43, numRuns: 60 },
    );
  });

  it("finds no room where the perimeter eats it all", () => {
    expect(() =>
      layOutPanels(planWith({ ceiling: TAPERED, panels: { columns: 1, rows: 1, perimeter: 1600 } })),
    ).toThrow("leave no room for 1 x 1 panels");
  });
});

describe("what lies outside the room", () => {
  const findings = (changes: Record<string, unknown>) => {
    try {
      workPanels(inCeilingFrame(planWith({ ...shared, ...changes })));
    } catch (error) {
      if (error instanceof UnbuildableError) return error.findings;
      throw error;
    }
    return [];
  };
  const panel = (id: string, x: number, y: number, width: number, length: number) => ({
    id,
    x,
    y,
    width,
    length,
  });

  it("is refused for a panel past a slanted wall, and for one that a wall's corner pokes into", () => {
    // By hand: at x = 1000 the upper wall is at 2925.
    expect(findings({ ceiling: TAPERED, panels: [panel("a", 1000, 2000, 500, 925)] })).toEqual([]);
    expect(findings({ ceiling: TAPERED, panels: [panel("a", 1000, 2000, 500, 930)] })).toMatchObject([
      {
        code: "panel-outside-ceiling",
        message: expect.stringMatching(/^panel a leaves the room: past the walls lie 200 x 5 mm about/),
      },
    ]);
    const pier = {
      outline: [
        [0, 0],
        [2000, 0],
        [2000, 2000],
        [1040, 2000],
        [1040, 1000],
        [1000, 1000],
        [1000, 2000],
        [0, 2000],
      ],
    };
    expect(findings({ ceiling: pier, panels: [panel("under", 500, 100, 1000, 900)] })).toEqual([]);
    expect(findings({ ceiling: pier, panels: [panel("into", 500, 100, 1000, 1000)] })).toMatchObject([
      { message: expect.stringContaining("40 x 100 mm about [1020, 1050]") },
    ]);
  });

  it("is refused for an outline that crosses itself or has no area", () => {
    expect(
      findings({
        ceiling: {
          outline: [
            [0, 0],
            [2000, 2000],
            [2000, 0],
            [0, 2000],
          ],
        },
      }),
    ).toMatchObject([
      { code: "outline-crosses-itself", message: expect.stringContaining("ceiling: its outline crosses") },
    ]);
    expect(
      findings({
        ceiling: {
          outline: [
            [0, 0],
            [1000, 0],
            [500, 0.00001],
          ],
        },
      }),
    ).toMatchObject([{ code: "no-ceiling" }]);
  });

  it("is refused for a keep-out off the ceiling, and warned about for one that reaches past a wall", () => {
    const at = (x: number, y: number) => ({
      drawnAs: "fromBelow",
      keepOut: [{ id: "lamp", kind: "luminaire", at: [x, y], radius: 50 }],
    });
    expect(findings(at(2440, 900))).toEqual([]);
    expect(findings(at(2451, 900))).toMatchObject([
      {
        code: "keep-out-outside-ceiling",
        message: expect.stringContaining(
          "keep-out lamp (luminaire) lies off the ceiling of 2400 x 1800 mm, at [2451, 900]",
        ),
      },
    ]);
    expect(
      findings({
        drawnAs: "fromBelow",
        keepOut: [
          {
            id: "bow",
            kind: "other",
            outline: [
              [0, 0],
              [500, 500],
              [500, 0],
              [0, 500],
            ],
          },
        ],
      }),
    ).toMatchObject([{ code: "outline-crosses-itself" }]);
    const plan = planWith(at(2390, 900));
    expect(buildWarnings(plan, workPanels(plan)).join()).toMatch(
      /keep-out lamp \(luminaire\) reaches past the walls: 40 x [\d.]+ mm about/,
    );
  });
});

describe("walls", () => {
  it("have their names from below, and their ends where a side has several", () => {
    const plan = planWith({ ceiling: L_ROOM, walls: { right: "street wall" } });
    expect(wallsOf(plan).map(({ name }) => name)).toEqual([
      "bottom wall",
      "street wall",
      "top wall from [5000, 2000] to [3000, 2000]",
      "right wall from [3000, 2000] to [3000, 4000]",
      "top wall",
      "left wall",
    ]);
  });

  it("say where keep-outs are: the nearer of each pair, square to it", () => {
    const keepOut = [
      { id: "vent", kind: "grille", x: 400, y: 600, width: 200, length: 300 },
      { id: "spot", kind: "luminaire", at: [2000, 2500], radius: 45 },
    ];
    const words = (changes: Record<string, unknown>) =>
      keepOutPlaces(
        inCeilingFrame(planWith({ keepOut, walls: { bottom: "door wall", top: "window wall" }, ...changes })),
      ).map(({ from }) => from.map(({ wall, mm }) => `${mm.toFixed(2)} from ${wall.name}`).join(", "));
    // By hand: the window wall is at y = 2950 over x = 2000, 450 above, less by the cosine: 450 / root(1 + 1/1600) = 449.86.
    expect(words({ drawnAs: "fromBelow", ceiling: TAPERED })).toEqual([
      "600.00 from door wall, 400.00 from left wall",
      "449.86 from window wall, 2000.00 from left wall",
    ]);
    // Measured on a reflected plan, the same x counts from the other wall, and the room's outline is mirrored with it.
    expect(words({ drawnAs: "reflectedPlan", ceiling: TAPERED })[0]).toBe(
      "600.00 from door wall, 400.00 from right wall",
    );
    // By hand, in the L: toward the right the first wall met from (4000, 500) is that at x = 5000, from (1000, 3000) that at 3000.
    const inL = (x: number, y: number) =>
      words({
        drawnAs: "fromBelow",
        ceiling: L_ROOM,
        keepOut: [{ id: "a", kind: "other", at: [x, y], radius: 20 }],
      })[0];
    expect(inL(4000, 500)).toBe("500.00 from door wall, 1000.00 from right wall");
    expect(inL(2000, 3000)).toBe(
      "1000.00 from window wall, 1000.00 from right wall from [3000, 2000] to [3000, 4000]",
    );
  });
});
