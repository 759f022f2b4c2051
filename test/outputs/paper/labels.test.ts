import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { loadSkyData } from "../../../src/cli/dataFiles.ts";
import { panelEdges, seenFromBack } from "../../../src/outputs/panelEdges.ts";
import { labelsPdf } from "../../../src/outputs/paper/labels.ts";
import { samplePdf } from "../../../src/outputs/paper/sample.ts";
import { loadPdfFont } from "../../../src/outputs/pdf/font.ts";
import { makeSchedule } from "../../../src/schedule/makeSchedule.ts";
import { sampleBoard } from "../../../src/schedule/sampleBoard.ts";
import { BASE_PLAN, planWith } from "../../plan/testPlan.ts";
import { popplerIsThere, readPdf } from "./poppler.ts";

const font = loadPdfFont(readFileSync("data/fonts/NotoSans-Regular.ttf"));
const walls = { top: "altar wall", right: "north wall", bottom: "porch wall", left: "south wall" };
const plan = planWith({
  walls,
  panels: { columns: 2, rows: 2 },
  fibre: { ...BASE_PLAN.fibre, sharing: "ceiling" },
});
const schedule = makeSchedule(plan, loadSkyData());
const panel = (id: string) => schedule.panels.find((one) => one.id === id)!;

describe("edges of a panel", () => {
  it("face the walls as they hang: rows from the top, columns from the left, seen from below", () => {
    // Worked by hand from DESIGN section 5: A1 A2 over B1 B2.
    expect(panelEdges(panel("A2"), schedule.panels, plan)).toEqual([
      { side: "top", wall: "altar wall", neighbours: [] },
      { side: "right", wall: "north wall", neighbours: [] },
      { side: "bottom", wall: "porch wall", neighbours: ["B2"] },
      { side: "left", wall: "south wall", neighbours: ["A1"] },
    ]);
  });

  it("swap left and right on the back, and nothing else", () => {
    expect(["top", "right", "bottom", "left"].map((side) => seenFromBack(side as "top"))).toEqual([
      "top",
      "left",
      "bottom",
      "right",
    ]);
  });
});

describe.skipIf(!popplerIsThere)("printed labels (skipped without poppler-utils)", () => {
  it("give every panel a FACE, a BACK and four edges, with walls where they are on the side that lies up", async () => {
    const { pages, fonts } = readPdf(await labelsPdf(schedule.panels, plan, font));
    const text = pages.map((page) => page.text).join("\n");
    for (const line of fonts) expect(line.slice(-5, -4)).toEqual(["yes"]);
    for (const wall of Object.values(walls)) expect(text).toContain(`to the ${wall}`);
    expect(text.match(/FACE: as seen from the room/g)).toHaveLength(4);
    expect(text.match(/BACK: mirrored/g)).toHaveLength(4);
    expect(text.match(/BACK · (top|bottom|left|right) edge/g)).toHaveLength(16);
    expect(text).toContain("to the porch wall · beside B2");
    expect(text).toContain("left edge on the FACE, right on the BACK · reference edge");
    // Each label lies on its page with its margin.
    for (const { strokes, widthMm, heightMm } of pages)
      for (const { points } of strokes)
        for (const [x, y] of points) {
          expect(Math.min(x, widthMm - x, y, heightMm - y)).toBeGreaterThanOrEqual(plan.paper.margin - 0.01);
        }
  });
});

describe.skipIf(!popplerIsThere)("the sample sheet (skipped without poppler-utils)", () => {
  it("has every hole of the sample board at 1:1, ring by ring", async () => {
    const sample = sampleBoard(plan);
    const { pages } = readPdf(await samplePdf(plan, font));
    const seen = new Set<string>();
    for (const { text, strokes } of pages) {
      const corner = /corner of this tile: x (-?[\d.]+) mm, y (-?[\d.]+) mm/.exec(text);
      if (corner === null) continue;
      // The tile's corner on its page: margin, and words below (README).
      const [left, bottom] = [plan.paper.margin, plan.paper.margin + 20];
      for (const { isCurved, points } of strokes) {
        if (!isCurved) continue;
        const xs = points.map(([x]) => x);
        const ys = points.map(([, y]) => y);
        const x = (Math.min(...xs) + Math.max(...xs)) / 2 - left + Number(corner[1]);
        const y = (Math.min(...ys) + Math.max(...ys)) / 2 - bottom + Number(corner[2]);
        const hole = sample.holes.find((one) => Math.abs(one.xMm - x) < 0.02 && Math.abs(one.yMm - y) < 0.02);
        expect(hole).toBeDefined();
        expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(hole!.bitMm, 1);
        seen.add(hole!.hole);
      }
    }
    expect(seen.size).toBe(sample.holes.length);
  });
});
