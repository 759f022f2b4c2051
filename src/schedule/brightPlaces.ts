import type { StrandStock } from "../fibre/stock.ts";
import { keepOutsOf, starReach } from "../panel/keepOuts.ts";
import type { Placer } from "../panel/placement.ts";
import type { Plan } from "../plan/plan.ts";
import { type Slide, slidPoint } from "../projection/slide.ts";
import type { BrightSky } from "./brightObjects.ts";

/** How far each bright object would be moved, in the order of `BrightSky.objects`. */
export interface BrightShifts {
  /** Millimetres; infinite for one that gets no hole, 0 for one that lies off the ceiling before and after. */
  readonly shiftMm: Float64Array;
  /** Sum of the weighted squares over the weights of what lies over the ceiling before the slide, mm²: what is minimised. */
  readonly meanSquare: number;
}

/**
 * @param giveUpAt a mean square beyond which nobody asks further: a slide that comes to more is handed back as soon as that is
 *   clear, with the part of the sum until then
 */
export type MeasureSlide = (slide: Slide, giveUpAt?: number) => BrightShifts;

/**
 * One that gets no hole counts as moved twice maxShift, or so far if that is more; if nobody missed it, since it was not over the
 * ceiling before, as moved maxShift.
 */
const LOST_LEAST_MM = 40;

/**
 * Weight of an object: its light (Pogson's ratio, 100^(1/5) a magnitude), but no more than that of magnitude 0. Without that limit a
 * planet such as Venus would outweigh all stars together.
 */
export const lightWeight = (mag: number): number => 10 ** (-0.4 * Math.max(0, mag));

/**
 * Measures slides: each object goes to the nearest legal place, other holes left aside, with the bit that its rank by brightness
 * gets.
 * @param plan  in the ceiling frame
 * @param stock thickest first
 */
export function brightShifts(
  plan: Plan,
  placer: Placer,
  stock: readonly StrandStock[],
  { objects, view }: BrightSky,
): MeasureSlide {
  const { width, length } = plan.ceiling;
  const { maxShift } = plan.holes;
  const lost = Math.max(LOST_LEAST_MM, 2 * maxShift);
  const bored = plan.frame === "none" ? 0 : (plan.frame.bored?.brightest ?? 0);
  const keepOuts = keepOutsOf(plan.keepOut);
  const bits = stock.flatMap(({ bitMm, usable }) =>
    new Array<number>(Math.min(usable, objects.length)).fill(bitMm),
  );
  const thinnest = bits.at(-1)!;
  const weights = objects.map(({ mag }) => lightWeight(mag));
  const total = objects.reduce((sum, { inside }, i) => sum + (inside ? weights[i]! : 0), 0);

  const shiftOf = (x: number, y: number, rank: number): number => {
    const { reachMm, droppedBy } = starReach(keepOuts, x, y, maxShift);
    if (droppedBy !== null) return Number.POSITIVE_INFINITY;
    const place = placer.nearestPlace(x, y, bits[rank] ?? thinnest, rank < bored);
    return place === null || place.shiftMm > reachMm ? Number.POSITIVE_INFINITY : place.shiftMm;
  };

  return (slide, giveUpAt = Number.POSITIVE_INFINITY) => {
    const most = giveUpAt * total;
    const shiftMm = new Float64Array(objects.length);
    let sum = 0;
    let rank = 0;
    for (const [i, object] of objects.entries()) {
      const { xMm, yMm } = slidPoint(object, view.centre, slide);
      if (xMm >= 0 && xMm <= width && yMm >= 0 && yMm <= length) shiftMm[i] = shiftOf(xMm, yMm, rank++);
      else shiftMm[i] = object.inside ? Number.POSITIVE_INFINITY : 0;
      sum += weights[i]! * Math.min(shiftMm[i]!, object.expected ? lost : maxShift) ** 2;
      if (sum > most) break;
    }
    return { shiftMm, meanSquare: total === 0 ? 0 : sum / total };
  };
}
