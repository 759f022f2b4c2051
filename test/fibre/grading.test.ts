import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { coreMagnitude, photometricFit } from "../../src/fibre/brightness.ts";
import { strandBySize } from "../../src/fibre/grade.ts";
import { type Mergeable, mergeClose, summedMag } from "../../src/fibre/merge.ts";
import { strandsFor } from "../../src/fibre/order.ts";
import { strandStock, usableStrands } from "../../src/fibre/stock.ts";
import type { FibrePlan } from "../../src/plan/plan.ts";
import { fibreMagnitudes, meeusMagnitudes } from "../reference/published.ts";

type Row = readonly [mag: number, xMm: number, yMm: number, rank: number];

const fieldOf = (rows: readonly Row[]): Mergeable => {
  const sorted = [...rows].sort((a, b) => a[0] - b[0] || a[3] - b[3]);
  return {
    count: sorted.length,
    mag: Float64Array.from(sorted, (row) => row[0]),
    xMm: Float64Array.from(sorted, (row) => row[1]),
    yMm: Float64Array.from(sorted, (row) => row[2]),
    rank: Int32Array.from(sorted, (row) => row[3]),
  };
};
const all = (field: Mergeable) => new Uint8Array(field.count).fill(1);
const ranks = (field: Mergeable, indices: Iterable<number>) => [...indices].map((i) => field.rank[i]!);

const fibre = (count: number, strands: Record<string, number>, reserve = "0%"): FibrePlan => ({
  sizes: [
    { diameter: 0.5, bit: 0.6 },
    { diameter: 0.75, bit: 0.85 },
    { diameter: 1, bit: 1.1 },
    { diameter: 1.5, bit: 1.65 },
  ],
  bundles: { count, strands },
  reserve,
  milkyWay: "0%",
  sharing: "ceiling",
});

describe("light added", () => {
  // Oracle: Meeus, Astronomical Algorithms 2nd ed., ex. 56.a and 56.b.
  it.each(meeusMagnitudes.sums)("of $mags is $sumMag", ({ mags, sumMag }) => {
    expect(Math.abs(summedMag(mags) - sumMag)).toBeLessThanOrEqual(meeusMagnitudes.toleranceMag);
  });
  it("of two equal stars is 0.7526 magnitudes brighter: Pogson's ratio", () => {
    expect(summedMag([4, 4])).toBeCloseTo(4 - 2.5 * Math.log10(2), 12);
  });
});

describe("merging", () => {
  it("goes greedily from the brightest, without chains", () => {
    // Worked by hand: 0.9 mm apart in a row. 1 takes 2; 3 is 1.8 mm from 1, so it stays and takes 4.
    const field = fieldOf([
      [1, 0, 0, 1],
      [2, 0.9, 0, 2],
      [3, 1.8, 0, 3],
      [4, 2.7, 0, 4],
    ]);
    const lights = mergeClose(field, 1, all(field));
    expect(ranks(field, lights.leader)).toEqual([1, 3]);
    expect(
      [...lights.foldedInto].map(([leader, folded]) => [field.rank[leader], ranks(field, folded)]),
    ).toEqual([
      [1, [2]],
      [3, [4]],
    ]);
    expect(lights.mag[0]).toBeCloseTo(summedMag([1, 2]), 12);
  });

  it("ranks by the light together: two of 4.0 outshine one of 3.5", () => {
    const field = fieldOf([
      [3.5, 0, 0, 1],
      [4, 100, 0, 2],
      [4, 100.5, 0, 3],
    ]);
    expect(ranks(field, mergeClose(field, 1, all(field)).leader)).toEqual([2, 1]);
  });

  it("settles equal light: planets first, then lower HIP numbers", () => {
    const field = fieldOf([
      [4, 0, 0, 900],
      [4, 50, 0, 20],
      [4, 90, 0, -3],
    ]);
    expect(ranks(field, mergeClose(field, 1, all(field)).leader)).toEqual([-3, 20, 900]);
  });

  it("counts a distance of exactly the limit as close, and passes over what does not compete", () => {
    const field = fieldOf([
      [1, 0, 0, 1],
      [2, 1, 0, 2],
      [3, 5, 5, 3],
    ]);
    expect(mergeClose(field, 1, all(field)).count).toBe(2);
    expect(ranks(field, mergeClose(field, 1, Uint8Array.of(0, 1, 1)).leader)).toEqual([2, 3]);
  });

  it("misses no neighbour, on whichever side", () => {
    // Worked by hand: both lie 0.91 mm from the first and 1.7 mm from each other.
    const field = fieldOf([
      [1, 100, 100, 1],
      [2, 100.1, 100.9, 2],
      [3, 100.2, 99.1, 3],
    ]);
    expect(mergeClose(field, 1, all(field)).count).toBe(1);
  });

  it("settles equal light after merging, too: the lower number first", () => {
    const field = fieldOf([
      [4, 0, 0, 50],
      [4, 0.5, 0, 60],
      [4, 100, 0, 20],
      [4, 100.5, 0, 70],
    ]);
    const lights = mergeClose(field, 1, all(field));
    expect(ranks(field, lights.leader)).toEqual([20, 50]);
  });

  it("does what a slow, plain reading of the rule does", () => {
    const row = fc.tuple(
      fc.integer({ min: -100, max: 900 }).map((m) => m / 100),
      fc.integer({ min: 0, max: 2000 }).map((v) => v / 100),
      fc.integer({ min: 0, max: 2000 }).map((v) => v / 100),
    );
    fc.assert(
      fc.property(
        fc.array(row, { maxLength: 300, size: "max" }),
        fc.constantFrom(0, 0.5, 1, 5, 60),
        (rows, mergeMm) => {
          const field = fieldOf(rows.map(([mag, x, y], i) => [mag, x, y, i + 1] as const));
          const lights = mergeClose(field, mergeMm, all(field));
          // The rule, told again without index or sweep.
          const taken = new Set<number>();
          const expected: { rank: number; mag: number; folded: number[] }[] = [];
          for (let i = 0; i < field.count; i++) {
            if (taken.has(i)) continue;
            taken.add(i);
            const folded: number[] = [];
            for (let j = 0; j < field.count; j++) {
              const near =
                (field.xMm[j]! - field.xMm[i]!) ** 2 + (field.yMm[j]! - field.yMm[i]!) ** 2 <= mergeMm ** 2;
              if (!taken.has(j) && near) {
                folded.push(j);
                taken.add(j);
              }
            }
            const light = [i, ...folded].reduce((sum, j) => sum + 10 ** (-0.4 * field.mag[j]!), 0);
            expected.push({
              rank: field.rank[i]!,
              mag: folded.length ? -2.5 * Math.log10(light) : field.mag[i]!,
              folded: ranks(field, folded),
            });
          }
          expected.sort((a, b) => a.mag - b.mag || a.rank - b.rank);
          expect(ranks(field, lights.leader)).toEqual(expected.map((each) => each.rank));
          for (const [k, each] of expected.entries()) {
            expect(lights.mag[k]).toBeCloseTo(each.mag, 10);
            expect(ranks(field, lights.foldedInto.get(lights.leader[k]!) ?? [])).toEqual(each.folded);
          }
        },
      ),
      { seed: 4, numRuns: 100 },
    );
  });
});

describe("grading", () => {
  it("of eight bundles of 100 in the mix 80/14/5/1 uses 640, 112, 40 and 8 strands, brightest to thickest", () => {
    // Common practice, no source.
    const stock = strandStock(fibre(8, { "0.5mm": 80, "0.75mm": 14, "1mm": 5, "1.5mm": 1 }));
    expect(stock.map((size) => [size.diameterMm, size.usable])).toEqual([
      [1.5, 8],
      [1, 40],
      [0.75, 112],
      [0.5, 640],
    ]);
    const strands = strandBySize(stock);
    expect(strands).toHaveLength(800);
    for (const [diameter, count] of [
      [1.5, 8],
      [1, 40],
      [0.75, 112],
      [0.5, 640],
    ] as const) {
      expect(strands.filter((one) => one.diameterMm === diameter)).toHaveLength(count);
    }
    expect(strands.map((one) => one.diameterMm)).toEqual(
      strands.map((one) => one.diameterMm).sort((a, b) => b - a),
    );
  });

  it("holds back at least the reserve of every size, in whole strands", () => {
    const stock = strandStock(fibre(6, { "0.5mm": 70, "0.75mm": 20, "1mm": 8, "1.5mm": 2 }, "3%"));
    // By hand: 3 % of 420, 120, 48 and 12 is 12.6, 3.6, 1.44 and 0.36.
    expect(stock.map((size) => size.heldBack)).toEqual([1, 2, 4, 13]);
    expect(strandStock(fibre(1, { "0.5mm": 100 }, "3%"))[0]!.heldBack).toBe(3);
  });
});

describe("ordering strands", () => {
  it("buys the fewest whole bundles that light so many objects", () => {
    const mix = { "0.5mm": 80, "0.75mm": 14, "1mm": 5, "1.5mm": 1 };
    expect(strandsFor(800, fibre(1, mix)).bundles).toBe(8);
    expect(strandsFor(801, fibre(1, mix)).bundles).toBe(9);
    expect(strandsFor(0, fibre(1, mix)).bundles).toBe(0);
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 5000 }), fc.integer({ min: 0, max: 50 }), (objects, percent) => {
        const order = strandsFor(objects, fibre(1, mix, `${percent}%`));
        const usable = (bundles: number) => usableStrands(strandStock(fibre(1, mix, `${percent}%`), bundles));
        expect(usable(order.bundles)).toBeGreaterThanOrEqual(objects);
        expect(usable(order.bundles - 1)).toBeLessThan(objects);
        expect(order.strands.reduce((sum, size) => sum + size.needed, 0)).toBe(objects);
      }),
      { seed: 5 },
    );
  });
});

describe("the brightness of fibres", () => {
  // Oracle: Pogson's ratio, light in proportion to area: steps 0.8805, 0.6247, 0.8805; span 2.3856 magnitudes.
  it("goes with the area of the core", () => {
    const mags = fibreMagnitudes.diametersMm.map(coreMagnitude);
    for (const [i, step] of fibreMagnitudes.stepsMag.entries()) {
      expect(Math.abs(mags[i]! - mags[i + 1]! - step)).toBeLessThanOrEqual(fibreMagnitudes.toleranceMag);
    }
    expect(Math.abs(mags[0]! - mags[3]! - fibreMagnitudes.spanMag)).toBeLessThanOrEqual(
      fibreMagnitudes.toleranceMag,
    );
  });

  it("is off by nothing when the sky has the same steps, and by the RMS worked by hand when not", () => {
    const same = fibreMagnitudes.diametersMm.map((diameterMm) => ({
      diameterMm,
      mag: coreMagnitude(diameterMm) + 3,
    }));
    expect(photometricFit(same).rmsMag).toBeCloseTo(0, 12);
    expect(photometricFit(same).offsetMag).toBeCloseTo(3, 12);
    // Two equal fibres for magnitudes 1 and 3: off by 1 each way.
    expect(
      photometricFit([
        { diameterMm: 1, mag: 1 },
        { diameterMm: 1, mag: 3 },
      ]).rmsMag,
    ).toBeCloseTo(1, 12);
  });
});
