import type { Plan } from "../plan/plan.ts";
import type { Panel } from "./panels.ts";
import { boxOf, type Ring } from "./rings.ts";
import { offWallMm, type Wall, wallsOf } from "./walls.ts";

/** How wide the strip between one wall and the panels is, square to the wall. */
export interface WallGap {
  readonly wall: Wall;
  /** At the ends of the panels' front that are nearer to the wall's left or lower end, and to its right or upper end. */
  readonly fromMm: number;
  readonly toMm: number;
}

/**
 * The perimeter along each wall that has panels in front of it, whose front is taken as the straight side of all the
 * panels' common rectangle.
 * @param plan positions in the ceiling frame
 */
export function perimeterOf(plan: Plan, panels: readonly Panel[]): WallGap[] {
  const { xMm, yMm, widthMm, lengthMm } = boxOf(panels.flatMap(({ finishedRing }) => [...finishedRing]));
  const [right, top] = [xMm + widthMm, yMm + lengthMm];
  const fronts: Readonly<Record<Wall["side"], Ring>> = {
    bottom: [
      [xMm, yMm],
      [right, yMm],
    ],
    top: [
      [xMm, top],
      [right, top],
    ],
    left: [
      [xMm, yMm],
      [xMm, top],
    ],
    right: [
      [right, yMm],
      [right, top],
    ],
  };
  return wallsOf(plan).flatMap((wall): WallGap[] => {
    const [a, b] = fronts[wall.side] as readonly [readonly [number, number], readonly [number, number]];
    const [fromMm, toMm] = [offWallMm(wall, ...a), offWallMm(wall, ...b)];
    return faces(wall, a, b) && Math.min(fromMm, toMm) > -0.01 ? [{ wall, fromMm, toMm }] : [];
  });
}

/** True when the front and the wall have some of their length opposite each other. */
function faces({ from, to }: Wall, a: readonly [number, number], b: readonly [number, number]): boolean {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const span = Math.hypot(dx, dy);
  const along = ([x, y]: readonly [number, number]) => ((x - from[0]) * dx + (y - from[1]) * dy) / span;
  return Math.min(Math.max(along(a), along(b)), span) - Math.max(Math.min(along(a), along(b)), 0) > 1;
}
