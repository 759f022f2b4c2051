import { describe, expect, it } from "vitest";
import { symbolsOf } from "../../src/render/sizeSymbols.ts";

/** WCAG 2, relative luminance and contrast against white. */
function contrastOnWhite(hex: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const c = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  });
  return 1.05 / (0.2126 * r! + 0.7152 * g! + 0.0722 * b! + 0.05);
}

/** Corners of path data, ignoring what the pieces between them are. */
const points = (d: string) =>
  [...d.matchAll(/(-?[\d.]+) (-?[\d.]+)(?=[LZAM]|$)/g)].map((m) => [+m[1]!, +m[2]!]);

describe("symbols of fibre sizes", () => {
  it("pair the four common diameters with shape and colour of Okabe and Ito's palette", () => {
    // Hex values: Okabe and Ito, Color Universal Design (2002, revised 2008); the pairing is this project's choice.
    const symbols = symbolsOf([1.5, 0.5, 1, 0.75]);
    expect([...symbols].map(([mm, { name, colour }]) => [mm, name, colour])).toEqual([
      [0.5, "circle", "#0072B2"],
      [0.75, "square", "#D55E00"],
      [1, "triangle", "#009E73"],
      [1.5, "diamond", "#CC79A7"],
    ]);
    const corners = (mm: number) => points(symbols.get(mm)!.path(1)).length;
    expect([corners(0.75), corners(1), corners(1.5)]).toEqual([4, 3, 4]);
    expect(symbols.get(0.5)!.path(1)).toMatch(/^M[\d.]+ 0A/);
  });

  it("differ by shape, never by colour alone, for fifty diameters", () => {
    const symbols = [...symbolsOf(Array.from({ length: 50 }, (_, i) => (i + 1) / 8)).values()];
    expect(new Set(symbols.map(({ name }) => name)).size).toBe(50);
    const shapes = symbols.map(({ path, reachMm }) => path(1 / reachMm)); // all as large as each other
    expect(new Set(shapes).size).toBe(50);
  });

  it("stand out from white paper by 3 to 1, what WCAG 2 asks of graphics (1.4.11)", () => {
    for (const { colour } of symbolsOf([0.25, 0.5, 0.75, 1, 1.5, 2]).values())
      expect(contrastOnWhite(colour)).toBeGreaterThan(3);
  });

  it("have a triangle that points up and one that points down, y being up", () => {
    const symbols = symbolsOf([0.25, 1]);
    const top = (mm: number) => {
      const ys = points(symbols.get(mm)!.path(1)).map(([, y]) => y!);
      return ys.filter((y) => y > 0).length;
    };
    expect([top(1), top(0.25)]).toEqual([1, 2]);
  });
});
