import { type KeepOut, keepOutsOf } from "../panel/keepOuts.ts";
import { isRectangle, type Ring } from "../panel/rings.ts";
import { type Wall as RoomWall, wallsOf } from "../panel/walls.ts";
import { inCeilingFrame, type PointMm } from "../projection/frames.ts";
import type { View } from "../projection/view.ts";
import type { Hole, PanelRecord, Schedule } from "../schedule/types.ts";
import type { CompassMark } from "./previewScene.ts";
import { compassMarks } from "./sceneOf.ts";

export const WALLS = ["top", "right", "bottom", "left"] as const;
export type Wall = (typeof WALLS)[number];

/** All that the working drawing of a ceiling shows; everything in the ceiling frame, mm. */
export interface CeilingScene {
  readonly widthMm: number;
  readonly lengthMm: number;
  /** As the plan names them, or "top wall" and so on. */
  readonly walls: Readonly<Record<Wall, string>>;
  /** Piece by piece, with the names that positions are given against. */
  readonly room: readonly RoomWall[];
  readonly isRoomRectangle: boolean;
  readonly panels: readonly CeilingPanel[];
  readonly keepOuts: readonly KeepOut[];
  readonly holes: readonly Hole[];
  /** Diameters of all sizes of the plan, with holes or without. */
  readonly planSizesMm: readonly number[];
  /** Of the holes, thinnest first. */
  readonly sizes: readonly { readonly diameterMm: number; readonly bitMm: number; readonly count: number }[];
  /** Ids of holes through a batten, and the diameter of the relief holes behind them. */
  readonly bored: ReadonlySet<string>;
  readonly reliefMm: number | null;
  readonly compass: readonly CompassMark[];
  /** Unit vector toward north on the ceiling; null where the aim, not the room, turns the sky. */
  readonly northward: PointMm | null;
  readonly title: string;
  readonly place: string;
  readonly moment: string;
  /** Which way the ceiling lies, in words; null as `northward`. */
  readonly facing: string | null;
  /** Batten, board and fabric, in words. */
  readonly build: readonly string[];
}

export interface CeilingPanel {
  readonly id: string;
  readonly finished: Ring;
  readonly board: Ring;
  readonly isRectangle: boolean;
  readonly battens: readonly Ring[];
  readonly screws: Ring;
  readonly hangers: Ring;
}

/** @param view the view that the schedule was made with */
export function ceilingSceneOf(schedule: Schedule, view: View): CeilingScene {
  const { plan, holes, panels, fidelity } = schedule;
  const { width: widthMm, length: lengthMm } = plan.ceiling;
  const compass = compassMarks(view, widthMm, lengthMm);
  const wall = (which: Wall) => plan.walls[which] ?? `${which} wall`;
  const walls = { top: wall("top"), right: wall("right"), bottom: wall("bottom"), left: wall("left") };
  // A side without a name of its own is called as the band calls it.
  const room = wallsOf({ ...inCeilingFrame(plan), walls });
  const isRoomRectangle = isRectangle(room.map(({ from }) => from));
  const framed = plan.frame === "none" ? null : plan.frame;
  return {
    widthMm,
    lengthMm,
    walls,
    room,
    isRoomRectangle,
    panels: panels.map(ceilingPanel),
    keepOuts: keepOutsOf(inCeilingFrame(plan).keepOut),
    holes,
    planSizesMm: plan.fibre.sizes.map(({ diameter }) => diameter),
    sizes: sizesOf(holes),
    bored: new Set(panels.flatMap((panel) => panel.boredHoles)),
    reliefMm: framed?.bored?.diameter ?? null,
    compass,
    northward: northOn(view),
    title: plan.title,
    place: [plan.place.name, coordinates(plan.place)].filter((part) => part !== undefined).join(", "),
    moment: `${schedule.civil.replace("T", " ")} (UTC ${schedule.instantUtc.replace("T", " ").replace("Z", "")})`,
    facing:
      fidelity.bearing === null
        ? null
        : `${walls.top} (top edge) lies toward ${fidelity.bearing.topBearingDeg.toFixed(1)} degrees, TRUE`,
    build: [
      ...(framed === null
        ? []
        : [`Battens ${framed.batten.width} wide, ${framed.batten.depth} deep, behind the boards: dashed.`]),
      plan.fabric.thickness > 0
        ? `Panel sizes are finished, fabric included: boards are cut ${plan.fabric.thickness} smaller on every side.`
        : "Panel sizes are those of the boards.",
      ...(isRoomRectangle
        ? []
        : [
            "The room is no rectangle: figures run along the panels' sides, those around it to its bounding rectangle. A tape held square to a slanting wall reads less; lacunar check says how much.",
          ]),
    ],
  };
}

function ceilingPanel(panel: PanelRecord): CeilingPanel {
  const onCeiling = (ring: Ring): Ring => ring.map(([x, y]) => [x + panel.xMm, y + panel.yMm] as const);
  return {
    id: panel.id,
    finished: onCeiling(panel.finishedOutlineMm),
    board: onCeiling(panel.outlineMm),
    isRectangle: isRectangle(panel.finishedOutlineMm),
    battens: panel.battensMm.map(onCeiling),
    screws: onCeiling(panel.screwsMm),
    hangers: onCeiling(panel.hangersMm),
  };
}

function sizesOf(holes: readonly Hole[]): CeilingScene["sizes"] {
  const sizes = new Map<number, { diameterMm: number; bitMm: number; count: number }>();
  for (const { diameterMm, bitMm } of holes) {
    const size = sizes.get(diameterMm) ?? { diameterMm, bitMm, count: 0 };
    size.count++;
    sizes.set(diameterMm, size);
  }
  return [...sizes.values()].sort((a, b) => a.diameterMm - b.diameterMm);
}

/** Toward the horizon's north from the zenith's point, as the sky lies on the ceiling. */
function northOn(view: View): PointMm | null {
  if (!view.aimedAtZenith) return null;
  const north = view.projectOne([0, Math.SQRT1_2, Math.SQRT1_2]);
  if (north === null) return null;
  const [x, y] = [north.xMm - view.centre.xMm, north.yMm - view.centre.yMm];
  const length = Math.hypot(x, y);
  return { xMm: x / length, yMm: y / length };
}

function coordinates({ latitude, longitude }: { latitude: number; longitude: number }): string {
  const one = (deg: number, positive: string, negative: string) =>
    `${Math.abs(deg).toFixed(4)}° ${deg < 0 ? negative : positive}`;
  return `${one(latitude, "N", "S")} ${one(longitude, "E", "W")}`;
}
