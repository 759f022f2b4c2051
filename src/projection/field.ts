import { Constellation } from "astronomy-engine";
import type { Plan } from "../plan/plan.ts";
import { altitudeDeg, apparentDirections, azimuthDeg } from "../sky/apparent.ts";
import { NO_COLOUR_INDEX } from "../sky/catalogue.ts";
import { CONSTELLATION_CODES } from "../sky/constellations.ts";
import { airMass } from "../sky/extinction.ts";
import type { Observer } from "../sky/observer.ts";
import { refract } from "../sky/refraction.ts";
import type { SkyData } from "../sky/skyData.ts";
import { bodyAt, moonAt, PLANETS, type SkyBody } from "../sky/solarSystem.ts";
import { resolveAim } from "./aim.ts";
import { mergeSorted } from "./mergeSorted.ts";
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
  /** Apparent, refracted if the plan asks for it. */
  readonly altDeg: Float64Array;
  readonly azDeg: Float64Array;
  /** True point, ceiling frame. */
  readonly xMm: Float64Array;
  readonly yMm: Float64Array;
  readonly bodies: readonly SkyBody[];
  readonly view: View;
  /** What was left out, counted. */
  readonly notShown: {
    readonly belowHorizon: number;
    readonly beyondProjection: number;
    readonly offCeiling: number;
  };
}

/**
 * All objects above the horizon (or all, if the plan shows what is below) whose true point lies inside the ceiling.
 * @param plan positions in the ceiling frame (`inCeilingFrame`)
 */
export function findField(plan: Plan, sky: SkyData, observer: Observer): Field {
  const { catalogue } = sky;
  const { width, length } = plan.ceiling;
  const view = makeView(plan.view, plan.ceiling, resolveAim(plan.view.aim, plan.show, sky, observer));

  const bodies: SkyBody[] = [];
  if (plan.show.planets) for (const name of PLANETS) bodies.push(bodyAt(name, observer));
  if (plan.show.moon) bodies.push(moonAt(observer));

  const starCount = catalogue.count;
  const total = starCount + bodies.length;
  const enu = new Float64Array(total * 3);
  apparentDirections(sky.stars, observer, enu.subarray(0, starCount * 3));
  for (const [b, body] of bodies.entries()) enu.set(body.enu, (starCount + b) * 3);
  if (plan.show.refraction) refract(enu);

  const { belowHorizon: showAll } = plan.show;
  const xy = new Float64Array(total * 2);
  const inside = new Int32Array(total);
  let count = 0;
  let belowHorizon = 0;
  let beyondProjection = 0;
  for (let i = 0; i < total; i++) {
    if (!showAll && !(enu[i * 3 + 2]! > 0)) {
      belowHorizon++;
      continue;
    }
    if (!view.projectAt(enu, i, xy)) {
      beyondProjection++;
      continue;
    }
    const x = xy[i * 2]!;
    const y = xy[i * 2 + 1]!;
    if (x >= 0 && x <= width && y >= 0 && y <= length) inside[count++] = i;
  }

  const vMagOf = (i: number) => (i < starCount ? catalogue.vCentiMag[i]! / 100 : bodies[i - starCount]!.vMag);
  const { extinction } = plan.show;
  const gradedOf = (i: number) =>
    extinction === 0
      ? vMagOf(i)
      : vMagOf(i) + extinction * airMass(altitudeDeg(enu[i * 3]!, enu[i * 3 + 1]!, enu[i * 3 + 2]!));
  const rankOf = (i: number) => (i >= starCount ? i - total : catalogue.hip[i]!);
  const sorted = brightestFirst(inside.subarray(0, count), starCount, extinction === 0, gradedOf, rankOf);

  const column = () => new Float64Array(count);
  const field = {
    count,
    source: new Int32Array(count),
    rank: new Int32Array(count),
    vMag: column(),
    mag: column(),
    altDeg: column(),
    azDeg: column(),
    xMm: column(),
    yMm: column(),
    bodies,
    view,
    notShown: {
      belowHorizon,
      beyondProjection,
      offCeiling: total - belowHorizon - beyondProjection - count,
    },
  };
  for (let j = 0; j < count; j++) {
    const i = sorted[j]!;
    const [e, n, u] = [enu[i * 3]!, enu[i * 3 + 1]!, enu[i * 3 + 2]!];
    field.source[j] = i < starCount ? i : -1 - (i - starCount);
    field.rank[j] = rankOf(i);
    field.vMag[j] = vMagOf(i);
    field.mag[j] = gradedOf(i);
    field.altDeg[j] = altitudeDeg(e, n, u);
    field.azDeg[j] = azimuthDeg(e, n);
    field.xMm[j] = xy[i * 2]!;
    field.yMm[j] = xy[i * 2 + 1]!;
  }
  return field;
}

/** The catalogue comes sorted: unless something was added to its magnitudes, only planets and Moon are out of place. */
function brightestFirst(
  inside: Int32Array,
  starCount: number,
  starsAreSorted: boolean,
  magOf: (i: number) => number,
  rankOf: (i: number) => number,
): Int32Array {
  const before = (i: number, j: number) =>
    magOf(i) < magOf(j) || (magOf(i) === magOf(j) && rankOf(i) < rankOf(j));
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
    const [x, y, z] = body.icrs;
    const raDeg = azimuthDeg(y, x); // the same arc tangent, counted from x toward y
    const decDeg = altitudeDeg(x, y, z);
    return {
      kind: body.name === "Moon" ? "moon" : "planet",
      hip: null,
      name: body.name,
      constellation: Constellation(raDeg / 15, decDeg).symbol,
      bv: null,
      raDeg,
      decDeg,
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
