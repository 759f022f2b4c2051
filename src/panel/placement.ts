import Flatbush from "flatbush";
import type { PointMm } from "../projection/frames.ts";
import type { Panel, RectangleMm } from "./panels.ts";

/**
 * Places are cut lists' hundredths: a legal area is drawn in to whole hundredths of the face frame, so that a hole
 * written with two decimals is as legal as the hole itself.
 */
const STEP_MM = 0.01;
const TINY = 1e-9;

/**
 * Where on a panel a bit may go: its rim at least `edgeMm` from the board's outline.
 * @returns a rectangle in the ceiling frame for the hole's centre, or null when the margins leave none
 */
export function legalArea(panel: Panel, bitMm: number, edgeMm: number): RectangleMm | null {
  const { board } = panel;
  const margin = edgeMm + bitMm / 2;
  const inward = (low: number, high: number): [number, number] => [
    Math.ceil(low / STEP_MM - TINY) * STEP_MM,
    Math.floor(high / STEP_MM + TINY) * STEP_MM,
  ];
  const [left, right] = inward(margin, board.widthMm - margin);
  const [bottom, top] = inward(margin, board.lengthMm - margin);
  if (right < left || top < bottom) return null;
  return { xMm: board.xMm + left, yMm: board.yMm + bottom, widthMm: right - left, lengthMm: top - bottom };
}

export interface Place extends PointMm {
  readonly panel: number;
  /** Distance from the true point. */
  readonly shiftMm: number;
}

const clamp = (value: number, from: number, span: number): number =>
  Math.min(Math.max(value, from), from + span);

const covers = ({ finished }: Panel, xMm: number, yMm: number): boolean =>
  xMm >= finished.xMm &&
  xMm <= finished.xMm + finished.widthMm &&
  yMm >= finished.yMm &&
  yMm <= finished.yMm + finished.lengthMm;

/** Finds legal places on a fixed set of panels. */
export interface Placer {
  /** The panel a point falls on (of two that touch there, the first); -1 over a gap or the perimeter. */
  panelAt(xMm: number, yMm: number): number;
  /**
   * The legal place for a bit nearest to a true point: on its own panel if it falls on one, else on any.
   * Null when no panel that may take it has a legal area for this bit; the caller compares `shiftMm` with its limit.
   */
  nearestPlace(xMm: number, yMm: number, bitMm: number): Place | null;
}

/** Up to so many panels a look at each is quicker than an index, above all at the start of a run. */
const FEW_PANELS = 24;

export function makePlacer(panels: readonly Panel[], edgeMm: number): Placer {
  const areasByBit = new Map<number, LegalAreas>();
  const areasFor = (bitMm: number): LegalAreas => {
    let areas = areasByBit.get(bitMm);
    if (!areas) {
      areas = legalAreas(panels, bitMm, edgeMm);
      areasByBit.set(bitMm, areas);
    }
    return areas;
  };

  const outlines = panels.length > FEW_PANELS ? indexOf(panels.map((panel) => panel.finished)) : null;
  const panelAt = (xMm: number, yMm: number): number => {
    if (outlines)
      return outlines
        .search(xMm, yMm, xMm, yMm)
        .reduce((first, i) => (first < 0 || i < first ? i : first), -1);
    for (let i = 0; i < panels.length; i++) if (covers(panels[i]!, xMm, yMm)) return i;
    return -1;
  };
  const placeOn = (panel: number, area: RectangleMm, trueX: number, trueY: number): Place => {
    const xMm = clamp(trueX, area.xMm, area.widthMm);
    const yMm = clamp(trueY, area.yMm, area.lengthMm);
    return { panel, xMm, yMm, shiftMm: Math.hypot(xMm - trueX, yMm - trueY) };
  };
  return {
    panelAt,
    nearestPlace(trueX, trueY, bitMm) {
      const own = panelAt(trueX, trueY);
      const { areas, index, open } = areasFor(bitMm);
      if (own >= 0) return areas[own] ? placeOn(own, areas[own], trueX, trueY) : null;
      const candidates = index ? index.neighbors(trueX, trueY, 1).map((i) => open[i]!) : open;
      let nearest: Place | null = null;
      for (const panel of candidates) {
        const place = placeOn(panel, areas[panel]!, trueX, trueY);
        if (nearest === null || place.shiftMm < nearest.shiftMm) nearest = place;
      }
      return nearest;
    },
  };
}

interface LegalAreas {
  /** By panel; null where the margins leave none. */
  readonly areas: readonly (RectangleMm | null)[];
  /** Panels that have one. */
  readonly open: readonly number[];
  /** Over the areas of `open`, when they are many. */
  readonly index: Flatbush | null;
}

function legalAreas(panels: readonly Panel[], bitMm: number, edgeMm: number): LegalAreas {
  const areas = panels.map((panel) => legalArea(panel, bitMm, edgeMm));
  const open = areas.flatMap((area, i) => (area ? [i] : []));
  return { areas, open, index: open.length > FEW_PANELS ? indexOf(open.map((i) => areas[i]!)) : null };
}

function indexOf(rectangles: readonly RectangleMm[]): Flatbush {
  const index = new Flatbush(rectangles.length);
  for (const { xMm, yMm, widthMm, lengthMm } of rectangles)
    index.add(xMm, yMm, xMm + widthMm, yMm + lengthMm);
  index.finish();
  return index;
}
