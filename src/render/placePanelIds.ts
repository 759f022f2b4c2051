import { boxInRing } from "./boxInRing.ts";
import type { Font } from "./font.ts";
import { type Label, type LooseLabel, looseLabel } from "./label.ts";
import { type LabelRoom, movedBy, outlineInPicture, type PicturePoint, toPicture } from "./labelRoom.ts";
import type { PreviewPanel, PreviewScene } from "./previewScene.ts";

const insetUnits = 1.6;
const corners = ["upper left", "upper right", "lower left", "lower right"] as const;
type Corner = (typeof corners)[number];

/** Each panel's id in a corner of it: the same corner for all as far as stars and other words allow. Null: no room. */
export function placePanelIds(
  scene: PreviewScene,
  font: Font,
  room: LabelRoom,
  unitMm: number,
): readonly { readonly id: string; readonly label: Label | null }[] {
  const loose = scene.panels.map((panel) => looseLabel(font, "panel", panel.id, unitMm));
  const roomless = corners.map(
    (corner) =>
      scene.panels.filter(
        (panel, i) => bestIn(scene, panel, corner, loose[i]!, room, unitMm).cost === Number.POSITIVE_INFINITY,
      ).length,
  );
  const order = corners.map((_, i) => i).sort((a, b) => roomless[a]! - roomless[b]! || a - b);
  return scene.panels.map((panel, i) => {
    // Another corner than the other panels' only where it is clearly better.
    const seats = order.map((k, rank) => {
      const { at, cost } = bestIn(scene, panel, corners[k]!, loose[i]!, room, unitMm);
      return { at, cost: cost + 1.5 * rank };
    });
    const { at, cost } = seats.reduce((best, seat) => (seat.cost < best.cost ? seat : best));
    if (cost === Number.POSITIVE_INFINITY) return { id: panel.id, label: null };
    const label = loose[i]!.at(at.x, at.y);
    room.take(label.ink);
    return { id: panel.id, label };
  });
}

/** Best place near one corner: at it, or a little along the panel's edge where faint stars would shine through. */
function bestIn(
  scene: PreviewScene,
  panel: PreviewPanel,
  corner: Corner,
  { ink }: LooseLabel,
  room: LabelRoom,
  unitMm: number,
): { at: PicturePoint; cost: number } {
  const lowerLeft = toPicture(scene, panel);
  const insetMm = insetUnits * unitMm;
  const widthMm = ink.rightMm - ink.leftMm;
  const heightMm = ink.bottomMm - ink.topMm;
  const [firstX, inwardX] = corner.endsWith("left")
    ? [lowerLeft.x + insetMm - ink.leftMm, 1]
    : [lowerLeft.x + panel.widthMm - insetMm - ink.rightMm, -1];
  const [firstY, inwardY] = corner.startsWith("upper")
    ? [lowerLeft.y - panel.lengthMm + insetMm - ink.topMm, 1]
    : [lowerLeft.y - insetMm - ink.bottomMm, -1];
  let best = { at: { x: firstX, y: firstY }, cost: Number.POSITIVE_INFINITY };
  const fits = widthMm + 2 * insetMm <= panel.widthMm && heightMm + 2 * insetMm <= panel.lengthMm;
  if (!fits) return best;
  const ring = panel.outlineMm && outlineInPicture(scene, panel.outlineMm);
  // A corner of the box may lie outside an outline: there the whole box is searched.
  const steps = (sideMm: number): number[] =>
    ring
      ? Array.from({ length: 25 }, (_, i) => Math.floor(i * Math.max(1, sideMm / unitMm / 24)))
      : [0, 1, 2, 3, 4];
  for (const right of steps(panel.widthMm))
    for (const down of steps(panel.lengthMm)) {
      const at = { x: firstX + right * inwardX * unitMm, y: firstY + down * inwardY * unitMm };
      const box = movedBy(ink, at.x, at.y);
      if (!room.isFree(box) || room.crossesSeam(box) || (ring && !boxInRing(ring, box))) continue;
      const cost = right * 0.3 + down * 0.4 + 3 * room.faintDotsUnder(box) + 4 * room.namedDotsBeside(box);
      if (cost < best.cost) best = { at, cost };
    }
  return best;
}
