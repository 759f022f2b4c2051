import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type FourPoints,
  homographyOf,
  type Point,
  stretchAt,
  through,
  weightAt,
} from "../../src/projection/homography.ts";

/**
 * A pinhole looking at a board: the second method. The board lies in z = 0, mm; the lens at `eye` looks along a direction that is turned
 * by yaw, pitch and roll from straight down; pixels are focal length times the tangents.
 */
const pinhole = (eye: readonly [number, number, number], [yaw, pitch, roll]: readonly number[]) => {
  const [cy, sy, cp, sp, cr, sr] = [yaw!, pitch!, roll!].flatMap((a) => [Math.cos(a), Math.sin(a)]) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  return ([x, y]: Point): Point => {
    let [u, v, w] = [x - eye[0], -(y - eye[1]), eye[2]]; // y runs down in pixels, w away from the lens
    [u, w] = [cy * u + sy * w, -sy * u + cy * w];
    [v, w] = [cp * v + sp * w, -sp * v + cp * w];
    [u, v] = [cr * u - sr * v, sr * u + cr * v];
    return [1920 + (3000 * u) / w, 1080 + (3000 * v) / w];
  };
};

const angle = fc.double({ min: -0.4, max: 0.4, noNaN: true });
const board: FourPoints = [
  [0, 0],
  [1400, 0],
  [1400, 1500],
  [0, 1500],
];

describe("the homography of four corners", () => {
  it("is what a pinhole does to every other point of the board, to a millionth of a pixel", () => {
    fc.assert(
      fc.property(
        fc.tuple(angle, angle, angle),
        fc.double({ min: 1500, max: 4000, noNaN: true }),
        fc.tuple(
          fc.double({ min: 0, max: 1400, noNaN: true }),
          fc.double({ min: 0, max: 1500, noNaN: true }),
        ),
        (turns, height, point) => {
          const see = pinhole([700, 600, height], turns);
          const h = homographyOf(board, board.map(see) as unknown as FourPoints);
          const [x, y] = through(h, point);
          const [u, v] = see(point);
          expect(Math.hypot(x - u, y - v)).toBeLessThan(1e-6);
          expect(weightAt(h, point)).toBeGreaterThan(0);
        },
      ),
      { seed: 5, numRuns: 300 },
    );
  });

  it("stretches short steps as finite differences of the pinhole do", () => {
    const see = pinhole([500, 300, 2500], [0.2, -0.3, 0.1]);
    const h = homographyOf(board, board.map(see) as unknown as FourPoints);
    const at: Point = [900, 400];
    const { least, most } = stretchAt(h, at);
    const lengths = Array.from({ length: 360 }, (_, k) => {
      const [dx, dy] = [Math.cos((k * Math.PI) / 360), Math.sin((k * Math.PI) / 360)];
      const [a, b] = [see([at[0] - dx / 2, at[1] - dy / 2]), see([at[0] + dx / 2, at[1] + dy / 2])];
      return Math.hypot(b[0] - a[0], b[1] - a[1]);
    });
    expect(least).toBeCloseTo(Math.min(...lengths), 4);
    expect(most).toBeCloseTo(Math.max(...lengths), 4);
  });
});
