import type { Plan } from "../plan/plan.ts";
import { altitudeDeg, apparentDirections, azimuthDeg } from "../sky/apparent.ts";
import { NO_COLOUR_INDEX } from "../sky/catalogue.ts";
import { CONSTELLATION_CODES } from "../sky/constellations.ts";
import { equatorialPlace } from "../sky/equatorialPlace.ts";
import { airMass } from "../sky/extinction.ts";
import { applyInverse, type Vector3 } from "../sky/matrix.ts";
import type { Observer } from "../sky/observer.ts";
import { refract } from "../sky/refraction.ts";
import type { SkyData } from "../sky/skyData.ts";
import { bodyAt, moonAt, PLANETS, type SkyBody } from "../sky/solarSystem.ts";
import { resolveAim } from "./aim.ts";
import { farthestCornerMm } from "./frames.ts";
import { mergeSorted } from "./mergeSorted.ts";
import { NO_SLIDE, type Slide } from "./slide.ts";
import { makeView, type View } from "./view.ts";

/**
 * The objects over the ceiling as parallel columns, brightest first (ties: planets and Moon first, then by HIP number).
 */
export interface Field {
  readonly count: number;
  /** Row of the catalogue, or -1 - b for `bodies[b]`. */
  readonly source: Int32Array;
  /** HIP number; below 0 for a planet or the Moon. Of equal light the lower rank goes first. */
  readonly rank: Int32Array;
  /** As seen above the atmosphere. */
  readonly vMag: Float64Array;
  /** With extinction, if the plan asks for it: what is graded. */
  readonly mag: Float64Array;
  /** Apparent directions [e0, n0, u0, ...], refracted if the plan asks for it. */
  readonly enu: Float64Array;
  /** True point, ceiling frame. */
  readonly xMm: Float64Array;
  readonly yMm: Float64Array;
  readonly bodies: readonly SkyBody[];
  readonly view: View;
  readonly notShown: NotShown;
}

/** What was left out, counted. */
export interface NotShown {
  readonly belowHorizon: number;
  readonly beyondProjection: number;
  readonly offCeiling: number;
}

/**
 * All objects above the horizon (or all, if the plan shows what is below) whose true point lies inside the ceiling.
 * The loops over stars are small functions of their own: so the engine compiles them while they still run.
 * @param plan  positions in the ceiling frame (`inCeilingFrame`)
 * @param slide how the sky is slid and turned: what lies inside is asked after it
 */
export function findField(plan: Plan, sky: SkyData, observer: Observer, slide: Slide = NO_SLIDE): Field {
  const { catalogue } = sky;
  const view = makeView(plan.view, plan.ceiling, resolveAim(plan.view.aim, plan.show, sky, observer), slide);

  const bodies: SkyBody[] = [];
  if (plan.show.planets) for (const name of PLANETS) bodies.push(bodyAt(name, observer));
  if (plan.show.moon) bodies.push(moonAt(observer));

  // Candidates: first the stars that may lie over the ceiling, by catalogue row, then the bodies.
  const near = starsNear(plan, sky, observer, view);
  const starCount = near.rows.length;
  const enu = new Float64Array((starCount + bodies.length) * 3);
  enu.set(apparentDirections(sky.stars, observer, near.rows));
  for (const [b, body] of bodies.entries()) enu.set(body.enu, (starCount + b) * 3);
  if (plan.show.refraction) refract(enu);

  const xy = new Float64Array((starCount + bodies.length) * 2);
  const { inside, notShown } = overCeiling(enu, view, plan, xy, near.notShown);

  const rank = new Int32Array(starCount + bodies.length);
  const vMag = new Float64Array(rank.length);
  for (let i = 0; i < starCount; i++) {
    rank[i] = catalogue.hip[near.rows[i]!]!;
    vMag[i] = catalogue.vCentiMag[near.rows[i]!]! / 100;
  }
  for (const [b, body] of bodies.entries()) {
    rank[starCount + b] = b - bodies.length;
    vMag[starCount + b] = body.vMag;
  }
  const mag = plan.show.extinction === 0 ? vMag : dimmed(vMag, enu, inside, plan.show.extinction);
  const order = brightestFirst(inside, starCount, mag === vMag, mag, rank);
  const source = Int32Array.from(order, (i) => (i < starCount ? near.rows[i]! : starCount - 1 - i));
  return {
    count: order.length,
    source,
    rank: order.map((i) => rank[i]!),
    vMag: picked(vMag, order, 1, 0),
    mag: picked(mag, order, 1, 0),
    enu: pickedDirections(enu, order),
    xMm: picked(xy, order, 2, 0),
    yMm: picked(xy, order, 2, 1),
    bodies,
    view,
    notShown,
  };
}

/** Projects each candidate above the horizon. @param xy filled: [x0, y0, ...] */
function overCeiling(
  enu: Float64Array,
  view: View,
  plan: Plan,
  xy: Float64Array,
  counted: NotShown,
): { inside: Int32Array; notShown: NotShown } {
  const { width, length } = plan.ceiling;
  const lowest = plan.show.belowHorizon ? Number.NEGATIVE_INFINITY : 0;
  const inside = new Int32Array(enu.length / 3);
  let count = 0;
  let { belowHorizon, beyondProjection, offCeiling } = counted;
  for (let i = 0; i < inside.length; i++) {
    if (!(enu[i * 3 + 2]! > lowest)) belowHorizon++;
    else if (!view.projectAt(enu, i, xy)) beyondProjection++;
    else if (xy[i * 2]! >= 0 && xy[i * 2]! <= width && xy[i * 2 + 1]! >= 0 && xy[i * 2 + 1]! <= length)
      inside[count++] = i;
    else offCeiling++;
  }
  return { inside: inside.subarray(0, count), notShown: { belowHorizon, beyondProjection, offCeiling } };
}

/** Magnitudes with extinction, for the candidates over the ceiling. */
function dimmed(
  vMag: Float64Array,
  enu: Float64Array,
  inside: Int32Array,
  extinctionPerAirMass: number,
): Float64Array {
  const mag = vMag.slice();
  for (const i of inside) {
    mag[i]! += extinctionPerAirMass * airMass(altitudeDeg(enu[i * 3]!, enu[i * 3 + 1]!, enu[i * 3 + 2]!));
  }
  return mag;
}

/** One value of each of some candidates. */
function picked(values: Float64Array, order: Int32Array, stride: number, offset: number): Float64Array {
  const out = new Float64Array(order.length);
  for (let j = 0; j < out.length; j++) out[j] = values[order[j]! * stride + offset]!;
  return out;
}

function pickedDirections(enu: Float64Array, order: Int32Array): Float64Array {
  const out = new Float64Array(order.length * 3);
  for (let j = 0, k = 0; j < order.length; j++, k += 3) {
    const i = order[j]! * 3;
    out[k] = enu[i]!;
    out[k + 1] = enu[i + 1]!;
    out[k + 2] = enu[i + 2]!;
  }
  return out;
}

/**
 * How far a J2000 place may lie from where the star is seen: precession and nutation are in the rotation; proper motion of
 * the fastest star over 150 years (0.5 degrees), aberration (0.006) and refraction (under 1) are not.
 */
const MARGIN_DEG = 2;

/**
 * The stars that may lie over the ceiling, so that the others need not be followed through every step: they are only
 * counted. Where it is not sure to which count a star belongs, it is followed too.
 */
function starsNear(
  plan: Plan,
  sky: SkyData,
  observer: Observer,
  view: View,
): { rows: Int32Array; notShown: NotShown } {
  const { p } = sky.stars;
  const RAD = Math.PI / 180;
  const [ax, ay, az] = applyInverse(observer.icrsToEnu, view.axes.slice(6, 9) as unknown as Vector3);
  const [zx, zy, zz] = applyInverse(observer.icrsToEnu, [0, 0, 1]);
  const reachDeg = (view.angleFromAimDeg(farthestCornerMm(view.centre, plan.ceiling)) ?? 180) + MARGIN_DEG;
  const nearCos = reachDeg >= 180 ? -2 : Math.cos(reachDeg * RAD);
  const margin = Math.sin(MARGIN_DEG * RAD);
  const horizon = plan.show.belowHorizon ? Number.NEGATIVE_INFINITY : 0;

  const rows = new Int32Array(sky.catalogue.count);
  let count = 0;
  const notShown = { belowHorizon: 0, beyondProjection: 0, offCeiling: 0 };
  for (let row = 0, i = 0; row < rows.length; row++, i += 3) {
    const x = p[i]!;
    const y = p[i + 1]!;
    const z = p[i + 2]!;
    const up = x * zx + y * zy + z * zz;
    const along = x * ax + y * ay + z * az;
    if (up < horizon - margin) notShown.belowHorizon++;
    else if (along >= nearCos || up < horizon + margin || Math.abs(along - view.leastCos) < margin)
      rows[count++] = row;
    else if (along > view.leastCos) notShown.offCeiling++;
    else notShown.beyondProjection++;
  }
  return { rows: rows.subarray(0, count), notShown };
}

/** The catalogue comes sorted: unless something was added to its magnitudes, only planets and Moon are out of place. */
function brightestFirst(
  inside: Int32Array,
  starCount: number,
  starsAreSorted: boolean,
  mag: Float64Array,
  rank: Int32Array,
): Int32Array {
  const before = (i: number, j: number) => mag[i]! < mag[j]! || (mag[i] === mag[j] && rank[i]! < rank[j]!);
  const compare = (i: number, j: number) => (before(i, j) ? -1 : 1);
  if (!starsAreSorted) return inside.sort(compare);
  let stars = inside.length;
  while (stars > 0 && inside[stars - 1]! >= starCount) stars--;
  return mergeSorted(inside.subarray(0, stars), inside.slice(stars).sort(compare), before);
}

/** What is known of one object of a field, for people and tables. */
export interface SkyObject {
  readonly kind: "star" | "planet" | "moon";
  /** Hipparcos number; null for a planet or the Moon. */
  readonly hip: number | null;
  readonly name: string;
  readonly constellation: string;
  readonly bv: number | null;
  /** Catalogue place (epoch and equinox J2000) of a star; astrometric J2000 place of a planet or the Moon at the moment. */
  readonly raDeg: number;
  readonly decDeg: number;
}

/** @param j index into the field's columns */
export function describeObject(field: Field, j: number, sky: SkyData): SkyObject {
  const row = field.source[j]!;
  if (row < 0) {
    const body = field.bodies[-1 - row]!;
    return {
      kind: body.name === "Moon" ? "moon" : "planet",
      hip: null,
      name: body.name,
      bv: null,
      ...equatorialPlace(body.icrs),
    };
  }
  const { catalogue, designations } = sky;
  const bvMilli = catalogue.bvMilliMag[row]!;
  const hip = catalogue.hip[row]!;
  return {
    kind: "star",
    hip,
    name: designations.displayName(hip),
    constellation: CONSTELLATION_CODES[catalogue.constellation[row]!]!,
    bv: bvMilli === NO_COLOUR_INDEX ? null : bvMilli / 1000,
    raDeg: catalogue.raJ2000E4Deg[row]! / 10_000,
    decDeg: catalogue.decJ2000E4Deg[row]! / 10_000,
  };
}

/** Index of the Moon in a field; -1 when it is not over the ceiling, or not shown. */
export function moonInField(field: Field): number {
  for (let j = 0; j < field.count; j++) {
    if (field.source[j]! < 0 && field.bodies[-1 - field.source[j]!]!.name === "Moon") return j;
  }
  return -1;
}

/** Where an object stands at the moment and place: apparent altitude and azimuth from true north through east. */
export function horizontalOf(field: Field, j: number): { altDeg: number; azDeg: number } {
  const [e, n, u] = [field.enu[j * 3]!, field.enu[j * 3 + 1]!, field.enu[j * 3 + 2]!];
  return { altDeg: altitudeDeg(e, n, u), azDeg: azimuthDeg(e, n) };
}
