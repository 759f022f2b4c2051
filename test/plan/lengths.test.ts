import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parseLengthMm } from "../../src/plan/lengths.ts";

describe("lengths in a plan file", () => {
  // Oracle: worked by hand from the exact inch of 25.4 mm (international yard and pound agreement, 1959).
  it.each([
    ["38mm", 38],
    ["2.4m", 2400],
    ["60 cm", 600],
    ["48in", 1219.2],
    ["8ft", 2438.4],
    ["1/8in", 3.175],
    ["4 1/2in", 114.3],
    ["4-1/2 in", 114.3],
    [`8' 4-1/2"`, 2552.7],
    [`8'4"`, 2540],
    ["8ft 4in", 2540],
    [`3/4"`, 19.05],
    ["0.5mm", 0.5],
    [".5mm", 0.5],
    ["-20mm", -20],
  ])("%s is %d mm", (text, mm) => {
    expect(parseLengthMm(text)).toBeCloseTo(mm, 9);
  });

  it.each([
    "38",
    "",
    "mm",
    "1/0in",
    "4 1/2",
    "8' 4",
    "3 yd",
    "38mm x",
    "1e3mm",
    "NaNmm",
    "Infinitymm",
    "--3mm",
    "5mm5mm",
  ])("%j is no length", (text) => {
    expect(parseLengthMm(text)).toBeNull();
  });

  it("reads back any decimal written with a unit", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 10_000_000 }), (hundredths) => {
        expect(parseLengthMm(`${(hundredths / 100).toFixed(2)}mm`)).toBeCloseTo(hundredths / 100, 9);
      }),
    );
  });
});
