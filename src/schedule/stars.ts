import { describeObject, type Field, horizontalOf } from "../projection/field.ts";
import type { SkyData } from "../sky/skyData.ts";
import { rounded } from "./rounding.ts";

/** A row of `lacunar stars`. */
export interface StarRecord {
  readonly hip: number | null;
  readonly name: string;
  readonly constellation: string;
  /** V above the atmosphere: extinction dims what is graded, not what is listed. */
  readonly mag: number;
  readonly bv: number | null;
  /** Catalogue place, J2000; for a planet or the Moon its astrometric place at the moment. */
  readonly raDeg: number;
  readonly decDeg: number;
  /** Apparent, with refraction only if shown. */
  readonly altDeg: number;
  readonly azDeg: number;
  /** True point, ceiling frame. */
  readonly xMm: number;
  readonly yMm: number;
}

/** Every object of a field, brightest first. @param faintestMag keep V at or brighter than this */
export function listStars(field: Field, sky: SkyData, faintestMag = Number.POSITIVE_INFINITY): StarRecord[] {
  const stars: StarRecord[] = [];
  for (let j = 0; j < field.count; j++) {
    if (field.vMag[j]! > faintestMag) continue;
    const { hip, name, constellation, bv, raDeg, decDeg } = describeObject(field, j, sky);
    const { altDeg, azDeg } = horizontalOf(field, j);
    stars.push({
      hip,
      name,
      constellation,
      mag: rounded(field.vMag[j]!, 100),
      bv,
      raDeg: rounded(raDeg, 1e6),
      decDeg: rounded(decDeg, 1e6),
      altDeg: rounded(altDeg, 1e6),
      azDeg: rounded(azDeg, 1e6) % 360,
      xMm: rounded(field.xMm[j]!, 1e3),
      yMm: rounded(field.yMm[j]!, 1e3),
    });
  }
  // With extinction the field is in the order of what is graded.
  return stars.sort((a, b) => a.mag - b.mag);
}
