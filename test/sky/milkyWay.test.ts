import { describe, expect, it } from "vitest";
import { galacticOf, ICRS_TO_GALACTIC } from "../../src/sky/galactic.ts";
import { apply, applyInverse, dot, type Vector3 } from "../../src/sky/matrix.ts";
import { COMPLETE_TO_MAG, starDensity } from "../../src/sky/milkyWay.ts";
import { testSky } from "./testSky.ts";

const RAD = Math.PI / 180;
const { catalogue } = testSky();
const density = starDensity(catalogue);

/** Counted by hand of the test: rows to the limit, as unit vectors. */
const counted: Vector3[] = [];
for (let row = 0; row < catalogue.count; row++) {
  if (catalogue.vCentiMag[row]! <= 100 * COMPLETE_TO_MAG)
    counted.push(catalogue.unitJ2000.slice(3 * row, 3 * row + 3) as unknown as Vector3);
}
/** Even over the sphere: a spiral of equal steps in height. */
const spiral = (points: number): Vector3[] =>
  Array.from({ length: points }, (_, i) => {
    const z = 1 - (2 * i + 1) / points;
    const angle = i * Math.PI * (3 - Math.sqrt(5));
    const r = Math.sqrt(1 - z * z);
    return [r * Math.cos(angle), r * Math.sin(angle), z] as const;
  });
const zone = (fromDeg: number, toDeg: number) => ({
  holds: (icrs: Vector3) => {
    const away = Math.abs(galacticOf(icrs).latitudeDeg);
    return away >= fromDeg && away < toDeg;
  },
  steradians: 4 * Math.PI * (Math.sin(toDeg * RAD) - Math.sin(fromDeg * RAD)),
});
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

describe("galactic axes", () => {
  it("are a rotation with the centre toward Sagittarius", () => {
    // Source: ERFA icrs2g.c prints the matrix; its first row is the galactic centre: RA 266.405, Dec -28.936 (from memory).
    const [x, y, z] = applyInverse(ICRS_TO_GALACTIC, [1, 0, 0]);
    expect((Math.atan2(y, x) / RAD + 360) % 360).toBeCloseTo(266.405, 2);
    expect(Math.asin(z) / RAD).toBeCloseTo(-28.936, 2);
    const rows = [0, 3, 6].map((i) => ICRS_TO_GALACTIC.slice(i, i + 3) as unknown as Vector3);
    for (const [i, a] of rows.entries())
      for (const [j, b] of rows.entries()) expect(dot(a, b)).toBeCloseTo(i === j ? 1 : 0, 12);
    expect(apply(ICRS_TO_GALACTIC, [x, y, z])[0]).toBeCloseTo(1, 12);
  });
});

describe("the density of stars", () => {
  it("adds up to the stars counted: smoothing loses none and adds none", () => {
    const points = spiral(50_000);
    const all = 4 * Math.PI * mean(points.map(density.at));
    expect(Math.abs(all / counted.length - 1)).toBeLessThan(0.002);
  });

  it.each([
    [266.4, -28.9],
    [83.8, -1.2],
    [192.9, 27.1],
    [12.9, -27.1],
    [186.6, -63.1],
    [0, 89],
  ])("is that of the stars within ten degrees, toward %d, %d", (raDeg, decDeg) => {
    // Second method: every star's own weight, no rings, no interpolation.
    const [ra, dec] = [raDeg * RAD, decDeg * RAD];
    const at: Vector3 = [Math.cos(dec) * Math.cos(ra), Math.cos(dec) * Math.sin(ra), Math.sin(dec)];
    const rim = Math.cos(10 * RAD);
    const weights = counted.map((star) => Math.max(0, dot(star, at) - rim) ** 2);
    const direct = weights.reduce((sum, w) => sum + w, 0) / ((2 * Math.PI * (1 - rim) ** 3) / 3);
    // The nodes lie 2 degrees apart, a fifth of the kernel's radius: interpolation flattens a peak by a few per cent.
    expect(Math.abs(density.at(at) / direct - 1)).toBeLessThan(0.05);
  });

  it("has the true contrast of the Milky Way: that of the plain counts of the complete part of the catalogue", () => {
    const perSteradian = ({ holds, steradians }: ReturnType<typeof zone>) =>
      counted.filter(holds).length / steradians;
    const raw = perSteradian(zone(0, 5)) / perSteradian(zone(60, 90));
    const points = spiral(20_000);
    const smoothed = ({ holds }: ReturnType<typeof zone>) => mean(points.filter(holds).map(density.at));
    const contrast = smoothed(zone(0, 5)) / smoothed(zone(60, 90));
    expect(raw).toBeGreaterThan(2.2);
    // The kernel, 3.5 degrees of standard deviation, takes some of a band's ridge: it lowers the contrast, by under a tenth.
    expect(contrast).toBeLessThan(raw);
    expect(contrast).toBeGreaterThan(0.9 * raw);
    expect(density.meanInBand).toBeCloseTo(perSteradian(zone(0, 5)), 6);
    expect(density.meanBeside).toBeCloseTo(perSteradian(zone(20, 40)), 6);
  });

  it("has its limit where the counts still grow as they did: fainter ones are missing, near the plane first", () => {
    // Growth of log10(count) by magnitude from V 5 to 6.5 in steps of a half, carried on (no source but the data).
    const steps = (holds: (icrs: Vector3) => boolean) => {
      const counts = new Array<number>(20).fill(0);
      for (let row = 0; row < catalogue.count; row++) {
        const icrs = catalogue.unitJ2000.subarray(3 * row, 3 * row + 3) as unknown as Vector3;
        const step = Math.floor(catalogue.vCentiMag[row]! / 50);
        if (step >= 0 && step < 20 && holds(icrs)) counts[step]!++;
      }
      return counts;
    };
    const lastWhole = 2 * COMPLETE_TO_MAG - 1;
    const share = (counts: readonly number[], step: number) =>
      counts[step]! / (counts[lastWhole - 1]! * (counts[lastWhole - 1]! / counts[10]!) ** ((step - 12) / 2));
    const band = steps(zone(0, 20).holds);
    expect(share(band, lastWhole)).toBeGreaterThan(0.9); // V 6.5 to 7: 2,500 stars, so 2 % by chance, the slope 5 %
    expect(share(band, lastWhole + 2)).toBeLessThan(0.85); // V 7.5 to 8
    expect(share(band, lastWhole + 4)).toBeLessThan(0.6); // V 8.5 to 9
  });
});
