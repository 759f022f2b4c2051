import { type BattenMove, battenMoves, type StarPoint } from "../panel/battenMoves.ts";
import { type FrameFigures, frameFigures } from "../panel/frameFigures.ts";
import { type KeepOutPlace, keepOutPlaces } from "../panel/keepOutPlace.ts";
import { perimeterOf, type WallGap } from "../panel/perimeter.ts";
import { distanceToRing, type Ring } from "../panel/rings.ts";
import { type WorkPanel, workPanels } from "../panel/work.ts";
import { fitRoom, type RoomFit } from "../plan/roomFit.ts";
import { inCeilingFrame } from "../projection/frames.ts";
import type { Hole, Schedule } from "./types.ts";

/** What a builder asks of room and frames, beside the sky. */
export interface BuildReport {
  /** Null for a rectangle. */
  readonly room: {
    readonly fit: RoomFit | null;
    readonly perimeter: readonly WallGap[];
  } | null;
  readonly keepOuts: readonly KeepOutPlace[];
  readonly frame: FrameReport | null;
}

export interface FrameReport {
  /** Battens as the plan has them, then turned by a right angle. */
  readonly ways: readonly (FrameFigures & {
    /** Between the stars of two panels side by side, over narrowest and widest seam; null for a single panel. */
    readonly laneMm: readonly [number, number] | null;
  })[];
  readonly screws: number;
  readonly hangers: number;
  /** Holes on a batten, through a relief hole, brightest first. */
  readonly bored: readonly Hole[];
  /** So many of the brightest holes were looked at for the moves below; those bored through a batten are left aside. */
  readonly brightest: number;
  readonly moves: readonly (Omit<BattenMove, "frees" | "takes"> & {
    readonly frees: readonly Hole[];
    readonly takes: readonly Hole[];
  })[];
}

export function buildReport(schedule: Schedule): BuildReport {
  const plan = inCeilingFrame(schedule.plan);
  const panels = workPanels(plan);
  const { ceiling } = plan;
  const fit = ceiling.sides === undefined ? null : fitRoom(ceiling);
  return {
    room:
      ceiling.outline === undefined
        ? null
        : { fit: typeof fit === "string" ? null : fit, perimeter: perimeterOf(plan, panels) },
    keepOuts: keepOutPlaces(plan),
    frame: plan.frame === "none" ? null : frameReport(schedule, panels),
  };
}

function frameReport(schedule: Schedule, panels: readonly WorkPanel[]): FrameReport {
  const plan = inCeilingFrame(schedule.plan);
  const seams = seamWidthsMm(schedule, panels);
  const count = (key: "screws" | "hangers") =>
    panels.reduce((sum, { frame }) => sum + (frame?.[key].length ?? 0), 0);
  return {
    ways: frameFigures(plan, panels).map((figures) => ({
      ...figures,
      laneMm:
        seams.length === 0
          ? null
          : [Math.min(...seams) + 2 * figures.edgeBandMm, Math.max(...seams) + 2 * figures.edgeBandMm],
    })),
    screws: count("screws"),
    hangers: count("hangers"),
    bored: boredHoles(schedule),
    ...movesOf(schedule, panels),
  };
}

function boredHoles({ holes, panels }: Schedule): Hole[] {
  const bored = new Set(panels.flatMap((panel) => panel.boredHoles));
  return holes.filter(({ hole }) => bored.has(hole)).sort((a, b) => a.mag! - b.mag!);
}

/** Widths of the gaps between panels side by side. */
function seamWidthsMm(schedule: Schedule, panels: readonly WorkPanel[]): number[] {
  const { plan } = schedule;
  if (!Array.isArray(plan.panels)) {
    return panels.length === 1 ? [] : [(plan.panels as { readonly gap: number }).gap];
  }
  const ringById = new Map(panels.map(({ id, finishedRing }) => [id, finishedRing]));
  return schedule.panels.flatMap(({ id, neighbours }) =>
    neighbours.filter((other) => id < other).map((other) => between(ringById.get(id)!, ringById.get(other)!)),
  );
}

const between = (a: Ring, b: Ring): number =>
  Math.min(...a.map(([x, y]) => distanceToRing(b, x, y)), ...b.map(([x, y]) => distanceToRing(a, x, y)));

/** The part of the stars that a batten is moved for. */
const BRIGHTEST_SHARE = 0.1;

function movesOf(schedule: Schedule, panels: readonly WorkPanel[]): Pick<FrameReport, "brightest" | "moves"> {
  const bored = new Set(schedule.panels.flatMap(({ boredHoles }) => boredHoles));
  const graded = schedule.holes.filter(({ mag }) => mag !== null);
  const brightest = graded
    .sort((a, b) => a.mag! - b.mag!)
    .slice(0, Math.ceil(BRIGHTEST_SHARE * graded.length))
    .filter(({ hole }) => !bored.has(hole));
  const byPanel = panels.map(({ id }) => brightest.filter(({ panel }) => panel === id));
  const points = byPanel.map((holes, i) =>
    holes.map(
      ({ skyXMm, skyYMm, bitMm }): StarPoint => ({
        xMm: skyXMm - panels[i]!.board.xMm,
        yMm: skyYMm - panels[i]!.board.yMm,
        bitMm,
      }),
    ),
  );
  const index = new Map(panels.map(({ id }, i) => [id, i]));
  return {
    brightest: brightest.length,
    moves: battenMoves(panels, points, schedule.plan.holes).map(({ frees, takes, ...move }) => {
      const holes = byPanel[index.get(move.panel)!]!;
      return { ...move, frees: frees.map((i) => holes[i]!), takes: takes.map((i) => holes[i]!) };
    }),
  };
}
