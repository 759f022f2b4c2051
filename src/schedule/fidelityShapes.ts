import { CONSTELLATION_NAMES } from "../sky/constellationNames.ts";
import type { GradedHole } from "./fidelityShifts.ts";
import type { ConstellationRecord } from "./fidelityTypes.ts";
import { hundredths, rounded } from "./rounding.ts";
import { type PlanePoint, type SimilarityFit, similarityFit } from "./similarityFit.ts";

/** Three stars make a triangle, and hardly a figure. */
const LEAST_STARS = 4;

export const truePoint = (hole: GradedHole): PlanePoint => [hole.skyXMm, hole.skyYMm];
export const drilledPoint = (hole: GradedHole): PlanePoint => [hole.ceilingXMm, hole.ceilingYMm];

export const shapeFit = (holes: readonly GradedHole[]): SimilarityFit | null =>
  similarityFit(holes.map(truePoint), holes.map(drilledPoint));

/** The worst against its size first. @param holes graded ones */
export function constellationShapes(holes: readonly GradedHole[]): ConstellationRecord[] {
  const byCode = new Map<string, GradedHole[]>();
  for (const hole of holes) {
    if (hole.kind !== "star") continue; // planets wander
    const list = byCode.get(hole.constellation);
    if (list) list.push(hole);
    else byCode.set(hole.constellation, [hole]);
  }
  const shapes: ConstellationRecord[] = [];
  for (const [code, its] of byCode) {
    const fit = its.length < LEAST_STARS ? null : shapeFit(its);
    if (fit === null) continue;
    shapes.push({
      constellation: code,
      name: CONSTELLATION_NAMES.find(([each]) => each === code)?.[1] ?? code,
      stars: its.length,
      shapeRmsMm: hundredths(fit.rms),
      sizeMm: hundredths(fit.size),
      scale: rounded(fit.scale, 10_000),
      turnDeg: hundredths(fit.turnDeg),
    });
  }
  return shapes.sort(
    (a, b) =>
      b.shapeRmsMm / b.sizeMm - a.shapeRmsMm / a.sizeMm || (a.constellation < b.constellation ? -1 : 1),
  );
}
