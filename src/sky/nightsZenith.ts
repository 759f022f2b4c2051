import { Constellation } from "astronomy-engine";
import { altitudeDeg, apparentDirections, azimuthDeg } from "./apparent.ts";
import { GALACTIC_POLE, galacticOf } from "./galactic.ts";
import { applyInverse, dot, type Vector3 } from "./matrix.ts";
import type { Observer } from "./observer.ts";
import type { SkyData } from "./skyData.ts";

const DEG = 180 / Math.PI;

/** "Near the zenith": a third of the way down to the horizon. */
export const NEAR_ZENITH_DEG = 30;

export interface StarNearZenith {
  readonly hip: number;
  readonly name: string;
  /** IAU code. */
  readonly constellation: string;
  readonly mag: number;
  readonly zenithDistanceDeg: number;
  readonly azDeg: number;
}

export interface ConstellationNearZenith {
  readonly code: string;
  readonly name: string;
}

export interface MilkyWay {
  /** Of the zenith. */
  readonly galacticLatitudeDeg: number;
  readonly galacticLongitudeDeg: number;
  /** Where the Milky Way's middle line is highest; null where it runs through the zenith or along the horizon. */
  readonly highestAzDeg: number | null;
  readonly where: "overhead" | "high" | "low" | "horizon";
}

export interface ZenithSky {
  /** The zenith among the stars, degrees, ICRS axes (J2000). */
  readonly raDeg: number;
  readonly decDeg: number;
  /** Latin name of the constellation around it. */
  readonly constellation: ConstellationNearZenith;
  /** Brightest first. */
  readonly stars: readonly StarNearZenith[];
  /** By the light of their stars to magnitude 5 near the zenith, the brightest first. */
  readonly constellations: readonly ConstellationNearZenith[];
  readonly milkyWay: MilkyWay;
}

const FAINTEST_COUNTED_MAG = 5;
const MOST_NAMED = 8;

/** What stands overhead. */
export function zenithSky(observer: Observer, sky: SkyData): ZenithSky {
  const { catalogue, stars, designations, constellations } = sky;
  const up = applyInverse(observer.icrsToEnu, [0, 0, 1]);
  const raDeg = azimuthDeg(up[1], up[0]); // the same arc tangent, counted from x toward y
  const decDeg = altitudeDeg(...up);

  let bright = 0;
  while (bright < catalogue.count && catalogue.vCentiMag[bright]! <= FAINTEST_COUNTED_MAG * 100) bright++;
  const rows = Int32Array.from({ length: bright }, (_, row) => row);
  const enu = apparentDirections(stars, observer, rows);
  const least = Math.cos(NEAR_ZENITH_DEG / DEG);
  const near = [...rows].filter((row) => enu[row * 3 + 2]! >= least);

  const light = new Map<number, number>();
  for (const row of near) {
    const which = catalogue.constellation[row]!;
    light.set(which, (light.get(which) ?? 0) + 10 ** (-0.004 * catalogue.vCentiMag[row]!));
  }
  const named = (which: number): ConstellationNearZenith => {
    const { code, name } = constellations.all[which]!;
    return { code, name };
  };
  const { symbol } = Constellation(raDeg / 15, decDeg);
  return {
    raDeg,
    decDeg,
    constellation: named(constellations.all.findIndex((one) => one.code === symbol)),
    stars: near.slice(0, MOST_NAMED).map((row): StarNearZenith => {
      const [e, n, u] = [enu[row * 3]!, enu[row * 3 + 1]!, enu[row * 3 + 2]!];
      const hip = catalogue.hip[row]!;
      return {
        hip,
        name: designations.displayName(hip),
        constellation: constellations.all[catalogue.constellation[row]!]!.code,
        mag: catalogue.vCentiMag[row]! / 100,
        zenithDistanceDeg: 90 - altitudeDeg(e, n, u),
        azDeg: azimuthDeg(e, n),
      };
    }),
    constellations: [...light]
      .sort((a, b) => b[1] - a[1])
      .slice(0, MOST_NAMED)
      .map(([which]) => named(which)),
    milkyWay: milkyWayFrom(observer, up),
  };
}

/** The band of the Milky Way is some 20 degrees wide: within 10 of its middle line the zenith lies in it. */
const OVERHEAD_WITHIN_DEG = 10;

function milkyWayFrom(observer: Observer, up: Vector3): MilkyWay {
  const { latitudeDeg, longitudeDeg } = galacticOf(up);
  const away = Math.abs(latitudeDeg);
  // The middle line is highest on the side away from the pole that is above the horizon.
  const sign = latitudeDeg >= 0 ? -1 : 1;
  const toPole = (axis: 0 | 1) =>
    dot(GALACTIC_POLE, [
      observer.icrsToEnu[axis * 3]!,
      observer.icrsToEnu[axis * 3 + 1]!,
      observer.icrsToEnu[axis * 3 + 2]!,
    ]);
  const [e, n] = [sign * toPole(0), sign * toPole(1)];
  return {
    galacticLatitudeDeg: latitudeDeg,
    galacticLongitudeDeg: longitudeDeg,
    highestAzDeg: Math.hypot(e, n) < 0.02 || away < 1 ? null : azimuthDeg(e, n),
    where: away <= OVERHEAD_WITHIN_DEG ? "overhead" : away <= 45 ? "high" : away <= 75 ? "low" : "horizon",
  };
}
