import { boxOf, type Ring } from "../panel/rings.ts";
import { boxInRing } from "./boxInRing.ts";
import { type Chain, dimensionText, isDimensioned } from "./ceilingChains.ts";
import { backing } from "./ceilingKeepOutWords.ts";
import type { CeilingPanel, CeilingScene } from "./ceilingScene.ts";
import { ringOnPaper, type SheetFrame } from "./ceilingSheet.ts";
import type { InkBox } from "./font.ts";
import type { SheetRoom } from "./sheetRoom.ts";
import { centredBox, type SheetText } from "./sheetText.ts";

/** Sizes of the id and of the lines under it, the largest that finds room. */
const SIZES = [
  [6, 2.4],
  [4.5, 2.2],
  [3.2, 2],
  [2.4, 1.8],
] as const;
const SIDE_MM = 2;
/** Sides shorter than this on paper are left without their length. */
export const SHORTEST_SIDE_MM = 7;

/** Each panel's id and finished size, what places a panel that no chain shows, and the sides of one that is no rectangle. */
export function panelWords(
  scene: CeilingScene,
  chains: readonly Chain[],
  frame: SheetFrame,
  room: SheetRoom,
  text: SheetText,
): string {
  return scene.panels
    .flatMap((panel) => {
      const ring = ringOnPaper(frame, panel.finished);
      // Sides first: their place is at the side.
      const sides = panel.isRectangle ? [] : sideLengths(panel, ring, frame, room, text);
      return [...sides, panelName(scene, panel, ring, chains, room, text)];
    })
    .join("\n");
}

function panelName(
  scene: CeilingScene,
  panel: CeilingPanel,
  ring: Ring,
  chains: readonly Chain[],
  room: SheetRoom,
  text: SheetText,
): string {
  const { xMm, yMm, widthMm, lengthMm } = boxOf(panel.finished);
  const lines = [
    `${dimensionText(widthMm)} × ${dimensionText(lengthMm)}${panel.isRectangle ? "" : " over all"}`,
    ...(isDimensioned(panel, "x", chains) ? [] : [`${dimensionText(xMm)} from ${scene.walls.left}`]),
    ...(isDimensioned(panel, "y", chains) ? [] : [`${dimensionText(yMm)} from ${scene.walls.bottom}`]),
  ];
  const within = boxOf(ring);
  for (const [i, [idMm, lineMm]] of SIZES.entries()) {
    const wideMm =
      Math.max(text.widthMm(panel.id, idMm), ...lines.map((line) => text.widthMm(line, lineMm))) + 2.4;
    const highMm = idMm * 0.9 + lines.length * lineMm * 1.3;
    const boxAt = (x: number, y: number): InkBox => ({
      leftMm: x,
      rightMm: x + wideMm,
      topMm: y,
      bottomMm: y + highMm,
    });
    let best: { box: InkBox; cost: number } | null = null;
    const steps = 20;
    for (let right = 0; right <= steps; right++)
      for (let down = 0; down <= steps; down++) {
        const box = boxAt(
          within.xMm + 1.5 + (right / steps) * (within.widthMm - wideMm - 3),
          within.yMm + 1.5 + (down / steps) * (within.lengthMm - highMm - 3),
        );
        const placeCost = (right + down) * 0.04;
        if (best !== null && placeCost >= best.cost) break; // farther down it only gets worse
        if (!room.isFree(box) || !boxInRing(ring, box)) continue;
        const cost = placeCost + room.holesUnder(box) + room.battensUnder(box) * 0.8;
        if (best === null || cost < best.cost) best = { box, cost };
      }
    // An id is never left out: in the smallest size it stands in the middle, whatever is there.
    if (best === null && i === SIZES.length - 1)
      best = {
        box: boxAt(within.xMm + (within.widthMm - wideMm) / 2, within.yMm + (within.lengthMm - highMm) / 2),
        cost: 0,
      };
    if (best === null) continue;
    const { box } = best;
    room.take(box);
    const x = box.leftMm + 1.2;
    const idBase = box.topMm + idMm * 0.8;
    return [
      `<g class="panel-name" data-panel="${panel.id}">`,
      text.at(panel.id, x, idBase, { sizeMm: idMm }),
      ...lines.map((line, k) =>
        text.at(line, x, idBase + (k + 1) * lineMm * 1.3, { sizeMm: lineMm, fill: "#333" }),
      ),
      "</g>",
    ].join("\n");
  }
  return "";
}

/** Lengths along the sides, inside, to be read from below or from the right. */
function sideLengths(
  panel: CeilingPanel,
  ring: Ring,
  frame: SheetFrame,
  room: SheetRoom,
  text: SheetText,
): string[] {
  return ring.flatMap(([ax, ay], i) => {
    const [bx, by] = ring[(i + 1) % ring.length]!;
    const longMm = Math.hypot(bx - ax, by - ay);
    if (longMm < SHORTEST_SIDE_MM) return [];
    const words = dimensionText(longMm * frame.denominator);
    const widthMm = text.widthMm(words, SIDE_MM);
    const [ux, uy] = [(bx - ax) / longMm, (by - ay) / longMm];
    // Counter-clockwise on the ceiling, seen with y down: inside is at the left of each side as one walks it.
    const [inX, inY] = [uy, -ux];
    let turnedDeg = (Math.atan2(uy, ux) * 180) / Math.PI;
    if (turnedDeg > 89.99) turnedDeg -= 180;
    if (turnedDeg < -90.01) turnedDeg += 180;
    const turned = (turnedDeg * Math.PI) / 180;
    // Up, as one reads it; the figure stands on the side, or hangs from it.
    const [upX, upY] = [Math.sin(turned), -Math.cos(turned)];
    const stands = upX * inX + upY * inY > 0;
    const offMm = stands ? 0.9 : 0.9 + 0.74 * SIDE_MM;
    const seats = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8].map((part) => {
      const x = ax + (bx - ax) * part + inX * offMm;
      const y = ay + (by - ay) * part + inY * offMm;
      const box = turnedBox(x, y, widthMm, turned, [upX, upY]);
      return {
        x,
        y,
        box,
        cost: (room.isFree(box) ? 0 : 100) + 2 * room.holesUnder(box) + Math.abs(part - 0.5),
      };
    });
    const seat = seats.reduce((best, one) => (one.cost < best.cost ? one : best));
    room.take(seat.box);
    const upright = Math.abs(turnedDeg) < 0.01 || Math.abs(turnedDeg + 90) < 0.01;
    return [
      `<g class="side" data-panel="${panel.id}" data-side="${i}">`,
      ...(upright ? [backing(centredBox(widthMm, seat.x, seat.y, SIDE_MM, turnedDeg > -45))] : []),
      text.at(words, seat.x, seat.y, { sizeMm: SIDE_MM, anchor: "middle", turnedDeg }),
      "</g>",
    ];
  });
}

function turnedBox(
  x: number,
  y: number,
  widthMm: number,
  turned: number,
  [upX, upY]: readonly [number, number],
): InkBox {
  const [alongX, alongY] = [Math.cos(turned) * (widthMm / 2), Math.sin(turned) * (widthMm / 2)];
  const xs: number[] = [];
  const ys: number[] = [];
  for (const end of [-1, 1])
    for (const up of [-0.2 * SIDE_MM, 0.75 * SIDE_MM]) {
      xs.push(x + end * alongX + up * upX);
      ys.push(y + end * alongY + up * upY);
    }
  return {
    leftMm: Math.min(...xs),
    rightMm: Math.max(...xs),
    topMm: Math.min(...ys),
    bottomMm: Math.max(...ys),
  };
}
