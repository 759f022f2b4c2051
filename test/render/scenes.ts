import { readFileSync } from "node:fs";
import {
  type Font,
  loadFont,
  type PreviewDot,
  type PreviewRaster,
  type PreviewScene,
} from "../../src/render/index.ts";

/** A ceiling with nothing on it. */
export function bareScene(changes: Partial<PreviewScene> = {}): PreviewScene {
  return {
    widthMm: 4800,
    lengthMm: 3600,
    dots: [],
    names: [],
    compass: [],
    panels: [],
    walls: {},
    ...changes,
  };
}

export function dot(xMm: number, yMm: number, diameterMm: number, bv: number | null = null): PreviewDot {
  return { xMm, yMm, diameterMm, bv };
}

/** Mulberry32: seeded numbers of 0 to 1 for invented ceilings. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** An invented ceiling of 3 x 2 panels with everything that a labelled preview shows. */
export function inventedScene(
  seed: number,
  changes: { widthMm?: number; lengthMm?: number; dotCount?: number } = {},
): PreviewScene {
  const { widthMm = 4800, lengthMm = 3600, dotCount = 800 } = changes;
  const random = seeded(seed);
  const dots = Array.from({ length: dotCount }, (_, i) => {
    const rank = i / dotCount;
    const diameterMm = rank < 0.01 ? 1.5 : rank < 0.06 ? 1 : rank < 0.2 ? 0.75 : 0.5;
    return dot(random() * widthMm, random() * lengthMm, diameterMm, random() * 2 - 0.3);
  });
  const words = ["Rigil Kentaurus", "α Cru", "Júpiter", "Спика", "Ørsted", "ψ² Aqr", "Zubeneschamali", "Ἑ"];
  const names = dots.slice(0, 40).map(({ xMm, yMm }, i) => ({ xMm, yMm, text: `${words[i % 7]}` }));
  const panelWidthMm = widthMm / 3 - 4;
  const panelLengthMm = lengthMm / 2 - 4;
  const panels = [0, 1].flatMap((row) =>
    [0, 1, 2].map((column) => ({
      id: `${"AB"[row]}${column + 1}`,
      xMm: 2 + (column * widthMm) / 3,
      yMm: 2 + ((1 - row) * lengthMm) / 2,
      widthMm: panelWidthMm,
      lengthMm: panelLengthMm,
    })),
  );
  return {
    widthMm,
    lengthMm,
    dots,
    names,
    panels,
    compass: [
      { letter: "N", xMm: widthMm / 2, yMm: lengthMm },
      { letter: "E", xMm: 0, yMm: lengthMm / 2 },
      { letter: "S", xMm: widthMm / 2, yMm: 0 },
      { letter: "W", xMm: widthMm, yMm: lengthMm / 2 },
    ],
    walls: { top: "street window", right: "door", bottom: "shelves", left: "harbour" },
  };
}

export function shippedFontBytes(): ArrayBuffer {
  const file = readFileSync(new URL("../../data/fonts/NotoSans-Regular.ttf", import.meta.url));
  return file.buffer.slice(file.byteOffset, file.byteOffset + file.byteLength) as ArrayBuffer;
}

export function shippedFont(): Font {
  return loadFont(shippedFontBytes());
}

/** Sum of pixel values, centroid (in px from the upper-left corner of the picture) and peak within `reachPx` of a point. */
export function measuredBlob(
  { data, widthPx, heightPx }: PreviewRaster,
  xPx: number,
  yPx: number,
  reachPx: number,
): { sum: number; xPx: number; yPx: number; peak: number } {
  let [sum, sumX, sumY, peak] = [0, 0, 0, 0];
  for (let row = Math.max(0, Math.floor(yPx - reachPx)); row < Math.min(heightPx, yPx + reachPx); row++)
    for (
      let column = Math.max(0, Math.floor(xPx - reachPx));
      column < Math.min(widthPx, xPx + reachPx);
      column++
    ) {
      const at = (row * widthPx + column) * 3;
      const value = data[at]! + data[at + 1]! + data[at + 2]!;
      sum += value;
      sumX += value * (column + 0.5);
      sumY += value * (row + 0.5);
      peak = Math.max(peak, value / 3);
    }
  return { sum, xPx: sumX / sum, yPx: sumY / sum, peak };
}
