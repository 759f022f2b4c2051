import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { type PlanePoint, similarityFit } from "../../src/schedule/similarityFit.ts";

interface Fit {
  readonly from: PlanePoint[];
  readonly to: PlanePoint[];
  readonly scale: number;
  readonly turnDeg: number;
  readonly rms: number;
  readonly disparity: number | null;
}

const fits: Fit[] = JSON.parse(
  readFileSync(new URL("../reference/similarity-fits.json", import.meta.url), "utf8"),
);

describe("the best move, turn and scale", () => {
  it("is found by hand: a cross of four, one of its beams pressed to half", () => {
    // From (±1, 0), (0, ±1) to (±1, 0), (0, ±1/2): scale (1 + 1/2) / 2, and each point is left off by a quarter.
    const cross: PlanePoint[] = [
      [1, 0],
      [-1, 0],
      [0, 1],
      [0, -1],
    ];
    const fit = similarityFit(
      cross,
      cross.map(([x, y]) => [x, y / 2]),
    )!;
    expect(fit.scale).toBeCloseTo(0.75, 12);
    expect(fit.turnDeg).toBeCloseTo(0, 12);
    expect(fit.rms).toBeCloseTo(0.25, 12);
    expect(fit.size).toBe(1);
    // Turned a quarter counter-clockwise, twice as large, moved: nothing is left.
    const turned = similarityFit(
      cross,
      cross.map(([x, y]) => [7 - 2 * y, 2 * x - 4]),
    )!;
    expect(turned.scale).toBeCloseTo(2, 12);
    expect(turned.turnDeg).toBeCloseTo(90, 12);
    expect(turned.rms).toBeCloseTo(0, 7);
  });

  it("is that of Umeyama's algorithm with numpy's decomposition, and leaves what scipy's procrustes leaves", () => {
    // Oracle: scripts/reference/make_similarity_fits.py.
    expect(fits).toHaveLength(7);
    for (const { from, to, scale, turnDeg, rms, disparity } of fits) {
      const fit = similarityFit(from, to)!;
      expect(fit.scale).toBeCloseTo(scale, 9);
      expect(fit.turnDeg).toBeCloseTo(turnDeg, 7);
      expect(Math.abs(fit.rms - rms)).toBeLessThan(1e-4);
      if (disparity === null) continue;
      const mean = [0, 1].map((axis) => to.reduce((sum, point) => sum + point[axis]!, 0) / to.length);
      const squares = to.reduce((sum, [x, y]) => sum + (x - mean[0]!) ** 2 + (y - mean[1]!) ** 2, 0);
      expect(Math.abs((fit.rms ** 2 * to.length) / squares - disparity)).toBeLessThan(1e-9);
    }
  });

  it("does not reflect, and has none for a single point", () => {
    const mirrored = fits.at(-1)!;
    expect(similarityFit(mirrored.from, mirrored.to)!.rms).toBeGreaterThan(50);
    expect(similarityFit([[1, 2]], [[3, 4]])).toBeNull();
    expect(
      similarityFit(
        [
          [1, 2],
          [1, 2],
        ],
        [
          [3, 4],
          [5, 6],
        ],
      ),
    ).toBeNull();
  });
});
