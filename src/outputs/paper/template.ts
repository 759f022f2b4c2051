import { pageSizeMm } from "../../plan/paper.ts";
import type { Plan } from "../../plan/plan.ts";
import { proofsOf } from "../../schedule/proofs.ts";
import type { Hole, PanelRecord } from "../../schedule/types.ts";
import { startPdf } from "../pdf/document.ts";
import type { PdfFont } from "../pdf/font.ts";
import { FRAME_WORDS, type Frame, proofWords } from "../proofWords.ts";
import { drawTile } from "./drawTile.ts";
import { drawFrontPages } from "./frontPage.ts";
import { templateScene } from "./templateScene.ts";
import { tilesOf } from "./tiles.ts";

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
  const proofs = proofWords(proofsOf(board, holes), frame);
  drawFrontPages(pdf, scene, tiling, plan, proofs, pageSizeMm(plan.paper.size)[1]);
  for (const tile of tiling.tiles)
    if (tile.isOnBoard) drawTile(pdf.page(tiling.pageWidthMm, tiling.pageHeightMm), scene, tiling, tile);
  return await pdf.bytes();
}
