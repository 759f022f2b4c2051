import { makeClearance } from "../panel/clearance.ts";
import type { Panel } from "../panel/panels.ts";
import type { Placer } from "../panel/placement.ts";
import type { Plan } from "../plan/plan.ts";
import type { PointMm } from "../projection/frames.ts";
import type { View } from "../projection/view.ts";
import { altitudeDeg } from "../sky/apparent.ts";
import type { Catalogue } from "../sky/catalogue.ts";
import { equatorialPlace } from "../sky/equatorialPlace.ts";
import { airMass } from "../sky/extinction.ts";
import { applyInverse, type Vector3 } from "../sky/matrix.ts";
import { starDensity } from "../sky/milkyWay.ts";
import type { Observer } from "../sky/observer.ts";
import { unrefracted } from "../sky/refraction.ts";
import { hundredths } from "./rounding.ts";
import type { UngradedHole } from "./ungraded.ts";

/** What dots of the Milky Way are sown on. */
export interface MilkyWayGround {
  /** In the ceiling frame. */
  readonly plan: Plan;
  readonly view: View;
  readonly observer: Observer;
  readonly catalogue: Catalogue;
  readonly panels: readonly Panel[];
  readonly placer: Placer;
  readonly diameterMm: number;
  readonly bitMm: number;
  /** Set aside for it: a measure of how long room is looked for. */
  readonly strands: number;
}

/** A hole that dots keep away from. */
export interface TakenPlace extends PointMm {
  readonly bitMm: number;
}

export interface MilkyWaySower {
  /** False where nothing of the ceiling shows the sky at half the brightness that the band has on the whole. */
  readonly bandIsThere: boolean;
  /** Up to `wanted` dots that keep their distance from all that is taken and from each other; fewer when room runs out. */
  sow(wanted: number, taken: readonly TakenPlace[]): UngradedHole[];
}

/** The ceiling is looked over at so many points a side. */
const LOOKS = 64;
/** Of a band that is there one in ten tries or so finds its place; after so many a dot the room counts as used up. */
const TRIES_A_DOT = 300;

/**
 * Dots that follow the star density of the Milky Way: as many a steradian as the density stands out above that of the sky
 * beside it, dimmed by extinction as the plan says. Each lies exactly where it is drilled: a place that cannot be
 * drilled is passed over, nothing is moved. The places come from a sequence of low discrepancy in an equal-area map of the
 * sky about the aim, so they are even where the sky is even, and the same each time.
 */
export function milkyWaySower(ground: MilkyWayGround): MilkyWaySower {
  const { plan, view, observer, panels, placer, bitMm } = ground;
  const density = starDensity(ground.catalogue);
  const icrsOf = (enu: Vector3): Vector3 =>
    // Aberration, a third of a minute of arc, is let be: a dot is no star.
    applyInverse(observer.icrsToEnu, plan.show.refraction ? unrefracted(enu) : enu);
  const brightness = (enu: Vector3): number => {
    if (!(enu[2] > 0) && !plan.show.belowHorizon) return 0;
    const excess = density.excessAt(icrsOf(enu));
    return plan.show.extinction === 0
      ? excess
      : excess * 10 ** (-0.4 * plan.show.extinction * airMass(altitudeDeg(...enu)));
  };
  /** The nearest point that is written with hundredths in the panel's face frame, if a hole may be there; else null. */
  const drillable = (point: PointMm): (PointMm & { panel: number }) | null => {
    const panel = placer.panelAt(point.xMm, point.yMm);
    if (panel < 0) return null;
    const { board } = panels[panel]!;
    const xMm = board.xMm + hundredths(point.xMm - board.xMm);
    const yMm = board.yMm + hundredths(point.yMm - board.yMm);
    const place = placer.nearestPlace(xMm, yMm, bitMm);
    return place !== null && place.panel === panel && place.shiftMm < 1e-6 ? { xMm, yMm, panel } : null;
  };

  const { brightest, map } = lookOver(plan, view, drillable, brightness);
  const bandIsThere = brightest >= (density.meanInBand - density.meanBeside) / 2;

  return {
    bandIsThere,
    sow(wanted, taken) {
      const largestBitMm = taken.reduce((largest, hole) => Math.max(largest, hole.bitMm), bitMm);
      const clearance = makeClearance(plan.holes.spacing, largestBitMm);
      for (const hole of taken) clearance.take(hole.xMm, hole.yMm, hole.bitMm);
      const dots: UngradedHole[] = [];
      for (let n = 1; dots.length < wanted && n <= TRIES_A_DOT * ground.strands; n++) {
        const towards = map.direction(radicalInverse(n, 2), radicalInverse(n, 3));
        if (towards === null || brightness(towards) <= radicalInverse(n, 5) * brightest) continue;
        const point = view.projectOne(towards);
        const place = point && drillable(point);
        if (!place || !clearance.isFree(place.xMm, place.yMm, bitMm)) continue;
        const enu = view.unproject(place);
        if (enu === null || (!(enu[2] > 0) && !plan.show.belowHorizon)) continue;
        clearance.take(place.xMm, place.yMm, bitMm);
        dots.push({
          kind: "milkyWay",
          name: "",
          constellation: equatorialPlace(icrsOf(enu)).constellation,
          diameterMm: ground.diameterMm,
          bitMm,
          skyPoint: place,
          enu,
          place: { ...place, shiftMm: 0, bored: false },
        });
      }
      return dots;
    },
  };
}

/** An equal-area map of the part of the sky that has something to show. */
interface EqualAreaMap {
  /** Direction at a point of the unit square; null beyond the sky. */
  direction(s: number, t: number): Vector3 | null;
}

/** Looks over the ceiling: how bright it gets where there can be holes, and the map of where it is bright at all. */
function lookOver(
  { ceiling }: Plan,
  view: View,
  drillable: (point: PointMm) => unknown,
  brightness: (enu: Vector3) => number,
): { brightest: number; map: EqualAreaMap } {
  const [x0, x1, x2, y0, y1, y2, z0, z1, z2] = view.axes;
  let brightest = 0;
  const low: [number, number] = [2, 2];
  const high: [number, number] = [-2, -2];
  for (let i = 0; i < LOOKS * LOOKS; i++) {
    const point = {
      xMm: ((i % LOOKS) / (LOOKS - 1)) * ceiling.width,
      yMm: (Math.floor(i / LOOKS) / (LOOKS - 1)) * ceiling.length,
    };
    const enu = view.unproject(point);
    if (enu === null) continue;
    const light = brightness(enu);
    if (light === 0) continue;
    if (light > brightest && drillable(point) !== null) brightest = light;
    // Lambert's map about the aim: radius 2 sin(z/2). Source: Snyder 1987, ch. 24.
    const along = Math.max(-1 + 1e-9, z0 * enu[0] + z1 * enu[1] + z2 * enu[2]);
    const stretch = Math.sqrt(2 / (1 + along));
    const flat = [
      stretch * (x0 * enu[0] + x1 * enu[1] + x2 * enu[2]),
      stretch * (y0 * enu[0] + y1 * enu[1] + y2 * enu[2]),
    ] as const;
    for (const axis of [0, 1] as const) {
      low[axis] = Math.min(low[axis], flat[axis]);
      high[axis] = Math.max(high[axis], flat[axis]);
    }
  }
  // Between two looks it may reach a little further; toward the sky's rim a step of the ceiling is many of the map.
  for (const axis of [0, 1] as const) {
    const margin = 0.02 + 0.05 * (high[axis] - low[axis]);
    low[axis] = Math.max(-2, low[axis] - margin);
    high[axis] = Math.min(2, high[axis] + margin);
  }
  return {
    brightest: brightest * 1.05,
    map: {
      direction(s, t) {
        const x = low[0] + s * (high[0] - low[0]);
        const y = low[1] + t * (high[1] - low[1]);
        const squared = x * x + y * y;
        if (squared >= 4) return null;
        const along = 1 - squared / 2;
        const shrink = Math.sqrt(1 - squared / 4);
        return [
          shrink * (x * x0 + y * y0) + along * z0,
          shrink * (x * x1 + y * y1) + along * z1,
          shrink * (x * x2 + y * y2) + along * z2,
        ];
      },
    },
  };
}

/** The n-th number of van der Corput's sequence; in bases 2, 3 and 5 together they are Halton's points (1960). */
function radicalInverse(n: number, base: number): number {
  let inverse = 0;
  let digit = 1 / base;
  for (let rest = n; rest > 0; rest = Math.floor(rest / base), digit /= base)
    inverse += (rest % base) * digit;
  return inverse;
}
