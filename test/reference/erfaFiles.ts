import { readFileSync } from "node:fs";

/** hip, raDeg, decDeg (J2000, epoch 2000), pmRaCosDecMasPerYr, pmDecMasPerYr, azimuthDeg, altitudeDeg. */
export type DirectionRow = readonly [number, number, number, number, number, number, number];

export interface ReferencePlace {
  /** ISO 8601, UTC, ends with Z. */
  readonly utc: string;
  readonly latitudeDeg: number;
  /** East positive. */
  readonly longitudeDeg: number;
  readonly elevationM: number;
}

export interface DirectionCase extends ReferencePlace {
  readonly stars: readonly DirectionRow[];
}

export interface BodyPlace {
  readonly body: "Sun" | "Moon" | "Mercury" | "Venus" | "Mars" | "Jupiter" | "Saturn" | "Uranus" | "Neptune";
  /** Topocentric and apparent, no refraction; azimuth from true north through east. */
  readonly azimuthDeg: number;
  readonly altitudeDeg: number;
  /** From the observer. */
  readonly distanceAu: number;
  /** Worst error of the reference itself; add the tested model's own. */
  readonly toleranceArcsec: number;
}

export interface BodyCase extends ReferencePlace {
  /** What the reference took for TT - UTC. */
  readonly ttMinusUtcS: number;
  readonly bodies: readonly BodyPlace[];
}

/** Apparent directions of stars by ERFA: see `recipe` in the file. */
export function erfaDirections(): readonly DirectionCase[] {
  return casesOf("erfa-directions.json") as DirectionCase[];
}

/** Sun, Moon and planets by ERFA: see `recipe` in the file. */
export function sunMoonPlanets(): readonly BodyCase[] {
  return casesOf("sun-moon-planets.json") as BodyCase[];
}

function casesOf(name: string): unknown {
  const file = JSON.parse(readFileSync(new URL(name, import.meta.url), "utf8")) as { cases: unknown };
  return file.cases;
}
