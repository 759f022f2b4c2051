import { InputError } from "../plan/errors.ts";
import type { AimPlan, Plan } from "../plan/plan.ts";
import {
  altitudeDeg,
  apparentDirection,
  apparentDirections,
  azimuthDeg,
  equatorialVector,
} from "../sky/apparent.ts";
import { momentOf } from "../sky/civilTime.ts";
import type { Constellation } from "../sky/constellations.ts";
import { equatorialPlace } from "../sky/equatorialPlace.ts";
import { lookUp, namesNear } from "../sky/lookUp.ts";
import type { Vector3 } from "../sky/matrix.ts";
import { observerAt } from "../sky/observer.ts";
import { geoPlaceOf } from "../sky/place.ts";
import type { SkyData } from "../sky/skyData.ts";
import { bodyAt, moonAt, type PlanetName } from "../sky/solarSystem.ts";
import { ceilingTest, type OnCeiling, shownDirection } from "./nightsField.ts";
import { hundredths, rounded, tenThousandths } from "./rounding.ts";

/** A star, as one names it. */
export interface NamedStar {
  readonly hip: number;
  readonly name: string;
  /** Bayer, Flamsteed or variable, or "". */
  readonly designation: string;
  readonly mag: number;
}

/** Where something stands at a plan's moment. */
export interface AtMoment {
  /** Apparent, with refraction only if the plan shows it. */
  readonly altDeg: number;
  readonly azDeg: number;
  readonly where: OnCeiling["where"];
  /** Whether it is among the objects of this ceiling: over it, and of a kind that the plan shows. */
  readonly overCeiling: boolean;
  /** True point in the ceiling frame; null where it is not over the ceiling. */
  readonly xMm: number | null;
  readonly yMm: number | null;
}

/** One thing found; what is not known without a plan is null. */
export interface FoundObject {
  readonly kind: "star" | "constellation" | "planet" | "moon";
  readonly name: string;
  readonly designation: string;
  readonly hip: number | null;
  /** IAU code and Latin name of the constellation it stands in, or is. */
  readonly constellation: { readonly code: string; readonly name: string } | null;
  readonly mag: number | null;
  /** J2000: of a star its catalogue place, of a constellation the middle of its area, of a planet its place at the moment. */
  readonly raDeg: number | null;
  readonly decDeg: number | null;
  /** What to write as `view.aim`. */
  readonly aim: AimPlan | null;
  readonly areaSquareDeg: number | null;
  /** A constellation's brightest stars that have a proper name. */
  readonly stars: readonly NamedStar[];
  readonly atMoment: AtMoment | null;
}

export interface Found {
  readonly text: string;
  readonly moment: { readonly civil: string; readonly instantUtc: string } | null;
  /** Constellations, then planets and Moon, then stars, brightest first. */
  readonly found: readonly FoundObject[];
  /** True when nothing is called exactly so: what was found has a word that begins so. */
  readonly beginsSo: boolean;
  /** What a careful person should know about the moment's clock. */
  readonly notices: readonly string[];
}

const MOST_STARS_OF_CONSTELLATION = 8;

/**
 * Looks a name up in the sky; with a plan also where it stands at its moment.
 * @throws InputError when nobody is called so, with the names that are near
 */
export function findInSky(text: string, sky: SkyData, plan?: Plan): Found {
  const { constellations, bodies, starRows, missingHips, beginsSo } = lookUp(text, sky);
  if (constellations.length + bodies.length + starRows.length === 0) {
    const hip = missingHips[0];
    const near = namesNear(text, sky);
    throw new InputError(
      `--find: ${hip === undefined ? `${JSON.stringify(text.length > 60 ? `${text.slice(0, 59)}…` : text)} is no star, constellation or planet known here` : `HIP ${hip} is not in the catalogue`}; ${
        near.length > 0
          ? `did you mean ${near.join(" or ")}?`
          : "write a name such as Vega, a designation such as α Cen or 61 Cyg, a Hipparcos number, or a constellation such as Cru"
      }`,
    );
  }
  const night = plan === undefined ? null : nightOf(plan, sky);
  const code = (row: number) => sky.constellations.all[sky.catalogue.constellation[row]!]!;
  return {
    text,
    moment: night && { civil: night.civil, instantUtc: night.instantUtc },
    found: [
      ...constellations.map((each) => foundConstellation(each, sky, night)),
      ...bodies.map((name) => foundBody(name, sky, night)),
      ...starRows.map((row) => foundStar(row, code(row), sky, night)),
    ],
    beginsSo,
    notices: night?.notices ?? [],
  };
}

interface Night {
  readonly civil: string;
  readonly instantUtc: string;
  readonly notices: readonly string[];
  readonly observer: ReturnType<typeof observerAt>;
  readonly plan: Plan;
  /** @param enu unrefracted */
  readonly stands: (enu: Vector3, isShown: boolean) => AtMoment;
}

function nightOf(plan: Plan, sky: SkyData): Night {
  const { civil, instantUtc, instantUtcMs, notices } = momentOf(plan);
  const observer = observerAt(instantUtcMs, geoPlaceOf(plan.place));
  const onCeiling = ceilingTest(plan, sky, observer);
  const stands = (unrefracted: Vector3, isShown: boolean): AtMoment => {
    const seen = shownDirection(unrefracted, plan.show);
    const [e, n, u] = seen;
    const point = onCeiling(seen);
    const isOver = point.where === "over";
    return {
      altDeg: rounded(altitudeDeg(e, n, u), 1e6),
      azDeg: rounded(azimuthDeg(e, n), 1e6) % 360,
      where: point.where,
      overCeiling: isOver && isShown,
      xMm: isOver ? rounded(point.xCeilingMm, 1e3) : null,
      yMm: isOver ? rounded(point.yCeilingMm, 1e3) : null,
    };
  };
  return { civil, instantUtc, notices, observer, plan, stands };
}

const namedStar = (row: number, { catalogue, designations }: SkyData): NamedStar => {
  const hip = catalogue.hip[row]!;
  return {
    hip,
    name: designations.properName(hip),
    designation: designations.designation(hip),
    mag: hundredths(catalogue.vCentiMag[row]! / 100),
  };
};

function foundStar(
  row: number,
  { code, name }: Constellation,
  sky: SkyData,
  night: Night | null,
): FoundObject {
  const star = namedStar(row, sky);
  // The dearest name that leads back to this star and no other.
  const text = [star.name, star.designation].find(
    (each) => each !== "" && sky.designations.find(each)[0]?.hip === star.hip,
  );
  const enu = night && apparentDirections(sky.stars, night.observer, Int32Array.of(row));
  return {
    kind: "star",
    ...star,
    constellation: { code, name },
    raDeg: sky.catalogue.raJ2000E4Deg[row]! / 10_000,
    decDeg: sky.catalogue.decJ2000E4Deg[row]! / 10_000,
    aim: { star: text ?? star.hip },
    areaSquareDeg: null,
    stars: [],
    atMoment: night === null ? null : night.stands([enu![0]!, enu![1]!, enu![2]!], true),
  };
}

function foundConstellation(each: Constellation, sky: SkyData, night: Night | null): FoundObject {
  const { code, name, raHours, decDeg, areaSquareDeg } = each;
  const { catalogue, designations, constellations } = sky;
  const index = constellations.all.indexOf(each);
  const rows: number[] = [];
  for (const { hip } of designations.named) {
    const row = catalogue.hip.indexOf(hip);
    if (row >= 0 && catalogue.constellation[row] === index) rows.push(row);
  }
  const centre = equatorialVector(raHours * 15, decDeg);
  return {
    kind: "constellation",
    name,
    designation: code,
    hip: null,
    constellation: { code, name },
    mag: null,
    raDeg: rounded(raHours * 15, 1e6),
    decDeg,
    aim: { constellation: code },
    areaSquareDeg,
    stars: rows
      .sort((a, b) => a - b)
      .slice(0, MOST_STARS_OF_CONSTELLATION)
      .map((row) => namedStar(row, sky)),
    atMoment: night === null ? null : night.stands(apparentDirection(centre, night.observer), true),
  };
}

function foundBody(name: PlanetName | "Moon", sky: SkyData, night: Night | null): FoundObject {
  const kind = name === "Moon" ? "moon" : "planet";
  const unknown = { kind, name, designation: "", hip: null, areaSquareDeg: null, stars: [] } as const;
  if (night === null)
    return {
      ...unknown,
      constellation: null,
      mag: null,
      raDeg: null,
      decDeg: null,
      aim: null,
      atMoment: null,
    };
  const { observer, plan, stands } = night;
  const { icrs, enu, vMag } = name === "Moon" ? moonAt(observer) : bodyAt(name, observer);
  const place = equatorialPlace(icrs);
  const [raDeg, decDeg] = [rounded(place.raDeg, 1e6), rounded(place.decDeg, 1e6)];
  return {
    ...unknown,
    constellation: {
      code: place.constellation,
      name: sky.constellations.find(place.constellation)!.name,
    },
    mag: hundredths(vMag),
    raDeg,
    decDeg,
    aim: { rightAscension: rounded(raDeg / 15, 1e5), declination: tenThousandths(decDeg) },
    atMoment: stands(enu, name === "Moon" ? plan.show.moon !== false : plan.show.planets),
  };
}
