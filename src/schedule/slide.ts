import type { StrandStock } from "../fibre/stock.ts";
import type { Placer } from "../panel/placement.ts";
import type { Plan } from "../plan/plan.ts";
import { NO_SLIDE, type Slide } from "../projection/slide.ts";
import type { Observer } from "../sky/observer.ts";
import type { SkyData } from "../sky/skyData.ts";
import { type BrightSky, brightest, brightObjects } from "./brightObjects.ts";
import { type BrightShifts, brightShifts, type MeasureSlide } from "./brightPlaces.ts";
import type { SlideRecord } from "./fidelityTypes.ts";
import { hundredths, rounded } from "./rounding.ts";

/** A slide found, and what it did. */
export interface FoundSlide {
  readonly slide: Slide;
  readonly record: SlideRecord;
}

export const allowsSlide = ({ placement }: Plan): boolean => placement.shift > 0 || placement.turn > 0;

/**
 * Slides and turns the whole sky within the plan's limits so that its brightest objects have to be moved least.
 * @param plan  in the ceiling frame
 * @param stock thickest first
 */
export function findSlide(
  plan: Plan,
  sky: SkyData,
  observer: Observer,
  placer: Placer,
  stock: readonly StrandStock[],
): FoundSlide {
  const bright = brightObjects(plan, sky, observer, brightest(stock), slideReachMm(plan));
  const measure = brightShifts(plan, placer, stock, bright);
  const best = bestSlide(plan, measure);
  return { slide: best.slide, record: recordOf(best, measure(NO_SLIDE), bright) };
}

/** How far any point may come within the limits. */
export const slideReachMm = (plan: Plan): number =>
  plan.placement.shift + farthestMm(plan) * radians(plan.placement.turn);

const radians = (deg: number) => (deg * Math.PI) / 180;

/** No point of the ceiling lies farther from any point that an aim can have on it. */
const farthestMm = ({ ceiling, view }: Plan): number =>
  Math.hypot(ceiling.width, ceiling.length) +
  (view.kind === "eye" ? Math.hypot(view.eye.x - ceiling.width / 2, view.eye.y - ceiling.length / 2) : 0);

interface Tried {
  readonly slide: Slide;
  readonly shifts: BrightShifts;
  /** How far it moves the farthest point: of two that serve the stars alike, the smaller is taken. */
  readonly effortMm: number;
  /** What was asked of it: where the mean square is beyond this, it may be more. */
  readonly askedTo: number;
}

/** Measures a slide no farther than needed; null beyond the plan's limits. */
type Attempt = (xMm: number, yMm: number, turnDeg: number, askedTo: number) => Tried | null;

/** Differences of the weighted mean square below this serve alike, mm². */
const ALIKE_MM2 = 1e-6;

const better = (a: Tried, b: Tried): boolean =>
  a.shifts.meanSquare < b.shifts.meanSquare - ALIKE_MM2 ||
  (a.shifts.meanSquare < b.shifts.meanSquare + ALIKE_MM2 && a.effortMm < b.effortMm - 1e-9);

/** The coarse grid's step where the limits are wide: battens and their margins are several times as wide. */
const GRID_MM = 8;
const GRID_STEPS = 6;
const TURN_STEPS = 3;
/** How thoroughly the grid's best are followed up, and the finest step: a hole is not drilled more truly. */
const THOROUGH = { starts: 6, finestMm: 0.05 };
/** For a look at many moments. */
export const QUICK = { starts: 2, finestMm: 0.5 };

/**
 * The best of a coarse grid over the limits, then from the best of its points by compass steps, halved when none is better.
 * Every slide tried is in whole hundredths of a millimetre and thousandths of a degree, so that the one written down is the one used.
 */
export function bestSlide(plan: Plan, measure: MeasureSlide, effort = THOROUGH): Tried {
  const { shift, turn } = plan.placement;
  const armMm = farthestMm(plan) / 2;
  const tried = new Map<string, Tried>();
  const attempt: Attempt = (xMm, yMm, turnDeg, askedTo) => {
    const slide = { xMm: hundredths(xMm), yMm: hundredths(yMm), turnDeg: rounded(turnDeg, 1000) };
    if (Math.hypot(slide.xMm, slide.yMm) > shift || Math.abs(slide.turnDeg) > turn) return null;
    const key = `${slide.xMm} ${slide.yMm} ${slide.turnDeg}`;
    let one = tried.get(key);
    if (one === undefined || (one.shifts.meanSquare > one.askedTo && askedTo > one.askedTo)) {
      const effortMm = Math.hypot(slide.xMm, slide.yMm) + armMm * radians(Math.abs(slide.turnDeg));
      one = { slide, shifts: measure(slide, askedTo), effortMm, askedTo };
      tried.set(key, one);
    }
    return one;
  };

  const stepMm = shift / Math.min(GRID_STEPS, Math.ceil(shift / GRID_MM)) || 0;
  const stepDeg = turn / TURN_STEPS;
  const along = (limit: number, step: number) =>
    step === 0 ? [0] : Array.from({ length: 2 * Math.round(limit / step) + 1 }, (_, i) => -limit + i * step);
  const still = attempt(0, 0, 0, Number.POSITIVE_INFINITY)!;
  let starts: Tried[] = [still];
  for (const turnDeg of along(turn, stepDeg))
    for (const yMm of along(shift, stepMm))
      for (const xMm of along(shift, stepMm)) {
        const worst =
          starts.length < effort.starts ? Number.POSITIVE_INFINITY : starts.at(-1)!.shifts.meanSquare;
        const one = attempt(xMm, yMm, turnDeg, worst);
        if (one === null || one === still || one.shifts.meanSquare > worst) continue;
        starts = [...starts, one]
          .sort((a, b) => a.shifts.meanSquare - b.shifts.meanSquare || a.effortMm - b.effortMm)
          .slice(0, effort.starts);
      }

  let best = still;
  for (const start of starts) {
    const found = compassSearch(start, stepMm / 2, stepDeg / 2, armMm, effort.finestMm, attempt);
    if (better(found, best)) best = found;
  }
  return best;
}

function compassSearch(
  start: Tried,
  stepMm: number,
  stepDeg: number,
  armMm: number,
  finestMm: number,
  attempt: Attempt,
): Tried {
  let at = start;
  for (let part = 1; Math.max(stepMm, armMm * radians(stepDeg)) * part >= finestMm; ) {
    const { xMm, yMm, turnDeg } = at.slide;
    let next = at;
    for (const [dx, dy, dTurn] of COMPASS) {
      const one = attempt(
        xMm + dx * stepMm * part,
        yMm + dy * stepMm * part,
        turnDeg + dTurn * stepDeg * part,
        next.shifts.meanSquare + ALIKE_MM2,
      );
      if (one !== null && better(one, next)) next = one;
    }
    if (next === at) part /= 2;
    else at = next;
  }
  return at;
}

const COMPASS = [
  [1, 0, 0],
  [-1, 0, 0],
  [0, 1, 0],
  [0, -1, 0],
  [1, 1, 0],
  [-1, 1, 0],
  [1, -1, 0],
  [-1, -1, 0],
  [0, 0, 1],
  [0, 0, -1],
] as const;

function recordOf({ slide, shifts }: Tried, before: BrightShifts, bright: BrightSky): SlideRecord {
  const moved = ({ shiftMm }: BrightShifts) => shiftMm.reduce((sum, mm) => sum + (mm >= 0.01 ? 1 : 0), 0);
  return {
    ...slide,
    bright: bright.objects.filter(({ inside }) => inside).length,
    faintestMag: bright.faintestMag === null ? null : hundredths(bright.faintestMag),
    rmsBeforeMm: hundredths(Math.sqrt(before.meanSquare)),
    rmsAfterMm: hundredths(Math.sqrt(shifts.meanSquare)),
    movedBefore: moved(before),
    movedAfter: moved(shifts),
  };
}
