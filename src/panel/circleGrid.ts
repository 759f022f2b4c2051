/** Up to so many circles a look at each is quicker than squares. */
const FEW = 24;

/** Circles around other holes, by squares of the panel: what is asked of them concerns a few of many. */
export class CircleGrid {
  readonly count: number;
  private readonly cellMm: number;
  private readonly columns: number;
  private readonly rows: number;
  private readonly leftMm: number;
  private readonly bottomMm: number;
  /** First circle of each square and the next of each circle, -1 for none; no squares for a few circles. */
  private readonly first: Int32Array | null;
  private readonly next: Int32Array;

  /** @param circles [x, y, r, ...] */
  constructor(readonly circles: readonly number[]) {
    this.count = circles.length / 3;
    let [left, bottom, right, top, widest] = [
      Number.POSITIVE_INFINITY,
      Number.POSITIVE_INFINITY,
      Number.NEGATIVE_INFINITY,
      Number.NEGATIVE_INFINITY,
      0,
    ];
    for (let i = 0; i < circles.length; i += 3) {
      left = Math.min(left, circles[i]!);
      right = Math.max(right, circles[i]!);
      bottom = Math.min(bottom, circles[i + 1]!);
      top = Math.max(top, circles[i + 1]!);
      widest = Math.max(widest, circles[i + 2]!);
    }
    // A circle reaches no farther than into the squares beside its own.
    this.cellMm = widest;
    this.leftMm = left;
    this.bottomMm = bottom;
    this.columns = Math.floor((right - left) / widest) + 1;
    this.rows = Math.floor((top - bottom) / widest) + 1;
    const isFew = this.count <= FEW || this.columns * this.rows > 64 * this.count;
    this.first = isFew ? null : new Int32Array(this.columns * this.rows).fill(-1);
    this.next = new Int32Array(isFew ? 0 : this.count);
    if (this.first) {
      for (let k = 0; k < this.count; k++) {
        const cell = this.columnOf(circles[3 * k]!) + this.columns * this.rowOf(circles[3 * k + 1]!);
        this.next[k] = this.first[cell]!;
        this.first[cell] = k;
      }
    }
  }

  /** True deeper than so much inside one of the circles. */
  isUnder(x: number, y: number, byMm: number): boolean {
    const { circles, first } = this;
    if (first === null) {
      for (let i = 0; i < circles.length; i += 3) if (this.isIn(i, x, y, byMm)) return true;
      return false;
    }
    const [column, row] = [this.columnOf(x), this.rowOf(y)];
    for (let r = Math.max(0, row - 1); r <= Math.min(this.rows - 1, row + 1); r++) {
      for (let c = Math.max(0, column - 1); c <= Math.min(this.columns - 1, column + 1); c++) {
        for (let k = first[c + this.columns * r]!; k >= 0; k = this.next[k]!)
          if (this.isIn(3 * k, x, y, byMm)) return true;
      }
    }
    return false;
  }

  /** Calls back with the places in `circles` of every two that may meet, each pair once, the first in order first. */
  forEachPair(meet: (i: number, j: number) => void): void {
    const { circles, first } = this;
    for (let i = 0; i < circles.length; i += 3) {
      if (first === null) {
        for (let j = i + 3; j < circles.length; j += 3) meet(i, j);
        continue;
      }
      const [column, row] = [this.columnOf(circles[i]!), this.rowOf(circles[i + 1]!)];
      for (let r = Math.max(0, row - 2); r <= Math.min(this.rows - 1, row + 2); r++) {
        for (let c = Math.max(0, column - 2); c <= Math.min(this.columns - 1, column + 2); c++) {
          for (let k = first[c + this.columns * r]!; k >= 0; k = this.next[k]!) if (3 * k > i) meet(i, 3 * k);
        }
      }
    }
  }

  private isIn(i: number, x: number, y: number, byMm: number): boolean {
    const dx = x - this.circles[i]!;
    const dy = y - this.circles[i + 1]!;
    const least = this.circles[i + 2]! - byMm;
    return least > 0 && dx * dx + dy * dy < least * least;
  }

  private readonly columnOf = (x: number): number => Math.floor((x - this.leftMm) / this.cellMm);
  private readonly rowOf = (y: number): number => Math.floor((y - this.bottomMm) / this.cellMm);
}

export const NO_CIRCLES = new CircleGrid([]);
