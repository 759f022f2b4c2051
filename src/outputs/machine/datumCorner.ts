import { signedAreaMm2 } from "../../panel/rings.ts";
import { faceToBack } from "../../projection/frames.ts";
import { type CutPanelRecord, outOfSquareMm, ringAsCut } from "../../schedule/asCut.ts";
import type { Frame } from "../proofWords.ts";

/** Written figures of one corner may differ by a rounding. */
const SAME_MM = 0.021;
/** Less than this out of square no square shows. */
const SQUARE_MM = 0.1;

/** A real corner of the board to set a machine from, in the frame named; the lower left one of the box where that is board. */
export interface DatumCorner {
  readonly xMm: number;
  readonly yMm: number;
  /** X0 Y0 itself. */
  readonly isOrigin: boolean;
}

type At = { readonly xMm: number; readonly yMm: number };

/** The board as it is, FACE: out of square where it was cut so. */
export const trueRing = ({ asCut, outlineMm }: CutPanelRecord) =>
  asCut === undefined ? outlineMm : ringAsCut(asCut);

const cornersIn = (panel: CutPanelRecord, frame: Frame): At[] =>
  trueRing(panel).map(([xMm, yMm]) =>
    frame === "FACE" ? { xMm, yMm } : faceToBack({ xMm, yMm }, panel.widthMm),
  );

/** The reference edge is upright at the FACE's left: at x = 0 there, at the board's width on the BACK. */
const referenceXMm = (panel: CutPanelRecord, frame: Frame) => (frame === "FACE" ? 0 : panel.widthMm);

/**
 * Of the board's outer corners the one nearest to X0 Y0: an edge finder touches it from outside. On the BACK of a board out of square
 * that corner is displaced, and the lower end of the reference edge is it.
 */
export function datumCorner(panel: CutPanelRecord, frame: Frame): DatumCorner {
  const corners = cornersIn(panel, frame);
  const sense = Math.sign(signedAreaMm2(corners.map(({ xMm, yMm }) => [xMm, yMm] as const)));
  const outer = corners.filter((at, i) => {
    const before = corners[(i + corners.length - 1) % corners.length]!;
    const after = corners[(i + 1) % corners.length]!;
    const turn = (at.xMm - before.xMm) * (after.yMm - at.yMm) - (at.yMm - before.yMm) * (after.xMm - at.xMm);
    return sense * turn > 0;
  });
  const best = outer.reduce((least, at) =>
    Math.hypot(at.xMm, at.yMm) < Math.hypot(least.xMm, least.yMm) - 1e-9 ? at : least,
  );
  if (Math.hypot(best.xMm, best.yMm) <= SAME_MM)
    return { xMm: best.xMm + 0, yMm: best.yMm + 0, isOrigin: true };
  const real = panel.asCut === undefined ? best : { xMm: referenceXMm(panel, frame), yMm: 0 };
  return { xMm: real.xMm + 0, yMm: real.yMm + 0, isOrigin: false };
}

const mm = (value: number) => (value + 0).toFixed(2);

/** Where X0 Y0 is, which edge lies along Y, and what is not square; in sentences. */
export function datumWords(panel: CutPanelRecord, frame: Frame): string[] {
  const { xMm, yMm, isOrigin } = datumCorner(panel, frame);
  const at = `X${mm(xMm)} Y${mm(yMm)}`;
  const where = isOrigin
    ? `X0 Y0 is the lower left corner of the board, ${frame}.`
    : panel.asCut === undefined
      ? `X0 Y0 is the lower left corner of the bounding box, where there is no board: set ${at} at the board's corner there.`
      : `X0 Y0 is no corner of this board, which is out of square: its datum is the lower end of the REFERENCE EDGE, at the right on the BACK: set ${at} there.`;
  return [where, edgeWords(panel, frame), ...squareWords(panel, frame)];
}

/** Two corners far apart, for a board without an edge to lay along an axis. */
function farCorners(corners: readonly At[]): readonly [At, At] {
  let [best, most]: [readonly [At, At], number] = [[corners[0]!, corners[0]!], -1];
  for (const [i, a] of corners.entries())
    for (const b of corners.slice(i + 1)) {
      const apart = Math.hypot(a.xMm - b.xMm, a.yMm - b.yMm);
      if (apart > most + 1e-9) [best, most] = [[a, b], apart];
    }
  return best;
}

function edgeWords(panel: CutPanelRecord, frame: Frame): string {
  const x = referenceXMm(panel, frame);
  const corners = cornersIn(panel, frame);
  const on = ({ xMm }: At) => Math.abs(xMm - x) <= SAME_MM;
  const hasEdge = corners.some((corner, i) => on(corner) && on(corners[(i + 1) % corners.length]!));
  if (hasEdge)
    return `Lay the REFERENCE EDGE along Y: the ${frame === "FACE" ? "left edge" : "right edge as it lies, the FACE's left"}, at X${mm(x)}.`;
  const [a, b] = farCorners(corners);
  return `No edge of this board lies at X${mm(x)} to be laid along Y: turn it until its corners are at X${mm(a.xMm)} Y${mm(a.yMm)} and X${mm(b.xMm)} Y${mm(b.yMm)}.`;
}

function squareWords({ asCut }: CutPanelRecord, frame: Frame): string[] {
  if (asCut?.diagonals === undefined) return [];
  const rise = outOfSquareMm(asCut);
  if (Math.abs(rise) <= SQUARE_MM) return [];
  const { risingRight, fallingRight } = asCut.diagonals;
  return [
    `OUT OF SQUARE: the diagonals differ by ${mm(Math.abs(risingRight - fallingRight))} mm, and with the reference edge upright the lower ${frame === "FACE" ? "right" : "left"} corner lies ${mm(Math.abs(rise))} mm too ${rise > 0 ? "high" : "low"}. Line the board up by the reference edge alone, never by its other edges.`,
  ];
}
