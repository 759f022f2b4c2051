import { boxOf, isRectangle } from "../panel/rings.ts";
import type { View } from "../projection/view.ts";
import type { Hole, PanelRecord, Schedule } from "../schedule/types.ts";
import { directionOf } from "../sky/apparent.ts";
import type { CompassMark, PreviewLines, PreviewName, PreviewPanel, PreviewScene } from "./previewScene.ts";

/** Names beyond this many would be a list, not a picture; the room between dots decides how many of these are drawn. */
const MOST_NAMES = 45;

/** What a schedule looks like from below at night. @param view the view that the schedule was made with */
export function sceneOf(
  schedule: Pick<Schedule, "plan" | "holes" | "panels">,
  view: View,
  lines?: PreviewLines,
): PreviewScene {
  const { plan, holes, panels } = schedule;
  const brightestFirst = holes
    .filter((hole) => hole.mag !== null && hole.name !== "")
    .sort((a, b) => a.mag! - b.mag!);
  return {
    widthMm: plan.ceiling.width,
    lengthMm: plan.ceiling.length,
    dots: holes.map((hole) => ({
      xMm: hole.ceilingXMm,
      yMm: hole.ceilingYMm,
      diameterMm: hole.diameterMm,
      bv: hole.bv,
    })),
    names: [...ringName(holes), ...brightestFirst]
      .slice(0, MOST_NAMES)
      .map((hole): PreviewName => ({ xMm: hole.ceilingXMm, yMm: hole.ceilingYMm, text: hole.name })),
    compass: compassMarks(view, plan.ceiling.width, plan.ceiling.length),
    panels: panels.map(previewPanel),
    walls: plan.walls,
    ...(lines ? { lines } : {}),
  };
}

/** The Moon's ring has one name, beside its rightmost hole: there the word lies outside it. */
function ringName(holes: readonly Hole[]): Hole[] {
  const ring = holes.filter((hole) => hole.kind === "moon" && hole.mag === null);
  return ring.length === 0
    ? []
    : [ring.reduce((right, hole) => (hole.ceilingXMm > right.ceilingXMm ? hole : right))];
}

function previewPanel({ id, xMm, yMm, finishedOutlineMm }: PanelRecord): PreviewPanel {
  const box = boxOf(finishedOutlineMm);
  return {
    id,
    xMm: xMm + box.xMm,
    yMm: yMm + box.yMm,
    widthMm: box.widthMm,
    lengthMm: box.lengthMm,
    ...(isRectangle(finishedOutlineMm)
      ? {}
      : { outlineMm: finishedOutlineMm.map(([x, y]) => [xMm + x, yMm + y] as const) }),
  };
}

const LETTERS = [
  ["N", 0],
  ["E", 90],
  ["S", 180],
  ["W", 270],
] as const;
const STEPS_A_SIDE = 180;

/** An aim off the zenith turns the sky away from the room: a letter then stands only where the horizon is near. */
const HIGHEST_MARK_UP = Math.sin((45 * Math.PI) / 180);

/**
 * Where the four directions leave the ceiling: the point of its edge whose direction has that azimuth, the lowest in
 * the sky if the meridian crosses twice. A direction that no edge point has, but whose horizon lies on the ceiling, stands
 * there; one that is not on the ceiling at all is left out.
 */
export function compassMarks(view: View, widthMm: number, lengthMm: number): CompassMark[] {
  const corners = [
    [0, 0],
    [widthMm, 0],
    [widthMm, lengthMm],
    [0, lengthMm],
    [0, 0],
  ] as const;
  const pointAt = (t: number) => {
    const side = Math.min(3, Math.floor(t));
    const [x0, y0] = corners[side]!;
    const [x1, y1] = corners[side + 1]!;
    return { xMm: x0 + (x1 - x0) * (t - side), yMm: y0 + (y1 - y0) * (t - side) };
  };
  /** Sine-like measure of azimuth against a bearing: zero on the meridian, and its cosine side. */
  const against = (t: number, bearingRad: number) => {
    const direction = view.unproject(pointAt(t));
    if (direction === null) return null;
    const [e, n, u] = direction;
    return {
      across: e * Math.cos(bearingRad) - n * Math.sin(bearingRad),
      along: e * Math.sin(bearingRad) + n * Math.cos(bearingRad),
      up: u,
    };
  };

  const marks: CompassMark[] = [];
  for (const [letter, bearingDeg] of LETTERS) {
    const bearing = (bearingDeg * Math.PI) / 180;
    let best: { t: number; up: number } | null = null;
    for (let step = 0; step < 4 * STEPS_A_SIDE; step++) {
      let from = step / STEPS_A_SIDE;
      let to = (step + 1) / STEPS_A_SIDE;
      const a = against(from, bearing);
      const b = against(to, bearing);
      if (!a || !b || a.across > 0 === b.across > 0 || a.along + b.along <= 0) continue;
      for (let halving = 0; halving < 40; halving++) {
        const middle = (from + to) / 2;
        if (against(middle, bearing)!.across > 0 === a.across > 0) from = middle;
        else to = middle;
      }
      const up = against(from, bearing)!.up;
      if (best === null || up < best.up) best = { t: from, up };
    }
    if (best !== null && best.up > HIGHEST_MARK_UP && !view.aimedAtZenith) continue;
    const at = best === null ? view.projectOne(directionOf(0, bearingDeg)) : pointAt(best.t);
    if (at && at.xMm >= 0 && at.xMm <= widthMm && at.yMm >= 0 && at.yMm <= lengthMm)
      marks.push({ letter, ...at });
  }
  return marks;
}
