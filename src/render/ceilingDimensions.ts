import { dimensionText } from "./ceilingChains.ts";
import type { Wall } from "./ceilingScene.ts";
import {
  BAND_MM,
  type CeilingSheet,
  DIMENSION,
  dimensionDepths,
  type LaidChain,
  type SheetFrame,
  toPaper,
} from "./ceilingSheet.ts";
import type { SheetText } from "./sheetText.ts";
import { svgNumber as n } from "./svgText.ts";

/** Past the dimension line. */
const OVER_MM = 1.2;
/** Between what is measured and its extension line. */
const OFF_MM = 0.8;

/** The rows of dimensions outside the walls: extension lines, a line with oblique strokes, figures above it (ISO 129-1). */
export function wallDimensions(sheet: CeilingSheet, text: SheetText): string {
  return sheet.chains
    .flatMap((chain) => {
      const { chainMm, overallMm } = dimensionDepths(chain.wall, sheet.chains);
      const row = dimensionRow(sheet.frame, chain, chainMm, overallMm || chainMm, text);
      if (overallMm === 0) return [row];
      const [first, last] = [chain.marksMm[0]!, chain.marksMm.at(-1)!];
      const words = dimensionText(last - first);
      const widthMm = text.widthMm(words, DIMENSION.sizeMm);
      const overall: LaidChain = {
        ...chain,
        marksMm: [first, last],
        figures: [{ text: words, middleMm: (first + last) / 2, widthMm, row: 0 }],
        rows: 1,
      };
      return [row, dimensionRow(sheet.frame, overall, overallMm, null, text)];
    })
    .join("\n");
}

/** @param extendToMm how far out the extension lines of the two ends must reach; null: they are drawn already */
function dimensionRow(
  frame: SheetFrame,
  { wall, marksMm, figures, rows }: LaidChain,
  outMm: number,
  extendToMm: number | null,
  text: SheetText,
): string {
  const at = (alongMm: number, fromWallMm: number) => outside(frame, wall, alongMm, fromWallMm);
  const upright = wall === "bottom" || wall === "top";
  const line = (alongA: number, outA: number, alongB: number, outB: number) => {
    const [a, b] = [at(alongA, outA), at(alongB, outB)];
    return `M${n(a.x)} ${n(a.y)}L${n(b.x)} ${n(b.y)}`;
  };
  const [first, last] = [marksMm[0]!, marksMm.at(-1)!];
  const extensions = marksMm.map((mark) => {
    const end = mark === first || mark === last;
    const reach = extendToMm === null ? outMm : end ? extendToMm : outMm;
    return line(mark, BAND_MM + OFF_MM, mark, reach + OVER_MM);
  });
  const ticks = marksMm.map((mark) => {
    const { x, y } = at(mark, outMm);
    const t = DIMENSION.tickMm;
    return `M${n(x - t)} ${n(y + t)}L${n(x + t)} ${n(y - t)}`;
  });
  const leaders: string[] = [];
  const words = figures.map(({ text: figure, middleMm, row }) => {
    const { x, y } = at(middleMm, outMm);
    const aboveMm = 0.8 + row * DIMENSION.stepMm;
    if (row > 0)
      leaders.push(
        upright
          ? `M${n(x)} ${n(y)}L${n(x)} ${n(y - aboveMm + 0.4)}`
          : `M${n(x)} ${n(y)}L${n(x - aboveMm + 0.4)} ${n(y)}`,
      );
    return upright
      ? text.at(figure, x, y - aboveMm, { sizeMm: DIMENSION.sizeMm, anchor: "middle" })
      : text.at(figure, x - aboveMm, y, { sizeMm: DIMENSION.sizeMm, anchor: "middle", turnedDeg: -90 });
  });
  const kind = marksMm.length === 2 && rows === 1 ? "overall" : "chain";
  return [
    `<g class="${kind}" data-wall="${wall}" data-marks-mm="${marksMm.map(n).join(" ")}">`,
    `<path class="extension" fill="none" stroke="#333" stroke-width="0.13" d="${extensions.join("")}"/>`,
    `<path class="line" fill="none" stroke="#000" stroke-width="0.18" d="${line(first, outMm, last, outMm)}${leaders.join("")}"/>`,
    `<path class="ticks" fill="none" stroke="#000" stroke-width="0.3" d="${ticks.join("")}"/>`,
    ...words,
    "</g>",
  ].join("\n");
}

/** Paper point so far along a wall (ceiling mm) and so far outside it (paper mm). */
export function outside(frame: SheetFrame, wall: Wall, alongMm: number, fromWallMm: number) {
  const { ceilingWidthMm, ceilingLengthMm } = frame;
  switch (wall) {
    case "bottom": {
      const { x, y } = toPaper(frame, { xMm: alongMm, yMm: 0 });
      return { x, y: y + fromWallMm };
    }
    case "top": {
      const { x, y } = toPaper(frame, { xMm: alongMm, yMm: ceilingLengthMm });
      return { x, y: y - fromWallMm };
    }
    case "left": {
      const { x, y } = toPaper(frame, { xMm: 0, yMm: alongMm });
      return { x: x - fromWallMm, y };
    }
    case "right": {
      const { x, y } = toPaper(frame, { xMm: ceilingWidthMm, yMm: alongMm });
      return { x: x + fromWallMm, y };
    }
  }
}
