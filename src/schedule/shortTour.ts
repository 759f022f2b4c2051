/*
 * A short closed way by the first two levels of the search of Lin and Kernighan (Oper. Res. 21, 1973, 498), on lists of near neighbours;
 * then chained: kicked, mended beside the kick, and kept if no longer (Martin, Otto and Felten, Complex Systems 5, 1991, 299).
 * Random numbers are the same each time.
 */

/** How far it is from one point to another, by number; the same both ways. */
export type Distance = (i: number, j: number) => number;

/** Kicks for each point, and for all together. */
const KICKS = 4;
const MOST_KICKS = 3000;
/** Points that a kick lies within. */
const KICK_SPAN = 150;
/** Fewer cannot be parted at three places and the fixed one. */
const FEWEST_TO_KICK = 8;
/** Ways that differ by less are equal. */
const FLOAT = 1e-7;

/**
 * @param start every point once
 * @param near  near neighbours of each point, nearest first
 * @param fixed two points that lie beside each other and stay so
 */
export function shortTour(
  start: readonly number[],
  distance: Distance,
  near: readonly Int32Array[],
  fixed: readonly [number, number] | null,
): Int32Array {
  const search = new TourSearch(start, distance, near, fixed);
  search.improveAll();
  if (start.length >= FEWEST_TO_KICK)
    for (let left = Math.min(KICKS * start.length, MOST_KICKS); left > 0; left--) search.kick();
  return search.tour;
}

class TourSearch {
  readonly tour: Int32Array;
  private readonly n: number;
  private readonly at: Int32Array;
  private readonly queue: number[] = [];
  private readonly isQueued: Uint8Array;
  /** How far each near neighbour is. */
  private readonly nearAway: readonly Float64Array[];
  /** Pieces turned round: [from, to, ...], places in the tour. */
  private readonly turned: number[] = [];
  private seed = 1;

  constructor(
    start: readonly number[],
    private readonly distance: Distance,
    private readonly near: readonly Int32Array[],
    private readonly fixed: readonly [number, number] | null,
  ) {
    this.n = start.length;
    this.tour = Int32Array.from(start);
    this.at = new Int32Array(this.n);
    for (let k = 0; k < this.n; k++) this.at[this.tour[k]!] = k;
    this.isQueued = new Uint8Array(this.n);
    this.nearAway = near.map((list, i) => {
      const away = new Float64Array(list.length);
      for (let k = 0; k < list.length; k++) away[k] = distance(i, list[k]!);
      return away;
    });
  }

  improveAll(): void {
    for (const point of this.tour) this.ask(point);
    this.improve();
    this.turned.length = 0;
  }

  /** Two pieces of the way that follow each other change places; what comes of it is kept if the way is no longer than before. */
  kick(): void {
    const { n, tour } = this;
    const span = Math.min(n - 2, KICK_SPAN);
    const from = this.random(n);
    const p = this.random(span - 2);
    const q = this.random(span - 2);
    const r = this.random(span - 2);
    const low = Math.min(p, q, r);
    const high = Math.max(p, q, r);
    const a = from + low + 1;
    const b = from + (p + q + r - low - high) + 2;
    const c = from + high + 3;
    if (this.isFixedJoin(a) || this.isFixedJoin(b) || this.isFixedJoin(c)) return;
    const before = this.join(a) + this.join(b) + this.join(c);
    for (let k = a; k <= c; k = k === a ? b : k === b ? c : c + 1) {
      this.ask(tour[(k - 1) % n]!);
      this.ask(tour[k % n]!);
    }
    const middle = a + c - b;
    this.turn(a % n, (c - 1) % n);
    this.turn(a % n, (middle - 1) % n);
    this.turn(middle % n, (c - 1) % n);
    const gained = before - this.join(a) - this.join(middle) - this.join(c) + this.improve();
    if (gained < -FLOAT) this.turnBack(0);
    this.turned.length = 0;
  }

  /** Length of the way to a place from the one before it. */
  private join(place: number): number {
    return this.distance(this.tour[(place - 1) % this.n]!, this.tour[place % this.n]!);
  }

  private isFixedJoin(place: number): boolean {
    return this.isFixed(this.tour[(place - 1) % this.n]!, this.tour[place % this.n]!);
  }

  /** Whole, below a bound. */
  private random(below: number): number {
    // Numerical Recipes' quick generator modulo 2^32; its high bits are the random ones.
    this.seed = (Math.imul(this.seed, 1664525) + 1013904223) >>> 0;
    return Math.floor((this.seed / 2 ** 32) * below);
  }

  private ask(point: number): void {
    if (this.isQueued[point]) return;
    this.isQueued[point] = 1;
    this.queue.push(point);
  }

  /** @returns by how much the way got shorter */
  private improve(): number {
    let gained = 0;
    for (let head = 0; head < this.queue.length; head++) {
      const point = this.queue[head]!;
      this.isQueued[point] = 0;
      for (let gain = this.step(point); gain > 0; gain = this.step(point)) gained += gain;
    }
    this.queue.length = 0;
    return gained;
  }

  /** Opens the way on either side of a point. @returns what was gained; what does not gain is taken back */
  private step(first: number): number {
    const after = this.beside(first, 1);
    const gain = this.isFixed(first, after) ? 0 : this.twoTurns(first, after);
    if (gain > 0) return gain;
    const before = this.beside(first, -1);
    return this.isFixed(first, before) ? 0 : this.twoTurns(first, before);
  }

  /**
   * The way is open between `first` and its loose end. The loose end is joined to a near point, the way opened on this side of that one
   * and the piece between turned round: it is one way again with another loose end. That one is joined to `first`, or else to
   * a near point of its own in the same manner, and the end that is loose then to `first`. Nothing is turned before it is known to gain.
   */
  private twoTurns(first: number, loose: number): number {
    const { distance, near, nearAway, at, n } = this;
    const isAhead = this.beside(first, 1) === loose;
    const toStart = isAhead ? -1 : 1;
    const toEnd = isAhead ? 1 : -1;
    const open = distance(first, loose);
    // Places counted from the loose end, away from `first`.
    const zero = at[loose]!;
    const placeOf = (point: number) => (isAhead ? at[point]! - zero + n : zero - at[point]! + n) % n;
    let bestGain = FLOAT;
    let to1 = -1;
    let end1 = -1;
    let to2 = -1;
    let end2 = -1;
    const list1 = near[loose]!;
    const away1 = nearAway[loose]!;
    for (let i = 0; i < list1.length; i++) {
      const to = list1[i]!;
      const left = open - away1[i]!;
      if (left <= FLOAT) break;
      const end = this.beside(to, toStart);
      if (to === first || end === loose || this.isFixed(to, end)) continue;
      const opened = left + distance(to, end);
      const closed = opened - distance(end, first);
      if (closed > bestGain) {
        bestGain = closed;
        to1 = to;
        end1 = end;
        to2 = -1;
        end2 = -1;
      }
      const place = placeOf(to);
      const list2 = near[end]!;
      const away2 = nearAway[end]!;
      for (let j = 0; j < list2.length; j++) {
        const next = list2[j]!;
        const left2 = opened - away2[j]!;
        if (left2 <= bestGain) break;
        if (next === first || next === to) continue;
        // Before `to` the piece is turned round by then.
        const isTurned = placeOf(next) < place;
        const last = this.beside(next, isTurned ? toEnd : toStart);
        if ((isTurned && next === end) || last === end || this.isFixed(next, last)) continue;
        const gain = left2 + distance(next, last) - distance(last, first);
        if (gain > bestGain) {
          bestGain = gain;
          to1 = to;
          end1 = end;
          to2 = next;
          end2 = last;
        }
      }
    }
    if (to1 < 0) return 0;
    this.turnFrom(first, loose, end1);
    if (to2 >= 0) this.turnFrom(first, end1, end2);
    this.ask(first);
    this.ask(loose);
    this.ask(to1);
    this.ask(end1);
    if (to2 >= 0) {
      this.ask(to2);
      this.ask(end2);
    }
    return bestGain;
  }

  /** Turns round the piece from the point beside `first` to another. */
  private turnFrom(first: number, loose: number, end: number): void {
    if (this.beside(first, 1) === loose) this.turnShorter(this.at[loose]!, this.at[end]!);
    else this.turnShorter(this.at[end]!, this.at[loose]!);
  }

  private beside(point: number, step: 1 | -1): number {
    const k = this.at[point]! + step;
    return this.tour[k === this.n ? 0 : k < 0 ? this.n - 1 : k]!;
  }

  private isFixed(a: number, b: number): boolean {
    const { fixed } = this;
    return fixed !== null && ((a === fixed[0] && b === fixed[1]) || (a === fixed[1] && b === fixed[0]));
  }

  /** Turns a piece round, or all the rest: as a round trip that is the same. */
  private turnShorter(from: number, to: number): void {
    const { n } = this;
    const count = (to - from + n) % n;
    if (2 * count < n) this.turn(from, to);
    else this.turn((to + 1) % n, (from + n - 1) % n);
  }

  private turn(from: number, to: number): void {
    this.turned.push(from, to);
    this.swapEnds(from, to);
  }

  private turnBack(mark: number): void {
    const { turned } = this;
    for (let i = turned.length - 2; i >= mark; i -= 2) this.swapEnds(turned[i]!, turned[i + 1]!);
    turned.length = mark;
  }

  private swapEnds(from: number, to: number): void {
    const { tour, at, n } = this;
    const count = ((to - from + n) % n) + 1;
    for (let left = from, right = to, k = count >> 1; k > 0; k--) {
      const a = tour[left]!;
      const b = tour[right]!;
      tour[left] = b;
      at[b] = left;
      tour[right] = a;
      at[a] = right;
      left = left + 1 === n ? 0 : left + 1;
      right = right === 0 ? n - 1 : right - 1;
    }
  }
}
