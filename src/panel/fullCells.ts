/** So much beyond a reach and short of it is left undecided: places are whole hundredths. */
const SLACK_MM = 0.02;

/**
 * Squares of one panel in which, once a search has found nothing, no more holes go: holes only get more. Where a board is full, the
 * thousands of stars that ask for a place there are answered without a search.
 */
export class FullCells {
  /** The smallest bit for which each square is full. */
  private readonly bitMm: Float64Array;
  private readonly columns: number;
  private readonly rows: number;

  constructor(
    private readonly widthMm: number,
    private readonly lengthMm: number,
    private readonly cellMm: number,
  ) {
    this.columns = Math.max(1, Math.ceil(widthMm / cellMm));
    this.rows = Math.max(1, Math.ceil(lengthMm / cellMm));
    this.bitMm = new Float64Array(this.columns * this.rows).fill(Number.POSITIVE_INFINITY);
  }

  /** True when every square within reach of a point is full for a bit. */
  isFull(x: number, y: number, reachMm: number, bitMm: number): boolean {
    return this.everyCell(x, y, reachMm + SLACK_MM, (cell, nearestMm) => {
      return nearestMm > reachMm + SLACK_MM || this.bitMm[cell]! <= bitMm;
    });
  }

  /** A search for a bit found no place within reach of a point. */
  markFull(x: number, y: number, reachMm: number, bitMm: number): void {
    this.everyCell(x, y, reachMm, (cell, _nearest, farthestMm) => {
      if (farthestMm <= reachMm - SLACK_MM) this.bitMm[cell] = Math.min(this.bitMm[cell]!, bitMm);
      return true;
    });
  }

  /** Asks of each square beside a point, with the distance of its nearest and its farthest spot on the board. */
  private everyCell(
    x: number,
    y: number,
    reachMm: number,
    holds: (cell: number, nearestMm: number, farthestMm: number) => boolean,
  ): boolean {
    const { cellMm } = this;
    const last = (mm: number, count: number) => Math.min(count - 1, Math.floor((mm + reachMm) / cellMm));
    const first = (mm: number) => Math.max(0, Math.floor((mm - reachMm) / cellMm));
    for (let row = first(y); row <= last(y, this.rows); row++) {
      const [bottom, top] = [row * cellMm, Math.min(this.lengthMm, (row + 1) * cellMm)];
      const farY = Math.max(Math.abs(y - bottom), Math.abs(y - top));
      const nearY = Math.max(0, bottom - y, y - top);
      for (let column = first(x); column <= last(x, this.columns); column++) {
        const [left, right] = [column * cellMm, Math.min(this.widthMm, (column + 1) * cellMm)];
        const farX = Math.max(Math.abs(x - left), Math.abs(x - right));
        const nearX = Math.max(0, left - x, x - right);
        if (!holds(column + this.columns * row, Math.hypot(nearX, nearY), Math.hypot(farX, farY)))
          return false;
      }
    }
    return true;
  }
}
