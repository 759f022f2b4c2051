import type { PdfPage } from "../pdf/page.ts";
import { FRAME_WORDS } from "../proofWords.ts";
import { acrossRuler, uprightRuler } from "./rulers.ts";
import type { TemplateScene } from "./templateScene.ts";
import type { TileOnPage } from "./tileOnPage.ts";
import type { Tiling } from "./tiles.ts";

export const AT_FULL_SIZE = "print at 100 %, no scaling";

/** What stands below and beside a tile: grid labels, whose tile it is, its lower-left corner, rulers, sizes. */
export function drawTileWords(
  page: PdfPage,
  scene: TemplateScene,
  { pageWidthMm, marginMm }: Tiling,
  { tile, box, to }: TileOnPage,
): void {
  const left = box.leftMm;
  const bottom = box.topMm + box.heightMm;
  const right = pageWidthMm - marginMm;
  page.line(left, bottom, left + 4, bottom, { widthMm: 0.5 });
  page.line(left, bottom, left, bottom - 4, { widthMm: 0.5 });
  for (const { atMm, words } of scene.gridX) {
    if (atMm < tile.xMm || atMm > tile.xMm + tile.widthMm) continue;
    const [x] = to(atMm, 0);
    page.line(x, bottom, x, bottom + 1, { widthMm: 0.13, colour: GRID_COLOUR });
    const anchor = x > right - 30 ? "end" : x < left + 30 ? "start" : "middle";
    page.words(words, x, bottom + 3, { sizeMm: 2.1, colour: GRID_COLOUR, anchor });
  }
  for (const { atMm, words } of scene.gridY) {
    if (atMm < tile.yMm || atMm > tile.yMm + tile.lengthMm) continue;
    const [, y] = to(0, atMm);
    const x = left + box.widthMm;
    page.line(x, y, x + 1, y, { widthMm: 0.13, colour: GRID_COLOUR });
    const anchor = y < box.topMm + 8 ? "end" : y > bottom - 8 ? "start" : "middle";
    page.words(words, x + 2.3, y, { sizeMm: 2.1, colour: GRID_COLOUR, anchor, turnedDeg: 90 });
  }
  const wide = right - left;
  page.words(
    `${scene.panel} · ${FRAME_WORDS[scene.frame]} · tile ${tile.name} · ${AT_FULL_SIZE}`,
    left,
    bottom + 7.2,
    { sizeMm: 3.6, roomMm: wide },
  );
  page.words(
    `Lower-left corner of this tile: x ${tile.xMm.toFixed(2)} mm, y ${tile.yMm.toFixed(2)} mm, from ${scene.fromCorner}.`,
    left,
    bottom + 11,
    { sizeMm: 2.5, roomMm: wide },
  );
  acrossRuler(page, left, bottom + 15.2, "100 mm");
  uprightRuler(page, right - 3.2, bottom, "100 mm");
  drawSizes(page, scene, left + 106, bottom + 15.2, right);
}

const GRID_COLOUR = "#3a6ea5";

/** The sizes that this panel has, as far as they fit. */
function drawSizes(page: PdfPage, { sizes }: TemplateScene, x: number, y: number, right: number): void {
  const used = sizes.filter(({ count }) => count > 0);
  const step = Math.min(22, (right - x) / Math.max(1, used.length));
  if (step < 9) return;
  used.forEach(({ mark: { symbol, symbolScale, diameterMm } }, i) => {
    const scale = Math.min(symbolScale, 1.8 / symbol.reachMm);
    page.shape(symbol.path(scale), x + i * step + 2, y, { widthMm: 0.3, colour: symbol.colour });
    page.words(`${diameterMm} mm`, x + i * step + 4.6, y + 0.9, { sizeMm: 2.4, roomMm: step - 5 });
  });
}
