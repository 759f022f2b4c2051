import type { Font, InkBox } from "./font.ts";
import { type Label, looseLabel } from "./label.ts";
import { type DotDiscs, type LabelRoom, movedBy, type PicturePoint, toPicture } from "./labelRoom.ts";
import { labelSize } from "./labelStyle.ts";
import type { PreviewName, PreviewScene } from "./previewScene.ts";

/** Around the dot: the side that the word lies on (-1 left or above, 0 centred, 1 right or below) and what that costs. */
const seats: readonly {
  readonly h: -1 | 0 | 1;
  readonly v: -1 | -0.5 | 0 | 0.5 | 1;
  readonly cost: number;
}[] = [
  { h: 1, v: 0, cost: 0 },
  { h: -1, v: 0, cost: 0.6 },
  { h: 1, v: -0.5, cost: 0.8 },
  { h: 1, v: 0.5, cost: 0.8 },
  { h: -1, v: -0.5, cost: 1.2 },
  { h: -1, v: 0.5, cost: 1.2 },
  { h: 1, v: -1, cost: 1.6 },
  { h: 1, v: 1, cost: 1.7 },
  { h: -1, v: -1, cost: 2 },
  { h: -1, v: 1, cost: 2.1 },
  { h: 0, v: -1, cost: 2.4 },
  { h: 0, v: 1, cost: 2.4 },
];

/** What it costs a word to lie on a seam or on a figure. */
export const crossings = (room: LabelRoom, box: InkBox): number =>
  (room.crossesSeam(box) ? 2 : 0) + (room.crossesFigure(box) ? 2 : 0);

/** A name beside its dot, where it hides least; null if every place around the dot is taken. */
export function placeName(
  scene: PreviewScene,
  font: Font,
  name: PreviewName,
  discs: DotDiscs,
  room: LabelRoom,
  unitMm: number,
): Label | null {
  const point = toPicture(scene, name);
  const loose = looseLabel(font, "name", name.text, unitMm);
  const { ink } = loose;
  const clearMm = discs.radiusMmAt(name) + 0.8 * unitMm;
  const halfCapMm = (font.capHeightEm * labelSize.name * unitMm) / 2;
  let best: PicturePoint | null = null;
  let bestCost = Number.POSITIVE_INFINITY;
  for (const seat of seats) {
    const diagonal = seat.h !== 0 && Math.abs(seat.v) === 1;
    const offMm = diagonal ? clearMm * Math.SQRT1_2 : clearMm;
    const x =
      seat.h === 1
        ? point.x + offMm - ink.leftMm
        : seat.h === -1
          ? point.x - offMm - ink.rightMm
          : point.x - (ink.leftMm + ink.rightMm) / 2;
    const y =
      seat.v === 1
        ? point.y + offMm - ink.topMm
        : seat.v === -1
          ? point.y - offMm - ink.bottomMm
          : point.y + halfCapMm + seat.v * 2 * halfCapMm;
    const box = movedBy(ink, x, y);
    if (!room.isFree(box)) continue;
    const cost = seat.cost + 2.5 * room.faintDotsUnder(box) + crossings(room, box);
    if (cost < bestCost) [best, bestCost] = [{ x, y }, cost];
  }
  if (!best) return null;
  const label = loose.at(best.x, best.y);
  room.take(label.ink);
  return label;
}
