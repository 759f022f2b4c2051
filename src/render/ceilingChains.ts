import { boxOf } from "../panel/rings.ts";
import type { CeilingPanel, CeilingScene, Wall } from "./ceilingScene.ts";

/** A row of dimensions outside one wall: from end to end of it, every panel that nothing hides from that wall, and the gaps. */
export interface Chain {
  readonly wall: Wall;
  /** Along the wall, ceiling frame, ascending, its two ends included. */
  readonly marksMm: readonly number[];
}

/** True when a row of dimensions along that axis has a panel's size and place, whether it was made for that panel or another. */
export function isDimensioned(panel: CeilingPanel, axis: "x" | "y", chains: readonly Chain[]): boolean {
  return chains.some(({ wall, marksMm }) => {
    if ((wall === "bottom" || wall === "top") !== (axis === "x")) return false;
    const { from, to } = spanFrom(wall, panel);
    return marksMm.some(
      (mark, i) => Math.abs(mark - from) < SAME_MM && Math.abs((marksMm[i + 1] ?? Number.NaN) - to) < SAME_MM,
    );
  });
}

/** The rows that a ceiling needs: those of two opposite walls that would say the same are one. */
export function panelChains(scene: CeilingScene): readonly Chain[] {
  const chains: Chain[] = [];
  for (const pair of [
    ["bottom", "top"],
    ["left", "right"],
  ] as const) {
    const [first, second] = pair.map((wall) => chainAt(scene, wall));
    chains.push(first!);
    if (!sameMarks(first!, second!)) chains.push(second!);
  }
  return chains;
}

/** Closer marks are one: records are rounded to hundredths. */
const SAME_MM = 0.02;

const sameMarks = (a: Chain, b: Chain): boolean =>
  a.marksMm.length === b.marksMm.length &&
  a.marksMm.every((mark, i) => Math.abs(mark - b.marksMm[i]!) < SAME_MM);

/** A panel's box as a wall sees it: along the wall, and how far off it begins. */
function spanFrom(wall: Wall, panel: CeilingPanel) {
  const { xMm, yMm, widthMm, lengthMm } = boxOf(panel.finished);
  const along = wall === "bottom" || wall === "top" ? [xMm, xMm + widthMm] : [yMm, yMm + lengthMm];
  const off =
    wall === "bottom" ? yMm : wall === "left" ? xMm : wall === "top" ? -(yMm + lengthMm) : -(xMm + widthMm);
  return { from: along[0]!, to: along[1]!, off };
}

function chainAt(scene: CeilingScene, wall: Wall): Chain {
  const spans = scene.panels.map((panel) => spanFrom(wall, panel));
  const nearestFirst = [...spans].sort((a, b) => a.off - b.off || a.from - b.from);
  // What nearer panels cover, in pieces that do not overlap.
  let covered: { from: number; to: number }[] = [];
  const seen = nearestFirst.filter((span) => {
    const meets = (one: { from: number; to: number }) =>
      Math.min(one.to, span.to) - Math.max(one.from, span.from) > SAME_MM;
    const over = covered.filter(meets);
    covered = covered.filter((one) => !meets(one));
    covered.push({
      from: Math.min(span.from, ...over.map(({ from }) => from)),
      to: Math.max(span.to, ...over.map(({ to }) => to)),
    });
    return over.length === 0;
  });
  const fullMm = wall === "bottom" || wall === "top" ? scene.widthMm : scene.lengthMm;
  const marks = [0, ...seen.flatMap(({ from, to }) => [from, to]), fullMm].sort((a, b) => a - b);
  return {
    wall,
    marksMm: marks.filter((mark, i) => i === 0 || mark - marks[i - 1]! > SAME_MM),
  };
}

/** Dimensions are told to a tenth of a millimetre. */
export const dimensionText = (mm: number): string => String(Math.round(mm * 10) / 10);
