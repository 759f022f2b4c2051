import { commonAreaMm2 } from "./clip.ts";
import { ringOf } from "./keepOutFaults.ts";
import { shapeHolds } from "./keepOuts.ts";
import { distanceToRing } from "./rings.ts";
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
    const edges = (frame?.screws ?? []).map(([x, y]) => distanceToRing(boardRing, x, y));
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

/** A keep-out that runs into what is glued behind a board. */
export interface FrameMeeting {
  readonly panel: string;
  readonly keepOut: string;
  /** `edge batten`, `cross batten 2` and so on. */
  readonly meets: readonly string[];
}

export function frameMeetings(panels: readonly WorkPanel[]): FrameMeeting[] {
  return panels.flatMap(({ id, frame, keepOuts }) =>
    keepOuts.flatMap(({ id: keepOut, shape }): FrameMeeting[] => {
      const ring = ringOf(shape);
      const battens = (frame?.battens ?? [])
        .filter((batten) => commonAreaMm2(batten.ring, ring) > 0)
        .map(({ kind }) => (kind === "extra" ? "added batten" : `${kind} batten`));
      const count = (points: readonly (readonly [number, number])[], one: string) => {
        const held = points.filter(([x, y]) => shapeHolds(shape, x, y)).length;
        return held === 0 ? [] : [held === 1 ? `a ${one}` : `${held} ${one}s`];
      };
      const meets = [
        ...new Set(
          battens.map((name) =>
            battens.filter((other) => other === name).length > 1 ? `${name}s` : `its ${name}`,
          ),
        ),
        ...count(frame?.screws ?? [], "screw"),
        ...count(frame?.hangers ?? [], "hanging point"),
      ];
      return meets.length === 0 ? [] : [{ panel: id, keepOut, meets }];
    }),
  );
}
