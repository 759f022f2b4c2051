import fc from "fast-check";
import sharp from "sharp";
import { describe, expect, it } from "vitest";
import type { CeilingScene } from "../../src/render/index.ts";
import { drawCeiling } from "../../src/render/index.ts";
import { attribute, elements, group, groupsOf, paperFrame, words } from "./drawingReader.ts";
import { seeded, shippedFont } from "./scenes.ts";

const font = shippedFont();

/** An invented ceiling of a grid of panels, lamps on it, and holes that only need their places. */
function inventedCeiling(
  seed: number,
  widthMm: number,
  lengthMm: number,
  columns: number,
  rows: number,
): CeilingScene {
  const random = seeded(seed);
  const [w, l] = [widthMm / columns, lengthMm / rows];
  const panels = Array.from({ length: columns * rows }, (_, i) => {
    const [x, y] = [(i % columns) * w, Math.floor(i / columns) * l];
    const finished = [
      [x + 1, y + 1],
      [x + w - 1, y + 1],
      [x + w - 1, y + l - 1],
      [x + 1, y + l - 1],
    ] as const;
    return {
      id: `P${i}`,
      finished,
      board: finished,
      isRectangle: true,
      battens: [],
      screws: [],
      hangers: [],
    };
  });
  const holes = Array.from({ length: 200 }, (_, i) => {
    const [x, y] = [random() * widthMm, random() * lengthMm];
    return {
      hole: `P0-${i + 1}`,
      panel: "P0",
      xMm: x,
      yMm: y,
      diameterMm: 0.5,
      bitMm: 0.6,
      kind: "star" as const,
      hip: null,
      name: "",
      constellation: "Cru",
      mag: 3,
      bv: null,
      altDeg: 60,
      azDeg: 0,
      skyXMm: x,
      skyYMm: y,
      ceilingXMm: x,
      ceilingYMm: y,
      shiftMm: 0,
      merged: [],
      bundle: null,
      lengthMm: null,
    };
  });
  return {
    widthMm,
    lengthMm,
    walls: { top: "harbour", right: "stair", bottom: "street", left: "yard" },
    room: [
      { from: [0, 0], to: [widthMm, 0], side: "bottom", name: "street" },
      { from: [widthMm, 0], to: [widthMm, lengthMm], side: "right", name: "stair" },
      { from: [widthMm, lengthMm], to: [0, lengthMm], side: "top", name: "harbour" },
      { from: [0, lengthMm], to: [0, 0], side: "left", name: "yard" },
    ],
    isRoomRectangle: true,
    panels,
    keepOuts: Array.from({ length: 12 }, (_, i) => ({
      id: `lamp${i}`,
      kind: "luminaire" as const,
      stars: "move" as const,
      upToMm: null,
      frontMm: 0,
      behindMm: 0,
      shape: {
        at: [widthMm * (0.1 + 0.8 * random()), lengthMm * (0.1 + 0.8 * random())] as const,
        radiusMm: Math.min(widthMm, lengthMm) / 60,
      },
    })),
    holes,
    planSizesMm: [0.5],
    sizes: [{ diameterMm: 0.5, bitMm: 0.6, count: 200 }],
    bored: new Set(),
    reliefMm: null,
    compass: [{ letter: "N", xMm: widthMm / 2, yMm: lengthMm }],
    northward: { xMm: 0, yMm: 1 },
    title: "Invented",
    place: "nowhere",
    moment: "2004-02-29 23:30:00Z (UTC 2004-02-29 23:30:00)",
    facing: "harbour (top edge) lies toward 0.0 degrees, TRUE",
    build: [],
  };
}

const DENOMINATORS = [1, 1.5, 2, 2.5, 3, 4, 5, 7.5].flatMap((n) => [n, 10 * n, 100 * n]);

describe("the sheet of a working drawing", () => {
  it("is an A3 with nothing beyond its frame, at a round scale, for a ceiling of any shape", async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 0, max: 2 ** 31 }),
        fc.integer({ min: 300, max: 20_000 }),
        fc.integer({ min: 300, max: 20_000 }),
        fc.integer({ min: 1, max: 12 }),
        fc.integer({ min: 1, max: 12 }),
        async (seed, widthMm, lengthMm, columns, rows) => {
          const { svg, sheet } = drawCeiling(
            inventedCeiling(seed, widthMm, lengthMm, columns, rows),
            font,
            840,
          );
          expect([sheet.widthMm, sheet.heightMm].sort()).toEqual([297, 420]);
          const { denominator, left, right, top, bottom } = paperFrame(svg);
          expect(DENOMINATORS).toContain(denominator);
          expect(right - left).toBeCloseTo(widthMm / denominator, 1.7);
          expect(bottom - top).toBeCloseTo(lengthMm / denominator, 1.7);
          // 2 px a mm: the 7 mm outside the frame are white all round.
          const { data, info } = await sharp(Buffer.from(svg), { unlimited: true })
            .flatten()
            .greyscale()
            .raw()
            .toBuffer({ resolveWithObject: true });
          const edge = Math.floor((7.5 * info.width) / sheet.widthMm);
          let darkest = 255;
          for (let y = 0; y < info.height; y++)
            for (let x = 0; x < info.width; x++) {
              const inside = x >= edge && y >= edge && x < info.width - edge && y < info.height - edge;
              if (!inside) darkest = Math.min(darkest, data[y * info.width + x]!);
            }
          expect(darkest).toBe(255);
          // The ceiling and its walls keep clear of the legend.
          for (const column of sheet.columns) {
            const apart =
              column.xMm > right + 6 || column.yMm > bottom + 6 || column.xMm + column.widthMm < left - 6;
            expect(apart).toBe(true);
          }
          expect(words(group(svg, "legend"))).toContain("200");
          expect(groupsOf(svg, "panel-name")).toHaveLength(columns * rows);
          expect(groupsOf(group(svg, "inside-words"), "dimension")).toHaveLength(24);
          expect(words(group(svg, "legend")).join(" ")).toContain(
            "2 more: their figures stand on the drawing.",
          );
        },
      ),
      { numRuns: 20, seed: 11 },
    );
  }, 60_000);

  it("shows a ceiling no smaller than it must: the next larger scale would not fit", () => {
    // By hand: 84 mm of legend, 12 mm to each side, 5 mm between, 6 mm of wall at both sides and at least 8 mm of dimensions
    // at the left leave at most 420 - 84 - 24 - 5 - 12 - 8 = 287 mm across: 4200 mm need 1 : 15; 1 : 10 would be 420 mm.
    const { svg } = drawCeiling(inventedCeiling(3, 4200, 3000, 3, 2), font);
    expect(paperFrame(svg).denominator).toBe(15);
  });

  it("gets smaller symbols where holes are crowded, so that they can be told apart", () => {
    const sparse = inventedCeiling(5, 4200, 3000, 3, 2);
    const random = seeded(8);
    const crowded = {
      ...sparse,
      holes: Array.from({ length: 20_000 }, (_, i) => ({
        ...sparse.holes[0]!,
        hole: `P0-${i + 1}`,
        ceilingXMm: random() * 4200,
        ceilingYMm: random() * 3000,
      })),
    };
    const radius = (svg: string) =>
      Number(
        /^M([\d.]+)/.exec(
          attribute(elements(svg, "path").find((path) => attribute(path, "id") === "size-0_5")!, "d"),
        )![1],
      );
    const drawn = drawCeiling(crowded, font).svg;
    expect(elements(group(drawn, "holes"), "use")).toHaveLength(20_000);
    expect(radius(drawn)).toBeLessThan(0.7 * radius(drawCeiling(sparse, font).svg));
    // 1.6 MB: what a browser opens at once.
    expect(drawn.length).toBeLessThan(100 * 20_000);
  });

  it("keeps figures of neighbouring dimensions apart, and dimension lines that run alike", () => {
    const { svg } = drawCeiling(inventedCeiling(7, 12_000, 3000, 12, 3), font);
    // Figures at the bottom: centres and heights of their baselines; widths from the digits, none wider than 0.6 em.
    const chain = groupsOf(svg, "chain").find((one) => attribute(one, "data-wall") === "bottom")!;
    const figures = [
      ...chain.matchAll(/aria-label="([^"]*)" transform="translate\(([\d.]+) ([\d.]+)\)/g),
    ].map(([, text, x, y]) => ({ half: (text!.length * 0.6 * 2.4) / 2, x: Number(x), y: Number(y) }));
    expect(figures).toHaveLength(25); // 12 panels, 11 gaps, 2 ends
    for (const [i, a] of figures.entries())
      for (const b of figures.slice(i + 1))
        expect(Math.abs(a.x - b.x) > 0.9 * (a.half + b.half) || Math.abs(a.y - b.y) > 2.4).toBe(true);
    const lines = groupsOf(group(svg, "inside-lines"), "dimension").map((one) => {
      const [x0, y0, x1, y1] = /^M(\S+) (\S+)L(\S+) (\S+)/
        .exec(attribute(elements(one, "path")[0]!, "d"))!
        .slice(1)
        .map(Number);
      return {
        x0: Math.min(x0!, x1!),
        x1: Math.max(x0!, x1!),
        y0: Math.min(y0!, y1!),
        y1: Math.max(y0!, y1!),
      };
    });
    for (const [i, a] of lines.entries())
      for (const b of lines.slice(i + 1)) {
        const alike = (a.x0 === a.x1) === (b.x0 === b.x1);
        const beside =
          a.x0 === a.x1
            ? Math.abs(a.x0 - b.x0) > 1 || a.y1 <= b.y0 + 0.1 || b.y1 <= a.y0 + 0.1
            : Math.abs(a.y0 - b.y0) > 1 || a.x1 <= b.x0 + 0.1 || b.x1 <= a.x0 + 0.1;
        expect(!alike || beside).toBe(true);
      }
  });
});
