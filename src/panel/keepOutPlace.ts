import type { Plan, WallSide } from "../plan/plan.ts";
import { type KeepOut, keepOutsOf, type Shape, shapeBox } from "./keepOuts.ts";
import { offWallMm, type Wall, wallsOf, wallToward } from "./walls.ts";

/** Where a keep-out is, as one measures it in the room. */
export interface KeepOutPlace {
  readonly keepOut: KeepOut;
  /** From two walls at right angles, the nearer of each pair, square to them: from a circle's centre, from the nearest corner of others. */
  readonly from: readonly { readonly wall: Wall; readonly mm: number }[];
}

/** @param plan positions in the ceiling frame */
export function keepOutPlaces(plan: Plan): KeepOutPlace[] {
  const walls = wallsOf(plan);
  return keepOutsOf(plan.keepOut).map((keepOut) => {
    const nearer = (pair: readonly [WallSide, WallSide]) =>
      pair
        .flatMap((side) => fromWall(keepOut.shape, walls, side))
        .sort((a, b) => a.mm - b.mm)
        .slice(0, 1);
    return { keepOut, from: [...nearer(["top", "bottom"]), ...nearer(["left", "right"])] };
  });
}

function fromWall(shape: Shape, walls: readonly Wall[], side: WallSide): { wall: Wall; mm: number }[] {
  const { xMm, yMm, widthMm, lengthMm } = shapeBox(shape);
  const wall = wallToward(walls, side, xMm + widthMm / 2, yMm + lengthMm / 2)?.wall;
  if (wall === undefined) return [];
  const points = "at" in shape ? [shape.at] : shape.ring;
  return [{ wall, mm: Math.min(...points.map(([x, y]) => offWallMm(wall, x, y))) }];
}
