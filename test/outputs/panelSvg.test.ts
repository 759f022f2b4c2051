import sharp from "sharp";
import { beforeAll, describe, expect, it } from "vitest";
import { panelSvg } from "../../src/outputs/panelSvg.ts";
import { boardAsCut } from "../../src/schedule/asCut.ts";
import { planAndSchedule } from "../../src/schedule/makeSchedule.ts";
import type { Hole, Schedule } from "../../src/schedule/types.ts";
import { planWith } from "../plan/testPlan.ts";
import { attribute, elements, group } from "../render/drawingReader.ts";
import { shippedFont } from "../render/scenes.ts";
import { testSky } from "../sky/testSky.ts";

const font = shippedFont();

/** A small alcove of our own: one panel with a cut corner, one rectangle that came from the saw 3 mm narrow. */
const ALCOVE = {
  ceiling: { width: 900, length: 400 },
  panels: [
    {
      id: "L",
      outline: [
        [10, 10],
        [400, 10],
        [400, 390],
        [120, 390],
        [120, 250],
        [10, 250],
      ],
    },
    { id: "R", x: 410, y: 10, width: 480, length: 380 },
  ],
  frame: { batten: { width: 20, depth: 20 }, crossBattens: 0 },
  asCut: { R: { width: 477, length: 380 } },
  fibre: {
    bundles: { count: 1, strands: { "0.5mm": 30, "0.75mm": 12, "1mm": 6, "1.5mm": 2 } },
    sharing: "ceiling",
  },
};

const PX_PER_MM = 20;

describe.each([
  ["L", "FACE"],
  ["L", "BACK"],
  ["R", "FACE"],
  ["R", "BACK"],
] as const)("the true-scale SVG of panel %s, %s", (id, frame) => {
  let schedule: Schedule;
  let holes: readonly Hole[];
  let svg: string;
  let size: [number, number];
  beforeAll(() => {
    ({ schedule } = planAndSchedule(planWith(ALCOVE), testSky()));
    holes = schedule.holes.filter(({ panel }) => panel === id);
    const board = boardAsCut(schedule.panels.find((panel) => panel.id === id)!, schedule.plan);
    size = id === "R" ? [477, 380] : [board.widthMm, board.lengthMm];
    svg = panelSvg(frame, board, holes, [0.5, 0.75, 1, 1.5], font).svg;
  });

  it("is a page of the board's bounding box in mm", () => {
    const root = elements(svg, "svg")[0]!;
    expect(attribute(root, "width")).toBe(`${size[0]}mm`);
    expect(attribute(root, "height")).toBe(`${size[1]}mm`);
    expect(attribute(root, "viewBox")).toBe(`0 0 ${size[0]} ${size[1]}`);
    expect(svg).not.toMatch(/transform=|<use|<text|style=/);
  });

  it("has exactly one circle a hole, at bit diameter, in the layer of its fibre, turned over on the back", () => {
    expect(elements(svg, "circle")).toHaveLength(holes.length);
    for (const hole of holes) {
      const layer = group(svg, `holes-${String(hole.diameterMm).replace(".", "_")}mm`);
      const circle = elements(layer, "circle").find((one) => attribute(one, "id") === hole.hole)!;
      const x = frame === "FACE" ? hole.xMm : size[0] - hole.xMm;
      expect(Number(attribute(circle, "cx"))).toBeCloseTo(x, 6);
      expect(size[1] - Number(attribute(circle, "cy"))).toBeCloseTo(hole.yMm, 6);
      expect(2 * Number(attribute(circle, "r"))).toBeCloseTo(hole.bitMm, 9);
    }
    for (const layer of ["outline", "battens", "screws", "hangers", "words"])
      expect(elements(group(svg, layer), "circle")).toEqual([]);
    expect(elements(group(svg, "battens"), "path").length).toBeGreaterThan(0);
  });

  it("comes out within 0.01 mm in the pixels of another renderer", async () => {
    // librsvg, through sharp, at 20 px a mm. Circles alone have a colour: how far from grey tells what their outlines cover.
    const large = svg
      .replace(/<g id="battens"[\s\S]*?<\/g>/, "")
      .replace(
        /width="[\d.]+mm" height="[\d.]+mm"/,
        `width="${size[0] * PX_PER_MM}" height="${size[1] * PX_PER_MM}"`,
      );
    const { data, info } = await sharp(Buffer.from(large), {
      unlimited: true,
      limitInputPixels: false,
    })
      .flatten({ background: "#fff" })
      .removeAlpha()
      .raw()
      .toBuffer({ resolveWithObject: true });
    expect(Math.abs(info.width - size[0] * PX_PER_MM)).toBeLessThanOrEqual(1);
    let seen = 0;
    for (const hole of holes) {
      const x = (frame === "FACE" ? hole.xMm : size[0] - hole.xMm) * PX_PER_MM;
      const y = (size[1] - hole.yMm) * PX_PER_MM;
      let [sum, sumX, sumY] = [0, 0, 0];
      for (let row = Math.floor(y - 24); row <= y + 24; row++)
        for (let column = Math.floor(x - 24); column <= x + 24; column++) {
          const at = (row * info.width + column) * 3;
          const rgb = [data[at]!, data[at + 1]!, data[at + 2]!];
          const chroma = Math.max(...rgb) - Math.min(...rgb);
          sum += chroma;
          sumX += chroma * (column + 0.5);
          sumY += chroma * (row + 0.5);
        }
      expect(Math.hypot(sumX / sum - x, sumY / sum - y) / PX_PER_MM).toBeLessThan(0.01);
      seen++;
    }
    expect(seen).toBeGreaterThan(8);
  });
});

describe("the true-scale SVG of a board out of square", () => {
  // By hand: opposite sides equal, (risingRight² - fallingRight²) / (4 x length) = (613² - 607²) / (4 x 380) = 4.816 mm, and
  // sqrt(477² - 4.816²) = 476.976 mm across (parallelogram law).
  const skewed = () =>
    planAndSchedule(
      planWith({
        ...ALCOVE,
        asCut: { R: { width: 477, length: 380, diagonals: { risingRight: 613, fallingRight: 607 } } },
      }),
      testSky(),
    ).schedule;
  const drawn = (schedule: Schedule, frame: "FACE" | "BACK") => {
    const board = boardAsCut(schedule.panels.find(({ id }) => id === "R")!, schedule.plan);
    const holes = schedule.holes.filter(({ panel }) => panel === "R");
    return panelSvg(frame, board, holes, [0.5, 0.75, 1, 1.5], font).svg;
  };

  it.each([
    ["FACE", [0, 476.976, 476.976, 0]],
    ["BACK", [477, 0.024, 0.024, 477]],
  ] as const)("has its true corners on the %s, on the same page with the same holes", (frame, xs) => {
    const schedule = skewed();
    const svg = drawn(schedule, frame);
    expect(attribute(elements(svg, "svg")[0]!, "viewBox")).toBe("0 0 477 380");
    const path = attribute(elements(group(svg, "outline"), "path")[0]!, "d")!;
    const corners = [...path.matchAll(/[ML]([\d.-]+) ([\d.-]+)/g)].map(([, x, y]) => [Number(x), Number(y)]);
    const ys = [380, 380 - 4.816, -4.816, 0];
    expect(corners).toHaveLength(4);
    for (const [k, [x, y]] of corners.entries()) {
      expect(x).toBeCloseTo(xs[k]!, 2);
      expect(y).toBeCloseTo(ys[k]!, 2);
    }
    for (const hole of schedule.holes.filter(({ panel }) => panel === "R")) {
      const circle = elements(svg, "circle").find((one) => attribute(one, "id") === hole.hole)!;
      expect(Number(attribute(circle, "cx"))).toBeCloseTo(frame === "FACE" ? hole.xMm : 477 - hole.xMm, 6);
      expect(380 - Number(attribute(circle, "cy"))).toBeCloseTo(hole.yMm, 6);
    }
  });
});
