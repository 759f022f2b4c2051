import { pageSizeMm } from "../../plan/paper.ts";
import type { Plan } from "../../plan/plan.ts";
import { sampleBoard } from "../../schedule/sampleBoard.ts";
import { startPdf } from "../pdf/document.ts";
import { textFlow } from "../pdf/flow.ts";
import type { PdfFont } from "../pdf/font.ts";
import type { PdfPage } from "../pdf/page.ts";
import { drillingCautions } from "../workWords.ts";
import { drawJoins } from "./joins.ts";
import { acrossRuler, uprightRuler } from "./rulers.ts";
import { tileOnPage } from "./tileOnPage.ts";
import { type Tile, type Tiling, tilesOf } from "./tiles.ts";
import { AT_FULL_SIZE } from "./tileWords.ts";

type Sample = ReturnType<typeof sampleBoard>;

/** The off-cut that cloth, bits and fibres are tried on, at 1:1 on the plan's paper; the same board as sample.dxf. */
export async function samplePdf(plan: Plan, font: PdfFont): Promise<Uint8Array> {
  const sample = sampleBoard(plan);
  const pdf = startPdf({ title: "Sample board, FACE: as seen from the room", subject: plan.title }, font);
  const tiling = tilesOf({ ...sample, outline: sample.outlineMm }, plan.paper);
  const [widthMm, heightMm] = pageSizeMm(plan.paper.size);
  const first = pdf.page(widthMm, heightMm);
  const { margin } = plan.paper;
  first.words("Sample board · FACE: as seen from the room", margin, margin + 6.5, {
    sizeMm: 7,
    roomMm: widthMm - 2 * margin,
  });
  const bottom = heightMm - margin;
  acrossRuler(first, margin + 8, bottom - 6, "100 mm in the file: lay a steel rule here");
  uprightRuler(first, margin + 2, bottom - 6, "100 mm in the file: lay a steel rule here");
  let column = {
    page: first,
    leftMm: margin,
    topMm: margin + 12,
    widthMm: Math.min(170, widthMm - 2 * margin),
    bottomMm: bottom - 118,
  };
  let asked = 0;
  const flow = textFlow(pdf.text, () => {
    if (asked++ > 0)
      column = { ...column, page: pdf.page(widthMm, heightMm), topMm: margin, bottomMm: bottom };
    return column;
  });
  const { pilot } = plan.work;
  flow.heading("What to try, before the first real panel");
  [
    `Print at 100 %, no scaling (actual size), and lay a steel rule on both rulers: ${plan.paper.measured100} mm each. Tape the tiles on a 300 x 300 mm off-cut of the same board, by its own edges.`,
    `Pilot holes of ${pilot} mm from the face (smaller rings with their own bit); then paint, glue and cloth as on the real panels; then open the holes from the back as you mean to.`,
    "Spacings: does the board hold between holes, and does the cloth lie flat? Three bits is the least that the plan keeps.",
    "Thread each size; trim the tips flush, 1 mm and 3 mm proud; light them and choose. Bend one of each as marked and look for loss.",
    "Cloth that frays or winds itself round a bit here will do so on the panels: pierce it or use a hot needle away from dust and fumes instead.",
  ].forEach((step, i) => {
    flow.item(`${i + 1}.`, step);
  });
  flow.heading("Cautions");
  for (const caution of drillingCautions()) flow.item("–", caution.replace(/^CAUTIONS: /, ""));
  for (const tile of tiling.tiles)
    drawSampleTile(pdf.page(tiling.pageWidthMm, tiling.pageHeightMm), sample, tiling, tile);
  return await pdf.bytes();
}

/** Marks of neighbours at two bits must not run into each other: a short cross, and the ring. */
const CROSS_BEYOND_RING_MM = 0.25;

function drawSampleTile(page: PdfPage, sample: Sample, tiling: Tiling, tile: Tile): void {
  const on = tileOnPage(tile, tiling);
  const { scale } = on;
  page.within(on.box, () => {
    page.outline(
      sample.outlineMm.map(([x, y]) => on.to(x, y)),
      { widthMm: 0.35 },
    );
    for (const { fromMm, toMm } of sample.lines)
      page.line(...on.to(...fromMm), ...on.to(...toMm), { widthMm: 0.2 });
    for (const { text, xMm, yMm, heightMm } of sample.words)
      page.words(text, ...on.to(xMm, yMm), { sizeMm: heightMm });
    for (const { xMm, yMm, bitMm } of sample.holes) {
      const [x, y] = on.to(xMm, yMm);
      const reach = (bitMm / 2) * scale + CROSS_BEYOND_RING_MM;
      page.circle(x, y, (bitMm / 2) * scale, { widthMm: 0.13 });
      page.lines(
        [
          [x - reach, y, x + reach, y],
          [x, y - reach, x, y + reach],
        ],
        { widthMm: 0.08 },
      );
    }
    drawJoins(page, tiling, on);
  });
  const { leftMm, topMm, heightMm } = on.box;
  const bottom = topMm + heightMm;
  page.words(
    `Sample · FACE: as seen from the room · tile ${tile.name} · ${AT_FULL_SIZE}`,
    leftMm,
    bottom + 7.2,
    {
      sizeMm: 3.6,
    },
  );
  page.words(
    `Lower-left corner of this tile: x ${tile.xMm.toFixed(2)} mm, y ${tile.yMm.toFixed(2)} mm, from the board's lower-left corner on the FACE.`,
    leftMm,
    bottom + 11,
    { sizeMm: 2.5 },
  );
  acrossRuler(page, leftMm, bottom + 15.2, "100 mm");
  uprightRuler(page, tiling.pageWidthMm - tiling.marginMm - 3.2, bottom, "100 mm");
}
