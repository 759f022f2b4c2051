import { equatorialVector } from "./apparent.ts";
import { icrsToMeanOfDate } from "./earthOrientation.ts";
import { applyInverse, type Vector3 } from "./matrix.ts";

/**
 * One arc of a boundary: a piece of a meridian or of a parallel of 1875 (E. Delporte, IAU 1930), with one constellation on
 * each side.
 */
export interface BoundaryArc {
  readonly along: "meridian" | "parallel";
  /** Right ascension and declination of both ends, degrees, mean equator and equinox B1875.0; the second may pass 360. */
  readonly raB1875Deg: readonly [number, number];
  readonly decB1875Deg: readonly [number, number];
  /** IAU code on the side of lower right ascension or declination, and on the other. */
  readonly lowSide: string;
  readonly highSide: string;
}

/** Reads data/boundaries.tsv. Throws if a row is not an arc. */
export function parseBoundaries(text: string): readonly BoundaryArc[] {
  return text
    .trimEnd()
    .split("\n")
    .slice(1)
    .map((line): BoundaryArc => {
      const [along, raFrom, decFrom, raTo, decTo, lowSide, highSide] = line.split("\t");
      const raB1875Deg = [Number(raFrom) / 240, Number(raTo) / 240] as const;
      const decB1875Deg = [Number(decFrom) / 60, Number(decTo) / 60] as const;
      if (
        (along !== "meridian" && along !== "parallel") ||
        ![...raB1875Deg, ...decB1875Deg].every(Number.isFinite) ||
        !lowSide ||
        !highSide
      )
        throw new Error(`The table of boundaries is damaged: "${line}" is no arc.`);
      return { along, raB1875Deg, decB1875Deg, lowSide, highSide };
    });
}

/** B1875.0 as Julian centuries from J2000.0. Source: Lieske 1979, Astron. Astrophys. 73, 282: JD = 2415020.31352 + 365.242198781 (B - 1900). */
const B1875_CENTURIES = (2415020.31352 + 365.242198781 * (1875 - 1900) - 2451545) / 36525;
let toMean1875: ReturnType<typeof icrsToMeanOfDate> | undefined;

/**
 * A point of an arc, ICRS axes. IAU 2006 precession from the mean equator of 1875: 0.24 arcseconds at most from that of FK5
 * (IAU 1976); either is about an arcsecond, a hundredth of a millimetre on a ceiling, from Newcomb's, which Delporte used.
 * @param t 0 at the arc's first end, 1 at its second, in proportion to the angle
 */
export function boundaryPoint({ raB1875Deg, decB1875Deg }: BoundaryArc, t: number): Vector3 {
  toMean1875 ??= icrsToMeanOfDate(B1875_CENTURIES);
  const ra = raB1875Deg[0] + t * (raB1875Deg[1] - raB1875Deg[0]);
  const dec = decB1875Deg[0] + t * (decB1875Deg[1] - decB1875Deg[0]);
  return applyInverse(toMean1875, equatorialVector(ra, dec));
}
