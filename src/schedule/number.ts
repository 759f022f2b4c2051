/** What hole numbers are given by. */
export interface Numberable {
  readonly bitMm: number;
  readonly xFaceMm: number;
  readonly yFaceMm: number;
}

/** Rows of a page are about as high as a hand-held drill strays; within one, holes run from left to right. */
const ROW_MM = 50;

/**
 * The order in which a panel is drilled: thinnest bit first, then reading order: bands of 50 mm counted from
 * the board's lower edge, the top one first, each from left to right on the face.
 */
export function readingOrder<T extends Numberable>(holes: readonly T[]): T[] {
  const row = (hole: T) => Math.floor(-hole.yFaceMm / ROW_MM);
  return [...holes].sort(
    (a, b) => a.bitMm - b.bitMm || row(a) - row(b) || a.xFaceMm - b.xFaceMm || b.yFaceMm - a.yFaceMm,
  );
}
