import type { PdfPage } from "../pdf/page.ts";
import { drawMark } from "./marks.ts";
import type { TemplateScene } from "./templateScene.ts";

const SIZE_MM = 2.75;

/** What every mark means. @returns where it ends */
export function drawSizeLegend(
  page: PdfPage,
  scene: TemplateScene,
  room: { readonly leftMm: number; readonly topMm: number; readonly widthMm: number },
): number {
  const { leftMm, widthMm } = room;
  let y = room.topMm;
  const line = (words: string, x = leftMm + 11) =>
    page.words(words, x, y + 1, { sizeMm: SIZE_MM, roomMm: leftMm + widthMm - x });
  page.words("Sizes", leftMm, y, { sizeMm: 3.8 });
  y += 6;
  for (const { mark, count } of scene.sizes) {
    drawMark(page, mark, leftMm + 5, y, 1);
    line(
      `${mark.diameterMm} mm fibre, ${mark.bitMm} mm bit (ring) · ${mark.symbol.name} · ${count} ${count === 1 ? "hole" : "holes"}`,
    );
    y += Math.max(7, 2 * mark.reachMm + 1);
  }
  y -= 1;
  for (const words of [
    `Drill at the crossing. Numbers: ${scene.panel}-12 is printed as 12.`,
    ...(scene.frame === "BACK" ? ["Below the number: fibre in mm, and bundle where known."] : []),
    `Blue lines: every 200 mm from the reference edge and ${scene.squareness === null ? "the lower edge" : "from its lower end"}.`,
    ...(scene.keepOuts.length > 0 ? ["Red dashes: keep out."] : []),
    ...(scene.battens.length > 0 && scene.frame === "BACK"
      ? ["Grey: battens. Small crossed squares: screws; large ones: hanging points."]
      : []),
  ]) {
    line(words, leftMm);
    y += 4;
  }
  return y;
}
