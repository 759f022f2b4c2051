import { describe, expect, it } from "vitest";
import { rasterizePreview } from "../../src/render/index.ts";
import { bareScene, dot, inventedScene, measuredBlob } from "./scenes.ts";

const litPixels = (data: Uint8Array): number => {
  let lit = 0;
  for (let i = 0; i < data.length; i += 3) if (data[i]! + data[i + 1]! + data[i + 2]! > 0) lit++;
  return lit;
};

describe("night picture", () => {
  it("shows what is at the top left seen from below at the top left", () => {
    const raster = rasterizePreview(bareScene({ dots: [dot(480, 3240, 0.5)] }), { widthPx: 1000 });
    const blob = measuredBlob(raster, 500, 375, 1000);
    expect(raster.heightPx).toBe(750);
    expect(blob.xPx).toBeCloseTo(100, 1); // 480 / 4800 from the left
    expect(blob.yPx).toBeCloseTo(75, 1); // (3600 - 3240) / 3600 from the top
  });

  it("is the ceiling from edge to edge, at any proportion", () => {
    for (const [widthMm, lengthMm, widthPx, heightPx] of [
      [300, 300, 640, 640],
      [20000, 1000, 1600, 80],
      [1000, 6000, 333, 1998],
      [20000, 1, 100, 1],
    ] as const) {
      const dots = [dot(widthMm, 0, 1), dot(0, lengthMm, 1)];
      const raster = rasterizePreview(bareScene({ widthMm, lengthMm, dots }), { widthPx });
      expect([raster.widthPx, raster.heightPx, raster.data.length]).toEqual([
        widthPx,
        heightPx,
        widthPx * heightPx * 3,
      ]);
      expect(raster.data[((heightPx - 1) * widthPx + widthPx - 1) * 3]).toBeGreaterThan(90); // lower right, cut off by the border
      expect(raster.data[0]).toBeGreaterThan(90); // upper left
    }
  });

  it("is black but for the stars, whatever the scene carries for labels", () => {
    const scene = inventedScene(3);
    expect(litPixels(rasterizePreview({ ...scene, dots: [] }, { widthPx: 800 }).data)).toBe(0);
    const plain = rasterizePreview({ ...bareScene(), dots: scene.dots }, { widthPx: 800 });
    expect(Buffer.compare(rasterizePreview(scene, { widthPx: 800 }).data, plain.data)).toBe(0);
  });

  it("adds up the light of overlapping dots until pixels are full", () => {
    const at = (dots: ReturnType<typeof dot>[]) =>
      rasterizePreview(bareScene({ dots }), { widthPx: 1600 }).data;
    const [a, b] = [dot(2400, 1800, 1), dot(2405, 1800, 1)];
    const [first, second, both] = [at([a]), at([b]), at([a, b])];
    const sums = first.map((value, i) => Math.min(255, value + second[i]!));
    expect(Buffer.compare(both, sums)).toBe(0);
    expect(first.some((value, i) => value + second[i]! > 255)).toBe(true);
  });

  it("is the same, byte for byte, each time and in any order of dots", () => {
    const scene = inventedScene(4);
    const backwards = { ...scene, dots: [...scene.dots].reverse() };
    const first = rasterizePreview(scene, { widthPx: 1600, tint: true }).data;
    expect(Buffer.compare(first, rasterizePreview(scene, { widthPx: 1600, tint: true }).data)).toBe(0);
    expect(Buffer.compare(first, rasterizePreview(backwards, { widthPx: 1600, tint: true }).data)).toBe(0);
  });

  it("draws a small ceiling's fibres no smaller than they are", () => {
    // 1.5 mm on 150 mm at 1500 px: a disc of 15 px, area 176.7 px. Sum of pixel values / full value must not fall below it.
    const { data } = rasterizePreview(bareScene({ widthMm: 150, lengthMm: 150, dots: [dot(75, 75, 1.5)] }), {
      widthPx: 1500,
    });
    let sum = 0;
    for (let i = 0; i < data.length; i += 3) sum += data[i]! / 255;
    expect(sum).toBeGreaterThan(Math.PI * 7.5 ** 2);
  });

  it("refuses widths that no picture has", () => {
    for (const widthPx of [0, -5, 1.5, 8193, Number.NaN, Number.POSITIVE_INFINITY])
      expect(() => rasterizePreview(bareScene(), { widthPx })).toThrow(/1 to 8192 px wide/);
    expect(() => rasterizePreview(bareScene({ widthMm: 300, lengthMm: 20000 }), { widthPx: 8192 })).toThrow(
      /too large/,
    );
  });
});
