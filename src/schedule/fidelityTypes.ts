/** How far one hole lies from its true place. */
export interface ShiftRecord {
  readonly hole: string;
  readonly hip: number | null;
  readonly name: string;
  readonly mag: number;
  readonly shiftMm: number;
  /** Angle between its true direction and the one that the view shows at the drilled point; null beyond the view's rim. */
  readonly shiftDeg: number | null;
}

/** How well the holes of one constellation keep its shape. */
export interface ConstellationRecord {
  /** IAU code and Latin name. */
  readonly constellation: string;
  readonly name: string;
  /** Its stars that have a hole: four or more. */
  readonly stars: number;
  /** RMS distance of the drilled points from the true ones after the best move, turn and scale. */
  readonly shapeRmsMm: number;
  /** RMS distance of its true points from their middle: what the error is to be held against. */
  readonly sizeMm: number;
  /** What that best fit did besides moving: scale, and turn counter-clockwise as seen from below. */
  readonly scale: number;
  readonly turnDeg: number;
}

/** A close group that people know by eye. */
export interface GroupRecord {
  readonly name: string;
  /** Its stars over the ceiling, those of them that have light, and the holes these have (merged ones share one). */
  readonly overCeiling: number;
  readonly lit: number;
  readonly holes: number;
  /** Drilled against true distances over all pairs of holes; null with a single hole. */
  readonly separation: {
    readonly rmsMm: number;
    readonly worst: {
      readonly between: readonly [string, string];
      readonly trueMm: number;
      readonly drilledMm: number;
    };
  } | null;
  /** As of a constellation; null with fewer than three holes, which always fit. */
  readonly shapeRmsMm: number | null;
  /** The panels it lies on: more than one, and a seam splits it. */
  readonly panels: readonly string[];
}

/** Whether the holes lie round each other as the stars do. */
export interface ParityRecord {
  /** True: seen from below, the ceiling is the sky as it is seen from inside. False: it is mirrored. */
  readonly asSeenFromBelow: boolean;
  /** Determinant of the best affine fit from the sky, as seen from inside, to the drilled points: its sign is the parity. */
  readonly determinantMm2PerDeg2: number;
}

/** What the slide and turn of the whole sky, within `placement.shift` and `placement.turn`, did for the bright objects. */
export interface SlideRecord {
  /** Where the sky was slid to (ceiling frame) and how it was turned about the aim: counter-clockwise as seen from below. */
  readonly xMm: number;
  readonly yMm: number;
  readonly turnDeg: number;
  /** How many of the brightest objects were followed, and the magnitude of the faintest. */
  readonly bright: number;
  readonly faintestMag: number | null;
  /**
   * RMS of their shifts to the nearest legal place, weighted by light (as of magnitude 0 for all that is brighter); one that has no
   * place, or leaves the ceiling, counts as moved twice `holes.maxShift`, 40 mm at least.
   */
  readonly rmsBeforeMm: number;
  readonly rmsAfterMm: number;
  /** How many of them had, and have, to be moved. */
  readonly movedBefore: number;
  readonly movedAfter: number;
}

/** How true the ceiling is to the sky: what a person wants to know before drilling. */
export interface Truth {
  readonly shiftRmsDeg: number | null;
  /** The farthest moved, up to ten. */
  readonly worst: readonly ShiftRecord[];
  /** Objects to magnitude 2 moved over 0.3 degrees, and to magnitude 3.5 over 0.7; brightest first. */
  readonly tooFar: readonly ShiftRecord[];
  /** Those with four lit stars or more, the worst against its size first. */
  readonly constellations: readonly ConstellationRecord[];
  readonly groups: readonly GroupRecord[];
  /** Null where too few holes tell. */
  readonly parity: ParityRecord | null;
  /** Null where the plan allows no slide. */
  readonly slide: SlideRecord | null;
  readonly verdict: string;
}
