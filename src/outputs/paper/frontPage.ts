import type { Plan } from "../../plan/plan.ts";
import type { Pdf } from "../pdf/document.ts";
import { type Column, textFlow } from "../pdf/flow.ts";
import type { PdfPage } from "../pdf/page.ts";
import { FRAME_WORDS } from "../proofWords.ts";
import { drillingCautions } from "../workWords.ts";
import { howToSteps } from "./howTo.ts";
import { acrossRuler, RULER_MM, uprightRuler } from "./rulers.ts";
import { drawSizeLegend } from "./sizeLegend.ts";
import type { TemplateScene } from "./templateScene.ts";
import { drawTileMap } from "./tileMap.ts";
import type { Tiling } from "./tiles.ts";
import { AT_FULL_SIZE } from "./tileWords.ts";

const HEAD_MM = 20;
/** The corner that the two rulers span. */
const RULERS_MM = RULER_MM + 12;
const GAP_MM = 6;
const LEAST_COLUMN_MM = 58;
const WIDEST_COLUMN_MM = 105;

/** What one reads before the first tile: map, rulers, sizes, how to use it, proofs, cautions. Runs on over more pages where it must. */
export function drawFrontPages(
  pdf: Pdf,
  scene: TemplateScene,
  tiling: Tiling,
  plan: Plan,
  proofs: readonly string[],
  pageHeightMm: number,
): void {
  const { pageWidthMm, marginMm } = tiling;
  const left = marginMm;
  const right = pageWidthMm - marginMm;
  const bottom = pageHeightMm - marginMm;
  const top = marginMm + HEAD_MM;
  const newPage = () => {
    const page = pdf.page(pageWidthMm, pageHeightMm);
    drawHead(page, scene, tiling, plan, left, right);
    return page;
  };
  const first = newPage();
  drawRulers(first, tiling, left, bottom);
  drawSizeLegend(first, scene, {
    leftMm: left + 12,
    topMm: bottom - RULERS_MM + 7,
    widthMm: RULERS_MM - 14,
  });
  drawTileMap(first, scene, tiling, {
    leftMm: left,
    topMm: top,
    widthMm: RULERS_MM,
    heightMm: bottom - RULERS_MM - GAP_MM - top,
  });

  const columns = columnsOf(newPage, first, { left: left + RULERS_MM + GAP_MM, right, top, bottom }, left);
  const flow = textFlow(pdf.text, columns);
  // Before all else, so that it stands on the first page.
  if (scene.squareness !== null) {
    flow.heading("This board is out of square");
    flow.paragraph(
      `${scene.squareness[0]!.toUpperCase()}${scene.squareness.slice(1)}. Lay every tile by the reference edge and its lower end.`,
    );
  }
  flow.heading("How to use it");
  howToSteps(scene, plan, tiling).forEach((step, i) => {
    flow.item(`${i + 1}.`, step);
  });
  flow.heading("Before the first hole");
  for (const proof of proofs) flow.toTick(proof);
  flow.heading("Cautions");
  for (const caution of drillingCautions()) flow.item("–", caution.replace(/^CAUTIONS: /, ""));
}

function drawHead(
  page: PdfPage,
  { panel, frame, holes }: TemplateScene,
  { tiles, rows, columns }: Tiling,
  plan: Plan,
  left: number,
  right: number,
): void {
  const top = plan.paper.margin;
  const roomMm = right - left;
  page.words(`Panel ${panel} · ${FRAME_WORDS[frame]}`, left, top + 6.5, { sizeMm: 7, roomMm });
  const printed = tiles.filter(({ isOnBoard }) => isOnBoard).length;
  const count = `${holes.length} ${holes.length === 1 ? "hole" : "holes"}`;
  page.words(
    `Template 1 : 1, ${AT_FULL_SIZE} · ${count} · ${printed} ${printed === 1 ? "tile" : "tiles"}${tiles.length === 1 ? "" : ` in ${rows} ${rows === 1 ? "row" : "rows"} and ${columns} ${columns === 1 ? "column" : "columns"}`}`,
    left,
    top + 12,
    { sizeMm: 3.4, roomMm },
  );
  if (plan.title !== "")
    page.words(plan.title, left, top + 16.5, { sizeMm: 2.75, colour: "#444444", roomMm });
}

function drawRulers(page: PdfPage, { scale }: Tiling, left: number, bottom: number): void {
  const y = bottom - 6;
  acrossRuler(page, left + 8, y, "100 mm in the file: lay a steel rule here");
  uprightRuler(page, left + 2, y, "100 mm in the file: lay a steel rule here");
  if (scale === 1) return;
  const bar = y - 8;
  page.line(left + 8, bar, left + 8 + RULER_MM * scale, bar, { widthMm: 0.5 });
  page.words("100 mm of the board: measures 100 mm on your paper", left + 8, bar - 1.2, { sizeMm: 2.2 });
}

interface Room {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Columns beside what is drawn on the first page, then those of further pages. */
function columnsOf(newPage: () => PdfPage, first: PdfPage, beside: Room, left: number): () => Column {
  const waiting = columnsIn(first, beside);
  return () => {
    if (waiting.length === 0) waiting.push(...columnsIn(newPage(), { ...beside, left }));
    return waiting.shift()!;
  };
}

function columnsIn(page: PdfPage, { left, right, top, bottom }: Room): Column[] {
  const roomMm = right - left;
  if (roomMm < LEAST_COLUMN_MM) return [];
  const count = Math.ceil((roomMm + GAP_MM) / (WIDEST_COLUMN_MM + GAP_MM));
  const widthMm = (roomMm - (count - 1) * GAP_MM) / count;
  return Array.from({ length: count }, (_, i) => ({
    page,
    leftMm: left + i * (widthMm + GAP_MM),
    topMm: top,
    widthMm,
    bottomMm: bottom,
  }));
}
