import { drawLines } from "./drawLines.ts";
import type { InkBox } from "./font.ts";
import { glowAt, glowEndU2, glowPxPerDiameterMm } from "./glow.ts";
import { heightPxOf } from "./pictureScale.ts";
import type { PreviewRaster } from "./previewRaster.ts";
import type { PreviewScene } from "./previewScene.ts";
import { type Rgb, sourceLight, tintOfBv } from "./starColour.ts";

export const widestPreviewPx = 8192;
/** 800 MB of pixels: what a picture 8192 px wide and four times as long needs. */
const mostPixels = 2 ** 28;

/**
 * The ceiling at night: black, and each fibre's glow. Light of overlapping dots adds up and saturates; light beyond the
 * border is cut off. Lines of the sky, if the scene has any, lie under the dots: of each pixel's two values the lighter stays.
 * @param options.widthPx  whole number, 1 to 8192
 * @param options.leastGlowPx  what the scale s of the thinnest fibre's glow must reach (see glow.ts)
 * @param options.tint     colour each dot by B-V, as if each fibre had a light of its own
 * @param options.lineBreaks  boxes in the picture frame (mm, y down) that lines leave free
 */
export function rasterizePreview(
  scene: PreviewScene,
  options: {
    widthPx: number;
    tint?: boolean;
    leastGlowPx?: number;
    lineBreaks?: readonly InkBox[];
  },
): PreviewRaster {
  const { widthPx, tint = false, lineBreaks = [] } = options;
  if (!Number.isInteger(widthPx) || widthPx < 1 || widthPx > widestPreviewPx)
    throw new RangeError(`a preview is 1 to ${widestPreviewPx} px wide, a whole number; got ${widthPx}`);
  const heightPx = heightPxOf(scene, widthPx);
  if (widthPx * heightPx > mostPixels)
    throw new RangeError(`a preview of ${widthPx} x ${heightPx} px is too large: ask for a smaller width`);

  const data = new Uint8Array(widthPx * heightPx * 3);
  const glowPx = glowPxPerDiameterMm(scene, widthPx, options.leastGlowPx);
  const xPxPerMm = widthPx / scene.widthMm;
  const yPxPerMm = heightPx / scene.lengthMm;
  const levelsOf = levelTables();
  for (const dot of scene.dots) {
    // Whole coordinates are pixel centres; rows run down, the ceiling's y runs up.
    const xPx = dot.xMm * xPxPerMm - 0.5;
    const yPx = (scene.lengthMm - dot.yMm) * yPxPerMm - 0.5;
    addGlow(
      data,
      widthPx,
      heightPx,
      xPx,
      yPx,
      dot.diameterMm * glowPx,
      levelsOf(tint ? tintOfBv(dot.bv) : sourceLight),
    );
  }
  const raster: PreviewRaster = { data, widthPx, heightPx, channels: 3 };
  if (scene.lines) drawLines(raster, scene, scene.lines, lineBreaks);
  return raster;
}

/** Steps of u2 in a table: coarser than this would show as rings; this is a fifth of a grey level at the steepest. */
const tableSteps = 8192;
const stepsPerU2 = tableSteps / glowEndU2;

/** Pixel values along the glow, red, green, blue for each step of u2; made once a colour. */
function levelTables(): (colour: Rgb) => Uint8Array {
  const glow = Float64Array.from({ length: tableSteps }, (_, step) => glowAt((step + 0.5) / stepsPerU2));
  const tables = new Map<string, Uint8Array>();
  return (colour) => {
    const key = colour.join();
    let table = tables.get(key);
    if (!table) {
      table = new Uint8Array(tableSteps * 3);
      for (let step = 0, i = 0; step < tableSteps; step++)
        for (let channel = 0; channel < 3; channel++) table[i++] = Math.round(colour[channel]! * glow[step]!);
      tables.set(key, table);
    }
    return table;
  };
}

function addGlow(
  data: Uint8Array,
  widthPx: number,
  heightPx: number,
  xPx: number,
  yPx: number,
  scalePx: number,
  levels: Uint8Array,
): void {
  const reachPx = scalePx * Math.sqrt(glowEndU2);
  const stepsPerPx2 = stepsPerU2 / (scalePx * scalePx);
  const firstRow = Math.max(0, Math.ceil(yPx - reachPx));
  const lastRow = Math.min(heightPx - 1, Math.floor(yPx + reachPx));
  for (let row = firstRow; row <= lastRow; row++) {
    const dy2 = (row - yPx) ** 2;
    const halfPx = Math.sqrt(Math.max(0, reachPx * reachPx - dy2));
    const first = Math.max(0, Math.ceil(xPx - halfPx));
    const last = Math.min(widthPx - 1, Math.floor(xPx + halfPx));
    let at = (row * widthPx + first) * 3;
    for (let column = first; column <= last; column++) {
      const dx = column - xPx;
      let level = Math.min(tableSteps - 1, Math.floor((dx * dx + dy2) * stepsPerPx2)) * 3;
      for (let channel = 0; channel < 3; channel++, at++, level++) {
        const sum = data[at]! + levels[level]!;
        data[at] = Math.min(255, sum);
      }
    }
  }
}
