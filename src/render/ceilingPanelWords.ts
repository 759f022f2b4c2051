import { boxOf, type Ring } from "../panel/rings.ts";
import { boxInRing } from "./boxInRing.ts";
import { type Chain, dimensionText, isDimensioned } from "./ceilingChains.ts";
import type { CeilingPanel, CeilingScene } from "./ceilingScene.ts";
import { ringOnPaper, type SheetFrame } from "./ceilingSheet.ts";
import type { InkBox } from "./font.ts";
import { backing, type InsideWords, together } from "./insideWords.ts";
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
): InsideWords {
  const outlined = scene.panels.map((panel) => ({ panel, ring: ringOnPaper(frame, panel.finished) }));
  // Sides first: their place is at the side.
  const sides = outlined.flatMap(({ panel, ring }) =>
    panel.isRectangle ? [] : sideLengths(panel, ring, frame, room, text),
  );
  // All ids in one size: the one that covers the fewest holes, larger ones being better.
  const attempts = SIZES.map((size, i) => {
    const seats = outlined.map(({ panel, ring }) =>
      nameSeat(
        panel.id,
        panelLines(scene, panel, chains),
        ring,
        size,
        stepsFor(scene.panels.length),
        room,
        text,
      ),
    );
    return { size, seats, cost: seats.reduce((sum, { cost }) => sum + cost + 1.6 * i, 0) };
  });
  const { size, seats } = attempts.reduce((best, attempt) => (attempt.cost < best.cost ? attempt : best));
  const names = outlined.map(({ panel }, i) =>
    panelName(panel.id, panelLines(scene, panel, chains), seats[i]!.box, size, text),
  );
  return together([...sides, ...names]);
}

function panelLines(scene: CeilingScene, panel: CeilingPanel, chains: readonly Chain[]): readonly string[] {
  const { xMm, yMm, widthMm, lengthMm } = boxOf(panel.finished);
  return [
    `${dimensionText(widthMm)} × ${dimensionText(lengthMm)}${panel.isRectangle ? "" : " over all"}`,
    ...(isDimensioned(panel, "x", chains) ? [] : [`${dimensionText(xMm)} from ${scene.walls.left}`]),
    ...(isDimensioned(panel, "y", chains) ? [] : [`${dimensionText(yMm)} from ${scene.walls.bottom}`]),
  ];
}

function panelName(
  id: string,
  lines: readonly string[],
  { leftMm, topMm }: InkBox,
  [idMm, lineMm]: readonly [number, number],
  text: SheetText,
): InsideWords {
  const x = leftMm + NAME_MARGIN_MM;
  const idBase = topMm + idMm * 0.8;
  const over = [
    `<g class="panel-name" data-panel="${id}">`,
    text.at(id, x, idBase, { sizeMm: idMm }),
    ...lines.map((line, k) =>
      text.at(line, x, idBase + (k + 1) * lineMm * 1.3, { sizeMm: lineMm, fill: "#333" }),
    ),
    "</g>",
  ].join("\n");
  return { under: "", over };
}

/** White at the left and the right of a panel's id and its lines. */
const NAME_MARGIN_MM = 1.2;
/** Places tried along each side of a panel; fewer where there are thousands of panels. */
const stepsFor = (panels: number): number =>
  Math.max(4, Math.min(20, Math.round(Math.sqrt(20_000 / panels))));
/** Counted as so many holes: an id in the middle of its panel, because no place is free. */
const NO_SEAT = 20;

/** Toward the panel's upper left, as far as holes and battens allow. */
function nameSeat(
  id: string,
  lines: readonly string[],
  ring: Ring,
  [idMm, lineMm]: readonly [number, number],
  steps: number,
  room: SheetRoom,
  text: SheetText,
): { readonly box: InkBox; readonly cost: number } {
  const within = boxOf(ring);
  const wideMm =
    Math.max(text.widthMm(id, idMm), ...lines.map((line) => text.widthMm(line, lineMm))) + 2 * NAME_MARGIN_MM;
  const highMm = idMm * 0.9 + lines.length * lineMm * 1.3;
  const at = (partX: number, partY: number, marginMm: number): InkBox => {
    const leftMm = within.xMm + marginMm + partX * (within.widthMm - wideMm - 2 * marginMm);
    const topMm = within.yMm + marginMm + partY * (within.lengthMm - highMm - 2 * marginMm);
    return { leftMm, topMm, rightMm: leftMm + wideMm, bottomMm: topMm + highMm };
  };
  let best = { box: at(0.5, 0.5, 0), cost: NO_SEAT };
  for (let right = 0; right <= steps; right++)
    for (let down = 0; down <= steps; down++) {
      const placeCost = ((right + down) / steps) * 0.8;
      if (placeCost >= best.cost) break; // farther down it only gets worse
      const box = at(right / steps, down / steps, 1);
      if (!room.isFree(box) || !boxInRing(ring, box)) continue;
      const cost = Math.min(placeCost + room.holesUnder(box) + room.battensUnder(box) * 0.8, NO_SEAT - 1);
      if (cost < best.cost) best = { box, cost };
    }
  return best;
}

/** Lengths along the sides, inside, to be read from below or from the right. */
function sideLengths(
  panel: CeilingPanel,
  ring: Ring,
  frame: SheetFrame,
  room: SheetRoom,
  text: SheetText,
): InsideWords[] {
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
    const over = `<g class="side" data-panel="${panel.id}" data-side="${i}">${text.at(words, seat.x, seat.y, { sizeMm: SIDE_MM, anchor: "middle", turnedDeg })}</g>`;
    return [
      { under: upright ? backing(centredBox(widthMm, seat.x, seat.y, SIDE_MM, turnedDeg > -45)) : "", over },
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
