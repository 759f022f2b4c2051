import { ceilingMmPerSheetMm } from "./pictureScale.ts";
import type { PreviewScene } from "./previewScene.ts";

/**
 * The glow of one fibre end. Every end of one light source has the same surface brightness, so all dots share one
 * profile g(r / s), 1 at the centre, and only their scale s differs, in proportion to the fibre's diameter. Total light
 * then goes exactly with the fibre's area, in linear light and in pixel values alike (any tone curve of g is again one
 * profile), and the thinnest fibre's centre is as bright as the thickest's.
 */

/** Light of the soft core at the centre; the rest is a wide halo, faint enough that close stars stay apart. */
const core = 0.93;
const haloWidth = 2.4;

/** Profile at distance r with u2 = (r / s)^2. */
export function glowAt(u2: number): number {
  return core * Math.exp(-u2 / 2) + (1 - core) * Math.exp(-u2 / (2 * haloWidth * haloWidth));
}

/** (r / s)^2 beyond which the glow lies under half a grey level of 255. */
export const glowEndU2 = (() => {
  let inside = 0;
  let outside = 100;
  for (let i = 0; i < 60; i++) {
    const middle = (inside + outside) / 2;
    if (glowAt(middle) * 255 >= 0.5) inside = middle;
    else outside = middle;
  }
  return inside;
})();

/** s of the thinnest fibre on paper: 0.9 px in a picture of 4:3 that is 1600 px wide. */
const thinnestSheetMm = 0.14;
/** Above this many dots they get smaller, or the picture fills with light and bright stars drown. By eye. */
const crowdedDots = 1500;

/**
 * s to fibre diameter, both in ceiling mm. Drawn to scale, stars would vanish on a ceiling of metres; so the thinnest
 * fibre present gets a set size on paper, or its true size (a disc of its area has s = radius / sqrt 2) where that is
 * more. `leastThinnestMm`: what s of the thinnest must reach so that pixels can show it.
 */
export function glowPerDiameter(scene: PreviewScene, leastThinnestMm = 0): number {
  let thinnestMm = Number.POSITIVE_INFINITY;
  for (const dot of scene.dots) thinnestMm = Math.min(thinnestMm, dot.diameterMm);
  if (thinnestMm === Number.POSITIVE_INFINITY) return Math.SQRT1_2 / 2;
  const sheetMm = thinnestSheetMm * Math.min(1, Math.cbrt(crowdedDots / scene.dots.length));
  const shownMm = Math.max(sheetMm * ceilingMmPerSheetMm(scene), leastThinnestMm);
  return Math.max(shownMm / thinnestMm, Math.SQRT1_2 / 2);
}

/** s in pixels below which the sum and the centre of a sampled glow depend on where in its pixel it lies. */
export const leastGlowPx = 0.62;

/**
 * The same in a raster `widthPx` wide: s of a dot in pixels = its diameter in mm times this.
 * @param leastPx  what s of the thinnest fibre must reach
 */
export function glowPxPerDiameterMm(scene: PreviewScene, widthPx: number, leastPx = leastGlowPx): number {
  const pxPerMm = widthPx / scene.widthMm;
  return glowPerDiameter(scene, leastPx / pxPerMm) * pxPerMm;
}
