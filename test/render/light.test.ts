import { describe, expect, it } from "vitest";
import { type PreviewDot, rasterizePreview } from "../../src/render/index.ts";
import { bareScene, dot, measuredBlob, seeded } from "./scenes.ts";

/** A strip of ceiling, 4:1, to spare pixels. */
const lengthMm = 1200;
const strip = (dots: PreviewDot[]) => bareScene({ lengthMm, dots });
const widthsPx = [300, 800, 1600, 3840, 8192];
const diametersMm = [0.5, 0.75, 1, 1.5];

/** Sub-pixel places of a dot: corners and edges of a pixel, its middle, and some at random. */
const random = seeded(20);
const offsetsPx: readonly (readonly [number, number])[] = [
  [0, 0],
  [0.5, 0.5],
  [0.5, 0],
  [0.25, 0.75],
  ...Array.from({ length: 8 }, () => [random(), random()] as const),
];

describe("light of a fibre", () => {
  it.each(widthsPx)("goes with its area at %i px", (widthPx) => {
    // Invariant: an end-glow fibre sends out light in proportion to its area; 3 %: whole grey levels in the thinnest's tails.
    const tint = widthPx === 1600 ? [false, true] : [false];
    for (const tinted of tint)
      for (const [dx, dy] of offsetsPx) {
        const mmPerPx = 4800 / widthPx;
        const places = diametersMm.map((diameterMm, i) =>
          dot(
            (Math.round((i + 0.5) * (widthPx / 4)) + dx) * mmPerPx,
            lengthMm - (Math.round(widthPx * 0.125) + dy) * mmPerPx,
            diameterMm,
            1.5,
          ),
        );
        const raster = rasterizePreview(strip(places), { widthPx, tint: tinted });
        const sums = places.map(
          (place) =>
            measuredBlob(raster, place.xMm / mmPerPx, (lengthMm - place.yMm) / mmPerPx, widthPx / 10).sum,
        );
        for (const [i, diameterMm] of diametersMm.entries()) {
          const ratio = sums[i]! / sums[0]! / (diameterMm / 0.5) ** 2;
          expect(Math.abs(ratio - 1)).toBeLessThan(0.03);
        }
      }
  });

  it.each(widthsPx)("is centred where the hole is, within 0.05 px, at %i px", (widthPx) => {
    for (const diameterMm of diametersMm)
      for (const [dx, dy] of offsetsPx) {
        const mmPerPx = 4800 / widthPx;
        const [xPx, yPx] = [Math.round(widthPx / 2) + dx, Math.round(widthPx / 8) + dy];
        // The thinnest far away sets the scale.
        const dots = [dot(xPx * mmPerPx, lengthMm - yPx * mmPerPx, diameterMm), dot(1, 1, 0.5)];
        const blob = measuredBlob(rasterizePreview(strip(dots), { widthPx }), xPx, yPx, widthPx / 10);
        expect(Math.hypot(blob.xPx - xPx, blob.yPx - yPx)).toBeLessThan(0.05);
      }
  });

  it.each(widthsPx)(
    "is at least a quarter of the brightest pixel in the thinnest's centre at %i px",
    (widthPx) => {
      for (const tint of [false, true])
        for (const bv of tint ? [-0.3, 1.8] : [0])
          for (const [dx, dy] of offsetsPx) {
            const mmPerPx = 4800 / widthPx;
            const [xPx, yPx] = [Math.round(widthPx / 4) + dx, Math.round(widthPx / 8) + dy];
            const dots = [
              dot(xPx * mmPerPx, lengthMm - yPx * mmPerPx, 0.5, bv),
              dot(3600, 600, 1.5, 0),
              dot(3600, 600, 1.5, 2),
            ];
            const raster = rasterizePreview(strip(dots), { widthPx, tint });
            const { data } = raster;
            // The pixel that holds the centre.
            const at = (Math.floor(yPx) * widthPx + Math.floor(xPx)) * 3;
            const centre = (data[at]! + data[at + 1]! + data[at + 2]!) / 3;
            const brightest = measuredBlob(raster, widthPx * 0.75, widthPx / 8, widthPx / 50).peak;
            expect(brightest).toBeGreaterThan(200);
            expect(centre).toBeGreaterThanOrEqual(brightest / 4);
          }
    },
  );

  it("is spread over as much of a large picture as of a smaller one", () => {
    // Second moment of the glow, in parts of the picture's width.
    const spread = (widthPx: number): number => {
      const { data, heightPx } = rasterizePreview(bareScene({ dots: [dot(2400, 1800, 0.5)] }), { widthPx });
      let [sum, moment] = [0, 0];
      for (let row = 0; row < heightPx; row++)
        for (let column = 0; column < widthPx; column++) {
          const value = data[(row * widthPx + column) * 3]!;
          sum += value;
          moment += value * ((column + 0.5 - widthPx / 2) ** 2 + (row + 0.5 - heightPx / 2) ** 2);
        }
      return Math.sqrt(moment / sum) / widthPx;
    };
    expect(spread(3840) / spread(1600)).toBeCloseTo(1, 1);
  });

  it("falls off from the middle without a second peak", () => {
    const { data, widthPx, heightPx } = rasterizePreview(bareScene({ dots: [dot(2400, 1800, 1.5)] }), {
      widthPx: 3841,
    });
    const row = (heightPx - 1) / 2;
    expect(row).toBe(1440); // 3841 x 2881 px: one pixel lies in the very middle
    let last = Number.POSITIVE_INFINITY;
    for (let column = (widthPx - 1) / 2; column < widthPx; column++) {
      const value = data[(row * widthPx + column) * 3]!;
      expect(value).toBeLessThanOrEqual(last);
      last = value;
    }
    expect(last).toBe(0);
  });
});
