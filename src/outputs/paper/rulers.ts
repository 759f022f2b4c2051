import type { PdfPage } from "../pdf/page.ts";

/** What a ruler is long in the file; on paper it measures `paper.measured100`. */
export const RULER_MM = 100;
const LINE_MM = 0.2;
const TICK_MM = 1.6;
/** Every 10 mm: where, how far out, how far beyond the ruler's line. */
const TICKS = Array.from({ length: RULER_MM / 10 + 1 }, (_, i): readonly [number, number, number] =>
  i % 5 === 0 ? [10 * i, TICK_MM, TICK_MM / 2] : [10 * i, TICK_MM / 2, 0],
);

/** Two rulers at right angles that meet in no point: one straight stroke each. Words stand beside them. */
export function acrossRuler(page: PdfPage, x: number, y: number, words: string): void {
  page.line(x, y, x + RULER_MM, y, { widthMm: LINE_MM });
  page.lines(
    TICKS.map(([mm, out, beyond]) => [x + mm, y - out, x + mm, y + beyond]),
    { widthMm: LINE_MM / 2 },
  );
  page.words(words, x + RULER_MM / 2, y + 2.9, { sizeMm: 2.2, anchor: "middle", roomMm: RULER_MM });
}

/** @param y of its lower end */
export function uprightRuler(page: PdfPage, x: number, y: number, words: string): void {
  page.line(x, y, x, y - RULER_MM, { widthMm: LINE_MM });
  page.lines(
    TICKS.map(([mm, out, beyond]) => [x - out, y - mm, x + beyond, y - mm]),
    { widthMm: LINE_MM / 2 },
  );
  page.words(words, x + 2.9, y - RULER_MM / 2, {
    sizeMm: 2.2,
    anchor: "middle",
    turnedDeg: 90,
    roomMm: RULER_MM,
  });
}
