import type { Font } from "./font.ts";
import { type Label, looseLabel } from "./label.ts";
import { type LabelRoom, movedBy, toPicture } from "./labelRoom.ts";
import { crossings } from "./placeNames.ts";
import type { PreviewName, PreviewScene } from "./previewScene.ts";

/** Furthest that a name may stand from the middle of its figure, in units: further off it might be read as another's. */
const farthest = 14;

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
  for (let down = -farthest; down <= farthest; down++)
    for (let right = -farthest; right <= farthest; right++) {
      const off = Math.hypot(right, down);
      if (off > farthest || off * 0.25 >= bestCost) continue;
      const at = { x: first.x + right * unitMm, y: first.y + down * unitMm };
      const box = movedBy(ink, at.x, at.y);
      if (!room.isFree(box)) continue;
      const cost =
        off * 0.25 +
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
