import { type StrandStock, strandStock } from "../fibre/stock.ts";
import { makePlacer, type Placer } from "../panel/placement.ts";
import { workPanels } from "../panel/work.ts";
import type { Plan } from "../plan/plan.ts";
import { resolveAim } from "../projection/aim.ts";
import { inCeilingFrame } from "../projection/frames.ts";
import { NO_SLIDE } from "../projection/slide.ts";
import { type Observer, observerAt } from "../sky/observer.ts";
import type { SkyData } from "../sky/skyData.ts";
import { type BrightSky, brightest, brightObjects, type HowBright } from "./brightObjects.ts";
import { brightShifts } from "./brightPlaces.ts";
import { called } from "./fidelityShifts.ts";
import { planClock } from "./nightsTimes.ts";
import { hundredths } from "./rounding.ts";
import { allowsSlide, bestSlide, QUICK, slideReachMm } from "./slide.ts";

/** What another moment near the plan's would do for the brightest objects. */
export interface FreeMoment {
  /** After the plan's moment; negative before it. */
  readonly minutes: number;
  /** As a plan says it: `1998-07-11T21:21`. */
  readonly moment: string;
  /** How many of the brightest would be moved over the limit, or have no hole. */
  readonly moved: number;
  /** RMS of the shifts of the brightest, weighted by light, as `SlideRecord` has it. */
  readonly rmsMm: number;
  /** Moved at the plan's moment and not at this one; the other way round; brightest first. */
  readonly keeps: readonly string[];
  readonly costs: readonly string[];
  /** Over the ceiling at one of the two moments alone. */
  readonly leaves: readonly string[];
  readonly comes: readonly string[];
}

export interface FreeMoments {
  /** How many of the brightest were followed at the plan's moment, and to which magnitude at the others. */
  readonly bright: number;
  readonly faintestMag: number | null;
  /** Shifts up to this are let pass. */
  readonly movedOverMm: number;
  /** From the earliest to the latest, a minute apart; the plan's own is the one of 0 minutes. */
  readonly moments: readonly FreeMoment[];
  /** The one with the least RMS; of several the nearest. */
  readonly best: FreeMoment;
}

/** Less is no more than a slip of the drill on a whole ceiling. */
const MOVED_OVER_MM = 3;
/** A planet's light, and extinction, change a little within the hour: what was bright is followed to so much fainter. */
const FAINTER_MAG = 1;

interface Seen {
  readonly name: string;
  /** Infinite for one without a hole. */
  readonly shiftMm: number;
}

/**
 * Whether some minutes earlier or later would keep bright objects off battens and margins. Where the plan lets the sky slide,
 * each moment is judged after a slide of its own.
 * @param minutes how far the moment may slip, either way
 */
export function freeMoments(given: Plan, sky: SkyData, minutes: number): FreeMoments {
  const plan = inCeilingFrame(given);
  const { moment, clock, geoPlace } = planClock(plan);
  const stock = strandStock(plan.fibre);
  const placer = makePlacer(workPanels(plan), plan.holes, plan.frame);
  const at = (minute: number): Observer => observerAt(moment.instantUtcMs + minute * 60_000, geoPlace);
  const bright = (minute: number, wanted: HowBright) =>
    brightObjects(plan, sky, at(minute), wanted, allowsSlide(plan) ? slideReachMm(plan) : 0);

  const own = bright(0, brightest(stock));
  const limit = own.faintestMag ?? Number.NEGATIVE_INFINITY;
  const ownNames = new Set(own.objects.filter(({ inside }) => inside).map(called));
  const before = judge(plan, placer, stock, own);
  const moments: FreeMoment[] = [];
  for (let minute = -minutes; minute <= minutes; minute++) {
    const observer = at(minute);
    if (aimIsDown(plan, sky, observer)) continue;
    let now = before;
    if (minute !== 0) {
      const sought = bright(minute, { faintestMag: limit + FAINTER_MAG });
      const objects = sought.objects
        .filter((each) => each.mag <= limit || ownNames.has(called(each)))
        .map((each) => ({ ...each, expected: each.inside && ownNames.has(called(each)) }));
      now = judge(plan, placer, stock, { ...sought, objects });
    }
    moments.push({
      minutes: minute,
      moment: minute === 0 ? plan.moment : clock.momentText(observer.instantUtcMs),
      moved: now.seen.filter(isMoved).length,
      rmsMm: hundredths(now.rmsMm),
      ...changes(before.seen, now.seen),
    });
  }
  return {
    bright: ownNames.size,
    faintestMag: own.faintestMag === null ? null : hundredths(own.faintestMag),
    movedOverMm: MOVED_OVER_MM,
    moments,
    best: moments.reduce((best, one) =>
      one.rmsMm < best.rmsMm || (one.rmsMm === best.rmsMm && Math.abs(one.minutes) < Math.abs(best.minutes))
        ? one
        : best,
    ),
  };
}

/** An aim at a star may set within the hour; a plan with such a moment would be refused. */
const aimIsDown = (plan: Plan, sky: SkyData, observer: Observer): boolean =>
  !plan.show.belowHorizon && resolveAim(plan.view.aim, plan.show, sky, observer).enu[2] < 0;

function judge(
  plan: Plan,
  placer: Placer,
  stock: readonly StrandStock[],
  bright: BrightSky,
): { readonly seen: readonly Seen[]; readonly rmsMm: number } {
  const measure = brightShifts(plan, placer, stock, bright);
  const { shifts } = allowsSlide(plan) ? bestSlide(plan, measure, QUICK) : { shifts: measure(NO_SLIDE) };
  return {
    rmsMm: Math.sqrt(shifts.meanSquare),
    seen: bright.objects.flatMap((each, i) =>
      each.inside ? [{ name: called(each), shiftMm: shifts.shiftMm[i]! }] : [],
    ),
  };
}

const isMoved = ({ shiftMm }: Seen): boolean => shiftMm > MOVED_OVER_MM;

function changes(
  before: readonly Seen[],
  now: readonly Seen[],
): Pick<FreeMoment, "keeps" | "costs" | "leaves" | "comes"> {
  const then = new Map(before.map((each) => [each.name, each]));
  const names = (those: readonly Seen[]) => those.map(({ name }) => name);
  const nowNames = new Set(names(now));
  const both = now.filter(({ name }) => then.has(name));
  return {
    keeps: names(both.filter((each) => !isMoved(each) && isMoved(then.get(each.name)!))),
    costs: names(both.filter((each) => isMoved(each) && !isMoved(then.get(each.name)!))),
    leaves: names(before.filter(({ name }) => !nowNames.has(name))),
    comes: names(now.filter(({ name }) => !then.has(name))),
  };
}
