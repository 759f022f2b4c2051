import { outside } from "./ceilingDimensions.ts";
import { type CeilingScene, WALLS, type Wall } from "./ceilingScene.ts";
import { BAND_MM, type SheetFrame, toPaper } from "./ceilingSheet.ts";
import { CAPITALS, type InkBox } from "./font.ts";
import { boxesMeet } from "./labelRoom.ts";
import type { SheetText } from "./sheetText.ts";
import { svgNumber as n } from "./svgText.ts";

const NAME_MM = 3.2;
const LETTER_MM = 4.2;

/** A band round the ceiling for the walls, with their names, and the compass letters at the very points of the edge. */
export function wallBand(scene: CeilingScene, frame: SheetFrame, text: SheetText): string {
  const upperLeft = toPaper(frame, { xMm: 0, yMm: scene.lengthMm });
  const lowerRight = toPaper(frame, { xMm: scene.widthMm, yMm: 0 });
  const rectangle = (byMm: number) =>
    `M${n(upperLeft.x - byMm)} ${n(upperLeft.y - byMm)}H${n(lowerRight.x + byMm)}V${n(lowerRight.y + byMm)}H${n(upperLeft.x - byMm)}Z`;
  const letters = scene.compass.map((mark) => {
    const wall = wallOf(scene, mark);
    const alongMm = wall === "top" || wall === "bottom" ? mark.xMm : mark.yMm;
    const edge = outside(frame, wall, alongMm, 0);
    const tip = outside(frame, wall, alongMm, 1.4);
    // A letter near a corner stands inside the band all the same.
    const middle = outside(frame, wall, within(alongMm, 2 * frame.denominator, endOf(scene, wall)), 3.7);
    return { ...mark, wall, edge, tip, middle, box: around(middle.x, middle.y, 2.2, 2.2) };
  });
  const names = WALLS.map((wall) => {
    const fullMm = endOf(scene, wall);
    const roomMm = fullMm / frame.denominator - 6;
    const widthMm = Math.min(text.widthMm(scene.walls[wall], NAME_MM), roomMm);
    const upright = wall === "top" || wall === "bottom";
    const seats = [0, 1, -1, 2, -2, 3, -3, 4, -4, 5, -5, 6, -6].map((steps) => {
      const at = outside(frame, wall, fullMm / 2 + steps * 4 * frame.denominator, BAND_MM / 2);
      const box: InkBox = upright
        ? around(at.x, at.y, widthMm / 2 + 1, 1)
        : around(at.x, at.y, 1, widthMm / 2 + 1);
      return { at, box };
    });
    const seat =
      seats.find(({ box }) => !letters.some((letter) => boxesMeet(letter.box, box, 0))) ?? seats[0]!;
    const down = (NAME_MM * CAPITALS) / 2;
    const { x, y } = seat.at;
    const style = { sizeMm: NAME_MM, anchor: "middle", roomMm: Math.max(roomMm, 1) } as const;
    return `<g class="wall" data-wall="${wall}">${
      upright
        ? text.at(scene.walls[wall], x, y + down, style)
        : text.at(scene.walls[wall], x + down, y, { ...style, turnedDeg: -90 })
    }</g>`;
  });
  const corner = ({ from: [xMm, yMm] }: CeilingScene["room"][number]) => {
    const { x, y } = toPaper(frame, { xMm, yMm });
    return `${n(x)} ${n(y)}`;
  };
  const room = scene.isRoomRectangle ? rectangle(0) : `M${scene.room.map(corner).join("L")}Z`;
  const ticks = letters.map(({ edge, tip }) => `M${n(edge.x)} ${n(edge.y)}L${n(tip.x)} ${n(tip.y)}`);
  return [
    '<g id="walls">',
    `<path fill="#e6e6e6" fill-rule="evenodd" d="${rectangle(BAND_MM)}${room}"/>`,
    `<path fill="none" stroke="#777" stroke-width="0.18" d="${rectangle(BAND_MM)}"/>`,
    `<path id="ceiling-edge" fill="none" stroke="#000" stroke-width="0.5" d="${room}"/>`,
    `<path fill="none" stroke="#a3200d" stroke-width="0.5" d="${ticks.join("")}"/>`,
    ...letters.map(
      ({ letter, middle }) =>
        `<g class="compass">${text.at(letter, middle.x, middle.y + (LETTER_MM * CAPITALS) / 2, {
          sizeMm: LETTER_MM,
          anchor: "middle",
          fill: "#a3200d",
        })}</g>`,
    ),
    ...names,
    "</g>",
  ].join("\n");
}

const around = (x: number, y: number, halfX: number, halfY: number): InkBox => ({
  leftMm: x - halfX,
  rightMm: x + halfX,
  topMm: y - halfY,
  bottomMm: y + halfY,
});

const endOf = ({ widthMm, lengthMm }: CeilingScene, wall: Wall): number =>
  wall === "top" || wall === "bottom" ? widthMm : lengthMm;

const within = (value: number, marginMm: number, sideMm: number): number =>
  Math.min(sideMm - marginMm, Math.max(marginMm, value));

function wallOf({ widthMm, lengthMm }: CeilingScene, { xMm, yMm }: { xMm: number; yMm: number }): Wall {
  const distances: Record<Wall, number> = {
    top: lengthMm - yMm,
    right: widthMm - xMm,
    bottom: yMm,
    left: xMm,
  };
  return WALLS.reduce((nearest, wall) => (distances[wall] < distances[nearest] ? wall : nearest));
}
