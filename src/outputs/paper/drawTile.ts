import type { WallSide } from "../../plan/plan.ts";
import { CAPITALS } from "../../render/font.ts";
import type { PdfPage } from "../pdf/page.ts";
import { NUMBER_MM, SIZE_MM } from "./holeNumbers.ts";
import { drawJoins } from "./joins.ts";
import { drawMark } from "./marks.ts";
import type { TemplateScene } from "./templateScene.ts";
import { type TileOnPage, tileOnPage } from "./tileOnPage.ts";
import type { Tile, Tiling } from "./tiles.ts";
import { drawTileWords } from "./tileWords.ts";

const GRID = { widthMm: 0.13, colour: "#3a6ea5" } as const;
const OUTLINE = { widthMm: 0.35 } as const;
const REFERENCE = { widthMm: 0.9 } as const;
const BATTEN_FILL = "#f0f0f0";
const BATTEN_LINE = { widthMm: 0.18, colour: "#888888", dashMm: [3, 1.5] } as const;
const KEEP_OUT = { widthMm: 0.3, colour: "#a3200d", dashMm: [4, 2] } as const;
const FIXING = { widthMm: 0.25, colour: "#555555" } as const;
const PALE = "#e0e0e0";

/** One tile: the board as far as it lies on it, and words and rulers round it. */
export function drawTile(page: PdfPage, scene: TemplateScene, tiling: Tiling, tile: Tile): void {
  const on = tileOnPage(tile, tiling);
  page.within(on.box, () => {
    drawBattens(page, scene, on);
    drawName(page, scene, on);
    drawGrid(page, scene, on);
    drawBoard(page, scene, on);
    drawJoins(page, tiling, on);
    drawFixings(page, scene, on);
    drawHoles(page, scene, on);
  });
  drawTileWords(page, scene, tiling, on);
}

/** Large and pale under everything, so that a tile laid down or cut is still known. */
function drawName(page: PdfPage, { panel, frame }: TemplateScene, { tile, box }: TileOnPage): void {
  const sizeMm = Math.min(22, box.heightMm / 4);
  page.words(`${panel} ${frame} ${tile.name}`, box.leftMm + box.widthMm / 2, box.topMm + box.heightMm / 2, {
    sizeMm,
    colour: PALE,
    anchor: "middle",
    roomMm: 0.8 * box.widthMm,
  });
}

const meets = ({ tile }: TileOnPage, points: readonly (readonly [number, number])[], byMm = 0) => {
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  return (
    Math.max(...xs) + byMm >= tile.xMm &&
    Math.min(...xs) - byMm <= tile.xMm + tile.widthMm &&
    Math.max(...ys) + byMm >= tile.yMm &&
    Math.min(...ys) - byMm <= tile.yMm + tile.lengthMm
  );
};

function drawBattens(page: PdfPage, scene: TemplateScene, on: TileOnPage): void {
  // From the room they are behind the board; the frame is glued on after the holes have been drilled.
  if (scene.frame === "FACE") return;
  for (const ring of scene.battens) {
    if (!meets(on, ring)) continue;
    const points = ring.map(([x, y]) => on.to(x, y));
    page.filled(points, BATTEN_FILL);
    page.outline(points, BATTEN_LINE);
  }
}

function drawGrid(page: PdfPage, scene: TemplateScene, on: TileOnPage): void {
  for (const { atMm } of scene.gridX) {
    const points = [on.to(atMm, scene.reachYMm[0]), on.to(atMm, scene.reachYMm[1])] as const;
    if (meets(on, [[atMm, on.tile.yMm]])) page.line(...points[0], ...points[1], GRID);
  }
  for (const { atMm } of scene.gridY) {
    const points = [on.to(0, atMm), on.to(scene.widthMm, atMm)] as const;
    if (meets(on, [[on.tile.xMm, atMm]])) page.line(...points[0], ...points[1], GRID);
  }
}

function drawBoard(page: PdfPage, scene: TemplateScene, on: TileOnPage): void {
  for (const { ring, words } of scene.keepOuts) {
    if (!meets(on, ring)) continue;
    page.outline(
      ring.map(([x, y]) => on.to(x, y)),
      KEEP_OUT,
    );
    const [x, y] = middleOf(ring);
    page.words(words, ...on.to(x, y), { sizeMm: 3, colour: KEEP_OUT.colour, anchor: "middle" });
  }
  page.outline(
    scene.outline.map(([x, y]) => on.to(x, y)),
    OUTLINE,
  );
  const referenceX = scene.referenceSide === "left" ? 0 : scene.widthMm;
  scene.outline.forEach(([x, y], i) => {
    const [nextX, nextY] = scene.outline[(i + 1) % scene.outline.length]!;
    if (Math.abs(x - referenceX) < 0.01 && Math.abs(nextX - referenceX) < 0.01)
      page.line(...on.to(x, y), ...on.to(nextX, nextY), REFERENCE);
  });
  for (const side of ["top", "right", "bottom", "left"] as const) drawEdgeWords(page, scene, on, side);
}

const middleOf = (ring: readonly (readonly [number, number])[]): readonly [number, number] => [
  ring.reduce((sum, [x]) => sum + x, 0) / ring.length,
  ring.reduce((sum, [, y]) => sum + y, 0) / ring.length,
];

const EDGE_WORDS_MM = 2.8;

/** Outside the board, in the middle of what a tile shows of that side. */
function drawEdgeWords(page: PdfPage, scene: TemplateScene, on: TileOnPage, side: WallSide): void {
  const { tile } = on;
  const upright = side === "left" || side === "right";
  const [from, to] = upright
    ? [Math.max(0, tile.yMm), Math.min(scene.lengthMm, tile.yMm + tile.lengthMm)]
    : [Math.max(0, tile.xMm), Math.min(scene.widthMm, tile.xMm + tile.widthMm)];
  const [lowest, highest] = scene.reachYMm;
  const at = { left: -2.2, right: scene.widthMm + 4.4, bottom: lowest - 4.4, top: highest + 2.2 }[side];
  const point = upright ? ([at, (from + to) / 2] as const) : ([(from + to) / 2, at] as const);
  if (to - from < 20 || !meets(on, [point])) return;
  page.words(scene.edges[side], ...on.to(...point), {
    sizeMm: EDGE_WORDS_MM,
    anchor: "middle",
    roomMm: (to - from) * on.scale - 4,
    ...(upright ? { turnedDeg: 90 } : {}),
  });
}

const SCREW_MM = 1.6;
const HANGER_MM = 4;

/** Squares, so that nobody takes them for holes to drill for fibre. */
function drawFixings(page: PdfPage, scene: TemplateScene, on: TileOnPage): void {
  if (scene.frame === "FACE") return;
  const square = (points: readonly (readonly [number, number])[], half: number) => {
    for (const point of points) {
      if (!meets(on, [point], half)) continue;
      const [x, y] = on.to(...point);
      page.box({ leftMm: x - half, topMm: y - half, widthMm: 2 * half, heightMm: 2 * half }, FIXING);
      page.line(x - half, y - half, x + half, y + half, FIXING);
      page.line(x - half, y + half, x + half, y - half, FIXING);
    }
  };
  square(scene.screws, SCREW_MM);
  square(scene.hangers, HANGER_MM);
}

function drawHoles(page: PdfPage, scene: TemplateScene, on: TileOnPage): void {
  for (const { xMm, yMm, mark, number, below, place } of scene.holes) {
    if (!meets(on, [[xMm, yMm]], mark.reachMm + 12)) continue;
    const [x, y] = on.to(xMm, yMm);
    if (meets(on, [[xMm, yMm]], mark.reachMm)) drawMark(page, mark, x, y, on.scale);
    // Words that the tile cuts stand whole on the next one, as the mark does.
    const words = [xMm + place.leftMm, yMm + place.bottomMm] as const;
    const beyond = [words[0] + place.widthMm, words[1] + place.heightMm] as const;
    if (!meets(on, [words, beyond])) continue;
    const left = x + place.leftMm;
    const bottom = y - place.bottomMm;
    page.words(number, left, below === "" ? bottom : bottom - SIZE_MM * CAPITALS - 0.6, {
      sizeMm: NUMBER_MM,
    });
    if (below !== "") page.words(below, left, bottom, { sizeMm: SIZE_MM });
  }
}
