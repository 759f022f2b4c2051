import type { Font, InkBox } from "./font.ts";
import { type LabelKind, labelSize, labelTrackingEm } from "./labelStyle.ts";

/** A word in its place, in the picture frame (mm, y down). */
export interface Label {
  readonly kind: LabelKind;
  readonly text: string;
  readonly d: string;
  /** Counter-clockwise quarter turn about this point, for words along the left and right walls. */
  readonly turnedAt: { readonly xMm: number; readonly yMm: number } | null;
  /** What its ink fills, after the turn. */
  readonly ink: InkBox;
}

/** A word that has its size but no place yet; its ink box is that of a baseline starting at 0, 0. */
export interface LooseLabel {
  readonly ink: InkBox;
  at(xMm: number, yMm: number): Label;
}

export function looseLabel(
  font: Font,
  kind: LabelKind,
  text: string,
  unitMm: number,
  upright = true,
): LooseLabel {
  const sizeMm = labelSize[kind] * unitMm;
  const level = font.textPath(text, 0, 0, sizeMm, "start", labelTrackingEm[kind]).ink;
  // A quarter turn counter-clockwise with y down: (x, y) -> (y, -x).
  const ink = upright
    ? level
    : { leftMm: level.topMm, rightMm: level.bottomMm, topMm: -level.rightMm, bottomMm: -level.leftMm };
  return {
    ink,
    at(xMm, yMm) {
      return {
        kind,
        text,
        d: font.textPath(text, xMm, yMm, sizeMm, "start", labelTrackingEm[kind]).d,
        turnedAt: upright ? null : { xMm, yMm },
        ink: {
          leftMm: ink.leftMm + xMm,
          rightMm: ink.rightMm + xMm,
          topMm: ink.topMm + yMm,
          bottomMm: ink.bottomMm + yMm,
        },
      };
    },
  };
}
