import sharp from "sharp";
import { describe, expect, it } from "vitest";
import { type PreviewRaster, previewSvg, rasterizePreview } from "../../src/render/index.ts";
import { bareScene, dot, inventedScene, measuredBlob, shippedFont } from "./scenes.ts";

/** Drawn by librsvg, at a width in px instead of millimetres. */
async function drawn(svg: string, widthPx: number, heightPx: number): Promise<PreviewRaster> {
  const inPx = svg.replace(/width="[\d.]+mm" height="[\d.]+mm"/, `width="${widthPx}" height="${heightPx}"`);
  const { data, info } = await sharp(Buffer.from(inPx))
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  expect([info.width, info.height, info.channels]).toEqual([widthPx, heightPx, 3]);
  return { data, widthPx, heightPx, channels: 3 };
}

/** Dots on a grid, far from each other, none in a symmetric place. */
const apart = Array.from({ length: 24 }, (_, i) =>
  dot(
    400 + (i % 6) * 790.37 + i * 1.7,
    500 + Math.floor(i / 6) * 801.13,
    [0.5, 0.75, 1, 1.5][i % 4]!,
    (i % 5) * 0.45 - 0.3,
  ),
);

describe("preview as a drawing", () => {
  it.each([false, true])("looks like the raster, dot for dot (tint %s)", async (tint) => {
    const scene = bareScene({ dots: apart });
    const raster = rasterizePreview(scene, { widthPx: 3200, tint });
    const picture = await drawn(previewSvg(scene, { tint }).svg, 3200, 2400);
    for (const { xMm, yMm, diameterMm } of apart) {
      const [xPx, yPx] = [(xMm * 3200) / 4800, ((3600 - yMm) * 2400) / 3600];
      const [a, b] = [measuredBlob(raster, xPx, yPx, 60), measuredBlob(picture, xPx, yPx, 60)];
      expect(Math.hypot(b.xPx - xPx, b.yPx - yPx)).toBeLessThan(0.05);
      expect(Math.hypot(a.xPx - b.xPx, a.yPx - b.yPx)).toBeLessThan(0.08);
      expect(Math.abs(b.sum / a.sum - 1)).toBeLessThan(diameterMm < 0.6 ? 0.05 : 0.03);
      expect(Math.abs(b.peak - a.peak)).toBeLessThan(25);
    }
  });

  it("measures the ceiling in millimetres", () => {
    const { svg } = previewSvg(bareScene({ widthMm: 4876.8, lengthMm: 3600.005 }));
    expect(svg).toMatch(
      /^<svg xmlns="http:\/\/www.w3.org\/2000\/svg" width="4876.8mm" height="3600.01mm" viewBox="0 0 4876.8 3600.01">/,
    );
  });

  it("holds nothing but stars unless labels are asked for", async () => {
    const scene = inventedScene(2);
    const { svg } = previewSvg(scene);
    expect(svg.match(/<circle /g)?.length).toBe(scene.dots.length);
    expect(new Set([...svg.matchAll(/<([a-zA-Z]+)/g)].map(([, tag]) => tag))).toEqual(
      new Set(["svg", "defs", "radialGradient", "stop", "rect", "circle"]),
    );
    const dark = await drawn(previewSvg({ ...scene, dots: [] }).svg, 800, 600);
    expect(dark.data.every((value) => value === 0)).toBe(true);
  });

  it("carries labels as outlines under the stars, and says what found no room or shape", () => {
    const scene = inventedScene(2);
    const first = scene.names[0]!;
    const odd = { ...scene, names: [{ ...first, text: "木" }, ...scene.names.slice(1)] };
    const { svg, missingCharacters, dropped } = previewSvg(odd, { labels: shippedFont() });
    expect(missingCharacters).toEqual(["木"]);
    expect(svg).not.toContain("<text");
    expect(svg.indexOf('id="name"')).toBeLessThan(svg.indexOf("<circle"));
    expect(svg.match(/<path /g)!.length).toBeGreaterThan(4 + 4 + 6 + 40 - dropped.length);
  });

  it("rounds to hundredths of a millimetre and is the same each time", () => {
    const options = { tint: true, labels: shippedFont() };
    const { svg } = previewSvg(inventedScene(12), options);
    for (const [, value] of svg.matchAll(/ (?:cx|cy|r|x|y|width|height)="([^"]+)"/g))
      expect(value).toMatch(/^-?\d+(\.\d{1,2})?(mm)?$/);
    expect(svg).not.toMatch(/NaN|Infinity|undefined/);
    expect(previewSvg(inventedScene(12), options).svg).toBe(svg);
  });
});
