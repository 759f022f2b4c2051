import { beforeAll, describe, expect, it } from "vitest";
import { rasterizePreview, sceneOf } from "../../src/render/index.ts";
import { type DrawnSheet, drawProofSheet } from "../../src/render/proofSheet.ts";
import { layOutPage, SHEET_PX_PER_MM } from "../../src/render/proofSheetPage.ts";
import { type SheetScene, sheetSceneOf } from "../../src/render/proofSheetScene.ts";
import { planAndSchedule } from "../../src/schedule/makeSchedule.ts";
import { type ProofSheet, proofSheet } from "../../src/schedule/nightsSheet.ts";
import { planWith } from "../plan/testPlan.ts";
import { testSky } from "../sky/testSky.ts";
import { measuredBlob, shippedFont } from "./scenes.ts";

const plan = planWith({
  title: "Chapel",
  moment: "2004-02-29T23:30",
  place: { name: "Porto", latitude: 41.15, longitude: -8.61, timeZone: "Europe/Lisbon" },
  panels: { columns: 2, rows: 1 },
  fibre: {
    bundles: { count: 2, strands: { "0.5mm": 80, "0.75mm": 14, "1mm": 5, "1.5mm": 1 } },
    sharing: "ceiling",
  },
  walls: { top: "altar" },
});
let sheet: ProofSheet;
let scene: SheetScene;
let drawn: DrawnSheet;
beforeAll(() => {
  sheet = proofSheet(plan, testSky(), "times");
  scene = sheetSceneOf(sheet);
  drawn = drawProofSheet(scene, shippedFont());
}, 60_000);

describe("a thumbnail", () => {
  it("shows exactly the dots of that variant's preview", () => {
    for (const [i, choice] of sheet.choices.entries()) {
      const { schedule, planned } = planAndSchedule(choice.plan, testSky());
      expect(scene.boxes[i]!.scene!.dots).toEqual(sceneOf(schedule, planned.field.view).dots);
    }
  });

  it("has light at every dot's place on the sheet, and none beside the pictures", () => {
    const { raster, page } = drawn;
    const lit = raster.data.slice();
    for (const [i, { picture }] of page.cells.entries()) {
      const [x, y] = [picture.xMm * SHEET_PX_PER_MM, picture.yMm * SHEET_PX_PER_MM];
      const pxPerMm = (picture.widthMm * SHEET_PX_PER_MM) / plan.ceiling.width;
      for (const dot of scene.boxes[i]!.scene!.dots.slice(0, 40)) {
        const blob = measuredBlob(
          raster,
          x + dot.xMm * pxPerMm,
          y + (plan.ceiling.length - dot.yMm) * pxPerMm,
          2,
        );
        expect(blob.peak).toBeGreaterThan(60);
      }
      const rows = Math.ceil(picture.heightMm * SHEET_PX_PER_MM);
      for (let row = Math.round(y); row < y + rows; row++) {
        const start = (row * raster.widthPx + Math.round(x)) * 3;
        lit.fill(0, start, start + Math.round(picture.widthMm * SHEET_PX_PER_MM) * 3);
      }
    }
    expect(lit.every((value) => value === 0)).toBe(true);
  });

  it("is the right way round: what stood in the east is at the left with north up", () => {
    const east = sheet.choices.flatMap(({ made }) =>
      "schedule" in made
        ? made.schedule.holes.filter(({ azDeg, altDeg }) => azDeg > 60 && azDeg < 120 && altDeg < 60)
        : [],
    );
    expect(east.length).toBeGreaterThan(50);
    for (const { ceilingXMm } of east) expect(ceilingXMm).toBeLessThan(plan.ceiling.width / 2);
    for (const { scene: thumbnail } of scene.boxes) {
      const letters = Object.fromEntries(thumbnail!.compass.map((mark) => [mark.letter, mark]));
      expect(letters.E!.xMm).toBeLessThan(letters.W!.xMm);
      expect(letters.N!.yMm).toBeGreaterThan(letters.S!.yMm);
    }
  });

  it("names planets and the best-known stars, six at most", () => {
    for (const box of scene.boxes) {
      expect(box.scene!.names.length).toBeGreaterThan(0);
      expect(box.scene!.names.length).toBeLessThanOrEqual(6);
    }
  });
});

describe("the words of a box", () => {
  it("tell the magnitude that a schedule of that plan reaches", () => {
    for (const [i, choice] of sheet.choices.entries()) {
      const { fidelity } = planAndSchedule(choice.plan, testSky()).schedule;
      expect(scene.boxes[i]!.lines[0]).toContain(`to mag ${fidelity.limitingMag!.toFixed(2)};`);
    }
  });

  it("tell the date once midnight is past, and mark the plan's own", () => {
    const [before, after] = [scene.boxes[0]!, scene.boxes.at(-1)!];
    expect(before.aside).toBe("");
    expect(after.aside).toBe("Mon 1 March"); // 2004-02-29 was a Sunday, in a leap year
    expect(scene.boxes.filter(({ own }) => own).map(({ headline }) => headline)).toEqual(["23:30"]);
  });

  it("tell in the head which wall the top edge is, and the night", () => {
    expect(scene.title).toBe("Chapel");
    const lines = scene.lines.join("\n");
    expect(lines).toContain("Porto, the night of Sun 29 February 2004");
    expect(lines).toContain("Top edge: altar, true bearing 0° (N)");
    expect(lines).toContain("east is LEFT");
  });

  it("stand on the paper, and say what the font lacks", () => {
    for (const [, x, y] of drawn.svg.matchAll(/translate\(([\d.]+) ([\d.]+)\)/g)) {
      expect(Number(x)).toBeLessThan(drawn.page.widthMm - 10);
      expect(Number(y)).toBeLessThan(drawn.page.heightMm - 5);
    }
    const foreign = drawProofSheet({ ...scene, title: "京都" }, shippedFont());
    expect(foreign.missingCharacters).toEqual(["京", "都"]);
  });

  it("stand in an empty box where nothing can be drawn", () => {
    const empty = { ...scene.boxes[0]!, scene: null, lines: ["Cannot be: the aim is down"], names: [] };
    const { raster, page } = drawProofSheet({ ...scene, boxes: [empty] }, shippedFont());
    expect(raster.data.every((value) => value === 0)).toBe(true);
    expect(page.cells).toHaveLength(1);
  });
});

describe("the page", () => {
  const ceilings: [width: number, length: number][] = [
    [4200, 3000],
    [3000, 4200],
    [2400, 2400],
    [9000, 1100],
    [1100, 9000],
  ];
  it.each(ceilings)(
    "keeps the proportions of a ceiling of %d x %d, each in its own place on A4",
    (width, length) => {
      const page = layOutPage({
        boxes: 12,
        headerMm: 22,
        wordsMm: 18,
        ceiling: { widthMm: width, lengthMm: length },
      });
      expect([page.widthMm, page.heightMm].sort()).toEqual([210, 297]);
      const boxes = page.cells.flatMap(({ picture, words }) => [picture, words]);
      for (const { picture } of page.cells) {
        expect(picture.widthMm / picture.heightMm).toBeCloseTo(width / length, 6);
        for (const mm of [picture.xMm, picture.yMm, picture.widthMm])
          expect(mm * SHEET_PX_PER_MM).toBeCloseTo(Math.round(mm * SHEET_PX_PER_MM), 6);
      }
      for (const [i, a] of boxes.entries()) {
        expect(a.xMm).toBeGreaterThanOrEqual(10 - 0.1);
        expect(a.xMm + a.widthMm).toBeLessThanOrEqual(page.widthMm - 10 + 0.1);
        expect(a.yMm).toBeGreaterThanOrEqual(22);
        expect(a.yMm + a.heightMm).toBeLessThanOrEqual(page.heightMm - 10 + 0.1);
        for (const b of boxes.slice(i + 1)) {
          const apart =
            a.xMm + a.widthMm <= b.xMm ||
            b.xMm + b.widthMm <= a.xMm ||
            a.yMm + a.heightMm <= b.yMm ||
            b.yMm + b.heightMm <= a.yMm;
          expect(apart).toBe(true);
        }
      }
    },
  );

  it("a picture's raster is the preview's at that width, but for larger dots", () => {
    const { picture } = drawn.page.cells[0]!;
    const widthPx = Math.round(picture.widthMm * SHEET_PX_PER_MM);
    const preview = rasterizePreview(scene.boxes[0]!.scene!, { widthPx });
    const large = rasterizePreview(scene.boxes[0]!.scene!, { widthPx, leastGlowPx: 0.9 });
    expect([large.widthPx, large.heightPx]).toEqual([preview.widthPx, preview.heightPx]);
    const sum = (data: Uint8Array) => data.reduce((total, value) => total + value, 0);
    expect(sum(large.data)).toBeGreaterThan(sum(preview.data));
  });
});
