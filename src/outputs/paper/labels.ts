import { upToTenths as mm } from "../../plan/mmWords.ts";
import { pageSizeMm } from "../../plan/paper.ts";
import type { Plan, WallSide } from "../../plan/plan.ts";
import { CAPITALS } from "../../render/font.ts";
import type { PanelRecord } from "../../schedule/types.ts";
import { type PanelEdge, panelEdges, SIDES, seenFromBack } from "../panelEdges.ts";
import { startPdf } from "../pdf/document.ts";
import type { PdfFont } from "../pdf/font.ts";
import type { BoxOnPage, PdfPage } from "../pdf/page.ts";
import type { Frame } from "../proofWords.ts";

const GAP_MM = 4;
/** Of the sheet, over its labels. */
const HEAD_MM = 12;
const PANEL_LABEL = { widthMm: 90, heightMm: 64 } as const;
const EDGE_LABEL = { widthMm: 90, heightMm: 14 } as const;
const CUT = { widthMm: 0.18, colour: "#777777", dashMm: [2, 1.2] } as const;

interface Label {
  readonly widthMm: number;
  readonly heightMm: number;
  draw(page: PdfPage, box: BoxOnPage): void;
}

/**
 * Labels to print, cut and stick on, for each panel: one for its FACE (off again before the cloth goes on), one for its BACK, and four
 * for the edges of the back. Each says which edge faces which wall and beside which panels it hangs.
 */
export async function labelsPdf(
  panels: readonly PanelRecord[],
  plan: Plan,
  font: PdfFont,
): Promise<Uint8Array> {
  const pdf = startPdf({ title: "Labels of panels and their edges", subject: plan.title }, font);
  const labels = panels.flatMap((panel) => labelsOf(panel, panels, plan));
  const [widthMm, heightMm] = pageSizeMm(plan.paper.size);
  const { margin } = plan.paper;
  const right = widthMm - margin;
  const bottom = heightMm - margin;
  let page: PdfPage | null = null;
  let x = margin;
  let y = margin + HEAD_MM;
  let rowMm = 0;
  for (const label of labels) {
    if (x > margin && x + label.widthMm > right) {
      x = margin;
      y += rowMm + GAP_MM;
      rowMm = 0;
    }
    if (page === null || y + label.heightMm > bottom) {
      page = pdf.page(widthMm, heightMm);
      page.words("Labels: cut along the dashes, stick on when the panel is cut", margin, margin + 5, {
        sizeMm: 4,
        roomMm: right - margin,
      });
      page.words(
        "A FACE label comes off before cloth or paint; BACK and edge labels stay. Left and right are those of the side that lies up.",
        margin,
        margin + 9.4,
        { sizeMm: 2.6, roomMm: right - margin },
      );
      x = margin;
      y = margin + HEAD_MM;
      rowMm = 0;
    }
    const box = { leftMm: x, topMm: y, widthMm: label.widthMm, heightMm: label.heightMm };
    page.box(box, CUT);
    label.draw(page, box);
    x += label.widthMm + GAP_MM;
    rowMm = Math.max(rowMm, label.heightMm);
  }
  return await pdf.bytes();
}

function labelsOf(panel: PanelRecord, panels: readonly PanelRecord[], plan: Plan): Label[] {
  const edges = panelEdges(panel, panels, plan);
  return [
    ...(["FACE", "BACK"] as const).map(
      (frame): Label => ({
        ...PANEL_LABEL,
        draw: (page, box) => drawPanelLabel(page, box, panel, edges, frame),
      }),
    ),
    ...edges.map(
      (edge): Label => ({ ...EDGE_LABEL, draw: (page, box) => drawEdgeLabel(page, box, panel, edge) }),
    ),
  ];
}

const FRAME_LINES: Readonly<Record<Frame, string>> = {
  FACE: "FACE: as seen from the room",
  BACK: "BACK: mirrored, seen from above",
};

const wallWords = ({ wall }: PanelEdge) => `to the ${wall.replace(/^the /, "")}`;
const besideWords = ({ neighbours }: PanelEdge) =>
  neighbours.length === 0 ? "no panel beside" : `beside ${neighbours.join(", ")}`;

/** The panel in small, its sides where they are on the side that lies up. */
function drawPanelLabel(
  page: PdfPage,
  { leftMm, topMm, widthMm, heightMm }: BoxOnPage,
  panel: PanelRecord,
  edges: readonly PanelEdge[],
  frame: Frame,
): void {
  const edgeAt = (side: WallSide) =>
    edges.find((edge) => edge.side === (frame === "FACE" ? side : seenFromBack(side)))!;
  const inset = { side: 13, end: 10 };
  const board = {
    leftMm: leftMm + inset.side,
    topMm: topMm + inset.end,
    widthMm: widthMm - 2 * inset.side,
    heightMm: heightMm - 2 * inset.end,
  };
  page.box(board, { widthMm: 0.35 });
  const referenceX = frame === "FACE" ? board.leftMm : board.leftMm + board.widthMm;
  page.line(referenceX, board.topMm, referenceX, board.topMm + board.heightMm, { widthMm: 1 });
  const x = leftMm + widthMm / 2;
  const y = topMm + heightMm / 2;
  const inner = board.widthMm - 6;
  page.words(panel.id, x, y + 1, { sizeMm: 17, anchor: "middle", roomMm: inner });
  page.words(FRAME_LINES[frame], x, y + 8, { sizeMm: 3.2, anchor: "middle", roomMm: inner });
  page.words(
    `board ${mm(panel.widthMm)} x ${mm(panel.lengthMm)} mm · ${panel.holeCount} ${panel.holeCount === 1 ? "hole" : "holes"}`,
    x,
    y + 13,
    { sizeMm: 2.8, anchor: "middle", roomMm: inner },
  );
  page.words("thick side: reference edge", x, y + 17.5, { sizeMm: 2.3, anchor: "middle", roomMm: inner });
  for (const side of SIDES) {
    const edge = edgeAt(side);
    const upright = side === "left" || side === "right";
    const lines = [wallWords(edge), besideWords(edge)];
    const roomMm = (upright ? heightMm : widthMm) - 4;
    lines.forEach((line, i) => {
      const step = 4.2 * i;
      const at = {
        top: [x, topMm + 4.2 + step],
        bottom: [x, topMm + heightMm - 6 + step],
        left: [leftMm + 5 + step, y],
        right: [leftMm + widthMm - 7 + step, y],
      }[side] as [number, number];
      page.words(line, ...at, {
        sizeMm: 3,
        anchor: "middle",
        roomMm,
        ...(upright ? { turnedDeg: 90 } : {}),
      });
    });
  }
}

function drawEdgeLabel(
  page: PdfPage,
  { leftMm, topMm, widthMm, heightMm }: BoxOnPage,
  panel: PanelRecord,
  edge: PanelEdge,
): void {
  const idMm = Math.min(
    20,
    page.words(panel.id, leftMm + 2, topMm + heightMm / 2 + 8 * CAPITALS * 0.5, {
      sizeMm: 8,
      roomMm: 20,
    }),
  );
  const x = leftMm + idMm + 6;
  const roomMm = widthMm - idMm - 8;
  const { side } = edge;
  const back = seenFromBack(side);
  const name = side === back ? `${side} edge` : `${side} edge on the FACE, ${back} on the BACK`;
  const reference = side === "left" ? " · reference edge" : "";
  page.words(`BACK · ${name}${reference}`, x, topMm + 5.6, { sizeMm: 2.8, roomMm });
  page.words(`${wallWords(edge)} · ${besideWords(edge)}`, x, topMm + 10.6, { sizeMm: 3.4, roomMm });
}
