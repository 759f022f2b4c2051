import type { Font, InkBox } from "./font.ts";
import { type LabelLayout, layoutLabels } from "./labelLayout.ts";
import { outlineInPicture, toPicture } from "./labelRoom.ts";
import { labelColour, labelKinds, seamColour, seamWidth } from "./labelStyle.ts";
import { heightPxOf } from "./pictureScale.ts";
import type { PreviewScene } from "./previewScene.ts";
import { svgNumber } from "./svgText.ts";

export interface LabelledSvg {
  readonly svg: string;
  /** Words that found no room. */
  readonly dropped: readonly string[];
  /** Boxes of words in the picture frame, where the raster's lines of the sky are to be broken; none in a scene without lines. */
  readonly lineBreaks: readonly InkBox[];
  /** Characters that the font cannot draw (it draws empty boxes): worth a warning. */
  readonly missingCharacters: readonly string[];
}

/** Names, compass, walls, seams and panel ids, to be laid over a raster of `widthPx`; words are outlines. */
export function previewLabelsSvg(
  scene: PreviewScene,
  font: Font,
  { widthPx }: { widthPx: number },
): LabelledSvg {
  const layout = layoutLabels(scene, font, widthPx);
  const viewBox = `0 0 ${svgNumber(scene.widthMm)} ${svgNumber(scene.lengthMm)}`;
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${widthPx}" height="${heightPxOf(scene, widthPx)}" viewBox="${viewBox}" preserveAspectRatio="none">
${labelElements(scene, layout)}
</svg>
`;
  return {
    svg,
    lineBreaks: layout.lineBreaks,
    dropped: layout.dropped,
    missingCharacters: layout.missingCharacters,
  };
}

/** The elements alone, in the picture frame: ceiling mm from the upper-left corner, y down. */
export function labelElements(
  scene: PreviewScene,
  { unitMm, labels, ticks, seamBreaks }: LabelLayout,
): string {
  const n = svgNumber;
  const seams = scene.panels.map((panel) => {
    if (panel.outlineMm) {
      const corners = outlineInPicture(scene, panel.outlineMm).map(([x, y]) => `${n(x)} ${n(y)}`);
      return `M${corners.join("L")}Z`;
    }
    const { x, y } = toPicture(scene, panel); // lower left
    return `M${n(x)} ${n(y)}H${n(x + panel.widthMm)}V${n(y - panel.lengthMm)}H${n(x)}Z`;
  });
  const lines: string[] = [];
  if (seams.length > 0)
    lines.push(
      `<path id="seams" fill="none" stroke="${seamColour}" stroke-width="${n(seamWidth * unitMm)}" d="${seams.join("")}"/>`,
    );
  if (seamBreaks.length > 0) {
    // Black over the seams and under everything else; stars are drawn above it, or shine through (see encodePreview).
    const d = seamBreaks.map(
      (box) => `M${n(box.leftMm)} ${n(box.topMm)}H${n(box.rightMm)}V${n(box.bottomMm)}H${n(box.leftMm)}Z`,
    );
    lines.push(`<path id="seam-breaks" d="${d.join("")}"/>`);
  }
  if (ticks.length > 0) {
    const d = ticks.map(({ from, to }) => `M${n(from.x)} ${n(from.y)}L${n(to.x)} ${n(to.y)}`).join("");
    lines.push(
      `<path id="ticks" fill="none" stroke="${labelColour.compass}" stroke-width="${n(0.3 * unitMm)}" d="${d}"/>`,
    );
  }
  for (const kind of labelKinds) {
    const paths = labels
      .filter((label) => label.kind === kind && label.d !== "")
      .map(({ d, turnedAt }) => {
        const turn = turnedAt ? ` transform="rotate(-90 ${n(turnedAt.xMm)} ${n(turnedAt.yMm)})"` : "";
        return `<path${turn} d="${d}"/>`;
      });
    if (paths.length > 0) lines.push(`<g id="${kind}" fill="${labelColour[kind]}">`, ...paths, "</g>");
  }
  return lines.join("\n");
}
