import type { Font } from "./font.ts";
import { type Label, looseLabel } from "./label.ts";
import { type LabelRoom, movedBy, toPicture } from "./labelRoom.ts";
import { crossings } from "./placeNames.ts";
import type { PreviewName, PreviewScene } from "./previewScene.ts";

/** Furthest that a name may stand from the middle of its figure, in units: further off it might be read as another's. */
const farthest = 14;
const COST_A_UNIT = 0.25;

/** Steps of a unit from the middle, the nearest first. */
const seats = Array.from({ length: (2 * farthest + 1) ** 2 }, (_, i) => {
  const right = (i % (2 * farthest + 1)) - farthest;
  const down = Math.floor(i / (2 * farthest + 1)) - farthest;
  return { right, down, off: Math.hypot(right, down) };
})
  .filter(({ off }) => off <= farthest)
  .sort((a, b) => a.off - b.off);

/** A constellation's name as near the middle of its figure as stars and lines leave room; null if they leave none. */
export function placeConstellation(
  scene: PreviewScene,
  font: Font,
  name: PreviewName,
  room: LabelRoom,
  unitMm: number,
): Label | null {
  const loose = looseLabel(font, "constellation", name.text, unitMm);
  const { ink } = loose;
  const middle = toPicture(scene, name);
  const first = {
    x: middle.x - (ink.leftMm + ink.rightMm) / 2,
    y: middle.y - (ink.topMm + ink.bottomMm) / 2,
  };
  let best: { x: number; y: number } | null = null;
  let bestCost = Number.POSITIVE_INFINITY;
  for (const { right, down, off } of seats) {
    if (off * COST_A_UNIT >= bestCost) break;
    const at = { x: first.x + right * unitMm, y: first.y + down * unitMm };
    const box = movedBy(ink, at.x, at.y);
    if (!room.isFree(box)) continue;
    const cost =
      off * COST_A_UNIT +
      2 * room.faintDotsUnder(box) +
      1.5 * crossings(room, box) +
      room.namedDotsBeside(box) / 2;
    if (cost < bestCost) [best, bestCost] = [at, cost];
  }
  if (!best) return null;
  const label = loose.at(best.x, best.y);
  room.take(label.ink);
  return label;
}
