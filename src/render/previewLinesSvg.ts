import type { PointMm } from "../projection/frames.ts";
import type { InkBox } from "./font.ts";
import { toPicture } from "./labelRoom.ts";
import { boundaryColour, boundaryDash, boundaryWidth, figureColour, figureWidth } from "./labelStyle.ts";
import type { PreviewLines, PreviewScene } from "./previewScene.ts";
import { svgNumber } from "./svgText.ts";

/**
 * Lines of the sky as elements in the picture frame, boundaries under figures, black where words will stand.
 * @param unitMm ceiling mm to one unit of labelStyle.ts
 */
export function lineElements(
  scene: PreviewScene,
  lines: PreviewLines,
  unitMm: number,
  breaks: readonly InkBox[],
): string[] {
  const n = svgNumber;
  const path = (id: string, chains: readonly (readonly PointMm[])[], stroke: string): string =>
    `<path id="${id}" fill="none" stroke-linecap="round" stroke-linejoin="round" ${stroke} d="${chains.map((chain) => pathData(scene, chain)).join("")}"/>`;
  const elements: string[] = [];
  if (lines.boundaries.length > 0) {
    const dash = boundaryDash.map((part) => n(part * unitMm)).join(" ");
    elements.push(
      path(
        "boundaries",
        lines.boundaries,
        `stroke="${boundaryColour}" stroke-width="${n(boundaryWidth * unitMm)}" stroke-dasharray="${dash}"`,
      ),
    );
  }
  if (lines.figures.length > 0)
    elements.push(
      path("figures", lines.figures, `stroke="${figureColour}" stroke-width="${n(figureWidth * unitMm)}"`),
    );
  if (breaks.length > 0) {
    const d = breaks.map(
      (box) => `M${n(box.leftMm)} ${n(box.topMm)}H${n(box.rightMm)}V${n(box.bottomMm)}H${n(box.leftMm)}Z`,
    );
    elements.push(`<path id="line-breaks" d="${d.join("")}"/>`);
  }
  return elements;
}

function pathData(scene: PreviewScene, chain: readonly PointMm[]): string {
  const points = chain.map((point) => {
    const { x, y } = toPicture(scene, point);
    return `${svgNumber(x)} ${svgNumber(y)}`;
  });
  return `M${points.join("L")}`;
}
