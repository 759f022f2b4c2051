import type { PointMm } from "../projection/frames.ts";

/** One lit fibre end, in the ceiling frame (seen from below, origin at the lower-left corner, mm). */
export interface PreviewDot {
  readonly xMm: number;
  readonly yMm: number;
  readonly diameterMm: number;
  /** Colour index, for `tint`; null where unknown. */
  readonly bv: number | null;
}

/** A name beside a dot. */
export interface PreviewName {
  readonly xMm: number;
  readonly yMm: number;
  readonly text: string;
}

/** A compass letter at the point of the ceiling's edge toward which that direction lies. */
export interface CompassMark {
  readonly letter: "N" | "E" | "S" | "W";
  readonly xMm: number;
  readonly yMm: number;
}

/** A finished panel, seen from below: its bounding box. */
export interface PreviewPanel {
  readonly id: string;
  readonly xMm: number;
  readonly yMm: number;
  readonly widthMm: number;
  readonly lengthMm: number;
  /** Corners in the ceiling frame, counter-clockwise, of a panel that does not fill its box. */
  readonly outlineMm?: readonly (readonly [number, number])[];
}

/** Lines of the sky, to be drawn under the dots: chains of points in the ceiling frame, none outside its rectangle. */
export interface PreviewLines {
  readonly figures: readonly (readonly PointMm[])[];
  readonly boundaries: readonly (readonly PointMm[])[];
  /** Constellations' names around these points, drawn only with labels, most important first. */
  readonly constellations: readonly PreviewName[];
}

/** All that a preview shows. The picture is exactly the ceiling's rectangle, edge to edge. */
export interface PreviewScene {
  readonly widthMm: number;
  readonly lengthMm: number;
  readonly dots: readonly PreviewDot[];
  /** Drawn only with labels, brightest first: later names give way to earlier ones. */
  readonly names: readonly PreviewName[];
  readonly compass: readonly CompassMark[];
  readonly panels: readonly PreviewPanel[];
  /** None unless asked for. */
  readonly lines?: PreviewLines;
  readonly walls: {
    readonly top?: string;
    readonly right?: string;
    readonly bottom?: string;
    readonly left?: string;
  };
}
