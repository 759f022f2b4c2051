import type { FourPoints, Homography, Point } from "../projection/homography.ts";
import type { Hole, PanelRecord } from "./types.ts";

/** One panel of a picture. */
export interface MarkedPanel {
  /** The board as it was cut. */
  readonly board: PanelRecord;
  /** The lower-left corner of its face frame in the picture's own frame. */
  readonly xMm: number;
  readonly yMm: number;
  /** Those that are shown. */
  readonly holes: readonly Hole[];
  /** Of all sizes: what places are chosen by, so that they are the same on every picture of the panel. */
  readonly allHoles: readonly Hole[];
}

/** A mark that tells whether a lens bends what a plane cannot mend. */
export interface CheckMark {
  readonly panel: string;
  /** Face frame of that panel. */
  readonly faceMm: Point;
  /** The picture's own frame. */
  readonly atMm: Point;
  /** Where it was found, if it was measured, how far that is off, and by how many pixels. */
  readonly measured: { readonly faceMm: Point; readonly offMm: number; readonly offPx: number } | null;
}

/**
 * One picture for a projector. Its own frame: mm, seen from the room, axes of the ceiling frame, the lower-left corner of all
 * its boards' bounding box at 0, 0; for a single panel that is the face frame.
 */
export interface MarkingPicture {
  /** A panel's id, or those of a group joined by `+`. */
  readonly id: string;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly panels: readonly MarkedPanel[];
  readonly widthMm: number;
  readonly lengthMm: number;
  /** Real corners of the boards, as seen on the FACE: lower left, lower right, upper right, upper left. Null where there are no four. */
  readonly cornersMm: FourPoints | null;
  /** From its own frame to pixels from the picture's upper-left corner, y down. */
  readonly toPixels: Homography;
  /** True when the plan says where the corners fall. */
  readonly warped: boolean;
  /** Of the least and the most stretched place on the boards. */
  readonly finestMmPerPx: number;
  readonly coarsestMmPerPx: number;
  readonly checks: readonly CheckMark[];
  /** The one diameter that is shown; null for all. */
  readonly onlyMm: number | null;
}

export const cornerNames = ["lower left", "lower right", "upper right", "upper left"] as const;
