import { pageSizeMm } from "../../plan/paper.ts";
import type { Plan } from "../../plan/plan.ts";
import { proofsOf } from "../../schedule/proofs.ts";
import type { Hole, PanelRecord } from "../../schedule/types.ts";
import { startPdf } from "../pdf/document.ts";
import type { PdfFont } from "../pdf/font.ts";
import { FRAME_WORDS, type Frame, proofWords } from "../proofWords.ts";
import { drawTile } from "./drawTile.ts";
import { drawFrontPages } from "./frontPage.ts";
import { type TemplateScene, templateScene } from "./templateScene.ts";
import { LEAST_BEYOND_MM, type Tiling, tilesOf } from "./tiles.ts";

/**
 * A panel at 1:1 on the plan's paper, in the frame named: what to read first, then its tiles. A panel without holes has one too: its
 * outline, grid and battens are marked from it.
 * @param board as cut; `holes` are those of this panel, `panels` all of the ceiling
 */
export async function templatePdf(
  frame: Frame,
  board: PanelRecord,
  panels: readonly PanelRecord[],
  holes: readonly Hole[],
  plan: Plan,
  font: PdfFont,
): Promise<Uint8Array> {
  const pdf = startPdf(
    {
      title: `Panel ${board.id}, template, ${FRAME_WORDS[frame]}`,
      subject: plan.title,
    },
    font,
  );
  const scene = templateScene(frame, board, panels, holes, plan, pdf.text);
  const tiling = tilesOf(scene, plan.paper);
  refuseCutMarks(scene, tiling);
  const proofs = proofWords(proofsOf(board, holes), frame);
  drawFrontPages(pdf, scene, tiling, plan, proofs, pageSizeMm(plan.paper.size)[1]);
  for (const tile of tiling.tiles)
    if (tile.isOnBoard) drawTile(pdf.page(tiling.pageWidthMm, tiling.pageHeightMm), scene, tiling, tile);
  return await pdf.bytes();
}

/**
 * Every mark must be whole on a tile that is printed, as far as it lies on what is shown at all.
 * @throws Error, a fault of ours: the plan's overlap has been checked
 */
function refuseCutMarks(scene: TemplateScene, { tiles, scale }: Tiling): void {
  const holds = (fromMm: number, spanMm: number, atMm: number, reachMm: number, boardMm: number) =>
    fromMm <= Math.max(atMm - reachMm, -LEAST_BEYOND_MM) &&
    fromMm + spanMm >= Math.min(atMm + reachMm, boardMm + LEAST_BEYOND_MM);
  const cut = scene.holes.filter(({ xMm, yMm, mark }) => {
    const reachMm = mark.reachMm / scale;
    return !tiles.some(
      (tile) =>
        tile.isOnBoard &&
        holds(tile.xMm, tile.widthMm, xMm, reachMm, scene.widthMm) &&
        holds(tile.yMm, tile.lengthMm, yMm, reachMm, scene.lengthMm),
    );
  });
  if (cut.length > 0)
    throw new Error(
      `template of ${scene.panel}: whole on no tile: ${cut.map(({ number }) => number).join(", ")}`,
    );
}
