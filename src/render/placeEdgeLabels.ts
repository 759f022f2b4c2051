import type { Font } from "./font.ts";
import { type Label, looseLabel } from "./label.ts";
import { type LabelRoom, movedBy, type PicturePoint, toPicture } from "./labelRoom.ts";
import { labelSize, tickLength } from "./labelStyle.ts";
import type { CompassMark, PreviewScene } from "./previewScene.ts";

/** Distance of the middle of compass letters and wall names from the border, in units. */
const middleDepth = tickLength + 0.9 + labelSize.compass / 2.8;

type Wall = "top" | "right" | "bottom" | "left";

/** Unit vector into the picture from each wall, y down. */
const inward: Readonly<Record<Wall, PicturePoint>> = {
  top: { x: 0, y: 1 },
  right: { x: -1, y: 0 },
  bottom: { x: 0, y: -1 },
  left: { x: 1, y: 0 },
};

export interface Tick {
  readonly from: PicturePoint;
  readonly to: PicturePoint;
}

/** A compass letter inside the border, with a tick at the very point; it steps aside along the wall for a bright star. */
export function placeCompassMark(
  scene: PreviewScene,
  font: Font,
  mark: CompassMark,
  room: LabelRoom,
  unitMm: number,
): { label: Label; tick: Tick } {
  const point = toPicture(scene, mark);
  const wall = nearestWall(scene, point);
  const into = inward[wall];
  const loose = looseLabel(font, "compass", mark.letter, unitMm);
  const halfWidthMm = (loose.ink.rightMm - loose.ink.leftMm) / 2;
  const halfHeightMm = (loose.ink.bottomMm - loose.ink.topMm) / 2;
  const within = (value: number, halfMm: number, sideMm: number): number =>
    Math.min(sideMm - halfMm - 1.5 * unitMm, Math.max(halfMm + 1.5 * unitMm, value));
  const place = (aside: number): { x: number; y: number } => {
    const x = point.x + into.x * middleDepth * unitMm + (into.x === 0 ? aside * unitMm : 0);
    const y = point.y + into.y * middleDepth * unitMm + (into.y === 0 ? aside * unitMm : 0);
    const middle = { x: within(x, halfWidthMm, scene.widthMm), y: within(y, halfHeightMm, scene.lengthMm) };
    return {
      x: middle.x - halfWidthMm - loose.ink.leftMm,
      y: middle.y + halfHeightMm - loose.ink.bottomMm,
    };
  };
  const free = [0, 1, -1, 2, -2, 3, -3, 4, -4, 5, -5].find((aside) => {
    const at = place(aside);
    return room.isFree(movedBy(loose.ink, at.x, at.y));
  });
  const at = place(free ?? 0); // a compass letter is never left out: it tells which way to hang the panels
  const label = loose.at(at.x, at.y);
  room.take(label.ink);
  const lengthMm = tickLength * unitMm;
  return {
    label,
    tick: { from: point, to: { x: point.x + into.x * lengthMm, y: point.y + into.y * lengthMm } },
  };
}

function nearestWall(scene: PreviewScene, { x, y }: PicturePoint): Wall {
  const distanceMm: Record<Wall, number> = {
    top: y,
    bottom: scene.lengthMm - y,
    left: x,
    right: scene.widthMm - x,
  };
  return (Object.keys(distanceMm) as Wall[]).reduce((best, wall) =>
    distanceMm[wall] < distanceMm[best] ? wall : best,
  );
}

/**
 * A wall's name along that wall, as near its middle as there is room; null if there is none. Upright walls read from the
 * right, bottom to top, as on a technical drawing (ISO 129-1, from memory).
 */
export function placeWallName(
  scene: PreviewScene,
  font: Font,
  wall: Wall,
  name: string,
  room: LabelRoom,
  unitMm: number,
): Label | null {
  const along = wall === "top" || wall === "bottom";
  const loose = looseLabel(font, "wall", name, unitMm, along);
  const { ink } = loose;
  const sideMm = along ? scene.widthMm : scene.lengthMm;
  const spanMm = along ? ink.rightMm - ink.leftMm : ink.bottomMm - ink.topMm;
  const depthMm = middleDepth * unitMm;
  // Capitals, not the ink, are centred on the depth line: words with and without descenders stand level.
  const halfCapMm = (font.capHeightEm * labelSize.wall * unitMm) / 2;
  const place = (offsetMm: number): PicturePoint => {
    if (along) {
      const middleY = wall === "top" ? depthMm : scene.lengthMm - depthMm;
      return { x: sideMm / 2 + offsetMm - spanMm / 2 - ink.leftMm, y: middleY + halfCapMm };
    }
    const middleX = wall === "left" ? depthMm : scene.widthMm - depthMm;
    return { x: middleX + halfCapMm, y: sideMm / 2 + offsetMm + spanMm / 2 - ink.bottomMm };
  };
  let best: PicturePoint | null = null;
  let bestCost = Number.POSITIVE_INFINITY;
  const stepMm = unitMm;
  for (let step = 0; step * stepMm <= (sideMm - spanMm) / 2; step++)
    for (const offsetMm of step === 0 ? [0] : [step * stepMm, -step * stepMm]) {
      const at = place(offsetMm);
      const box = movedBy(ink, at.x, at.y);
      if (!room.isFree(box)) continue;
      const cost =
        step * 0.12 +
        room.faintDotsUnder(box) +
        2 * room.namedDotsBeside(box) +
        (room.crossesSeam(box) ? 4 : 0);
      if (cost < bestCost) [best, bestCost] = [at, cost];
    }
  if (!best) return null;
  const label = loose.at(best.x, best.y);
  room.take(label.ink);
  return label;
}
