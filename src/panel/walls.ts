import { pointText } from "../plan/mmWords.ts";
import type { Plan, WallSide } from "../plan/plan.ts";
import { boxOf, counterClockwise, type Ring, rectangleRing } from "./rings.ts";

/** One straight piece of the room's walls, ceiling frame; the room lies on its left. */
export interface Wall {
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  /** Which way it stands, seen from below. */
  readonly side: WallSide;
  /** Words for a person: its name in the plan, its side, or its ends where the side has several. */
  readonly name: string;
}

/** The room's outline: that of the plan, or its rectangle. @param plan positions in the ceiling frame */
export const roomRing = ({ ceiling }: Plan): Ring =>
  counterClockwise(
    ceiling.outline ?? rectangleRing({ xMm: 0, yMm: 0, widthMm: ceiling.width, lengthMm: ceiling.length }),
  );

const span = ({ from, to }: Pick<Wall, "from" | "to">) => Math.hypot(to[0] - from[0], to[1] - from[1]);

/**
 * The walls of a room, counter-clockwise. Of several that stand the same way the longest of those that reach the bounding rectangle
 * has the side's name; the others are named by their ends.
 * @param plan positions in the ceiling frame
 */
export function wallsOf(plan: Plan): Wall[] {
  const ring = roomRing(plan);
  const box = boxOf(ring);
  const bare = ring.map((from, i) => {
    const to = ring[(i + 1) % ring.length]!;
    const [nx, ny] = [-(to[1] - from[1]), to[0] - from[0]];
    const side: WallSide =
      Math.abs(nx) > Math.abs(ny) ? (nx > 0 ? "left" : "right") : ny > 0 ? "bottom" : "top";
    const reach = Math.min(...[from, to].map((end) => offRectangle(side, end, box)));
    return { from, to, side, reach };
  });
  return bare.map((wall) => {
    const alike = bare.filter((other) => other.side === wall.side);
    const outermost = Math.min(...alike.map(({ reach }) => reach));
    const [main] = alike.filter(({ reach }) => reach <= outermost + 1e-6).sort((a, b) => span(b) - span(a));
    const { from, to, side } = wall;
    const ends = `${side} wall from ${pointText(from)} to ${pointText(to)}`;
    return { from, to, side, name: wall === main ? (plan.walls[side] ?? `${side} wall`) : ends };
  });
}

function offRectangle(
  side: WallSide,
  [x, y]: readonly [number, number],
  { xMm, yMm, widthMm, lengthMm }: ReturnType<typeof boxOf>,
): number {
  if (side === "left") return x - xMm;
  if (side === "right") return xMm + widthMm - x;
  return side === "bottom" ? y - yMm : yMm + lengthMm - y;
}

/** Square to the wall's line, positive on the room's side. */
export function offWallMm({ from, to }: Pick<Wall, "from" | "to">, x: number, y: number): number {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  return ((x - from[0]) * -dy + (y - from[1]) * dx) / Math.hypot(dx, dy);
}

const WAY: Readonly<Record<WallSide, readonly [number, number]>> = {
  left: [-1, 0],
  right: [1, 0],
  bottom: [0, -1],
  top: [0, 1],
};

/** The wall that one meets first from a point of the room, going straight toward a side, and how far it is; null from outside the room. */
export function wallToward(
  walls: readonly Wall[],
  side: WallSide,
  x: number,
  y: number,
): { readonly wall: Wall; readonly way: number } | null {
  const [wx, wy] = WAY[side];
  let nearest: { wall: Wall; way: number } | null = null;
  for (const wall of walls) {
    const [dx, dy] = [wall.to[0] - wall.from[0], wall.to[1] - wall.from[1]];
    const cross = wx * dy - wy * dx;
    if (cross === 0) continue;
    const [px, py] = [wall.from[0] - x, wall.from[1] - y];
    const way = (px * dy - py * dx) / cross;
    const along = (px * wy - py * wx) / cross;
    if (way < -1e-9 || along < 0 || along > 1) continue;
    if (nearest === null || way < nearest.way) nearest = { wall, way };
  }
  return nearest;
}
