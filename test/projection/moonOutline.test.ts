import { describe, expect, it } from "vitest";
import { moonOutline, outlineOnCeiling } from "../../src/projection/moonOutline.ts";

const APART_MM = 3.015;
const PHASES = [1, 0.99, 0.7, 0.3, 0.02, 0, -0.02, -0.3, -0.7, -0.9, -0.99, -1];

describe("the Moon's outline", () => {
  it.each([6.2, 12.5, 45, 160].flatMap((ring) => PHASES.map((cosPhase) => [ring, cosPhase] as const)))(
    "%d mm wide with phase cosine %d keeps the spacing, on its two lines, and is the same above and below",
    (ring, cosPhase) => {
      const radius = ring / 2;
      const points = moonOutline(radius, cosPhase, APART_MM);
      expect(points.length).toBeGreaterThan(2);
      for (const [i, a] of points.entries()) {
        const onLimb = a.sunwardMm > -1e-9 && Math.abs(Math.hypot(a.sunwardMm, a.acrossMm) - radius) < 1e-9;
        // The ellipse, worked by hand from its equation; the walk along it is in chords.
        const half = Math.sqrt(Math.max(0, radius ** 2 - a.acrossMm ** 2));
        expect(onLimb || Math.abs(a.sunwardMm + cosPhase * half) < 0.02 * radius).toBe(true);
        for (const b of points.slice(0, i))
          expect(Math.hypot(a.sunwardMm - b.sunwardMm, a.acrossMm - b.acrossMm)).toBeGreaterThan(
            APART_MM - 1e-6,
          );
        const mirrored = points.some(
          (b) =>
            Math.abs(b.acrossMm + a.acrossMm) < 0.01 * radius &&
            Math.abs(b.sunwardMm - a.sunwardMm) < 0.01 * radius,
        );
        expect(mirrored).toBe(true);
      }
    },
  );

  it("of a full Moon is a ring as dense as the spacing lets it be, of a new one half a ring", () => {
    // By hand: 22.5 mm of radius, an angle of 7.68 degrees for 3.015 mm: 23 whole steps to the half circle.
    const full = moonOutline(22.5, 1, APART_MM);
    expect(full).toHaveLength(46);
    for (const { sunwardMm, acrossMm } of full) expect(Math.hypot(sunwardMm, acrossMm)).toBeCloseTo(22.5, 3);
    const thin = moonOutline(22.5, -1, APART_MM);
    expect(thin).toHaveLength(24);
    expect(Math.min(...thin.map((point) => point.sunwardMm))).toBeGreaterThan(-1e-9);
  });

  it("is evenly spaced: no gap on the terminator of a half Moon is wider than the spacing and a step's share", () => {
    const straight = moonOutline(40, 0, APART_MM)
      .filter(({ sunwardMm }) => Math.abs(sunwardMm) < 1e-9)
      .map(({ acrossMm }) => acrossMm)
      .sort((a, b) => a - b);
    // 80 mm in 26 steps of 3.077 mm, horns included.
    expect(straight).toHaveLength(27);
    for (let i = 1; i < straight.length; i++) expect(straight[i]! - straight[i - 1]!).toBeCloseTo(80 / 26, 4);
  });

  it("is turned, never mirrored, onto the ceiling: the Sun's side to the Sun", () => {
    const [point] = outlineOnCeiling(
      [{ sunwardMm: 10, acrossMm: 5 }],
      { xMm: 100, yMm: 200 },
      { xMm: 100, yMm: 190 },
    );
    // Worked by hand: the Sun is down; across is a quarter turn counter-clockwise from it, to the right.
    expect(point!.xMm).toBeCloseTo(105, 9);
    expect(point!.yMm).toBeCloseTo(190, 9);
  });
});
