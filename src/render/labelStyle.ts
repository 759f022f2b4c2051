/**
 * How words look. Sizes are in units of a millimetre on the A4 print (see pictureScale.ts): 2.6 is about 7.4 pt. Colours:
 * cool greys that stay behind the warm light of the stars, each at least 4.5 to 1 on black (WCAG 2.2, 1.4.3) but the seams.
 */
export const labelKinds = ["compass", "wall", "panel", "name", "constellation"] as const;
export type LabelKind = (typeof labelKinds)[number];

export const labelSize: Readonly<Record<LabelKind, number>> = {
  compass: 4.4,
  wall: 2.5,
  panel: 3.2,
  name: 2.6,
  constellation: 2.3,
};

/** Wall names are spaced out: they are not names of stars. */
export const labelTrackingEm: Readonly<Record<LabelKind, number>> = {
  compass: 0,
  wall: 0.12,
  panel: 0.02,
  name: 0,
  constellation: 0.2,
};

export const labelColour: Readonly<Record<LabelKind, string>> = {
  compass: "#c3cbd8",
  wall: "#8b95a5",
  panel: "#8b95a5",
  name: "#a3adbd",
  constellation: "#a98a5c",
};

export const seamColour = "#3d4756";
export const seamWidth = 0.2;
/** Lines of the sky, under everything else: the figures in a dull copper, the boundaries in a dull green and broken. */
export const figureColour = "#5f4a2c";
export const figureWidth = 0.22;
export const boundaryColour = "#315c50";
export const boundaryWidth = 0.16;
/** Drawn and left out, in turn. */
export const boundaryDash = [0.9, 0.9] as const;
/** From the border toward the compass letter: it marks the exact point of the edge. */
export const tickLength = 2;
/** Smallest unit in pixels of a raster: names 11 px high, so that small pictures keep fewer but readable words. */
export const leastUnitPx = 4.3;
