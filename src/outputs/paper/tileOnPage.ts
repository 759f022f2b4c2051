import { WORDS_BELOW_MM } from "../../plan/paper.ts";
import type { BoxOnPage } from "../pdf/page.ts";
import type { Tile, Tiling } from "./tiles.ts";

/** Where a tile lies on its page: paper mm, y down. */
export interface TileOnPage {
  readonly tile: Tile;
  readonly box: BoxOnPage;
  readonly scale: number;
  /** A point of the panel's frame on the page: the one place where y is turned over. */
  to(xMm: number, yMm: number): readonly [number, number];
}

/** Every tile's lower-left corner lies at the same place of its page. */
export function tileOnPage(tile: Tile, { pageHeightMm, marginMm, scale }: Tiling): TileOnPage {
  const leftMm = marginMm;
  const bottomMm = pageHeightMm - marginMm - WORDS_BELOW_MM;
  return {
    tile,
    scale,
    box: {
      leftMm,
      topMm: bottomMm - tile.lengthMm * scale,
      widthMm: tile.widthMm * scale,
      heightMm: tile.lengthMm * scale,
    },
    to: (xMm, yMm) => [leftMm + (xMm - tile.xMm) * scale, bottomMm - (yMm - tile.yMm) * scale],
  };
}
