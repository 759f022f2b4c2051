import { foldName, nearestName } from "../plan/nearestName.ts";
import type { Constellation } from "./constellations.ts";
import type { SkyData } from "./skyData.ts";
import { PLANETS, type PlanetName } from "./solarSystem.ts";

/** What a text may mean, as rows and entries of the sky's tables. */
export interface LookedUp {
  readonly constellations: readonly Constellation[];
  readonly bodies: readonly (PlanetName | "Moon")[];
  /** Rows of the catalogue, brightest first. */
  readonly starRows: readonly number[];
  /** Hipparcos numbers that the text names and the catalogue does not hold. */
  readonly missingHips: readonly number[];
  /** True when nothing is called exactly so and all of it only begins so. */
  readonly beginsSo: boolean;
}

const BODIES = [...PLANETS, "Moon"] as const;

/** Shorter beginnings fit too many names. */
const SHORTEST_BEGINNING = 3;

/**
 * Everything that a text may name, case and accents ignored: stars by proper name, designation or number, constellations
 * by code, Latin name or genitive, planets and the Moon. When nothing is called so, what has a word that begins so.
 */
export function lookUp(text: string, sky: SkyData): LookedUp {
  const { catalogue, constellations, designations } = sky;
  const wanted = foldName(text);
  const rowsOf = (hips: readonly number[]) => {
    const rows = hips.map((hip) => catalogue.hip.indexOf(hip));
    return {
      starRows: rows.filter((row) => row >= 0).sort((a, b) => a - b), // the catalogue runs from the brightest
      missingHips: hips.filter((_, i) => rows[i]! < 0),
    };
  };
  // A number alone is a Hipparcos number, as it is for an aim.
  const hips = designations.find(/^\d{1,6}$/.test(wanted) ? `HIP ${wanted}` : text).map(({ hip }) => hip);
  const constellation = constellations.find(text);
  const body = BODIES.filter((name) => foldName(name) === wanted);
  if (hips.length + body.length > 0 || constellation !== undefined) {
    return {
      constellations: constellation === undefined ? [] : [constellation],
      bodies: body,
      ...rowsOf(hips),
      beginsSo: false,
    };
  }
  const isMeant = (name: string) =>
    wanted.length >= SHORTEST_BEGINNING && ` ${foldName(name)}`.includes(` ${wanted}`);
  return {
    constellations: constellations.all.filter(({ name }) => isMeant(name)),
    bodies: BODIES.filter(isMeant),
    ...rowsOf(designations.named.filter(({ name }) => isMeant(name)).map(({ hip }) => hip)),
    beginsSo: true,
  };
}

/** Up to three names that may have been meant, nearest first. */
export function namesNear(text: string, sky: SkyData): readonly string[] {
  let known: readonly string[] = [
    ...sky.designations.named.map(({ name }) => name),
    ...sky.constellations.all.flatMap(({ name, code }) => [name, code]),
    ...BODIES,
  ];
  const near: string[] = [];
  while (near.length < 3) {
    const next = nearestName(text, known);
    if (next === null) break;
    near.push(next);
    known = known.filter((name) => name !== next);
  }
  return near;
}
