import { summedMag } from "../fibre/merge.ts";
import { type StrandStock, usableStrands } from "../fibre/stock.ts";
import type { Plan } from "../plan/plan.ts";
import { resolveAim } from "../projection/aim.ts";
import { makeView, type View } from "../projection/view.ts";
import { altitudeDeg, apparentDirections } from "../sky/apparent.ts";
import { airMass } from "../sky/extinction.ts";
import type { Observer } from "../sky/observer.ts";
import { refract } from "../sky/refraction.ts";
import type { SkyData } from "../sky/skyData.ts";
import { bodyAt, moonAt, PLANETS, type SkyBody } from "../sky/solarSystem.ts";
import { WATCHED_MAG } from "./fidelityShifts.ts";

/** One of the brightest objects over a ceiling, or just beyond its rim. */
export interface BrightObject {
  /** Hipparcos number; null for a planet or the Moon. */
  readonly hip: number | null;
  readonly name: string;
  /** With extinction, if any. */
  readonly mag: number;
  /** True point before any slide, ceiling frame. */
  readonly xMm: number;
  readonly yMm: number;
  /** Over the ceiling's rectangle before any slide. */
  readonly inside: boolean;
  /** It would be missed: one that only comes in by a slide, or at another moment, would not. */
  readonly expected: boolean;
}

/** So many of the brightest that lie over the ceiling (and those as bright as the last), or all down to a magnitude. */
export type HowBright =
  | { readonly count: number; readonly alsoToMag?: number; readonly most?: number }
  | { readonly faintestMag: number };

export interface BrightSky {
  /** Brightest first. */
  readonly objects: readonly BrightObject[];
  /** Magnitude of the faintest of them over the ceiling; null when there is none. */
  readonly faintestMag: number | null;
  readonly view: View;
}

const FEWEST = 20;
const MOST = 150;

/**
 * The objects that get the two thickest diameters, 20 at least, and all to magnitude 3.5, whose place is watched; 150 at most.
 * @param stock thickest first
 */
export const brightest = (stock: readonly StrandStock[]): HowBright => ({
  count: Math.min(MOST, Math.max(FEWEST, usableStrands(stock.slice(0, 2)))),
  alsoToMag: WATCHED_MAG,
  most: MOST,
});

/** Enough rows of the catalogue to begin with. */
const FIRST_ROWS = 512;

/**
 * The brightest objects over a ceiling, without following the whole catalogue: it comes sorted, so its first rows are taken, twice
 * as many until the last is fainter than the faintest wanted.
 * @param plan      in the ceiling frame
 * @param beyondMm  those that lie so far off the ceiling's rectangle are handed over too, if they are as bright
 */
export function brightObjects(
  plan: Plan,
  sky: SkyData,
  observer: Observer,
  wanted: HowBright,
  beyondMm: number,
): BrightSky {
  const { catalogue, designations } = sky;
  const view = makeView(plan.view, plan.ceiling, resolveAim(plan.view.aim, plan.show, sky, observer));
  const bodies = [
    ...(plan.show.planets ? PLANETS.map((name) => bodyAt(name, observer)) : []),
    ...(plan.show.moon ? [moonAt(observer)] : []),
  ];
  const over = bodies.flatMap((body) => placedBody(body, plan, view, beyondMm));
  for (let rows = FIRST_ROWS; ; rows *= 2) {
    const count = Math.min(rows, catalogue.count);
    const enu = apparentDirections(
      sky.stars,
      observer,
      Int32Array.from({ length: count }, (_, row) => row),
    );
    if (plan.show.refraction) refract(enu);
    const stars = placed(enu, plan, view, beyondMm, (row) => catalogue.vCentiMag[row]! / 100).map(
      ({ i, ...each }) => ({ ...each, hip: catalogue.hip[i]! }),
    );
    const all = [...over, ...stars].sort((a, b) => a.mag - b.mag || (a.hip ?? 0) - (b.hip ?? 0));
    const known = count === catalogue.count ? Number.POSITIVE_INFINITY : catalogue.vCentiMag[count]! / 100;
    const faintestMag = faintestOf(wanted, all);
    // Extinction only dims: whatever was not looked at is fainter than its V.
    if (count < catalogue.count && !(faintestMag < known)) continue;
    const objects = folded(
      all
        .filter(({ mag }) => mag <= faintestMag)
        .map((each) => ({
          ...each,
          name: "name" in each ? each.name : designations.displayName(each.hip),
        })),
      plan.holes.merge,
    );
    return { objects, faintestMag: objects.filter(({ inside }) => inside).at(-1)?.mag ?? null, view };
  }
}

/** Of those closer than the plan's merging only the brightest has a hole, with the light of all. */
function folded(objects: readonly BrightObject[], mergeMm: number): BrightObject[] {
  const left = [...objects];
  const kept: BrightObject[] = [];
  for (let one = left.shift(); one !== undefined; one = left.shift()) {
    const { xMm, yMm } = one;
    const close = left.filter((other) => Math.hypot(other.xMm - xMm, other.yMm - yMm) <= mergeMm);
    for (const other of close) left.splice(left.indexOf(other), 1);
    kept.push({ ...one, mag: summedMag([one.mag, ...close.map(({ mag }) => mag)]) });
  }
  return kept.sort((a, b) => a.mag - b.mag || (a.hip ?? 0) - (b.hip ?? 0));
}

/** Infinite where not enough is known yet, or there are no more. */
function faintestOf(wanted: HowBright, objects: readonly { mag: number; inside: boolean }[]): number {
  if ("faintestMag" in wanted) return wanted.faintestMag;
  const inside = objects.filter((each) => each.inside);
  const { count, alsoToMag = Number.NEGATIVE_INFINITY, most = Number.POSITIVE_INFINITY } = wanted;
  return Math.max(
    inside[count - 1]?.mag ?? Number.POSITIVE_INFINITY,
    Math.min(alsoToMag, inside[most - 1]?.mag ?? Number.POSITIVE_INFINITY),
  );
}

type Placed = Omit<BrightObject, "name" | "hip"> & { readonly i: number };

function placed(
  enu: Float64Array,
  plan: Plan,
  view: View,
  beyondMm: number,
  vMagOf: (i: number) => number,
): Placed[] {
  const { width, length } = plan.ceiling;
  const lowest = plan.show.belowHorizon ? Number.NEGATIVE_INFINITY : 0;
  const xy = new Float64Array((enu.length / 3) * 2);
  const found: Placed[] = [];
  for (let i = 0; i < enu.length / 3; i++) {
    if (!(enu[i * 3 + 2]! > lowest) || !view.projectAt(enu, i, xy)) continue;
    const [xMm, yMm] = [xy[i * 2]!, xy[i * 2 + 1]!];
    const within = (mm: number) => xMm >= -mm && xMm <= width + mm && yMm >= -mm && yMm <= length + mm;
    if (!within(beyondMm)) continue;
    const { extinction } = plan.show;
    const dimmed =
      extinction === 0 ? 0 : extinction * airMass(altitudeDeg(enu[i * 3]!, enu[i * 3 + 1]!, enu[i * 3 + 2]!));
    found.push({ i, mag: vMagOf(i) + dimmed, xMm, yMm, inside: within(0), expected: within(0) });
  }
  return found;
}

function placedBody(body: SkyBody, plan: Plan, view: View, beyondMm: number) {
  const enu = Float64Array.from(body.enu);
  if (plan.show.refraction) refract(enu);
  return placed(enu, plan, view, beyondMm, () => body.vMag).map(({ i: _, ...each }) => ({
    ...each,
    hip: null,
    name: body.name,
  }));
}
