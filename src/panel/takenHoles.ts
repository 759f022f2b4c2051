/**
 * Holes that are there, by squares of the ceiling: they come one at a time and are asked about as often. (A tree from a library took
 * three times as long on 800 of them, most of it before the engine had compiled it.)
 */
export class TakenHoles {
  private readonly cells = new Map<number, number[]>();

  constructor(private readonly cellMm: number) {}

  add(xMm: number, yMm: number, bitMm: number): void {
    const key = keyOf(Math.floor(xMm / this.cellMm), Math.floor(yMm / this.cellMm));
    const cell = this.cells.get(key);
    if (cell === undefined) this.cells.set(key, [xMm, yMm, bitMm]);
    else cell.push(xMm, yMm, bitMm);
  }

  /** [x, y, bit, ...] of all no farther than so much from a point on either axis, and perhaps of some more. */
  near(xMm: number, yMm: number, withinMm: number): number[] {
    const { cells, cellMm } = this;
    const found: number[] = [];
    const right = Math.floor((xMm + withinMm) / cellMm);
    const top = Math.floor((yMm + withinMm) / cellMm);
    for (let column = Math.floor((xMm - withinMm) / cellMm); column <= right; column++) {
      for (let row = Math.floor((yMm - withinMm) / cellMm); row <= top; row++) {
        const cell = cells.get(keyOf(column, row));
        if (cell !== undefined) for (const value of cell) found.push(value);
      }
    }
    return found;
  }
}

/** Ceilings reach to 200 m: rows stay far below 2^20 either way. */
const keyOf = (column: number, row: number) => column * 2 ** 21 + row;
