import type { CutBoardPlan } from "../plan/plan.ts";
import { type CutPanelRecord, ringAsCut } from "./asCut.ts";
import { boardCorners, type CornerName, type ProofCorner } from "./proofCorners.ts";
import type { Hole, PanelRecord } from "./types.ts";

export interface ProofHole {
  readonly hole: string;
  readonly name: string;
  readonly xMm: number;
  readonly yMm: number;
  readonly diameterMm: number;
  /** From the first and from the second of `tapeCorners`. */
  readonly fromCornersMm: readonly [number, number];
}

/** What to measure on a board before its first hole is drilled: plain data, frame FACE. */
export interface Proofs {
  readonly panel: string;
  /** Extent of the board as cut, square to and along the reference edge. */
  readonly widthMm: number;
  readonly lengthMm: number;
  /** True where both ends of a side of the bounding box are corners of the board: the extent can be taped. */
  readonly isRectangle: boolean;
  /** Seen on the FACE: lower left to upper right, upper left to lower right. Null where an end of it is not board. */
  readonly diagonalsMm: { readonly risingRight: number | null; readonly fallingRight: number | null };
  /** Two real corners of the board; lower left and lower right where there are such. */
  readonly tapeCorners: readonly [ProofCorner, ProofCorner];
  /** Up to five, well apart, brightest first. */
  readonly taped: readonly ProofHole[];
  /** Three large holes that are not in line, by number, and how they run on the FACE; null where there are none such. */
  readonly turning: { readonly holes: readonly [string, string, string]; readonly sense: Sense } | null;
}

export type Sense = "clockwise" | "anticlockwise";

const TAPED = 5;
/** Taped holes lie so far apart at first, as a share of the board's diagonal; less where there are none such. */
const APART_AT_FIRST = 0.3;
const APART_LESS = 0.8;
/** Of a triangle: its least height over its longest side, and its shortest side over the board's diagonal. */
const FLATTEST = 0.15;
const SMALLEST = 0.08;
/** So many of the brightest are looked at. */
const MOST_LOOKED_AT = 60;

/**
 * @param panel as cut (`boardAsCut`)
 * @param holes any; those of other panels are passed over
 */
export function proofsOf(panel: PanelRecord | CutPanelRecord, holes: readonly Hole[]): Proofs {
  const its = brightestFirst(holes.filter((hole) => hole.panel === panel.id));
  const { corners, tapeCorners: drawn } = boardCorners(panel);
  const asCut = "asCut" in panel ? panel.asCut : undefined;
  const measured = asCut?.diagonals;
  const tapeCorners = asCut === undefined ? drawn : lowerCornersAsCut(asCut);
  // A board as cut is a rectangle or nearly one: out of square its corners leave the box, and are corners none the less.
  const both = (a: CornerName, b: CornerName) => asCut !== undefined || (corners.has(a) && corners.has(b));
  const diagonal = Math.hypot(panel.widthMm, panel.lengthMm);
  return {
    panel: panel.id,
    widthMm: panel.widthMm,
    lengthMm: panel.lengthMm,
    isRectangle: asCut !== undefined || (panel.outlineMm.length === 4 && corners.size === 4),
    diagonalsMm: {
      risingRight: both("lower left", "upper right") ? (measured?.risingRight ?? diagonal) : null,
      fallingRight: both("upper left", "lower right") ? (measured?.fallingRight ?? diagonal) : null,
    },
    tapeCorners,
    taped: wellApart(its, diagonal).map(({ hole, name, xMm, yMm, diameterMm }) => ({
      hole,
      name,
      xMm,
      yMm,
      diameterMm,
      fromCornersMm: [
        Math.hypot(xMm - tapeCorners[0].xMm, yMm - tapeCorners[0].yMm),
        Math.hypot(xMm - tapeCorners[1].xMm, yMm - tapeCorners[1].yMm),
      ],
    })),
    turning: turningOf(its, diagonal),
  };
}

/** Where the lower corners of a board out of square truly are, the reference edge upright. */
function lowerCornersAsCut(asCut: CutBoardPlan): Proofs["tapeCorners"] {
  const [left, right] = ringAsCut(asCut);
  return [
    { name: "lower left", xMm: left![0], yMm: left![1] },
    { name: "lower right", xMm: right![0], yMm: right![1] },
  ];
}

const numberOf = ({ hole }: Hole) => Number(hole.slice(hole.lastIndexOf("-") + 1));

/** Thickest fibre first, then by magnitude (what has none comes after), then by number. */
const brightestFirst = (holes: readonly Hole[]): Hole[] =>
  [...holes].sort(
    (a, b) =>
      b.diameterMm - a.diameterMm ||
      (a.mag === b.mag
        ? 0
        : (a.mag ?? Number.POSITIVE_INFINITY) < (b.mag ?? Number.POSITIVE_INFINITY)
          ? -1
          : 1) ||
      numberOf(a) - numberOf(b),
  );

const apartMm = (a: Hole, b: Hole) => Math.hypot(a.xMm - b.xMm, a.yMm - b.yMm);

function wellApart(brightest: readonly Hole[], diagonalMm: number): Hole[] {
  const chosen = brightest.slice(0, 1);
  for (let least = APART_AT_FIRST * diagonalMm; chosen.length < Math.min(TAPED, brightest.length); ) {
    const next = brightest.find((hole) => chosen.every((one) => one !== hole && apartMm(one, hole) >= least));
    if (next) chosen.push(next);
    else least = least < 1 ? 0 : least * APART_LESS;
  }
  return chosen;
}

/** Twice the signed area: positive when the three run anticlockwise with y up. */
const twiceArea = (a: Hole, b: Hole, c: Hole) =>
  (b.xMm - a.xMm) * (c.yMm - a.yMm) - (b.yMm - a.yMm) * (c.xMm - a.xMm);

function turningOf(brightest: readonly Hole[], diagonalMm: number): Proofs["turning"] {
  const looked = brightest.slice(0, MOST_LOOKED_AT);
  const three = threeOf(looked, FLATTEST, SMALLEST * diagonalMm) ?? threeOf(looked, FLATTEST, 0);
  if (three === null) return null;
  const [a, b, c] = [...three].sort((p, q) => numberOf(p) - numberOf(q)) as [Hole, Hole, Hole];
  return { holes: [a.hole, b.hole, c.hole], sense: twiceArea(a, b, c) < 0 ? "clockwise" : "anticlockwise" };
}

/** The first three, by the faintest of them, whose triangle is neither flat nor small. */
function threeOf(
  holes: readonly Hole[],
  flattest: number,
  smallestMm: number,
): readonly [Hole, Hole, Hole] | null {
  for (let k = 2; k < holes.length; k++) {
    for (let i = 0; i < k - 1; i++) {
      for (let j = i + 1; j < k; j++) {
        const [a, b, c] = [holes[i]!, holes[j]!, holes[k]!];
        const sides = [apartMm(a, b), apartMm(b, c), apartMm(c, a)];
        const longest = Math.max(...sides);
        const height = Math.abs(twiceArea(a, b, c)) / longest;
        if (height >= flattest * longest && Math.min(...sides) >= smallestMm && height > 1) return [a, b, c];
      }
    }
  }
  return null;
}
