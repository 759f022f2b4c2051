import type { View } from "../projection/view.ts";
import { directionOf } from "../sky/apparent.ts";
import { cross, dot, type Vector3 } from "../sky/matrix.ts";
import type { ShiftRecord } from "./fidelityTypes.ts";
import { tenThousandths } from "./rounding.ts";
import type { Hole } from "./types.ts";

/** A hole that stands for one object of the sky: no dot of the Milky Way, no hole of a Moon's ring. */
export type GradedHole = Hole & { readonly mag: number };

export const isGraded = (hole: Hole): hole is GradedHole => hole.mag !== null && hole.kind !== "milkyWay";

const DEG = 180 / Math.PI;

/** Angle between two unit vectors, good for small ones too. */
export const angleDeg = (a: Vector3, b: Vector3): number =>
  Math.atan2(Math.hypot(...cross(a, b)), dot(a, b)) * DEG;

/** Angle between an object's true direction and the one that the view shows where its hole is; null beyond the rim. */
export function shiftDeg(hole: Hole, view: View): number | null {
  if (hole.shiftMm === 0) return 0;
  const shown = view.unproject({ xMm: hole.ceilingXMm, yMm: hole.ceilingYMm });
  return shown === null ? null : angleDeg(directionOf(hole.altDeg, hole.azDeg), shown);
}

export const shiftRecord = (hole: GradedHole, deg: number | null): ShiftRecord => ({
  hole: hole.hole,
  hip: hole.hip,
  name: hole.name,
  mag: hole.mag,
  shiftMm: hole.shiftMm,
  shiftDeg: deg === null ? null : tenThousandths(deg),
});

/** How far an object may be moved before it is missed where it belongs, by magnitude: our choice. The Moon is half a degree wide. */
const EYE_FORGIVES = [
  { faintestMag: 2, mostDeg: 0.3 },
  { faintestMag: 3.5, mostDeg: 0.7 },
] as const;

/** The faintest that any of that is asked of. */
export const WATCHED_MAG = 3.5;

export function movedTooFar({ mag, shiftDeg: deg }: ShiftRecord): boolean {
  const limit = EYE_FORGIVES.find(({ faintestMag }) => mag <= faintestMag);
  return limit !== undefined && (deg === null || deg > limit.mostDeg);
}

const MOST_WORST = 10;

/** @param holes graded ones */
export function shiftTruth(holes: readonly GradedHole[], view: View) {
  let [squares, known] = [0, 0];
  const all = holes.map((hole) => {
    const deg = shiftDeg(hole, view);
    if (deg !== null) {
      squares += deg * deg;
      known++;
    }
    return shiftRecord(hole, deg);
  });
  return {
    shiftRmsDeg: known === 0 ? null : tenThousandths(Math.sqrt(squares / known)),
    worst: all
      .filter(({ shiftMm }) => shiftMm >= 0.01)
      .sort((a, b) => b.shiftMm - a.shiftMm || a.mag - b.mag)
      .slice(0, MOST_WORST),
    tooFar: all.filter(movedTooFar).sort((a, b) => a.mag - b.mag || b.shiftMm - a.shiftMm),
  };
}

const MOST_NAMED = 12;

/** Of a star without a name its number. */
export const called = ({ name, hip }: { readonly name: string; readonly hip: number | null }): string =>
  name || `HIP ${hip}`;

/** A sentence for each of the two limits that is broken. */
export function tooFarWarnings(tooFar: readonly ShiftRecord[]): string[] {
  return EYE_FORGIVES.flatMap(({ faintestMag, mostDeg }, i) => {
    const brighter = EYE_FORGIVES[i - 1]?.faintestMag ?? Number.NEGATIVE_INFINITY;
    const its = tooFar.filter(({ mag }) => mag > brighter && mag <= faintestMag);
    if (its.length === 0) return [];
    const named = its
      .slice(0, MOST_NAMED)
      .map(
        (one) =>
          `${called(one)} (${one.mag.toFixed(1)}) at ${one.hole} by ${one.shiftMm.toFixed(0)} mm${one.shiftDeg === null ? "" : `, ${one.shiftDeg.toFixed(2)} degrees`}`,
      );
    return [
      `moved over ${mostDeg} degrees of sky, where stars to magnitude ${faintestMag} are missed: ${named.join("; ")}${its.length > MOST_NAMED ? `; and ${its.length - MOST_NAMED} more` : ""}`,
    ];
  });
}
