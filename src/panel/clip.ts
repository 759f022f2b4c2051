import { Clipper, EndType, FillRule, JoinType, type Path64, type Paths64 } from "clipper2-ts";
import { counterClockwise, type Ring, signedAreaMm2 } from "./rings.ts";

/*
 * Polygon clipping and offsets by Clipper2, which works in whole numbers: here 1/10,000 mm. Its y axis does not matter: rings go in
 * and come out counter-clockwise.
 */
const STEPS_PER_MM = 10_000;
/** How far a mitre may reach, in offsets: notches sharper than 11.5 degrees are cut off. */
export const LONGEST_MITRE = 10;
/** Slivers below this come of rounding. */
const LEAST_AREA_MM2 = 0.01;

const toPath = (ring: Ring): Path64 =>
  counterClockwise(ring).map(([x, y]) => ({
    x: Math.round(x * STEPS_PER_MM),
    y: Math.round(y * STEPS_PER_MM),
  }));

const toRings = (paths: Paths64): Ring[] =>
  paths
    .map((path): Ring => path.map(({ x, y }) => [x / STEPS_PER_MM, y / STEPS_PER_MM]))
    .filter((ring) => Math.abs(signedAreaMm2(ring)) > LEAST_AREA_MM2);

/** The ring drawn in by so much, corners mitred: none, one or several rings. */
export const drawnIn = (ring: Ring, byMm: number): Ring[] =>
  byMm === 0
    ? [counterClockwise(ring)]
    : toRings(
        Clipper.inflatePaths(
          [toPath(ring)],
          -byMm * STEPS_PER_MM,
          JoinType.Miter,
          EndType.Polygon,
          LONGEST_MITRE,
        ),
      ).map(counterClockwise);

/** All that lies within so much of the ring, corners rounded. */
export const grown = (ring: Ring, byMm: number): Ring[] =>
  toRings(Clipper.inflatePaths([toPath(ring)], byMm * STEPS_PER_MM, JoinType.Round, EndType.Polygon)).map(
    counterClockwise,
  );

/** The ring drawn out by so much, corners mitred: one ring, or one with holes (clockwise). */
export const mitredOut = (ring: Ring, byMm: number): Ring[] =>
  toRings(
    Clipper.inflatePaths([toPath(ring)], byMm * STEPS_PER_MM, JoinType.Miter, EndType.Polygon, LONGEST_MITRE),
  );

/** What two rings have in common. */
export const common = (a: Ring, b: Ring): Ring[] =>
  toRings(Clipper.intersect([toPath(a)], [toPath(b)], FillRule.NonZero)).map(counterClockwise);

export const commonAreaMm2 = (a: Ring, b: Ring): number =>
  common(a, b).reduce((sum, ring) => sum + signedAreaMm2(ring), 0);

/** What of the first rings is not under the second: outer rings counter-clockwise, holes clockwise. */
export const without = (from: readonly Ring[], taken: readonly Ring[]): Ring[] =>
  toRings(
    Clipper.difference(
      from.map(toPath),
      taken.map((ring) => toPath(ring)),
      FillRule.NonZero,
    ),
  );
