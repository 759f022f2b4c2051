import type { PdfPage } from "../pdf/page.ts";

/** What a ruler is long in the file; on paper it measures `paper.measured100`. */
export const RULER_MM = 100;
const LINE_MM = 0.2;
const TICK_MM = 1.6;

/** Two rulers at right angles that meet in no point: one straight stroke each. Words stand beside them. */
export function acrossRuler(page: PdfPage, x: number, y: number, words: string): void {
  page.line(x, y, x + RULER_MM, y, { widthMm: LINE_MM });
  for (let mm = 0; mm <= RULER_MM; mm += 10) {
    const up = mm % 50 === 0 ? TICK_MM : TICK_MM / 2;
    page.line(x + mm, y - up, x + mm, y + (mm % 50 === 0 ? up / 2 : 0), { widthMm: LINE_MM / 2 });
  }
  page.words(words, x + RULER_MM / 2, y + 2.9, { sizeMm: 2.2, anchor: "middle", roomMm: RULER_MM });
}

/** @param y of its lower end */
export function uprightRuler(page: PdfPage, x: number, y: number, words: string): void {
  page.line(x, y, x, y - RULER_MM, { widthMm: LINE_MM });
  for (let mm = 0; mm <= RULER_MM; mm += 10) {
    const left = mm % 50 === 0 ? TICK_MM : TICK_MM / 2;
    page.line(x - left, y - mm, x + (mm % 50 === 0 ? left / 2 : 0), y - mm, { widthMm: LINE_MM / 2 });
  }
  page.words(words, x + 2.9, y - RULER_MM / 2, {
    sizeMm: 2.2,
    anchor: "middle",
    turnedDeg: 90,
    roomMm: RULER_MM,
  });
}
