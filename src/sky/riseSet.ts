/** A quantity that changes smoothly with time, such as an altitude. */
export type OfTime = (instantUtcMs: number) => number;

/** Values of such a quantity at even steps. */
export interface Samples {
  readonly of: OfTime;
  readonly ms: readonly number[];
  readonly value: readonly number[];
}

export interface Crossing {
  readonly instantUtcMs: number;
  readonly rising: boolean;
}

export interface Extreme {
  readonly instantUtcMs: number;
  readonly value: number;
}

/** Steps of twenty minutes, 5 degrees of the sky's turn: turning points between them are looked for. */
export const STEP_MS = 1_200_000;

/** Events are found to this; a second is more than the air and the horizon allow. */
const WITHIN_MS = 250;

/** @param stepMs the last step is shorter where the span is no multiple of it */
export function sample(of: OfTime, fromMs: number, toMs: number, stepMs = STEP_MS): Samples {
  const ms: number[] = [];
  for (let t = fromMs; t < toMs; t += stepMs) ms.push(t);
  ms.push(toMs);
  return { of, ms, value: ms.map(of) };
}

/**
 * Every time at which a sampled quantity passes a level, in order. A turning point between samples is looked at too,
 * so that a Sun that shows itself for a minute is not missed.
 */
export function crossings({ of, ms, value }: Samples, level: number): Crossing[] {
  const above = (v: number) => v >= level;
  const found: Crossing[] = [];
  for (let i = 0; i + 1 < ms.length; i++) {
    const knots: { t: number; v: number }[] = [{ t: ms[i]!, v: value[i]! }];
    if (above(value[i]!) === above(value[i + 1]!)) {
      const turn = turningPointNear({ of, ms, value }, i, level);
      if (turn) knots.push({ t: turn.instantUtcMs, v: turn.value });
    }
    knots.push({ t: ms[i + 1]!, v: value[i + 1]! });
    for (let k = 0; k + 1 < knots.length; k++) {
      const [from, to] = [knots[k]!, knots[k + 1]!];
      if (above(from.v) !== above(to.v))
        found.push({ instantUtcMs: bisect(of, from, to, level), rising: above(to.v) });
    }
  }
  return found;
}

/** The lowest value, between samples too. */
export function lowest(samples: Samples): Extreme {
  const i = samples.value.indexOf(Math.min(...samples.value));
  const { ms, of } = samples;
  if (i === 0 || i === ms.length - 1) return { instantUtcMs: ms[i]!, value: samples.value[i]! };
  return goldenSection(of, ms[i - 1]!, ms[i + 1]!);
}

/** The highest value, between samples too. */
export function highest({ of, ms, value }: Samples): Extreme {
  const { instantUtcMs, value: least } = lowest({ of: (t) => -of(t), ms, value: value.map((v) => -v) });
  return { instantUtcMs, value: -least };
}

/** A turning point inside step i that lies on the other side of the level than both its ends; null if there is none. */
function turningPointNear({ of, ms, value }: Samples, i: number, level: number): Extreme | null {
  const [a, b] = [value[i]!, value[i + 1]!];
  const side = a >= level ? 1 : -1; // made so that we look for a minimum below the level
  const before = i > 0 ? (value[i - 1]! - a) * side : Number.POSITIVE_INFINITY;
  const after = i + 2 < value.length ? (value[i + 2]! - b) * side : Number.POSITIVE_INFINITY;
  // It turns in this step or a neighbouring one only if the values fall toward it from both sides.
  if (before < 0 || after < 0) return null;
  // And it cannot dip deeper than the slopes on both sides would take it.
  const reach = Math.max(Math.abs(before), Math.abs(after), Math.abs(a - b));
  if (Number.isFinite(reach) && Math.min((a - level) * side, (b - level) * side) > reach) return null;
  const turn = goldenSection((t) => of(t) * side, ms[i]!, ms[i + 1]!);
  return turn.value < level * side ? { instantUtcMs: turn.instantUtcMs, value: turn.value * side } : null;
}

function bisect(of: OfTime, from: { t: number; v: number }, to: { t: number; v: number }, level: number) {
  let [low, high] = [from, to];
  // Regula falsi first: altitudes are all but straight over a step, and each value costs a fifth of a millisecond.
  while (high.t - low.t > WITHIN_MS) {
    const straight = low.t + ((level - low.v) / (high.v - low.v)) * (high.t - low.t);
    // Aimed a little past it, so that the bracket closes from both sides; halved when that does not help.
    const width = high.t - low.t;
    for (const guess of [straight - WITHIN_MS / 4, straight + WITHIN_MS / 4, (low.t + high.t) / 2]) {
      if (guess <= low.t || guess >= high.t) continue;
      const point = { t: guess, v: of(guess) };
      if (point.v >= level === from.v >= level) low = point;
      else high = point;
      if (high.t - low.t < width / 8) break;
    }
  }
  return (low.t + high.t) / 2;
}

function goldenSection(of: OfTime, fromMs: number, toMs: number): Extreme {
  const share = (Math.sqrt(5) - 1) / 2;
  let [a, b] = [fromMs, toMs];
  let [c, d] = [b - share * (b - a), a + share * (b - a)];
  let [fc, fd] = [of(c), of(d)];
  while (b - a > 2000) {
    if (fc < fd) {
      [b, d, fd] = [d, c, fc];
      c = b - share * (b - a);
      fc = of(c);
    } else {
      [a, c, fc] = [c, d, fd];
      d = a + share * (b - a);
      fd = of(d);
    }
  }
  return fc < fd ? { instantUtcMs: c, value: fc } : { instantUtcMs: d, value: fd };
}
