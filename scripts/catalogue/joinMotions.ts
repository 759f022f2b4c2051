// Finds the star of each proper-motion row: by its Hipparcos number, else by place and magnitude, else by place where
// that alone is clear.
import type { SourceMotion, SourceStar } from "./sources.ts";

export type How = "number" | "place and magnitude" | "place alone" | "one component of two";

export interface Joined {
  readonly motion: SourceMotion;
  readonly star: SourceStar;
  readonly how: How;
  readonly separationArcsec: number;
}

export interface Left {
  readonly motion: SourceMotion;
  /** The star next to it, if one is near. */
  readonly star: SourceStar | null;
  readonly separationArcsec: number | null;
  readonly why: string;
}

/** A numbered row must lie this near its star. */
const NUMBERED_ARCSEC = 60;
/** An unnumbered one this near, and the wider limit for stars brighter than V 2. */
const NEAR_ARCSEC = 20;
const NEAR_BRIGHT_ARCSEC = 40;
const BRIGHT_CENTI_MAG = 200;
/** V of the rows is rounded to 0.1, and the two tables differ by some tenths for close doubles and variables. */
const ALIKE_CENTI_MAG = 50;
/** Within this, and with no other star near, the magnitudes need not agree (variables). */
const SAME_PLACE_ARCSEC = 3;
/** An entry that holds two equal components is this much brighter than either (2.5 log 2): no row of one is fainter by more. */
const TWO_IN_ONE_CENTI_MAG = 75;
/** One arcsecond of separation counts as much as 0.1 mag. Two fits that differ by less than this cannot be told apart. */
const CLEAR_MARGIN = 1;
/** Rows of one star whose motions are as near as this are not in conflict: either will do. */
const SAME_MOTION_MAS_PER_YR = 20;

interface Fit {
  readonly motion: SourceMotion;
  readonly star: SourceStar;
  readonly separationArcsec: number;
  readonly cost: number;
}

export function joinMotions(
  stars: readonly SourceStar[],
  motions: readonly SourceMotion[],
): { joined: Joined[]; left: Left[] } {
  const byHip = new Map(stars.map((star) => [star.hip, star]));
  const near = neighbourhood(stars);
  const joined: Joined[] = [];
  const left: Left[] = [];
  const takenStars = new Set<SourceStar>();
  const doneMotions = new Set<SourceMotion>();
  const join = (fit: Omit<Fit, "cost">, how: How): void => {
    joined.push({ motion: fit.motion, star: fit.star, how, separationArcsec: fit.separationArcsec });
    takenStars.add(fit.star);
    doneMotions.add(fit.motion);
  };
  const leave = (motion: SourceMotion, star: SourceStar | null, why: string): void => {
    left.push({ motion, star, separationArcsec: star && separationOf(motion, star), why });
    doneMotions.add(motion);
  };

  for (const motion of motions) {
    if (motion.fk5 === "" && motion.hr === "" && motion.hip === null) {
      leave(motion, null, "no number in any catalogue: no single star");
    }
    if (motion.hip === null) continue;
    const star = byHip.get(motion.hip);
    const separationArcsec = star && separationOf(motion, star);
    if (star === undefined || separationArcsec === undefined) leave(motion, null, "no star of that number");
    else if (separationArcsec > NUMBERED_ARCSEC) leave(motion, star, "too far from the star of its number");
    else if (takenStars.has(star)) leave(motion, star, "its star has a motion already");
    else join({ motion, star, separationArcsec }, "number");
  }

  const fits: Fit[] = [];
  for (const motion of motions) {
    if (doneMotions.has(motion)) continue;
    for (const { star, separationArcsec } of near(motion, NEAR_BRIGHT_ARCSEC)) {
      const limit = star.vCentiMag < BRIGHT_CENTI_MAG ? NEAR_BRIGHT_ARCSEC : NEAR_ARCSEC;
      const apartCentiMag = Math.abs(star.vCentiMag - motion.vCentiMag);
      if (takenStars.has(star) || separationArcsec > limit || apartCentiMag > ALIKE_CENTI_MAG) continue;
      fits.push({ motion, star, separationArcsec, cost: separationArcsec + apartCentiMag / 10 });
    }
  }
  // Best fits first, one row to one star, so that each component of a double gets its own where both have a row.
  fits.sort((a, b) => a.cost - b.cost || a.star.hip - b.star.hip || a.motion.line - b.motion.line);
  for (const fit of fits) {
    if (doneMotions.has(fit.motion) || takenStars.has(fit.star)) continue;
    const rivals = fits.filter(
      (other) =>
        other !== fit &&
        other.cost < fit.cost + CLEAR_MARGIN &&
        !doneMotions.has(other.motion) &&
        !takenStars.has(other.star) &&
        (other.motion === fit.motion || (other.star === fit.star && motionsDiffer(other.motion, fit.motion))),
    );
    if (rivals.length === 0) {
      join(fit, "place and magnitude");
      continue;
    }
    for (const motion of new Set([fit, ...rivals].map((each) => each.motion))) {
      leave(motion, fit.star, "ambiguous: two fit equally well");
    }
    for (const each of [fit, ...rivals]) takenStars.add(each.star);
  }

  for (const motion of motions) {
    if (doneMotions.has(motion)) continue;
    const around = near(motion, NEAR_ARCSEC);
    const [nearest] = around;
    if (nearest === undefined) leave(motion, null, `no star within ${NEAR_ARCSEC} arcsec`);
    else if (takenStars.has(nearest.star))
      leave(motion, nearest.star, "the nearest star has a row that fits better");
    else if (nearest.separationArcsec <= SAME_PLACE_ARCSEC && around.length === 1) {
      join({ motion, ...nearest }, "place alone");
    } else if (around.length === 1 && isComponentOf(nearest.star, motion)) {
      join({ motion, ...nearest }, "one component of two");
    } else leave(motion, nearest.star, "magnitudes differ, and the place alone does not decide");
  }
  joined.sort((a, b) => a.motion.line - b.motion.line);
  left.sort((a, b) => a.motion.line - b.motion.line);
  return { joined, left };
}

/** Proper motion in mas a year: right ascension times cos(declination), and declination. 1 s of time a century is 150 mas a year. */
export function masPerYr(motion: SourceMotion): { raCosDec: number; dec: number } {
  return {
    raCosDec: motion.pmRaSecPerCentury * 150 * Math.cos((motion.decDeg * Math.PI) / 180),
    dec: motion.pmDecArcsecPerCentury * 10,
  };
}

/** Whether the row may be the brighter component of an entry that holds the light of two: the motion is that of both. */
function isComponentOf(star: SourceStar, motion: SourceMotion): boolean {
  const fainterCentiMag = motion.vCentiMag - star.vCentiMag;
  return fainterCentiMag > 0 && fainterCentiMag <= TWO_IN_ONE_CENTI_MAG;
}

function motionsDiffer(a: SourceMotion, b: SourceMotion): boolean {
  const [p, q] = [masPerYr(a), masPerYr(b)];
  return Math.hypot(p.raCosDec - q.raCosDec, p.dec - q.dec) > SAME_MOTION_MAS_PER_YR;
}

/**
 * Arcseconds between a row and a star at epoch 2000. The rows' epoch is not stated: the numbered ones fall within 0.3 arcsec
 * of their stars when carried from J1991.25 to J2000 by their own motion, and some others do as they stand. The smaller of
 * the two counts.
 */
function separationOf(motion: SourceMotion, star: SourceStar): number {
  const years = 8.75;
  const movedRaDeg = motion.raDeg + ((motion.pmRaSecPerCentury * 15) / 3600 / 100) * years;
  const movedDecDeg = motion.decDeg + (motion.pmDecArcsecPerCentury / 3600 / 100) * years;
  const [ra, dec] = [star.raE4Deg / 1e4, star.decE4Deg / 1e4];
  return Math.min(
    separationArcsec(motion.raDeg, motion.decDeg, ra, dec),
    separationArcsec(movedRaDeg, movedDecDeg, ra, dec),
  );
}

/** By the chord, which keeps its digits at small angles (haversine). */
function separationArcsec(raA: number, decA: number, raB: number, decB: number): number {
  const rad = Math.PI / 180;
  const halfDec = Math.sin(((decB - decA) / 2) * rad);
  const halfRa = Math.sin(((raB - raA) / 2) * rad);
  const h = halfDec * halfDec + Math.cos(decA * rad) * Math.cos(decB * rad) * halfRa * halfRa;
  return ((2 * Math.asin(Math.sqrt(h))) / rad) * 3600;
}

/** Stars within a distance of a row, nearest first. */
function neighbourhood(stars: readonly SourceStar[]) {
  const byDec = [...stars].sort((a, b) => a.decE4Deg - b.decE4Deg || a.hip - b.hip);
  return (motion: SourceMotion, withinArcsec: number): { star: SourceStar; separationArcsec: number }[] => {
    const reach = (withinArcsec / 3600) * 1e4 + 200; // 72 arcsec more: the row may be carried 8.75 years
    const from = motion.decDeg * 1e4 - reach;
    let low = 0;
    for (let high = byDec.length; low < high; ) {
      const middle = (low + high) >> 1;
      if (byDec[middle]!.decE4Deg < from) low = middle + 1;
      else high = middle;
    }
    const found = [];
    for (let i = low; i < byDec.length && byDec[i]!.decE4Deg <= from + 2 * reach; i++) {
      const star = byDec[i]!;
      const separation = separationOf(motion, star);
      if (separation <= withinArcsec) found.push({ star, separationArcsec: separation });
    }
    return found.sort((a, b) => a.separationArcsec - b.separationArcsec || a.star.hip - b.star.hip);
  };
}
