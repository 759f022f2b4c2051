import type { Font, InkBox } from "./font.ts";
import { leastGlowPx } from "./glow.ts";
import type { Label } from "./label.ts";
import { dotDiscs, grownBy, labelRoom, mostBrightDots } from "./labelRoom.ts";
import { leastUnitPx } from "./labelStyle.ts";
import { unitMmOf } from "./pictureScale.ts";
import { placeConstellation } from "./placeConstellation.ts";
import { placeCompassMark, placeWallName, type Tick } from "./placeEdgeLabels.ts";
import { placeName } from "./placeNames.ts";
import { placePanelIds } from "./placePanelIds.ts";
import type { PreviewScene } from "./previewScene.ts";

/** Every word of a labelled preview in its place. */
export interface LabelLayout {
  /** Ceiling mm to one unit of labelStyle.ts. */
  readonly unitMm: number;
  readonly labels: readonly Label[];
  readonly ticks: readonly Tick[];
  /** Where a seam would run through a word: it is broken there. */
  readonly seamBreaks: readonly InkBox[];
  /** Where words stand, so that lines of the sky are broken there; none without lines. */
  readonly lineBreaks: readonly InkBox[];
  /** Words that found no room, in the order in which they were tried. */
  readonly dropped: readonly string[];
  /** Characters that the font cannot draw (it draws empty boxes), each once: worth a warning. */
  readonly missingCharacters: readonly string[];
}

/**
 * Places compass letters, wall names, panel ids, names, brightest first, and then constellations; nothing overlaps: what finds no
 * room is left out.
 * @param widthPx  of the raster to be laid over, which keeps words and dots from getting too small; none for a drawing
 * @param small    for a thumbnail: in px of its raster what a unit and the scale of the thinnest dot's glow must reach,
 *                 and the most dots that words keep clear of
 */
export function layoutLabels(
  scene: PreviewScene,
  font: Font,
  widthPx?: number,
  small = { unitPx: leastUnitPx, glowPx: leastGlowPx, brightDots: mostBrightDots },
): LabelLayout {
  const mmPerPx = widthPx === undefined ? 0 : scene.widthMm / widthPx;
  const unitMm = unitMmOf(scene, widthPx, small.unitPx);
  const discs = dotDiscs(scene, small.glowPx * mmPerPx, small.brightDots);
  const room = labelRoom(scene, discs, unitMm);
  const labels: Label[] = [];
  const ticks: Tick[] = [];
  const dropped: string[] = [];
  const keep = (text: string, label: Label | null): void => {
    if (label) labels.push(label);
    else dropped.push(text);
  };

  for (const mark of scene.compass) {
    const { label, tick } = placeCompassMark(scene, font, mark, room, unitMm);
    labels.push(label);
    ticks.push(tick);
  }
  for (const wall of ["top", "right", "bottom", "left"] as const) {
    const name = scene.walls[wall];
    if (name) keep(name, placeWallName(scene, font, wall, name, room, unitMm));
  }
  for (const { id, label } of placePanelIds(scene, font, room, unitMm)) keep(id, label);
  for (const name of scene.names) keep(name.text, placeName(scene, font, name, discs, room, unitMm));

  for (const name of scene.lines?.constellations ?? [])
    keep(name.text, placeConstellation(scene, font, name, room, unitMm));

  const texts = [...labels.map(({ text }) => text), ...dropped];
  const missingCharacters = [...new Set(texts.flatMap((text) => font.missing(text)))];
  const boxes = labels.map(({ ink }) => grownBy(ink, 0.7 * unitMm));
  const seamBreaks = boxes.filter(room.crossesSeam);
  const lineBreaks = scene.lines ? boxes : [];
  return { unitMm, labels, ticks, seamBreaks, lineBreaks, dropped, missingCharacters };
}
