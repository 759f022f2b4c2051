import sharp from "sharp";
import { beforeAll, describe, expect, it } from "vitest";
import { drawMarking } from "../../src/outputs/marking/drawMarking.ts";
import { lensWords } from "../../src/outputs/marking/lensWords.ts";
import { leastScalePx, symbolScalePx } from "../../src/outputs/marking/symbolSize.ts";
import { legendWords } from "../../src/outputs/marking/words.ts";
import { UnbuildableError } from "../../src/plan/errors.ts";
import type { Point } from "../../src/projection/homography.ts";
import { encodePreview } from "../../src/render/index.ts";
import { symbolsOf } from "../../src/render/sizeSymbols.ts";
import { planAndSchedule } from "../../src/schedule/makeSchedule.ts";
import { markingFindings, markingPictures } from "../../src/schedule/marking.ts";
import type { MarkingPicture } from "../../src/schedule/markingTypes.ts";
import type { Hole, Schedule } from "../../src/schedule/types.ts";
import { planWith } from "../plan/testPlan.ts";
import { shippedFont } from "../render/scenes.ts";
import { testSky } from "../sky/testSky.ts";

const font = shippedFont();
const scheduleOf = (changes: Record<string, unknown>): Schedule =>
  planAndSchedule(planWith(changes), testSky()).schedule;

/** Two rows of two panels over a chapel of our own. */
const CHAPEL = {
  panels: { columns: 2, rows: 2 },
  fibre: {
    bundles: { count: 2, strands: { "0.5mm": 60, "0.75mm": 20, "1mm": 10, "1.5mm": 4 } },
    sharing: "ceiling",
  },
};

interface Pixels {
  readonly data: Buffer;
  readonly width: number;
  readonly height: number;
}

/** A picture as another program reads it: decoded from its PNG by libpng, through sharp. */
async function pixelsOf(picture: MarkingPicture, schedule: Schedule): Promise<Pixels> {
  const png = await encodePreview(drawMarking(picture, schedule, font).raster, "png");
  const { data, info } = await sharp(png).raw().toBuffer({ resolveWithObject: true });
  expect([info.width, info.height, info.channels]).toEqual([picture.widthPx, picture.heightPx, 3]);
  return { data, width: info.width, height: info.height };
}

/** Colour is for marks alone, so how far a pixel is from grey says how much of it a mark's outline covers. */
const chromaAt = ({ data, width }: Pixels, column: number, row: number): number => {
  const at = (row * width + column) * 3;
  const rgb = [data[at]!, data[at + 1]!, data[at + 2]!];
  return Math.max(...rgb) - Math.min(...rgb);
};

/** Middle of the colour within a square about a point; pixel centres lie at halves. */
function centroid(pixels: Pixels, [x, y]: Point, reach: number): Point {
  let [sum, sumX, sumY] = [0, 0, 0];
  for (let row = Math.floor(y - reach); row <= y + reach; row++)
    for (let column = Math.floor(x - reach); column <= x + reach; column++) {
      const chroma = chromaAt(pixels, column, row);
      sum += chroma;
      sumX += chroma * (column + 0.5);
      sumY += chroma * (row + 0.5);
    }
  return [sumX / sum, sumY / sum];
}

const REACH_PX = 34;
/** Holes with nothing coloured near them. */
const lonely = <T extends { at: Point }>(marks: readonly T[]): T[] =>
  marks.filter(({ at }) =>
    marks.every(
      (other) => other.at === at || Math.hypot(other.at[0] - at[0], other.at[1] - at[1]) > 2.2 * REACH_PX,
    ),
  );

/** The farthest centroid from where each hole must be, in px. */
function worstPx(
  pixels: Pixels,
  holes: readonly Hole[],
  place: (hole: Hole) => Point,
): { worst: number; count: number } {
  const marks = lonely(holes.map((hole) => ({ hole, at: place(hole) })));
  const off = marks.map(({ at }) => {
    const [x, y] = centroid(pixels, at, REACH_PX);
    return Math.hypot(x - at[0], y - at[1]);
  });
  return { worst: Math.max(...off), count: off.length };
}

describe("a picture for a projector", () => {
  let schedule: Schedule;
  let pictures: readonly MarkingPicture[];
  beforeAll(() => {
    schedule = scheduleOf({ ...CHAPEL, marking: { groups: [["A1", "A2"]] } });
    pictures = markingPictures(schedule);
  });

  it("is made of each panel and of each group", () => {
    expect(pictures.map(({ id }) => id)).toEqual(["A1", "A2", "B1", "B2", "A1+A2"]);
  });

  it("has each hole's mark centred on it to 0.1 px, in true proportion, not mirrored", async () => {
    const picture = pictures[0]!;
    const pixels = await pixelsOf(picture, schedule);
    // The frame is measured from the picture too: the white outline, by its middle along a row and a column through the board.
    const scale = 1 / picture.coarsestMmPerPx;
    const middle = (along: (k: number) => number, from: number, to: number) => {
      let [sum, weighted] = [0, 0];
      for (let k = from; k < to; k++) {
        const value = along(k) === 255 || along(k) > 200 ? along(k) : 0;
        sum += value;
        weighted += value * (k + 0.5);
      }
      return weighted / sum;
    };
    const value = (column: number, row: number) => pixels.data[(row * pixels.width + column) * 3]!;
    // Outer targets and words keep off this row and column.
    const row = 330;
    const column = 330;
    const left = middle((k) => value(k, row), 74, 94);
    const bottom = middle(
      (k) => value(column, k),
      Math.round(84 + picture.lengthMm * scale) - 8,
      Math.round(84 + picture.lengthMm * scale) + 8,
    );
    const top = middle((k) => value(column, k), 76, 92);
    expect((bottom - top) * picture.coarsestMmPerPx).toBeCloseTo(picture.lengthMm, 0);
    const holes = schedule.holes.filter(({ panel }) => panel === "A1");
    const place = (hole: Hole): Point => [left + hole.xMm * scale, bottom - hole.yMm * scale];
    const { worst, count } = worstPx(pixels, holes, place);
    expect(count).toBeGreaterThan(8);
    expect(worst).toBeLessThan(0.1);
    const mirrored = holes.map((hole): Point => place({ ...hole, xMm: picture.widthMm - hole.xMm }));
    const hit = mirrored.filter((at) => Math.abs(centroid(pixels, at, REACH_PX)[0] - at[0]) < 0.1);
    expect(hit.length).toBeLessThan(2);
  });

  it("lays a group out as it hangs: gaps kept, ceiling coordinates to scale", async () => {
    const picture = pictures.at(-1)!;
    const pixels = await pixelsOf(picture, schedule);
    const boards = schedule.panels.filter(({ id }) => id === "A1" || id === "A2");
    const [left, bottom] = [
      Math.min(...boards.map(({ xMm }) => xMm)),
      Math.min(...boards.map(({ yMm }) => yMm)),
    ];
    const holes = schedule.holes.filter(({ panel }) => panel.startsWith("A"));
    // Through ceiling coordinates, which the drawing does not use.
    const scale = 1 / picture.coarsestMmPerPx;
    const place = (hole: Hole): Point => [
      84 + (hole.ceilingXMm - left) * scale,
      84 + (picture.lengthMm - (hole.ceilingYMm - bottom)) * scale,
    ];
    const { worst, count } = worstPx(pixels, holes, place);
    expect(count).toBeGreaterThan(12);
    expect(worst).toBeLessThan(0.1);
  });

  it("shows one size alone when asked", async () => {
    const [only] = markingPictures(schedule, 0.75);
    expect(only!.panels[0]!.holes.every(({ diameterMm }) => diameterMm === 0.75)).toBe(true);
    const pixels = await pixelsOf(only!, schedule);
    const scale = 1 / only!.coarsestMmPerPx;
    const marks = lonely(
      schedule.holes
        .filter(({ panel }) => panel === "A1")
        .map((hole) => ({
          diameterMm: hole.diameterMm,
          at: [84 + hole.xMm * scale, 84 + (only!.lengthMm - hole.yMm) * scale] as Point,
        })),
    );
    for (const { diameterMm, at } of marks)
      expect(Number.isFinite(centroid(pixels, at, 20)[0])).toBe(diameterMm === 0.75);
    expect(() => markingPictures(schedule, 0.6)).toThrow(
      "--only: the plan has no fibre of 0.6 mm; write one of 0.5mm, 0.75mm, 1mm, 1.5mm",
    );
  });

  it("is the same twice, and dark or light as asked", async () => {
    const a = drawMarking(pictures[0]!, schedule, font).raster.data;
    expect(Buffer.compare(a, drawMarking(pictures[0]!, schedule, font).raster.data)).toBe(0);
    const light = scheduleOf({ ...CHAPEL, marking: { background: "light", numbers: true } });
    const [picture] = markingPictures(light);
    const pixels = await pixelsOf(picture!, light);
    expect([...a.subarray(0, 3)]).toEqual([0, 0, 0]);
    expect([...pixels.data.subarray(0, 3)]).toEqual([255, 255, 255]);
    const scale = 1 / picture!.coarsestMmPerPx;
    const holes = light.holes.filter(({ panel }) => panel === "A1");
    const { worst } = worstPx(pixels, holes, ({ xMm, yMm }) => [
      84 + xMm * scale,
      84 + (picture!.lengthMm - yMm) * scale,
    ]);
    expect(worst).toBeLessThan(0.1);
  });

  it("takes the projector's own time at most: well under a second at 4K, unhurried machines aside", () => {
    const started = performance.now();
    drawMarking(pictures[0]!, schedule, font);
    expect(performance.now() - started).toBeLessThan(3000);
  });
});

describe("check marks", () => {
  it("stay where they are whichever size is shown, plain or squared", () => {
    const schedule = scheduleOf({ ...CHAPEL, marking: { groups: [["A1", "A2"]] } });
    const all = markingPictures(schedule).map(({ checks }) => checks);
    expect(all.flat().length).toBeGreaterThan(9);
    for (const onlyMm of [0.5, 0.75, 1, 1.5])
      expect(markingPictures(schedule, onlyMm).map(({ checks }) => checks)).toEqual(all);
  });

  it("do not move when corners are measured, nor do marks and symbols meet where there is room", () => {
    const schedule = scheduleOf({ ...CHAPEL, marking: { pixels: [1920, 1080], coarsest: 3 } });
    const plain = markingPictures(schedule)[0]!;
    const corners = {
      lowerLeft: [400, 900],
      lowerRight: [1500, 1000],
      upperRight: [1400, 150],
      upperLeft: [480, 100],
    };
    const squared = markingPictures(
      scheduleOf({
        ...CHAPEL,
        marking: { pixels: [1920, 1080], coarsest: 3, keystone: [{ panels: ["A1"], corners }] },
      }),
    )[0]!;
    const places = ({ checks }: MarkingPicture) => checks.map(({ faceMm }) => faceMm);
    expect(places(squared)).toEqual(places(plain));
    // An arm of a mark is 36/2160 of the picture's shorter side, 18 px; the widest symbol reaches 1.8 x 10 px.
    const holes = schedule.holes.filter(({ panel }) => panel === "A1");
    for (const [x, y] of places(plain)) {
      const nearest = Math.min(...holes.map(({ xMm, yMm }) => Math.hypot(xMm - x, yMm - y)));
      expect(nearest / plain.coarsestMmPerPx).toBeGreaterThan(18 + 5.5);
    }
  });
});

describe("symbols in a small picture", () => {
  it("are never too small to show their shape: 4.5 px from the centre to an edge, 5 to a corner", () => {
    for (const symbol of symbolsOf([0.5, 0.75, 1, 1.5]).values())
      for (const unitPx of [1 / 3, 0.5, 1]) {
        const scale = leastScalePx(symbol, unitPx);
        // The edges' distance, by the middles of the edges of these regular shapes.
        const inside = Math.min(
          ...symbol.ring.map(([x, y], k) => {
            const [nx, ny] = symbol.ring[(k + 1) % symbol.ring.length]!;
            return Math.hypot((x + nx) / 2, (y + ny) / 2);
          }),
        );
        expect(inside * scale).toBeGreaterThan(4.49);
        expect(symbol.reachMm * scale).toBeGreaterThan(4.99);
        expect(scale).toBeLessThanOrEqual(symbolScalePx(unitPx));
      }
  });
});

describe("a board out of square", () => {
  it("asks for both its diagonals in a picture too", () => {
    const schedule = scheduleOf(CHAPEL);
    const { widthMm, lengthMm } = schedule.panels[0]!;
    const square = Math.hypot(widthMm, lengthMm);
    const cut = {
      width: widthMm,
      length: lengthMm,
      diagonals: { risingRight: Math.round(square) + 2, fallingRight: Math.round(square) - 2 },
    };
    const skewed = scheduleOf({ ...CHAPEL, asCut: { A1: cut } });
    const picture = markingPictures(skewed)[0]!;
    const text = legendWords(picture, skewed.plan, skewed.holes, symbolsOf([0.5, 0.75, 1, 1.5]))
      .map((one) => one.text)
      .join(" ");
    expect(text).toContain(`lower left to upper right is ${cut.diagonals.risingRight} mm`);
    expect(text).toContain(`upper left to lower right is ${cut.diagonals.fallingRight} mm`);
    expect(text).not.toContain("over all");
  });
});

describe("a picture squared by its corners", () => {
  /** A lens 2.4 m from the board, aside and tilted: three dimensions, not eight unknowns. */
  const see = ([x, y]: Point): Point => {
    const [cos, sin] = [Math.cos(0.25), Math.sin(0.25)];
    const [u, v, w] = [x - 300, -(y - 250), 2400];
    const [v2, w2] = [cos * v + sin * w, -sin * v + cos * w];
    return [1500 + (4200 * u) / w2, 150 + (4200 * v2) / w2];
  };
  const panel = scheduleOf(CHAPEL).panels[0]!;
  const { widthMm: w, lengthMm: l } = panel;
  const corners = {
    lowerLeft: see([0, 0]),
    lowerRight: see([w, 0]),
    upperRight: see([w, l]),
    upperLeft: see([0, l]),
  };

  it("has each mark where the lens sends its hole, to 0.1 px", async () => {
    const schedule = scheduleOf({ ...CHAPEL, marking: { keystone: [{ panels: ["A1"], corners }] } });
    const picture = markingPictures(schedule)[0]!;
    expect(picture.warped).toBe(true);
    const pixels = await pixelsOf(picture, schedule);
    const holes = schedule.holes.filter(({ panel: id }) => id === "A1");
    const { worst, count } = worstPx(pixels, holes, ({ xMm, yMm }) => see([xMm, yMm]));
    expect(count).toBeGreaterThan(8);
    expect(worst).toBeLessThan(0.1);
  });

  it("says what measured check marks tell of the lens, and warns beyond 1 mm", () => {
    const plain = markingPictures(
      scheduleOf({ ...CHAPEL, marking: { keystone: [{ panels: ["A1"], corners }] } }),
    )[0]!;
    expect(plain.checks).toHaveLength(3);
    const found = plain.checks.map(
      ({ faceMm: [x, y] }, k): Point => [x + [0, 0.3, 2][k]!, y + [0, 0.4, 1.5][k]!],
    );
    const told = (measured: readonly Point[]) =>
      lensWords(
        markingPictures(
          scheduleOf({ ...CHAPEL, marking: { keystone: [{ panels: ["A1"], corners, measured }] } }),
        ),
      );
    const [bad] = told(found);
    expect(bad!.warn).toBe(true);
    // Worked by hand: 0, hypot(0.3, 0.4) and hypot(2, 1.5) mm; pixels through the pinhole.
    expect(bad!.text).toContain("1 by 0.0 mm (0.0 px), 2 by 0.5 mm");
    const [a, b] = [see(plain.checks[2]!.faceMm), see(found[2]!)];
    expect(bad!.text).toContain(`3 by 2.5 mm (${Math.hypot(b[0] - a[0], b[1] - a[1]).toFixed(1)} px)`);
    expect(told([found[0]!, found[1]!, plain.checks[2]!.faceMm])[0]!.warn).toBe(false);
  });
});

describe("pictures that cannot be are refused", () => {
  const refused = (changes: Record<string, unknown>): string => {
    try {
      markingPictures(scheduleOf(changes));
    } catch (error) {
      if (error instanceof UnbuildableError) return error.message;
      throw error;
    }
    return "";
  };

  it("when a pixel covers more than 1 mm, with a group that would do, unless the plan accepts it", () => {
    const coarse = { ...CHAPEL, marking: { groups: [["A1", "A2", "B2", "B1"]], pixels: [2800, 1600] } };
    const message = refused(coarse);
    expect(message).toMatch(
      /^marking A1\+A2\+B2\+B1: [\d.]+ mm per pixel in a picture of 2800 x 1600, over 1 mm: take groups of 2, such as [AB]\d\+[AB]\d \(0\.\d+ mm per pixel\)/,
    );
    expect(message).toMatch(/accept it with marking: \{coarsest: [\d.]+mm\}$/);
    expect(refused({ ...CHAPEL, marking: { ...coarse.marking, coarsest: "2mm" } })).toBe("");
    // What check tells beforehand is what make refuses.
    expect(markingFindings(scheduleOf(coarse)).map((one) => one.message)).toEqual(message.split("\n"));
    expect(markingFindings(scheduleOf({ ...CHAPEL }))).toEqual([]);
  });

  it("when panels of a group do not hang together", () => {
    expect(refused({ ...CHAPEL, marking: { groups: [["A1", "B2"]] } })).toBe(
      "marking.groups: A1+B2: B2 is no neighbour of A1; group panels that meet along a seam (beside A1: A2, B1)",
    );
  });

  it.each([
    [{ groups: [["A1", "C9"]] }, /marking\.groups\[0\]\[1\]: there is no panel "C9"/],
    [{ groups: [["A1", "A1"]] }, /marking\.groups\[0\]\[1\]: panel A1 is in this group twice/],
    [
      {
        groups: [
          ["A1", "A2"],
          ["A2", "A1"],
        ],
      },
      /marking\.groups\[1\]: these panels have a picture already, A1\+A2/,
    ],
    [{ groups: [["A1"]] }, /marking\.groups\[0\]: a list of 1 is too short; write a group of 2 to 11/],
    [
      { pixels: [100, 100] },
      /marking\.pixels\[0\]: 100 is out of range; write a whole number of pixels from 640 to 4096/,
    ],
    [{ background: "blue" }, /marking\.background: "blue" is not dark/],
    [{ keystone: [{ panels: ["A1", "A2"], corners: square(0) }] }, /there is no picture of A1\+A2/],
    [
      {
        keystone: [
          { panels: ["A1"], corners: square(0) },
          { panels: ["A1"], corners: square(0) },
        ],
      },
      /given twice/,
    ],
    [
      { keystone: [{ panels: ["A1"], corners: { ...square(0), upperRight: [900, 1500] } }] },
      /convex quadrilateral/,
    ],
    [
      { keystone: [{ panels: ["A1"], corners: { ...square(0), upperRight: [100, 1000] } }] },
      /convex quadrilateral/,
    ],
    [{ keystone: [{ panels: ["A1"], corners: mirrored() }] }, /wrong way round/],
    [{ keystone: [{ panels: ["A1"], corners: square(3000) }] }, /outside the picture of 3840 x 2160/],
  ])("when the plan says %j", (marking, message) => {
    expect(() => planWith({ ...CHAPEL, marking })).toThrow(message);
  });

  it("when a triangle is to be squared by four corners", () => {
    const outline = [
      [10, 10],
      [2000, 10],
      [1000, 1500],
    ];
    expect(
      refused({
        panels: [{ id: "T", outline }],
        marking: { coarsest: 3, keystone: [{ panels: ["T"], corners: square(0) }] },
      }),
    ).toMatch(/marking T: its boards have no four corners/);
  });
});

function square(right: number) {
  return {
    lowerLeft: [100 + right, 1900],
    lowerRight: [1900 + right, 1900],
    upperRight: [1900 + right, 100],
    upperLeft: [100 + right, 100],
  };
}

function mirrored() {
  const { lowerLeft, lowerRight, upperRight, upperLeft } = square(0);
  return { lowerLeft: lowerRight, lowerRight: lowerLeft, upperRight: upperLeft, upperLeft: upperRight };
}
