import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { loadFont } from "../../src/render/index.ts";
import { shippedFont, shippedFontBytes } from "./scenes.ts";

const font = shippedFont();

describe("the shipped font", () => {
  it("is the file that its note describes", () => {
    const note = readFileSync(new URL("../../data/fonts/README.md", import.meta.url), "utf8");
    expect(note).toContain(createHash("sha256").update(new Uint8Array(shippedFontBytes())).digest("hex"));
  });

  it("writes the names that skies and walls have", () => {
    const words = [
      "αβγδεζηθικλμνξοπρστυφχψω",
      "Valparaíso Łódź Çeşme Ørsted Þór Győr Ștefan Việt",
      "Спика Юпитер Київ Ђорђе",
      "ψ¹ Aqr ±0.5° × ½″ 1′ “a” – … 12.5 mm",
      "A1 B12 AA3 _",
    ];
    for (const text of words) expect(font.missing(text)).toEqual([]);
  });

  it("tells I, l and 1 apart", () => {
    const shapes = ["I", "l", "1"].map((text) => font.textPath(text, 0, 0, 100, "start").d);
    expect(new Set(shapes).size).toBe(3);
  });

  it("names the characters that it lacks and draws boxes for them", () => {
    expect(font.missing("木星 a 木 ♃")).toEqual(["木", "星", "♃"]);
    const [box, two] = ["木", "木星"].map((text) => font.textPath(text, 0, 0, 10, "start"));
    expect(box!.d).not.toBe("");
    expect(two!.d.length).toBeGreaterThan(box!.d.length * 1.5);
  });
});

describe("text as outlines", () => {
  it("stands upright on its baseline, y down", () => {
    // A "T": its bar, the wide part, is at the top, which is the smaller y.
    const { ink, d } = font.textPath("T", 50, 100, 20, "start");
    expect(ink.bottomMm).toBeCloseTo(100, 6);
    expect(ink.topMm).toBeCloseTo(100 - 20 * font.capHeightEm, 1);
    const points = [...d.matchAll(/(-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => ({
      x: Number(x),
      y: Number(y),
    }));
    const widthAt = (near: number): number => {
      const xs = points.filter(({ y }) => Math.abs(y - near) < 0.5).map(({ x }) => x);
      return Math.max(...xs) - Math.min(...xs);
    };
    expect(widthAt(ink.topMm)).toBeGreaterThan(3 * widthAt(ink.bottomMm));
    expect(font.textPath("g", 0, 0, 20, "start").ink.bottomMm).toBeGreaterThan(2); // hangs below the baseline
  });

  it("hangs on its anchor and grows with its size", () => {
    const start = font.textPath("Vega", 100, 0, 10, "start");
    const middle = font.textPath("Vega", 100, 0, 10, "middle");
    const end = font.textPath("Vega", 100, 0, 10, "end");
    expect(start.ink.leftMm - middle.ink.leftMm).toBeCloseTo(start.widthMm / 2, 6);
    expect(start.ink.leftMm - end.ink.leftMm).toBeCloseTo(start.widthMm, 6);
    expect(font.textPath("Vega", 0, 0, 20, "start").widthMm).toBeCloseTo(2 * start.widthMm, 6);
    expect(font.textPath("Vega", 0, 0, 10, "start", 0.1).widthMm).toBeCloseTo(start.widthMm + 4, 6);
  });

  it("is written to a hundredth, without minus nought, the same each time", () => {
    const { d } = font.textPath("Rigil Kentaurus α", 0.001, -0.001, 7.3, "middle");
    expect(d).toMatch(/^[MLQCZ\d .-]+$/);
    expect(d).not.toMatch(/\.\d{3}|-0(?![.\d])|NaN|e-/);
    expect(shippedFont().textPath("Rigil Kentaurus α", 0.001, -0.001, 7.3, "middle").d).toBe(d);
  });

  it("takes a letter and its accent for the accented letter, and any white space for one space", () => {
    expect(font.textPath("Ju\u0301piter", 0, 0, 10, "start").d).toBe(
      font.textPath("Júpiter", 0, 0, 10, "start").d,
    );
    expect(font.textPath(" α\n\t Cru ", 0, 0, 10, "start").d).toBe(
      font.textPath("α Cru", 0, 0, 10, "start").d,
    );
    expect(font.textPath("", 3, 4, 10, "start")).toMatchObject({
      d: "",
      widthMm: 0,
      ink: { leftMm: 3, bottomMm: 4 },
    });
  });

  it("comes from font files only", () => {
    expect(() => loadFont(new ArrayBuffer(64))).toThrow(Error);
  });
});
