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

export function makePlacer(panels: readonly Panel[], edgeMm: number): Placer {
  const areasByBit = new Map<number, (RectangleMm | null)[]>();
  const areasFor = (bitMm: number): (RectangleMm | null)[] => {
    let areas = areasByBit.get(bitMm);
    if (!areas) {
      areas = panels.map((panel) => legalArea(panel, bitMm, edgeMm));
      areasByBit.set(bitMm, areas);
    }
    return areas;
  };

  const panelAt = (xMm: number, yMm: number): number => {
    for (let i = 0; i < panels.length; i++) if (covers(panels[i]!, xMm, yMm)) return i;
    return -1;
  };
  return {
    panelAt,
    nearestPlace(trueX, trueY, bitMm) {
      const own = panelAt(trueX, trueY);
      const areas = areasFor(bitMm);
      let nearest: Place | null = null;
      for (const [panel, area] of areas.entries()) {
        if (!area || (own >= 0 && panel !== own)) continue;
        const xMm = clamp(trueX, area.xMm, area.widthMm);
        const yMm = clamp(trueY, area.yMm, area.lengthMm);
        const shiftMm = Math.hypot(xMm - trueX, yMm - trueY);
        if (nearest === null || shiftMm < nearest.shiftMm) nearest = { panel, xMm, yMm, shiftMm };
      }
      return nearest;
    },
  };
}
