import sharp from "sharp";
import { describe, expect, it } from "vitest";
import { loadBoundaries } from "../../src/cli/dataFiles.ts";
import {
  type PreviewScene,
  previewLabelsSvg,
  previewLines,
  previewSvg,
  rasterizePreview,
  sceneOf,
} from "../../src/render/index.ts";
import { boundaryColour, figureColour, labelColour, seamColour } from "../../src/render/labelStyle.ts";
import { planAndSchedule } from "../../src/schedule/makeSchedule.ts";
import { constellationFigures } from "../../src/sky/figures.ts";
import { planWith } from "../plan/testPlan.ts";
import { testSky } from "../sky/testSky.ts";
import { bareScene, dot, inventedScene, shippedFont } from "./scenes.ts";

const sky = testSky();
/** Many small panels with wide margins: about every third hole is moved. */
const movedPlan = planWith({
  view: { kind: "chart", span: 130 },
  panels: { columns: 4, rows: 3, gap: 12, perimeter: 20 },
  fibre: {
    sharing: "ceiling",
    bundles: { count: 6, strands: { "0.5mm": 80, "0.75mm": 14, "1mm": 5, "1.5mm": 1 } },
  },
  holes: { edge: 40, maxShift: 90, merge: 20 },
});
const moved = planAndSchedule(movedPlan, sky);
const movedScene = (choice: { figures: boolean; boundaries: boolean }): PreviewScene =>
  sceneOf(
    moved.schedule,
    moved.planned.field.view,
    previewLines(moved.schedule, moved.planned, sky, {
      figures: choice.figures,
      ...(choice.boundaries ? { boundaries: loadBoundaries() } : {}),
    }),
  );
const both = movedScene({ figures: true, boundaries: true });

/** Two lines of each kind across an invented ceiling, one along its edge. */
const invented: PreviewScene = {
  ...inventedScene(5),
  lines: {
    figures: [
      [
        { xMm: 300, yMm: 3300 },
        { xMm: 2400, yMm: 1800 },
        { xMm: 4800, yMm: 1500 },
      ],
    ],
    boundaries: [
      [
        { xMm: 0, yMm: 0 },
        { xMm: 0, yMm: 3600 },
      ],
      [
        { xMm: 500, yMm: 200 },
        { xMm: 4300, yMm: 3100 },
      ],
    ],
    constellations: [{ text: "Boötes", xMm: 2400, yMm: 1900 }],
  },
};

const luminance = (hex: string): number => {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const v = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4; // sRGB, IEC 61966-2-1
  }) as [number, number, number];
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
};

describe("lines of the sky in a preview", () => {
  it("end at the holes of the stars that they join, also of stars moved or merged", () => {
    const holeOf = new Map<number, (typeof moved.schedule.holes)[number]>();
    for (const hole of moved.schedule.holes)
      for (const hip of [hole.hip, ...hole.merged]) if (hip !== null) holeOf.set(hip, hole);
    const starts = both.lines!.figures.map((chain) => chain[0]!);
    const ends = both.lines!.figures.map((chain) => chain.at(-1)!);
    let [joined, shifted, merged] = [0, 0, 0];
    for (const { edges } of constellationFigures(sky.catalogue))
      for (const edge of edges)
        for (const [i, points] of [starts, ends].entries()) {
          const hip = sky.catalogue.hip[edge[i]!]!;
          const hole = holeOf.get(hip);
          if (!hole) continue;
          const offMm = points.map(({ xMm, yMm }) =>
            Math.hypot(xMm - hole.ceilingXMm, yMm - hole.ceilingYMm),
          );
          expect(Math.min(...offMm), `HIP ${hip}`).toBeLessThan(0.01);
          joined++;
          if (hole.shiftMm > 5) shifted++;
          if (hole.merged.includes(hip)) merged++;
        }
    expect(joined).toBeGreaterThan(150);
    expect(shifted).toBeGreaterThan(20);
    expect(merged).toBeGreaterThan(0);
  });

  it("change no pixel that a star lights more, and are faint", () => {
    const { lines: _none, ...withoutLines } = both;
    const stars = rasterizePreview(withoutLines, { widthPx: 1200 }).data;
    const { data } = rasterizePreview(both, { widthPx: 1200 });
    let [changed, brightest] = [0, 0];
    for (let i = 0; i < data.length; i++) {
      if (data[i] === stars[i]) continue;
      changed++;
      expect(data[i]!).toBeGreaterThan(stars[i]!);
      brightest = Math.max(brightest, data[i]!);
    }
    expect(changed).toBeGreaterThan(5000);
    // The thinnest fibre's centre is at least a quarter of the brightest pixel (DESIGN); lines stay under half of that light.
    expect(brightest).toBeLessThan(0.45 * 255);
    for (const colour of [figureColour, boundaryColour]) expect(luminance(colour)).toBeLessThan(0.125);
    expect(new Set([figureColour, boundaryColour, seamColour]).size).toBe(3);
    expect((luminance(labelColour.constellation) + 0.05) / 0.05).toBeGreaterThan(4.5); // WCAG 2.2, 1.4.3
  });

  it("are the same in a raster and in a drawing", async () => {
    // Second method: librsvg draws the paths. Strokes agree where neither is at the edge of a dash.
    const dark = bareScene({ ...(invented.lines ? { lines: invented.lines } : {}) });
    const { data } = rasterizePreview(dark, { widthPx: 1600 });
    const svg = previewSvg(dark).svg.replace(/width="4800mm" height="3600mm"/, 'width="1600" height="1200"');
    const drawn = await sharp(Buffer.from(svg)).removeAlpha().raw().toBuffer();
    expect(drawn.length).toBe(data.length);
    let [sum, sumDrawn, off] = [0, 0, 0];
    for (let i = 0; i < data.length; i++) {
      sum += data[i]!;
      sumDrawn += drawn[i]!;
      off += Math.abs(data[i]! - drawn[i]!);
    }
    expect(sum).toBeGreaterThan(100_000);
    expect(Math.abs(sum / sumDrawn - 1)).toBeLessThan(0.03);
    expect(off / sum).toBeLessThan(0.1); // edges are softened in another way, pixel by pixel
  });

  it("lie under the dots in a drawing, one path a kind", () => {
    const { svg } = previewSvg(both);
    for (const id of ["figures", "boundaries"]) {
      expect(svg.match(new RegExp(`id="${id}"`, "g"))).toHaveLength(1);
      expect(svg.indexOf(`id="${id}"`)).toBeLessThan(svg.indexOf("<circle"));
    }
    expect(previewSvg(movedScene({ figures: true, boundaries: false })).svg).not.toContain('id="boundaries"');
    expect(previewSvg(movedScene({ figures: false, boundaries: true })).svg).not.toContain('id="figures"');
    expect(svg).not.toMatch(/NaN|Infinity|undefined/);
  });

  it("leave room for words: none runs through one, and constellations are named off the dots", async () => {
    const font = shippedFont();
    const words = previewLabelsSvg(both, font, { widthPx: 1600 });
    expect(words.lineBreaks.length).toBeGreaterThan(20);
    expect(words.svg.match(/<g id="constellation"[\s\S]*?<\/g>/)![0].match(/<path/g)!.length).toBeGreaterThan(
      8,
    );
    const { data, heightPx } = rasterizePreview(
      { ...both, dots: [] },
      { widthPx: 1600, lineBreaks: words.lineBreaks },
    );
    const pxPerMm = 1600 / both.widthMm;
    let inBoxes = 0;
    for (const box of words.lineBreaks)
      for (
        let row = Math.ceil(box.topMm * pxPerMm);
        row < Math.min(heightPx, box.bottomMm * pxPerMm - 1);
        row++
      )
        for (let x = Math.ceil(box.leftMm * pxPerMm); x < Math.min(1600, box.rightMm * pxPerMm - 1); x++)
          inBoxes += data[(row * 1600 + x) * 3]!;
    expect(inBoxes).toBe(0);
    expect(data.some((value) => value > 0)).toBe(true);
  });

  it("put a constellation's name near the middle of its figure, and leave it out where there is no room", () => {
    const font = shippedFont();
    const free = previewSvg({ ...invented, dots: [dot(100, 100, 0.5)], names: [] }, { labels: font });
    expect(free.dropped).not.toContain("Boötes");
    const wall = Array.from({ length: 2500 }, (_, i) =>
      dot(1600 + (i % 50) * 32, 1100 + Math.floor(i / 50) * 32, 1.5),
    );
    const named = wall.map(({ xMm, yMm }) => ({ xMm, yMm, text: "x" }));
    const full = previewSvg({ ...invented, dots: wall, names: named.slice(0, 2500) }, { labels: font });
    expect(full.dropped).toContain("Boötes");
  });

  it("leave everything as it was in a scene without them", () => {
    const { lines: _none, ...without } = invented;
    const font = shippedFont();
    const empty = { figures: [], boundaries: [], constellations: [] };
    expect(previewSvg(without).svg).not.toMatch(/<path|figures|boundaries/);
    expect(previewSvg(without).svg).toBe(previewSvg({ ...without, lines: empty }).svg);
    expect(previewLabelsSvg(without, font, { widthPx: 900 }).lineBreaks).toEqual([]);
    expect(previewLabelsSvg(without, font, { widthPx: 900 }).svg).not.toContain('id="constellation"');
    const [a, b] = [without, { ...without, lines: empty }].map((scene) =>
      rasterizePreview(scene, { widthPx: 900 }),
    );
    expect(Buffer.compare(a!.data, b!.data)).toBe(0);
  });
});
