import { type KeepOut, type Shape, shapeBox } from "../panel/keepOuts.ts";
import { dimensionText } from "./ceilingChains.ts";
import { type KeepOutDimension, keepOutDimensions, sizeText } from "./ceilingKeepOuts.ts";
import type { CeilingScene } from "./ceilingScene.ts";
import { DIMENSION, ringOnPaper, type SheetFrame, toPaper } from "./ceilingSheet.ts";
import type { InkBox } from "./font.ts";
import { backing, type InsideWords, together } from "./insideWords.ts";
import type { SheetRoom } from "./sheetRoom.ts";
import { centredBox, type SheetText } from "./sheetText.ts";
import { svgNumber as n } from "./svgText.ts";

const LABEL_MM = 2.4;
/** Dimension lines that run the same way keep this far apart. */
const LINE_CLEAR_MM = 1.6;

/** Takes what every keep-out covers, so that no words stand there but its own. */
export function takeKeepOuts(scene: CeilingScene, frame: SheetFrame, room: SheetRoom): void {
  for (const { shape } of scene.keepOuts) room.take(paperBox(frame, shapeBox(shape)));
}

/** Two dimensions from walls to each keep-out, and beside it its kind, id and size. */
export function keepOutWords(
  scene: CeilingScene,
  frame: SheetFrame,
  room: SheetRoom,
  text: SheetText,
): InsideWords {
  const lines = { x: [] as InkBox[], y: [] as InkBox[] };
  return together(
    scene.keepOuts.flatMap((keepOut) => [
      ...keepOutDimensions(keepOut, scene).map((dimension) =>
        drawDimension(keepOut, dimension, frame, room, text, lines[dimension.axis]),
      ),
      drawLabel(keepOut, frame, room, text),
    ]),
  );
}

function paperBox(
  frame: SheetFrame,
  box: { xMm: number; yMm: number; widthMm: number; lengthMm: number },
): InkBox {
  const upperLeft = toPaper(frame, { xMm: box.xMm, yMm: box.yMm + box.lengthMm });
  const lowerRight = toPaper(frame, { xMm: box.xMm + box.widthMm, yMm: box.yMm });
  return { leftMm: upperLeft.x, topMm: upperLeft.y, rightMm: lowerRight.x, bottomMm: lowerRight.y };
}

const overlaps = (a: InkBox, b: InkBox): boolean =>
  a.leftMm < b.rightMm && b.leftMm < a.rightMm && a.topMm < b.bottomMm && b.topMm < a.bottomMm;

/** A place for a dimension's line and figure, on paper. `u` runs along what is measured, `v` across it. */
interface Seat {
  readonly v: number;
  readonly textU: number;
  readonly line: InkBox;
  readonly textBox: InkBox;
  readonly cost: number;
}

function drawDimension(
  { id }: KeepOut,
  dimension: KeepOutDimension,
  frame: SheetFrame,
  room: SheetRoom,
  text: SheetText,
  parallel: InkBox[],
): InsideWords {
  const alongX = dimension.axis === "x";
  const paper = (measuredMm: number, otherMm: number) => {
    const { x, y } = toPaper(
      frame,
      alongX ? { xMm: measuredMm, yMm: otherMm } : { xMm: otherMm, yMm: measuredMm },
    );
    return alongX ? { u: x, v: y } : { u: y, v: x };
  };
  const wall = paper(dimension.fromMm, dimension.onShape[0]);
  const target = paper(dimension.toMm, dimension.onShape[1]);
  const [lowV, highV] = [Math.min(wall.v, target.v), Math.max(wall.v, target.v)];
  const [lowU, highU] = [Math.min(wall.u, target.u), Math.max(wall.u, target.u)];
  const words = dimensionText(dimension.mm);
  const widthMm = text.widthMm(words, DIMENSION.sizeMm);
  const corner = paper(0, 0);
  const opposite = alongX
    ? paper(frame.ceilingWidthMm, frame.ceilingLengthMm)
    : paper(frame.ceilingLengthMm, frame.ceilingWidthMm);
  const [leastV, mostV] = [Math.min(corner.v, opposite.v) + 4, Math.max(corner.v, opposite.v) - 2];

  const seats = [...within(lowV, highV), ...beside(lowV, highV)].flatMap(({ v, asideMm }): Seat[] => {
    const line = boxOf(alongX, lowU, highU, v - LINE_CLEAR_MM, v + LINE_CLEAR_MM);
    // Last resorts: on a ceiling too narrow for its figures, or beside another line.
    const outside = v < leastV || v > mostV ? 3000 : 0;
    const crowded = parallel.some((other) => overlaps(line, other)) ? 1000 : 0;
    const rail = boxOf(alongX, lowU, highU, v - 0.1, v + 0.1);
    // A seam or a batten that runs along the line would hide it; one that crosses it does no harm.
    const along = [0.25, 0.5, 0.75].map((part) => {
      const u = lowU + part * (highU - lowU);
      const probe = boxOf(alongX, u, u, v - 1, v + 1);
      return 3 * room.edgesUnder(probe) + room.battensUnder(probe);
    });
    const lineCost =
      outside +
      crowded +
      (asideMm > 0 ? 1 + asideMm * 0.12 : 0) +
      room.holesUnder(rail) * 0.6 +
      along.reduce((a, b) => a + b, 0);
    return alongLine(lowU, highU, widthMm).map((textU) => {
      const textBox = alongX
        ? centredBox(widthMm, textU, v - 0.7, DIMENSION.sizeMm)
        : centredBox(widthMm, v - 0.7, textU, DIMENSION.sizeMm, false);
      const taken = room.isFree(textBox) ? 0 : 100;
      return {
        v,
        textU,
        line,
        textBox,
        cost: lineCost + taken + 4 * room.holesUnder(textBox) + 2 * room.edgesUnder(textBox),
      };
    });
  });
  const seat = seats.reduce((best, one) => (one.cost < best.cost ? one : best));
  parallel.push(seat.line);
  room.take(seat.textBox);
  room.take(boxOf(alongX, lowU, highU, seat.v - 0.3, seat.v + 0.3));

  const point = (u: number, v: number) => (alongX ? `${n(u)} ${n(v)}` : `${n(v)} ${n(u)}`);
  const piece = (u1: number, v1: number, u2: number, v2: number) => `M${point(u1, v1)}L${point(u2, v2)}`;
  const t = DIMENSION.tickMm;
  const ticks = [wall.u, target.u].map((u) => {
    const [x, y] = alongX ? [u, seat.v] : [seat.v, u];
    return `M${n(x - t)} ${n(y + t)}L${n(x + t)} ${n(y - t)}`;
  });
  // From the shape to a line that passes beside it.
  const extension =
    seat.v < lowV
      ? piece(target.u, lowV - 0.8, target.u, seat.v - 1.2)
      : seat.v > highV
        ? piece(target.u, highV + 0.8, target.u, seat.v + 1.2)
        : "";
  const style = { sizeMm: DIMENSION.sizeMm, anchor: "middle" } as const;
  const open = `<g class="dimension" data-keepout="${id}" data-wall="${dimension.wall}" data-mm="${n(dimension.mm)}">`;
  return {
    under: [
      open,
      `<path class="line" fill="none" stroke="#000" stroke-width="0.18" d="${piece(wall.u, seat.v, target.u, seat.v)}"/>`,
      ...(extension === ""
        ? []
        : [`<path class="extension" fill="none" stroke="#000" stroke-width="0.13" d="${extension}"/>`]),
      `<path class="ticks" fill="none" stroke="#000" stroke-width="0.3" d="${ticks.join("")}"/>`,
      backing(seat.textBox),
      "</g>",
    ].join("\n"),
    over: [
      open,
      alongX
        ? text.at(words, seat.textU, seat.v - 0.7, style)
        : text.at(words, seat.v - 0.7, seat.textU, { ...style, turnedDeg: -90 }),
      "</g>",
    ].join(""),
  };
}

const boxOf = (alongX: boolean, lowU: number, highU: number, lowV: number, highV: number): InkBox =>
  alongX
    ? { leftMm: lowU, rightMm: highU, topMm: lowV, bottomMm: highV }
    : { leftMm: lowV, rightMm: highV, topMm: lowU, bottomMm: highU };

/** Lines that end on the shape itself. */
const within = (low: number, high: number) =>
  [0.5, 0.3, 0.7, 0.12, 0.88].map((part) => ({ v: low + part * (high - low), asideMm: 0 }));

/** Lines that pass beside it. */
const beside = (low: number, high: number) =>
  Array.from({ length: 12 }, (_, i) => (i + 1) * 3.2).flatMap((asideMm) => [
    { v: low - asideMm, asideMm },
    { v: high + asideMm, asideMm },
  ]);

/** Where the middle of a figure may stand along its line: anywhere if it fits, else over its middle. */
function alongLine(low: number, high: number, widthMm: number): number[] {
  const room = high - low - widthMm - 2;
  if (room <= 0) return [(low + high) / 2];
  return [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9].map((part) => low + 1 + widthMm / 2 + part * room);
}

/** In the shape if it has the room, else beside it, with a line to it from farther off. */
function drawLabel(
  { id, kind, shape }: KeepOut,
  frame: SheetFrame,
  room: SheetRoom,
  text: SheetText,
): InsideWords {
  const words = kind === "other" ? `${id} ${sizeText(shape)}` : `${kind} ${id} ${sizeText(shape)}`;
  const widthMm = text.widthMm(words, LABEL_MM);
  const heightMm = LABEL_MM;
  const own = paperBox(frame, shapeBox(shape));
  const middle = { x: (own.leftMm + own.rightMm) / 2, y: (own.topMm + own.bottomMm) / 2 };
  const boxAt = (x: number, y: number) => centredBox(widthMm, x, y + 0.28 * heightMm, LABEL_MM);
  const fits =
    widthMm + 2 < own.rightMm - own.leftMm && heightMm + 2 < own.bottomMm - own.topMm && "ring" in shape;
  const upper = toPaper(frame, { xMm: frame.ceilingWidthMm, yMm: frame.ceilingLengthMm });
  const lower = toPaper(frame, { xMm: 0, yMm: 0 });
  const candidates = [1, 3, 6, 10, 15, 22].flatMap((gap) =>
    [
      [0, 1],
      [0, -1],
      [1, 0],
      [-1, 0],
      [1, 1],
      [-1, 1],
      [1, -1],
      [-1, -1],
    ].map(([sx, sy]) => ({
      x: middle.x + sx! * ((own.rightMm - own.leftMm) / 2 + gap + widthMm / 2),
      y: middle.y + sy! * ((own.bottomMm - own.topMm) / 2 + gap + heightMm / 2),
      gap,
    })),
  );
  const seats = (fits ? [{ ...middle, gap: 0 }] : candidates).map(({ x, y, gap }) => {
    const box = boxAt(x, y);
    const out =
      box.leftMm < lower.x + 0.5 ||
      box.rightMm > upper.x - 0.5 ||
      box.topMm < upper.y + 0.5 ||
      box.bottomMm > lower.y - 0.5;
    const cost =
      (out ? 1000 : 0) +
      (gap === 0 || room.isFree(box) ? 0 : 100) +
      4 * room.holesUnder(box) +
      2 * room.edgesUnder(box) +
      0.4 * gap;
    return { x, y, gap, box, cost };
  });
  const seat = seats.reduce((best, one) => (one.cost < best.cost ? one : best));
  room.take(seat.box);
  const from = {
    x: Math.min(seat.box.rightMm, Math.max(seat.box.leftMm, middle.x)),
    y: Math.min(seat.box.bottomMm, Math.max(seat.box.topMm, middle.y)),
  };
  const to = nearestOn(shape, from, frame);
  const leader =
    seat.gap <= 1
      ? []
      : [
          `<path fill="none" stroke="#000" stroke-width="0.18" d="M${n(from.x)} ${n(from.y)}L${n(to.x)} ${n(to.y)}"/>`,
        ];
  const open = `<g class="keepout-label" data-keepout="${id}">`;
  return {
    under: [open, ...leader, backing(seat.box), "</g>"].join("\n"),
    over: `${open}${text.at(words, seat.x, seat.y + 0.28 * heightMm, { sizeMm: LABEL_MM, anchor: "middle" })}</g>`,
  };
}

/** The point of a shape's outline nearest to a point outside it, on paper. */
function nearestOn(
  shape: Shape,
  from: { readonly x: number; readonly y: number },
  frame: SheetFrame,
): { x: number; y: number } {
  if ("at" in shape) {
    const centre = toPaper(frame, { xMm: shape.at[0], yMm: shape.at[1] });
    const [dx, dy] = [from.x - centre.x, from.y - centre.y];
    const part = shape.radiusMm / frame.denominator / Math.hypot(dx, dy);
    return { x: centre.x + dx * part, y: centre.y + dy * part };
  }
  const ring = ringOnPaper(frame, shape.ring);
  const points = ring.map(([ax, ay], i) => {
    const [bx, by] = ring[(i + 1) % ring.length]!;
    const [dx, dy] = [bx - ax, by - ay];
    const t = ((from.x - ax) * dx + (from.y - ay) * dy) / (dx * dx + dy * dy || 1);
    const held = Math.min(1, Math.max(0, t));
    return { x: ax + held * dx, y: ay + held * dy };
  });
  const far = (point: { x: number; y: number }) => Math.hypot(point.x - from.x, point.y - from.y);
  return points.reduce((best, point) => (far(point) < far(best) ? point : best));
}
