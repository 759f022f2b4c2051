import fc from "fast-check";
import sharp from "sharp";
import { describe, expect, it } from "vitest";
import { type InkBox, previewLabelsSvg } from "../../src/render/index.ts";
import { layoutLabels } from "../../src/render/labelLayout.ts";
import { labelColour, labelKinds } from "../../src/render/labelStyle.ts";
import { bareScene, dot, inventedScene, shippedFont } from "./scenes.ts";

const font = shippedFont();
const meet = (a: InkBox, b: InkBox): boolean =>
  a.leftMm < b.rightMm && b.leftMm < a.rightMm && a.topMm < b.bottomMm && b.topMm < a.bottomMm;
const seconds = 30_000;

describe("labels", () => {
  it(
    "overlap neither each other, nor bright stars, nor the border, on any ceiling",
    () => {
      fc.assert(
        fc.property(
          fc.integer({ min: 0, max: 2 ** 31 }),
          fc.constantFrom([4800, 3600], [300, 300], [20000, 6000], [1200, 5000]),
          fc.constantFrom(undefined, 800, 1600, 8192),
          (seed, [widthMm, lengthMm], widthPx) => {
            const scene = inventedScene(seed, { widthMm: widthMm!, lengthMm: lengthMm!, dotCount: 400 });
            const { labels, dropped } = layoutLabels(scene, font, widthPx);
            expect(labels.length + dropped.length).toBe(4 + 4 + 6 + 40);
            const words = labels.filter(({ kind }) => kind !== "compass"); // placed even where stars are
            for (const [i, label] of labels.entries()) {
              expect(label.ink.leftMm).toBeGreaterThanOrEqual(0);
              expect(label.ink.topMm).toBeGreaterThanOrEqual(0);
              expect(label.ink.rightMm).toBeLessThanOrEqual(scene.widthMm);
              expect(label.ink.bottomMm).toBeLessThanOrEqual(scene.lengthMm);
              for (const other of labels.slice(i + 1)) expect(meet(label.ink, other.ink)).toBe(false);
            }
            for (const { xMm, yMm, diameterMm } of scene.dots) {
              if (diameterMm < 0.75) continue;
              // The dot itself: what it is and where, y turned over.
              const r = diameterMm / 2;
              const y = scene.lengthMm - yMm;
              const star = { leftMm: xMm - r, rightMm: xMm + r, topMm: y - r, bottomMm: y + r };
              expect(words.filter(({ ink }) => meet(ink, star)).map(({ text }) => text)).toEqual([]);
            }
          },
        ),
        { numRuns: 25, seed: 7 },
      );
    },
    seconds,
  );

  it("stand beside their stars, nearly all of them", () => {
    const scene = inventedScene(11);
    const { labels, unitMm } = layoutLabels(scene, font);
    const names = labels.filter(({ kind }) => kind === "name");
    expect(names.length).toBeGreaterThan(34); // of 40
    for (const { text, ink } of names) {
      const gaps = scene.names
        .filter((name) => name.text === text)
        .map(({ xMm, yMm }) => {
          const y = scene.lengthMm - yMm;
          const dx = Math.max(ink.leftMm - xMm, 0, xMm - ink.rightMm);
          return Math.hypot(dx, Math.max(ink.topMm - y, 0, y - ink.bottomMm));
        });
      expect(Math.min(...gaps)).toBeLessThan(3 * unitMm);
    }
  });

  it("let the brightest star's name stay where two compete", () => {
    const dots = Array.from({ length: 9 }, (_, i) => dot(1000 + 20 * i, 1800, 1));
    const names = dots.map(({ xMm, yMm }, i) => ({ xMm, yMm, text: `Brightness rank ${i + 1}` }));
    const { labels, dropped } = layoutLabels(bareScene({ dots, names }), font);
    expect(labels[0]!.text).toBe("Brightness rank 1");
    expect(dropped.length).toBeGreaterThan(0);
    expect(dropped).not.toContain("Brightness rank 1");
  });

  it("put each compass letter and wall name at its side, as seen from below", () => {
    const { labels, ticks } = layoutLabels(inventedScene(5), font);
    const middleOf = (text: string) => {
      const { ink } = labels.find((label) => label.text === text)!;
      return { x: (ink.leftMm + ink.rightMm) / 2 / 4800, y: (ink.topMm + ink.bottomMm) / 2 / 3600 };
    };
    for (const text of ["N", "street window"]) expect(middleOf(text).y).toBeLessThan(0.05);
    for (const text of ["S", "shelves"]) expect(middleOf(text).y).toBeGreaterThan(0.95);
    for (const text of ["E", "harbour"]) expect(middleOf(text).x).toBeLessThan(0.05);
    for (const text of ["W", "door"]) expect(middleOf(text).x).toBeGreaterThan(0.95);
    expect(ticks.map(({ from }) => [from.x, from.y])).toEqual([
      [2400, 0],
      [0, 1800],
      [2400, 3600],
      [4800, 1800],
    ]);
    // Turned words read bottom to top: they are taller than wide.
    for (const wall of ["harbour", "door"]) {
      const { ink, turnedAt } = labels.find(({ text }) => text === wall)!;
      expect(turnedAt).not.toBeNull();
      expect(ink.bottomMm - ink.topMm).toBeGreaterThan(2 * (ink.rightMm - ink.leftMm));
    }
  });

  it("put each panel's id into that panel", () => {
    const scene = inventedScene(6);
    const { labels } = layoutLabels(scene, font);
    for (const { id, xMm, yMm, widthMm, lengthMm } of scene.panels) {
      const { ink } = labels.find(({ kind, text }) => kind === "panel" && text === id)!;
      expect(ink.leftMm).toBeGreaterThan(xMm);
      expect(ink.rightMm).toBeLessThan(xMm + widthMm);
      expect(3600 - ink.bottomMm).toBeGreaterThan(yMm);
      expect(3600 - ink.topMm).toBeLessThan(yMm + lengthMm);
    }
  });

  it("can be read on an A4 print of a picture 1600 px wide", () => {
    // 1.3 mm of capital height: ISO 3098-1 asks for 1.8 mm on drawings, footnotes are commonly set at 1.2 (both from memory).
    const { labels } = layoutLabels(inventedScene(8), font, 1600);
    const printed = 277 / 4800; // the picture's width on the sheet
    const tall = labels.find(({ text }) => text === "Zubeneschamali" || text === "Rigil Kentaurus")!;
    expect((tall.ink.bottomMm - tall.ink.topMm) * printed).toBeGreaterThan(1.3);
    const idHeights = labels
      .filter(({ kind }) => kind === "panel")
      .map(({ ink }) => (ink.bottomMm - ink.topMm) * printed);
    expect(Math.min(...idHeights)).toBeGreaterThan(1.3);
  });

  it("have a contrast of 4.5 to 1 on black", () => {
    // WCAG 2.2: relative luminance of sRGB, (L1 + 0.05) / (L2 + 0.05), criterion 1.4.3.
    for (const kind of labelKinds) {
      const channels = [1, 3, 5].map((at) => Number.parseInt(labelColour[kind].slice(at, at + 2), 16) / 255);
      const [r, g, b] = channels.map((v) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4));
      expect((0.2126 * r! + 0.7152 * g! + 0.0722 * b! + 0.05) / 0.05).toBeGreaterThan(4.5);
    }
  });

  it("follow the outlines of panels that are no rectangles: seams as they are, ids inside", () => {
    const corner = (xMm: number, yMm: number) => [xMm, yMm] as const;
    // An L with its notch at the upper right, and a triangle whose box has its lower left corner outside.
    const scene = bareScene({
      panels: [
        {
          id: "L",
          xMm: 0,
          yMm: 0,
          widthMm: 2400,
          lengthMm: 3600,
          outlineMm: [
            corner(0, 0),
            corner(2400, 0),
            corner(2400, 1000),
            corner(900, 1000),
            corner(900, 3600),
            corner(0, 3600),
          ],
        },
        {
          id: "T",
          xMm: 2400,
          yMm: 0,
          widthMm: 2400,
          lengthMm: 3600,
          outlineMm: [corner(4800, 0), corner(4800, 3600), corner(2400, 3600)],
        },
      ],
    });
    const { svg, dropped } = previewLabelsSvg(scene, font, { widthPx: 1600 });
    // By hand: y is 3600 less what it is on the ceiling.
    expect(svg).toContain('d="M0 3600L2400 3600L2400 2600L900 2600L900 0L0 0ZM4800 3600L4800 0L2400 0Z"');
    expect(dropped).toEqual([]);
    const ids = layoutLabels(scene, font, 1600).labels.filter(({ kind }) => kind === "panel");
    expect(ids.map(({ text }) => text)).toEqual(["L", "T"]);
    const [l, t] = ids.map(({ ink }) => ink);
    expect(l!.rightMm < 900 || (l!.rightMm < 2400 && l!.topMm > 2600)).toBe(true);
    // The hypotenuse runs from (2400, 0) to (4800, 3600) in the picture; inside is above and to the right.
    expect((t!.bottomMm - 0) / (t!.leftMm - 2400)).toBeLessThan(3600 / 2400);
  });

  it("say which characters the font lacks, also of words without room", () => {
    const dots = [dot(1000, 1000, 1)];
    const names = [{ xMm: 1000, yMm: 1000, text: "木星" }];
    expect(previewLabelsSvg(bareScene({ dots, names }), font, { widthPx: 800 }).missingCharacters).toEqual([
      "木",
      "星",
    ]);
    const tiny = bareScene({ panels: [{ id: "♃", xMm: 0, yMm: 0, widthMm: 5, lengthMm: 5 }] });
    expect(previewLabelsSvg(tiny, font, { widthPx: 800 })).toMatchObject({
      dropped: ["♃"],
      missingCharacters: ["♃"],
    });
    expect(previewLabelsSvg(inventedScene(1), font, { widthPx: 800 }).missingCharacters).toEqual([]);
  });

  it("are outlines only, drawn where the layout says", async () => {
    const scene = inventedScene(9);
    const { svg } = previewLabelsSvg(scene, font, { widthPx: 1600 });
    expect(svg).not.toMatch(/<text|font-family|NaN|Infinity|undefined/);
    expect(svg).not.toMatch(/\.\d{3}/); // hundredths of a mm
    const { data, info } = await sharp(Buffer.from(svg)).raw().toBuffer({ resolveWithObject: true });
    expect([info.width, info.height, info.channels]).toEqual([1600, 1200, 4]);
    const { labels, ticks, unitMm } = layoutLabels(scene, font, 1600);
    const pxPerMm = 1600 / 4800;
    // Bright ink in every word's box, the turned ones too.
    for (const { ink, text } of labels) {
      let inked = 0;
      for (let y = Math.floor(ink.topMm * pxPerMm); y < ink.bottomMm * pxPerMm; y++)
        for (let x = Math.floor(ink.leftMm * pxPerMm); x < ink.rightMm * pxPerMm; x++)
          if (data[(y * 1600 + x) * 4 + 1]! > 90) inked++;
      expect(`${text}: ${inked > 10}`).toBe(`${text}: true`);
    }
    // No bright ink (seams are 71) anywhere else but at the ticks.
    let stray = 0;
    for (let y = 0; y < 1200; y++)
      for (let x = 0; x < 1600; x++) {
        if (data[(y * 1600 + x) * 4 + 1]! < 90) continue;
        const at = {
          leftMm: (x - 1) / pxPerMm,
          rightMm: (x + 2) / pxPerMm,
          topMm: (y - 1) / pxPerMm,
          bottomMm: (y + 2) / pxPerMm,
        };
        const onTick = ticks.some(
          ({ from }) => Math.hypot(from.x - x / pxPerMm, from.y - y / pxPerMm) < 3 * unitMm,
        );
        if (!onTick && !labels.some(({ ink }) => meet(ink, at))) stray++;
      }
    expect(stray).toBe(0);
  });
});
