import type { BoxOnPage, PdfPage } from "../pdf/page.ts";
import type { TemplateScene } from "./templateScene.ts";
import { BEYOND_BOARD_MM, type Tile, type Tiling } from "./tiles.ts";

const NAME_MM = 3.4;

/** Whether any mark lies on a tile, if only in part. */
const holds = ({ xMm, yMm, widthMm, lengthMm }: Tile, { holes }: TemplateScene): boolean =>
  holes.some(
    ({ xMm: x, yMm: y, mark: { reachMm } }) =>
      x + reachMm > xMm && x - reachMm < xMm + widthMm && y + reachMm > yMm && y - reachMm < yMm + lengthMm,
  );

/** The board, small, with its holes and the tiles that cover it. @returns height taken */
export function drawTileMap(page: PdfPage, scene: TemplateScene, tiling: Tiling, room: BoxOnPage): number {
  const spanX = scene.widthMm + 2 * BEYOND_BOARD_MM;
  const [lowest, highest] = scene.reachYMm;
  const spanY = highest - lowest + 2 * BEYOND_BOARD_MM;
  const scale = Math.min(room.widthMm / spanX, room.heightMm / spanY);
  const left = room.leftMm + (room.widthMm - spanX * scale) / 2;
  const to = (x: number, y: number): readonly [number, number] => [
    left + (x + BEYOND_BOARD_MM) * scale,
    room.topMm + (highest + BEYOND_BOARD_MM - y) * scale,
  ];
  const { tiles, rows, columns } = tiling;
  page.filled(
    scene.outline.map(([x, y]) => to(x, y)),
    "#f3f3f3",
  );
  for (const { xMm, yMm, mark } of scene.holes)
    page.disc(...to(xMm, yMm), 0.3 + 0.2 * mark.diameterMm, mark.symbol.colour);
  for (const tile of tiles) {
    if (!tile.isOnBoard) continue;
    const { xMm, yMm, widthMm, lengthMm, row, column, name } = tile;
    // As they lie: each is seen down and rightward to where the next one starts.
    const next = column < columns ? tiles[(row - 1) * columns + column]!.xMm : xMm + widthMm;
    const below = row < rows ? tiles[row * columns + column - 1]! : null;
    const bottom = below === null ? yMm : below.yMm + below.lengthMm;
    const top = yMm + lengthMm;
    page.outline([to(xMm, top), to(next, top), to(next, bottom), to(xMm, bottom)], {
      widthMm: 0.18,
      colour: "#555555",
    });
    const [x, y] = to((xMm + next) / 2, (top + bottom) / 2);
    const roomMm = Math.max(1, (next - xMm) * scale - 1);
    const sizeMm = Math.min(NAME_MM, Math.max(1, (top - bottom) * scale - 0.6));
    page.words(holds(tile, scene) ? name : `(${name})`, x, y + 0.35 * sizeMm, {
      sizeMm,
      anchor: "middle",
      roomMm,
    });
  }
  page.outline(
    scene.outline.map(([x, y]) => to(x, y)),
    { widthMm: 0.4 },
  );
  const reference = scene.referenceSide === "left" ? 0 : scene.widthMm;
  scene.outline.forEach(([x, y], i) => {
    const [x2, y2] = scene.outline[(i + 1) % scene.outline.length]!;
    if (Math.abs(x - reference) < 0.01 && Math.abs(x2 - reference) < 0.01)
      page.line(...to(x, y), ...to(x2, y2), { widthMm: 1 });
  });
  return spanY * scale;
}
