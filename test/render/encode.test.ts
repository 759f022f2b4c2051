import sharp from "sharp";
import { describe, expect, it } from "vitest";
import {
  encodePreview,
  type PictureFormat,
  previewLabelsSvg,
  rasterizePreview,
} from "../../src/render/index.ts";
import { MADE_BY } from "../../src/render/madeBy.ts";
import { inventedScene, measuredBlob, shippedFont } from "./scenes.ts";

const scene = inventedScene(21);
const raster = rasterizePreview(scene, { widthPx: 800 });
const decode = (file: Uint8Array) => sharp(file).raw().toBuffer({ resolveWithObject: true });

describe("picture files", () => {
  it.each(["png", "webp"] as const)("keep every pixel as %s", async (format) => {
    const { data, info } = await decode(await encodePreview(raster, format));
    expect([info.width, info.height, info.channels]).toEqual([800, 600, 3]);
    expect(Buffer.compare(data, raster.data)).toBe(0);
  });

  it("keep stars in place as avif", async () => {
    const { data, info } = await decode(await encodePreview(raster, "avif"));
    expect([info.width, info.height, info.channels]).toEqual([800, 600, 3]);
    const bright = scene.dots.filter(({ diameterMm }) => diameterMm === 1.5);
    for (const { xMm, yMm } of bright) {
      const [x, y] = [xMm / 6, (3600 - yMm) / 6];
      const a = measuredBlob(raster, x, y, 4);
      const b = measuredBlob({ ...raster, data }, x, y, 4);
      expect(Math.hypot(a.xPx - b.xPx, a.yPx - b.yPx)).toBeLessThan(0.2);
    }
  });

  it.each(["png", "webp", "avif"] as const)(
    "are the same bytes twice and carry no metadata but the mark as %s",
    async (format) => {
      const overlay = previewLabelsSvg(scene, shippedFont(), { widthPx: 800 }).svg;
      const file = await encodePreview(raster, format, overlay);
      expect(Buffer.compare(file, await encodePreview(raster, format, overlay))).toBe(0);
      const { format: found, exif, icc, xmp, iptc } = await sharp(file).metadata();
      expect(found).toBe(format === "avif" ? "heif" : format);
      expect([icc, xmp, iptc]).toEqual([undefined, undefined, undefined]);
      expect(exif!.includes(MADE_BY)).toBe(true);
    },
  );

  it("lay words over the picture without hiding a star", async () => {
    const { svg } = previewLabelsSvg(scene, shippedFont(), { widthPx: 800 });
    const before = Uint8Array.from(raster.data);
    const { data, info } = await decode(await encodePreview(raster, "png", svg));
    expect([info.width, info.height, info.channels]).toEqual([800, 600, 3]);
    expect(data.every((value, i) => value >= raster.data[i]!)).toBe(true);
    expect(data.some((value, i) => value > raster.data[i]!)).toBe(true);
    expect(Buffer.compare(before, raster.data)).toBe(0); // the caller's raster stays as it was
  });

  it("refuse an overlay of another size, and a side that the format cannot hold", async () => {
    const { svg } = previewLabelsSvg(scene, shippedFont(), { widthPx: 801 });
    await expect(encodePreview(raster, "png", svg)).rejects.toThrow(
      /overlay is 801 x 601 px, the picture 800 x 600/,
    );
    const long = { data: new Uint8Array(3 * 17000), widthPx: 1, heightPx: 17000, channels: 3 } as const;
    for (const format of ["webp", "avif"] satisfies PictureFormat[])
      await expect(encodePreview(long, format)).rejects.toThrow(/ask for a smaller width, or for png/);
    expect((await sharp(await encodePreview(long, "png")).metadata()).height).toBe(17000);
  });
});
