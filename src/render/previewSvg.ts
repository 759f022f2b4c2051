import type { Font } from "./font.ts";
import { glowAt, glowEndU2, glowPerDiameter } from "./glow.ts";
import { layoutLabels } from "./labelLayout.ts";
import { MADE_BY } from "./madeBy.ts";
import { unitMmOf } from "./pictureScale.ts";
import { type LabelledSvg, labelElements } from "./previewLabelsSvg.ts";
import { lineElements } from "./previewLinesSvg.ts";
import type { PreviewScene } from "./previewScene.ts";
import { type Rgb, sourceLight, tintOfBv } from "./starColour.ts";
import { svgNumber } from "./svgText.ts";

/** Straight pieces that stand for the glow's curve; with 32 they stay within half a grey level of it. */
const glowPieces = 32;

/**
 * The preview as a drawing: root and viewBox in ceiling mm, black, one circle a dot, filled with the same glow as the
 * raster's. Overlapping glows screen each other (SVG's own blending) where the raster's add up. Without `labels` it holds
 * nothing but stars, and the scene's lines if it has any.
 */
export function previewSvg(
  scene: PreviewScene,
  options: { tint?: boolean; labels?: Font } = {},
): LabelledSvg {
  const { tint = false, labels } = options;
  const n = svgNumber;
  const reachPerDiameter = glowPerDiameter(scene) * Math.sqrt(glowEndU2);
  const gradients = new Map<string, string>();
  const circles = scene.dots.map((dot) => {
    const colour = hexOf(tint ? tintOfBv(dot.bv) : sourceLight);
    // The glow's shape is the same at every diameter, so one gradient a colour, in parts of the circle, serves all.
    const id = gradients.get(colour) ?? `glow${gradients.size + 1}`;
    gradients.set(colour, id);
    const radiusMm = dot.diameterMm * reachPerDiameter;
    return `<circle cx="${n(dot.xMm)}" cy="${n(scene.lengthMm - dot.yMm)}" r="${n(radiusMm)}" fill="url(#${id})"/>`;
  });
  const layout = labels ? layoutLabels(scene, labels) : null;
  const [w, h] = [n(scene.widthMm), n(scene.lengthMm)];
  const svg = [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${w}mm" height="${h}mm" viewBox="0 0 ${w} ${h}">`,
    `<!-- ${MADE_BY} -->`,
    "<defs>",
    ...[...gradients].map(
      ([colour, id]) => `<radialGradient id="${id}">${glowStops(colour)}</radialGradient>`,
    ),
    "</defs>",
    `<rect width="${w}" height="${h}" fill="#000"/>`,
    ...(scene.lines ? lineElements(scene, scene.lines, unitMmOf(scene), layout?.lineBreaks ?? []) : []),
    ...(layout ? [labelElements(scene, layout)] : []),
    ...circles,
    "</svg>",
    "",
  ].join("\n");
  return {
    svg,
    dropped: layout?.dropped ?? [],
    lineBreaks: layout?.lineBreaks ?? [],
    missingCharacters: layout?.missingCharacters ?? [],
  };
}

function glowStops(colour: string): string {
  let stops = "";
  for (let piece = 0; piece <= glowPieces; piece++) {
    const part = piece / glowPieces;
    const opacity = piece === glowPieces ? 0 : glowAt(part * part * glowEndU2);
    stops += `<stop offset="${Number(part.toFixed(4))}" stop-color="${colour}" stop-opacity="${Number(opacity.toFixed(4))}"/>`;
  }
  return stops;
}

function hexOf(colour: Rgb): string {
  return `#${colour.map((value) => Math.round(value).toString(16).padStart(2, "0")).join("")}`;
}
