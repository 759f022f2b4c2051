import { shapeHolds } from "./keepOuts.ts";
import { distanceToRing, ringHolds } from "./rings.ts";
import type { WorkPanel } from "./work.ts";

/** From a screw in the face of MDF to the board's edge and to its corners: mdf-info.eu (European makers of MDF). */
export const SCREW_EDGE_MM = 12;
export const SCREW_CORNER_MM = 25;

/** Screws of a panel that sit nearer than the makers of MDF advise. */
export interface WeakScrews {
  readonly panel: string;
  readonly nearEdge: number;
  readonly leastEdgeMm: number;
  readonly nearCorner: number;
  readonly leastCornerMm: number;
}

export function weakScrews(panels: readonly WorkPanel[]): WeakScrews[] {
  return panels.flatMap(({ id, boardRing, frame }): WeakScrews[] => {
    const edges = (frame?.screws ?? []).map(
      ([x, y]) => (ringHolds(boardRing, x, y) ? 1 : -1) * distanceToRing(boardRing, x, y),
    );
    const corners = (frame?.screws ?? []).map(([x, y]) =>
      Math.min(...boardRing.map(([cx, cy]) => Math.hypot(x - cx, y - cy))),
    );
    const under = (all: readonly number[], least: number) => all.filter((mm) => mm < least - 0.005).length;
    const [nearEdge, nearCorner] = [under(edges, SCREW_EDGE_MM), under(corners, SCREW_CORNER_MM)];
    if (nearEdge + nearCorner === 0) return [];
    return [
      {
        panel: id,
        nearEdge,
        leastEdgeMm: Math.min(...edges),
        nearCorner,
        leastCornerMm: Math.min(...corners),
      },
    ];
  });
}

/** Fixings of a panel that a keep-out has the place of. */
export interface LostFixings {
  readonly panel: string;
  readonly keepOut: string;
  readonly screws: number;
  readonly hangers: number;
}

export function lostFixings(panels: readonly WorkPanel[]): LostFixings[] {
  return panels.flatMap(({ id, frame, keepOuts }) =>
    keepOuts.flatMap(({ id: keepOut, shape }): LostFixings[] => {
      const under = (points: readonly (readonly [number, number])[] = []) =>
        points.filter(([x, y]) => shapeHolds(shape, x, y)).length;
      const [screws, hangers] = [under(frame?.screws), under(frame?.hangers)];
      return screws + hangers === 0 ? [] : [{ panel: id, keepOut, screws, hangers }];
    }),
  );
}
