import { type KeepOut, type Shape, shapeBox } from "../panel/keepOuts.ts";
import { wallToward } from "../panel/walls.ts";
import type { WallSide } from "../plan/plan.ts";
import { dimensionText } from "./ceilingChains.ts";
import type { CeilingScene } from "./ceilingScene.ts";

/** How far a keep-out lies from a wall: to its nearest edge, or to its centre if it is round. Ceiling frame. */
export interface KeepOutDimension {
  readonly wall: WallSide;
  /** Of the wall. */
  readonly name: string;
  readonly mm: number;
  /** Measured along this axis, from the wall to the keep-out. */
  readonly axis: "x" | "y";
  readonly fromMm: number;
  readonly toMm: number;
  /** Where on the other axis the keep-out has the point that is measured to. */
  readonly onShape: readonly [number, number];
}

/** From the nearer side wall, and from the nearer of the other two; along the panels' sides, where a wall slants. */
export function keepOutDimensions({ shape }: KeepOut, scene: CeilingScene): readonly KeepOutDimension[] {
  const box = shapeBox(shape);
  return (["x", "y"] as const).flatMap((axis) => {
    const [low, size, sides] =
      axis === "x"
        ? ([box.xMm, box.widthMm, ["left", "right"]] as const)
        : ([box.yMm, box.lengthMm, ["bottom", "top"]] as const);
    const ways = sides.flatMap((side, far): KeepOutDimension[] => {
      const toMm = "at" in shape ? low + size / 2 : far ? low + size : low;
      const onShape = whereAt(shape, axis, toMm);
      const across = (onShape[0] + onShape[1]) / 2;
      const met =
        axis === "x"
          ? wallToward(scene.room, side, toMm, across)
          : wallToward(scene.room, side, across, toMm);
      if (met === null) return [];
      // Off a slanting wall the figure holds on one line alone.
      const line: readonly [number, number] = scene.isRoomRectangle ? onShape : [across, across];
      const fromMm = toMm + (far ? met.way : -met.way);
      return [{ wall: side, name: met.wall.name, mm: met.way, axis, fromMm, toMm, onShape: line }];
    });
    return ways.sort((a, b) => a.mm - b.mm).slice(0, 1);
  });
}

function whereAt(shape: Shape, axis: "x" | "y", valueMm: number): readonly [number, number] {
  if ("at" in shape) {
    const across = shape.at[axis === "x" ? 1 : 0];
    return [across, across];
  }
  const [measured, other] = axis === "x" ? [0, 1] : [1, 0];
  const there = shape.ring
    .filter((corner) => Math.abs(corner[measured]! - valueMm) < 0.01)
    .map((corner) => corner[other]!);
  return [Math.min(...there), Math.max(...there)];
}

export function sizeText(shape: Shape): string {
  if ("at" in shape) return `Ø ${dimensionText(2 * shape.radiusMm)}`;
  const { widthMm, lengthMm } = shapeBox(shape);
  return `${dimensionText(widthMm)} × ${dimensionText(lengthMm)}`;
}

/** Straight pieces at 45 degrees that fill a shape, at whole multiples of the pitch, so that neighbours' hatching meets. */
export function hatching(shape: Shape, pitchMm: number): (readonly [number, number, number, number])[] {
  const box = shapeBox(shape);
  const pieces: (readonly [number, number, number, number])[] = [];
  const stepMm = pitchMm * Math.SQRT2; // along X, from line to line
  // The lines y - x = c.
  const first = Math.ceil((box.yMm - box.xMm - box.widthMm) / stepMm);
  const last = Math.floor((box.yMm + box.lengthMm - box.xMm) / stepMm);
  for (let k = first; k <= last; k++) {
    const c = k * stepMm;
    const crossings = "at" in shape ? circleCrossings(shape, c) : ringCrossings(shape.ring, c);
    for (let i = 0; i + 1 < crossings.length; i += 2) {
      const [a, b] = [crossings[i]!, crossings[i + 1]!];
      if (b > a) pieces.push([a, a + c, b, b + c]);
    }
  }
  return pieces;
}

/** x where the line y = x + c meets the outline, ascending. */
function ringCrossings(ring: readonly (readonly [number, number])[], c: number): number[] {
  const xs: number[] = [];
  ring.forEach(([ax, ay], i) => {
    const [bx, by] = ring[(i + 1) % ring.length]!;
    const [da, db] = [ay - ax - c, by - bx - c];
    if (da > 0 !== db > 0) xs.push(ax + ((bx - ax) * da) / (da - db));
  });
  return xs.sort((a, b) => a - b);
}

function circleCrossings(
  { at: [x, y], radiusMm }: { readonly at: readonly [number, number]; readonly radiusMm: number },
  c: number,
): number[] {
  const off = (y - x - c) / 2;
  const half = radiusMm ** 2 / 2 - off ** 2;
  if (half <= 0) return [];
  const root = Math.sqrt(half);
  return [x + off - root, x + off + root];
}
