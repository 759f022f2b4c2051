import type { KeepOutKind, Plan } from "../plan/plan.ts";
import type { Truth } from "./fidelityTypes.ts";

/** What a hole carries light for. */
export type HoleKind = "star" | "planet" | "moon" | "milkyWay";

/** One drilled hole: a row of schedule.csv. Frames are those of the design: see src/projection/frames.ts. */
export interface Hole {
  /** `<panel>-<number>`; numbers run per panel along the drilling order, thinnest bit first. */
  readonly hole: string;
  readonly panel: string;
  /** Face frame of the panel: the board seen from the room, from its lower-left corner. */
  readonly xMm: number;
  readonly yMm: number;
  /** The fibre. */
  readonly diameterMm: number;
  /** The drill, always the wider of the two. */
  readonly bitMm: number;
  readonly kind: HoleKind;
  /** Hipparcos number; null for what is not in that catalogue. */
  readonly hip: number | null;
  readonly name: string;
  /** IAU code of the constellation the object stands in. */
  readonly constellation: string;
  /**
   * What was graded: the summed light of the object and of all merged into it, with extinction if any. Null for what is
   * not graded: dots of the Milky Way, and holes of the Moon's ring.
   */
  readonly mag: number | null;
  readonly bv: number | null;
  /** Apparent altitude and true azimuth (from north through east) at the moment and place. */
  readonly altDeg: number;
  readonly azDeg: number;
  /** The true projected point in the ceiling frame. */
  readonly skyXMm: number;
  readonly skyYMm: number;
  /** The drilled point in the ceiling frame. */
  readonly ceilingXMm: number;
  readonly ceilingYMm: number;
  /** Distance between the two. */
  readonly shiftMm: number;
  /** HIP numbers folded into this hole. */
  readonly merged: readonly number[];
  readonly bundle: string | null;
  readonly lengthMm: number | null;
}

/** A panel as schedule.json holds it; boards in the ceiling frame, outlines in the panel's face frame. */
export interface PanelRecord {
  readonly id: string;
  /** Lower-left corner of the board's bounding box in the ceiling frame. */
  readonly xMm: number;
  readonly yMm: number;
  readonly widthMm: number;
  readonly lengthMm: number;
  readonly outlineMm: readonly (readonly [number, number])[];
  /** Behind the board, in the face frame all the same: simple polygons, rings split. */
  readonly battensMm: readonly (readonly (readonly [number, number])[])[];
  readonly screwsMm: readonly (readonly [number, number])[];
  readonly hangersMm: readonly (readonly [number, number])[];
  /** On the board or within holes.edge of it. */
  readonly keepOutMm: readonly KeepOutRecord[];
  /** Ids of the panels beside this one, across a seam. */
  readonly neighbours: readonly string[];
  /** The finished outline, fabric included, in the panel's face frame. */
  readonly finishedOutlineMm: readonly (readonly [number, number])[];
  readonly holeCount: number;
  /** Holes on a batten, through a relief hole of `frame.bored.diameter`. */
  readonly boredHoles: readonly string[];
  /** Holes that cannot be bored from behind once the frame is on: see `drill`. */
  readonly boreFirst: readonly string[];
}

export type ShapeRecord =
  | { readonly outlineMm: readonly (readonly [number, number])[] }
  | { readonly atMm: readonly [number, number]; readonly radiusMm: number };

export type KeepOutRecord = { readonly id: string; readonly kind: KeepOutKind } & ShapeRecord;

export interface LeftRecord {
  readonly hip: number | null;
  readonly name: string;
  readonly mag: number;
  readonly why: string;
}

export interface StrandRecord {
  readonly diameterMm: number;
  readonly bitMm: number;
  readonly owned: number;
  readonly heldBack: number;
  readonly used: number;
  /** Usable, but with no object left to light. */
  readonly dark: number;
}

/** Which way the ceiling lies under the sky, for an aim at the zenith. */
export interface BearingRecord {
  /** True azimuth of the ceiling's +Y, 0 to 360. */
  readonly topBearingDeg: number;
  /** How far an error of 5 degrees would move what lies over the ceiling's farthest corner: the chord. */
  readonly fiveDegreesMm: number;
}

/** What extinction changes against the same plan at 0. */
export interface ExtinctionRecord {
  readonly magPerAirMass: number;
  /** Objects that give no light to any hole because of it, and those that do in their place. */
  readonly lost: number;
  readonly gained: number;
  /** The hole nearest to the horizon, and by how much its object is dimmed; null without holes. */
  readonly lowest: { readonly altDeg: number; readonly dimmedMag: number } | null;
  /** What `limitingMag` would be. */
  readonly limitingMagWithout: number | null;
}

/** How true the ceiling is to the sky. */
export interface Fidelity extends Truth {
  readonly objectsInField: number;
  /** All of them; the next two are in it, and not in what follows, which is of graded holes. */
  readonly holes: number;
  /** Holes of the Moon's ring, and dots of the Milky Way. */
  readonly moonRing: number;
  readonly milkyWay: number;
  /** Objects whose light goes into another's hole. */
  readonly merged: number;
  /** Magnitude of the faintest hole; null without graded holes. */
  readonly limitingMag: number | null;
  /** Objects brighter than that without light of their own, and why; brightest first. */
  readonly missing: readonly LeftRecord[];
  /** Of all holes. */
  readonly strands: readonly StrandRecord[];
  readonly shiftRmsMm: number;
  readonly shiftMaxMm: number;
  /** Holes moved by 0.01 mm or more. */
  readonly moved: number;
  /** RMS of delivered less true magnitude after the best common offset. */
  readonly photometricRmsMag: number;
  /** Magnitudes that the fibres used can span, and that the objects shown span. */
  readonly fibreSpanMag: number;
  readonly skySpanMag: number;
  readonly notShown: {
    readonly belowHorizon: number;
    readonly beyondProjection: number;
    readonly offCeiling: number;
  };
  readonly sunAltDeg: number;
  /** Null where the aim, not the room, says which way the ceiling lies. */
  readonly bearing: BearingRecord | null;
  /** Null for a plan without extinction. */
  readonly extinction: ExtinctionRecord | null;
}

/** The finished list of holes: the one source of every output. */
export interface Schedule {
  readonly lacunar: 1;
  readonly plan: Plan;
  /** Civil time with its offset. */
  readonly civil: string;
  readonly instantUtc: string;
  readonly panels: readonly PanelRecord[];
  /** Sorted by panel, then by number. */
  readonly holes: readonly Hole[];
  readonly left: readonly LeftRecord[];
  readonly fidelity: Fidelity;
  readonly warnings: readonly string[];
}
