/**
 * A plan with every default filled in. Keys are those of the plan file, so that a filled plan can be written out
 * and replayed. Lengths are millimetres, angles degrees, right ascension hours, `elevation` metres.
 * Positions are as the person gave them: `drawnAs` says from which side. Use `inCeilingFrame` before computing.
 */
export interface Plan {
  readonly lacunar: 1;
  readonly title: string;
  /** Civil time at the place (ISO 8601 without zone), or with an offset or Z. */
  readonly moment: string;
  readonly place: PlacePlan;
  readonly view: ViewPlan;
  readonly show: ShowPlan;
  readonly room?: { readonly height: number };
  readonly drawnAs: "fromBelow" | "reflectedPlan";
  readonly walls: WallNames;
  readonly ceiling: CeilingPlan;
  readonly panels: PanelGridPlan | readonly (PanelRectanglePlan | PanelOutlinePlan)[];
  readonly fabric: { readonly thickness: number };
  readonly board: { readonly material: string; readonly thickness: number };
  readonly cavity?: number;
  readonly frame: "none" | FramePlan;
  readonly drill: DrillPlan;
  readonly fibre: FibrePlan;
  readonly holes: HoleRulesPlan;
  readonly keepOut: readonly KeepOutPlan[];
  readonly placement: PlacementPlan;
  readonly marking: MarkingPlan;
  readonly lightSource?: LightSourcePlan | readonly LightSourcePlan[];
  readonly paper: PaperPlan;
  readonly work: WorkPlan;
  readonly cnc: CncPlan;
  /** Boards as they came from the saw, by panel id. */
  readonly asCut: Readonly<Record<string, CutBoardPlan>>;
}

/** The two passes: pilot holes on the bare face, then opening to size from the back. */
export interface WorkPlan {
  /** Bit of the pilot pass; a thinner hole is piloted with its own bit. */
  readonly pilot: number;
  readonly opening: "pierce" | "hotNeedle" | "drill";
}

export interface CncPlan {
  /** Holes through the board into a sacrificial one, or dimples of 1 mm. */
  readonly mode: "through" | "spot";
  /** How far below the board through holes end; 0.3 of the bit and half a millimetre when not given. */
  readonly overdrill?: number;
  /** Thickness of the sacrificial board under the work. */
  readonly sacrificial: number;
  readonly peck: "auto" | "always" | "never";
  /** Reach of the machine: along X, along Y. Unbounded when not given. */
  readonly bed?: readonly [number, number];
  /** Of drill.nc. */
  readonly frame: "FACE" | "BACK";
  readonly scribeBattens: boolean;
  /** Above the board: where the bit travels between tools and at the end. */
  readonly safeHeight: number;
  /** Turns a minute: a starting value. */
  readonly spindle: number;
  /** mm a minute into the board, for every bit; by the bit when not given. A starting value. */
  readonly feed?: number;
  /** mm a minute along the battens' lines. */
  readonly scribeFeed: number;
}

/** Measured on the board: FACE, as seen from the room. */
export interface CutBoardPlan {
  readonly width: number;
  readonly length: number;
  /** From lower left to upper right, and from upper left to lower right. */
  readonly diagonals?: { readonly risingRight: number; readonly fallingRight: number };
}

export interface PlacePlan {
  readonly name?: string;
  /** ISO 3166 code. */
  readonly country?: string;
  /** North positive. */
  readonly latitude: number;
  /** East positive. */
  readonly longitude: number;
  /** IANA name. Needed unless the moment carries its own offset. */
  readonly timeZone?: string;
  /** Metres above sea level. */
  readonly elevation: number;
}

export type ProjectionName = "stereographic" | "equalArea" | "equidistant" | "orthographic";

export type AimPlan =
  | "zenith"
  | { readonly altitude: number; readonly azimuth: number }
  | { readonly rightAscension: number; readonly declination: number }
  | { readonly star: string | number }
  | { readonly constellation: string };

/**
 * What a true bearing was made from: a compass and the declination there (east positive), or two points of a map, in
 * degrees [latitude, longitude], along a side wall from its bottom end to its top end.
 */
export type TopBearingOrigin =
  | { readonly magnetic: number; readonly declination: number }
  | { readonly from: readonly [number, number]; readonly to: readonly [number, number] };

interface ViewPlanBase {
  readonly aim: AimPlan;
  /** TRUE azimuth of the ceiling's +Y. */
  readonly topBearing: number;
  readonly up: "zenith" | "north";
  /** Turns the sky counter-clockwise as seen from below, about the aim. */
  readonly roll: number;
  /** Where the plan did not give `topBearing` as a number: what it was made from. */
  readonly topBearingFrom?: TopBearingOrigin;
}

export interface EyeViewPlan extends ViewPlanBase {
  readonly kind: "eye";
  readonly eye: { readonly below: number; readonly x: number; readonly y: number };
}

export interface ChartViewPlan extends ViewPlanBase {
  readonly kind: "chart";
  readonly projection: ProjectionName;
  /** Degrees across the ceiling's longer side, through its centre. */
  readonly span: number;
}

export type ViewPlan = EyeViewPlan | ChartViewPlan;

export interface ShowPlan {
  readonly planets: boolean;
  /** As one hole, or as the outline of its lit part. */
  readonly moon: boolean | MoonRingPlan;
  readonly refraction: boolean;
  readonly belowHorizon: boolean;
  /** Magnitudes per air mass. */
  readonly extinction: number;
}

export interface MoonRingPlan {
  /** Diameter of the Moon's disk on the ceiling. */
  readonly ring: number;
  /** Diameter of its fibres: one of the plan's. */
  readonly fibre: number;
}

export interface WallNames {
  readonly top?: string;
  readonly right?: string;
  readonly bottom?: string;
  readonly left?: string;
}

export type WallSide = "top" | "right" | "bottom" | "left";

/** Four walls and two diagonals as a tape gives them. Sides are named as in `walls`: always as seen from below. */
export interface RoomMeasuresPlan {
  readonly sides: Readonly<Record<WallSide, number>>;
  /** Seen from below: from lower left to upper right, and from upper left to lower right. */
  readonly diagonals: { readonly risingRight: number; readonly fallingRight: number };
  /** The wall that panels are parallel to. */
  readonly squareTo: WallSide;
}

export type CeilingPlan = {
  /** Of the bounding rectangle. */
  readonly width: number;
  readonly length: number;
  /** Corners of the walls, where they are no rectangle along the axes. */
  readonly outline?: readonly PointPlan[];
} & (RoomMeasuresPlan | { readonly [key in keyof RoomMeasuresPlan]?: undefined });

export interface PanelGridPlan {
  readonly columns: number;
  readonly rows: number;
  readonly gap: number;
  readonly perimeter: number;
}

/** A finished rectangle, fabric included; x and y are its lower-left corner. */
export interface PanelRectanglePlan {
  readonly id: string;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly length: number;
}

/** A finished outline of three corners or more, ceiling frame. */
export interface PanelOutlinePlan {
  readonly id: string;
  readonly outline: readonly PointPlan[];
}

export type PointPlan = readonly [number, number];

/** Battens glued behind each board. */
export interface FramePlan {
  readonly batten: { readonly width: number; readonly depth: number };
  /** From the board's outline to the edge battens. */
  readonly inset: number;
  /** So many across each panel, evenly over the longer side of its board. */
  readonly crossBattens: number;
  /** More of them: centre lines in the face frame of their panel, ends cut square. */
  readonly battens: readonly { readonly panel: string; readonly from: PointPlan; readonly to: PointPlan }[];
  /** Farthest that two screws along a batten may be apart. */
  readonly screws: { readonly pitch: number };
  /** Hanging points on the edge battens of each panel, evenly round it. */
  readonly hangers: number;
  /** The brightest stars may sit on a batten, through a relief hole of this diameter. */
  readonly bored?: { readonly brightest: number; readonly diameter: number };
}

/** What the drill's chuck needs behind a framed board. */
export interface DrillPlan {
  readonly chuckRadius: number;
  /** How far the bit stands out of the chuck. */
  readonly projection: number;
}

export type KeepOutKind = "grille" | "hatch" | "luminaire" | "detector" | "sprinkler" | "speaker" | "other";

interface KeepOutBase {
  readonly id: string;
  readonly kind: KeepOutKind;
  /** What happens to stars under it. */
  readonly stars: "move" | "drop";
  /** Farthest that a star under it is moved; `holes.maxShift` when not given. */
  readonly upTo?: number;
  /** Room to keep clear before and behind the face. */
  readonly clearance: { readonly front: number; readonly behind: number };
}

/** Ceiling frame. */
export type KeepOutPlan = KeepOutBase &
  (
    | { readonly at: PointPlan; readonly radius: number }
    | { readonly x: number; readonly y: number; readonly width: number; readonly length: number }
    | { readonly outline: readonly PointPlan[] }
  );

export interface FibreSizePlan {
  readonly diameter: number;
  readonly bit: number;
  /** Usable length of the bit. */
  readonly flute?: number;
}

export interface BundlesPlan {
  readonly count: number;
  /** Strands of each diameter in one bundle: keys are lengths such as `0.5mm`. */
  readonly strands: Readonly<Record<string, number>>;
  readonly overall?: number;
  readonly sleeve?: number;
}

export interface FibrePlan {
  readonly sizes: readonly FibreSizePlan[];
  readonly bundles: BundlesPlan;
  /** Share of the strands held back before grading, as text with a percent sign. */
  readonly reserve: string;
  /** Share of the thinnest strands, after the reserve, that is sown along the Milky Way; text with a percent sign. */
  readonly milkyWay: string;
  readonly sharing: "panel" | "ceiling";
}

export interface HoleRulesPlan {
  readonly edge: number;
  readonly batten: number;
  readonly spacing: number;
  readonly merge: number;
  readonly maxShift: number;
}

export interface PlacementPlan {
  /** Stars beside a dead strip are spread, so that they do not line up along it. */
  readonly spread: boolean;
  /** The whole sky may be slid so far, and turned about the aim by so many degrees either way, for the sake of the brightest. */
  readonly shift: number;
  readonly turn: number;
}

/** In pixels from the picture's upper-left corner, y down: the first pixel covers 0 to 1, its centre is at 0.5. */
export type PixelPlan = readonly [number, number];

/** Where four corners of the boards fall in a projector's picture, named as seen on the FACE. */
export interface PictureCorners {
  readonly lowerLeft: PixelPlan;
  readonly lowerRight: PixelPlan;
  readonly upperRight: PixelPlan;
  readonly upperLeft: PixelPlan;
}

export interface KeystonePlan {
  /** Those of the picture: one panel, or a group. */
  readonly panels: readonly string[];
  readonly corners: PictureCorners;
  /** Where the three check marks were found, mm as the picture states them; in its order. */
  readonly measured?: readonly [PointPlan, PointPlan, PointPlan];
}

/** Pictures for a projector, to mark boards by. */
export interface MarkingPlan {
  /** Width and height of the picture. */
  readonly pixels: readonly [number, number];
  readonly background: "dark" | "light";
  /** Write each hole's number beside its mark. */
  readonly numbers: boolean;
  /** Pitch of the grid. */
  readonly grid: number;
  /** Most mm that a pixel may cover. */
  readonly coarsest: number;
  /** Neighbouring panels that are marked in one picture. */
  readonly groups: readonly (readonly string[])[];
  readonly keystone: readonly KeystonePlan[];
  /** Draw also the picture that tells pixels on the board. */
  readonly pixelRuler: boolean;
}

export interface LightSourcePlan {
  readonly id?: string;
  readonly x: number;
  readonly y: number;
  readonly above: number;
  readonly ports?: number;
}

export type PaperName = "A4" | "A3" | "Letter" | "Tabloid";

/** What templates and labels are printed on. */
export interface PaperPlan {
  readonly size: PaperName | { readonly roll: number };
  /** What the printer cannot print on, all round. */
  readonly margin: number;
  /** Two tiles side by side show the same strip, so wide on the board. */
  readonly overlap: number;
  /** What a ruler printed as 100 mm measures on the paper. */
  readonly measured100: number;
}
