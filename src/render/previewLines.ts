import { inCeilingFrame, type PointMm } from "../projection/frames.ts";
import { boundaryLines, type FigureLine, figureLines, type LinesOver } from "../projection/skyLines.ts";
import { makeCanvas } from "../projection/trace.ts";
import type { View } from "../projection/view.ts";
import type { PlannedSky } from "../schedule/makeSchedule.ts";
import type { Schedule } from "../schedule/types.ts";
import { apparentDirection, equatorialVector } from "../sky/apparent.ts";
import type { BoundaryArc } from "../sky/boundaries.ts";
import { constellationFigures } from "../sky/figures.ts";
import { normalise, type Vector3 } from "../sky/matrix.ts";
import type { SkyData } from "../sky/skyData.ts";
import type { PreviewLines, PreviewName } from "./previewScene.ts";

/** Which lines to draw. */
export interface LineChoice {
  readonly figures: boolean;
  /** The arcs of data/boundaries.tsv; none when missing. */
  readonly boundaries?: readonly BoundaryArc[];
}

/** The lines of the sky that a schedule was made for. */
export function previewLines(
  schedule: Schedule,
  { observer, field }: PlannedSky,
  sky: SkyData,
  choice: LineChoice,
): PreviewLines {
  const plan = inCeilingFrame(schedule.plan);
  const over: LinesOver = {
    observer,
    refraction: plan.show.refraction,
    canvas: makeCanvas(field.view, plan.ceiling, plan.show.belowHorizon),
  };
  const figures = choice.figures ? constellationFigures(sky.catalogue) : [];
  const lines = figureLines(figures, sky, over, dots(schedule));
  return {
    figures: lines.flatMap(({ chains }) => chains),
    boundaries: choice.boundaries ? boundaryLines(choice.boundaries, over) : [],
    constellations: constellationNames(lines, sky, over, choice.boundaries !== undefined),
  };
}

/** The hole that shows a star: its own, or the one that it is merged into. */
function dots({ holes }: Schedule): (hip: number) => PointMm | undefined {
  const byHip = new Map<number, PointMm>();
  for (const { hip, merged, ceilingXMm: xMm, ceilingYMm: yMm } of holes)
    for (const each of [hip, ...merged]) if (each !== null) byHip.set(each, { xMm, yMm });
  return (hip) => byHip.get(hip);
}

/** Mean direction of what is seen of a figure: on the sphere, since a figure about the nadir may run along the whole rim of a map. */
interface Middle {
  readonly code: string;
  sum: Vector3;
  length: number;
}

/**
 * Latin names: at the middle of what is seen of a figure, or of each part of one in several parts, the longest first; with
 * boundaries also those without a figure, at the middle of their area, where that lies on the ceiling.
 */
function constellationNames(
  lines: readonly FigureLine[],
  sky: SkyData,
  { canvas, observer }: LinesOver,
  withAreas: boolean,
): PreviewName[] {
  const middleOf = new Map<number, Middle>();
  for (const { code, hips, chains } of lines) {
    // Edges come as their tree grew: an edge whose first star is new begins another part.
    const middle = middleOf.get(hips[0]) ?? { code, sum: [0, 0, 0], length: 0 };
    for (const hip of hips) middleOf.set(hip, middle);
    for (const chain of chains) addChain(middle, chain, canvas.view);
  }
  const middles = [...new Set(middleOf.values())].filter(({ length }) => length > 0);
  const names: PreviewName[] = [];
  const nameAt = (code: string, direction: Vector3): void => {
    const at = canvas.view.projectOne(direction);
    if (at && at.xMm >= 0 && at.xMm <= canvas.widthMm && at.yMm >= 0 && at.yMm <= canvas.lengthMm)
      names.push({ text: sky.constellations.find(code)!.name, ...at });
  };
  for (const { code, sum } of middles.sort((a, b) => b.length - a.length)) nameAt(code, normalise(sum));
  if (!withAreas) return names;
  const named = new Set(middles.map(({ code }) => code));
  for (const { code, raHours, decDeg } of sky.constellations.all) {
    const direction = apparentDirection(equatorialVector(raHours * 15, decDeg), observer);
    if (!named.has(code) && direction[2] > canvas.lowestUp) nameAt(code, direction);
  }
  return names;
}

function addChain(middle: Middle, chain: readonly PointMm[], view: View): void {
  for (let i = 1; i < chain.length; i++) {
    const [a, b] = [view.unproject(chain[i - 1]!), view.unproject(chain[i]!)];
    if (a === null || b === null) continue; // moved off the map with its star's hole
    const length = Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]);
    middle.length += length;
    const [x, y, z] = middle.sum;
    const half = length / 2;
    middle.sum = [x + half * (a[0] + b[0]), y + half * (a[1] + b[1]), z + half * (a[2] + b[2])];
  }
}
