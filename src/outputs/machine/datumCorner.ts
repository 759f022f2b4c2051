import { faceToBack } from "../../projection/frames.ts";
import type { PanelRecord } from "../../schedule/types.ts";
import type { Frame } from "../proofWords.ts";

/** Written figures of one corner may differ by a rounding. */
const SAME_MM = 0.021;

/** A real corner of the board to set a machine from, in the frame named; the lower left one of the box where that is board. */
export interface DatumCorner {
  readonly xMm: number;
  readonly yMm: number;
  /** X0 Y0 itself. */
  readonly isOrigin: boolean;
}

/** Of the outline's outer corners the one nearest to X0 Y0: an edge finder touches it from outside. */
export function datumCorner({ outlineMm, widthMm }: PanelRecord, frame: Frame): DatumCorner {
  const corners = outlineMm.map(([x, y]) => {
    const face = { xMm: x, yMm: y };
    return frame === "FACE" ? face : faceToBack(face, widthMm);
  });
  // The outline runs counter-clockwise on the FACE, so clockwise once it is turned over.
  const sense = frame === "FACE" ? 1 : -1;
  const outer = corners.filter((at, i) => {
    const before = corners[(i + corners.length - 1) % corners.length]!;
    const after = corners[(i + 1) % corners.length]!;
    const turn = (at.xMm - before.xMm) * (after.yMm - at.yMm) - (at.yMm - before.yMm) * (after.xMm - at.xMm);
    return sense * turn > 0;
  });
  const best = outer.reduce((least, at) =>
    Math.hypot(at.xMm, at.yMm) < Math.hypot(least.xMm, least.yMm) - 1e-9 ? at : least,
  );
  const isOrigin = Math.hypot(best.xMm, best.yMm) <= SAME_MM;
  return { xMm: best.xMm + 0, yMm: best.yMm + 0, isOrigin };
}

const mm = (value: number) => value.toFixed(2);

export const datumWords = (panel: PanelRecord, frame: Frame): string => {
  const { xMm, yMm, isOrigin } = datumCorner(panel, frame);
  return isOrigin
    ? `X0 Y0 is the lower left corner of the board, ${frame}.`
    : `X0 Y0 is the lower left corner of the bounding box, where there is no board: set X${mm(xMm)} Y${mm(yMm)} at the board's corner there.`;
};
