import type { Font } from "./font.ts";
import { layoutLabels } from "./labelLayout.ts";
import { outlineInPicture, toPicture } from "./labelRoom.ts";
import { labelColour, labelKinds } from "./labelStyle.ts";
import { MADE_BY } from "./madeBy.ts";
import type { PreviewRaster } from "./previewRaster.ts";
import type { PreviewScene } from "./previewScene.ts";
import { layOutPage, type PageBox, SHEET_PX_PER_MM, type SheetPage } from "./proofSheetPage.ts";
import type { SheetScene } from "./proofSheetScene.ts";
import { boxWordsHeightMm, headerHeightMm, sheetWriter } from "./proofSheetWords.ts";
import { rasterizePreview } from "./rasterizePreview.ts";
import { svgNumber as n } from "./svgText.ts";

/** A drawn sheet: dots as pixels, and the paper with its words, to be laid over them (see encodePreview). */
export interface DrawnSheet {
  readonly page: SheetPage;
  readonly raster: PreviewRaster;
  readonly svg: string;
  /** Characters that the font cannot draw. */
  readonly missingCharacters: readonly string[];
}

/** Scale of the thinnest fibre's glow, px: 0.09 mm of paper, which a printer still shows as light on black. By eye. */
const GLOW_PX = 0.9;
/** With more dots in a thumbnail they get smaller, down to what pixels can show; with fewer larger, up to so many times. */
const CROWDED_DOTS = 600;
const SPARSE_TIMES = 1.4;
/** A unit of labelStyle.ts in px: names 2.2 mm high. */
const UNIT_PX = 8.5;
/** Dots that words keep clear of: with more of them no name would find its place. */
const BRIGHT_DOTS = 60;

const COLOURS = {
  paper: "#fff",
  dark: "#111",
  quiet: "#333",
  /** Dark red, which a grey printer keeps as dark grey. */
  own: "#a3200d",
  sky: "#000",
  seam: "#465060",
  /** Lighter than on a preview: small letters in a black print. */
  name: "#dfe5ee",
  none: "#f1f1f1",
} as const;

/** A proof sheet on A4: white paper, each ceiling as black as its night. */
export function drawProofSheet(scene: SheetScene, font: Font): DrawnSheet {
  const page = layOutPage({
    boxes: scene.boxes.length,
    headerMm: headerHeightMm(scene),
    wordsMm: boxWordsHeightMm,
    ceiling: scene.ceiling,
  });
  const raster: PreviewRaster = {
    data: new Uint8Array(page.widthMm * SHEET_PX_PER_MM * page.heightMm * SHEET_PX_PER_MM * 3),
    widthPx: page.widthMm * SHEET_PX_PER_MM,
    heightPx: page.heightMm * SHEET_PX_PER_MM,
    channels: 3,
  };
  const writer = sheetWriter(font);
  writer.header(scene, page.header);
  const pictures: string[] = [];
  for (const [i, box] of scene.boxes.entries()) {
    const { picture, words: at } = page.cells[i]!;
    writer.box(box, at);
    if (box.own) pictures.push(ownFrame(picture));
    pictures.push(rectangle(picture, box.scene ? COLOURS.sky : COLOURS.none));
    if (!box.scene) continue;
    const glowPx = GLOW_PX * Math.min(SPARSE_TIMES, Math.cbrt(CROWDED_DOTS / box.scene.dots.length));
    const widthPx = Math.round(picture.widthMm * SHEET_PX_PER_MM);
    blit(rasterizePreview(box.scene, { widthPx, leastGlowPx: glowPx }), raster, picture);
    pictures.push(thumbnailWords(box.scene, font, picture, widthPx, glowPx));
  }
  const texts = [
    scene.title,
    ...scene.lines,
    ...scene.boxes.flatMap((box) => [box.headline, ...box.lines, ...box.names]),
  ];
  const svg = [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${raster.widthPx}" height="${raster.heightPx}" viewBox="0 0 ${page.widthMm} ${page.heightMm}">`,
    `<!-- ${MADE_BY} -->`,
    `<rect width="${page.widthMm}" height="${page.heightMm}" fill="${COLOURS.paper}"/>`,
    ...pictures,
    writer.svg(COLOURS),
    "</svg>",
    "",
  ].join("\n");
  return { page, raster, svg, missingCharacters: [...new Set(texts.flatMap((text) => font.missing(text)))] };
}

const rectangle = ({ xMm, yMm, widthMm, heightMm }: PageBox, fill: string): string =>
  `<rect x="${n(xMm)}" y="${n(yMm)}" width="${n(widthMm)}" height="${n(heightMm)}" fill="${fill}"/>`;

/** A frame around the plan's own, clear of the picture. */
function ownFrame({ xMm, yMm, widthMm, heightMm }: PageBox): string {
  return `<rect x="${n(xMm - 0.9)}" y="${n(yMm - 0.9)}" width="${n(widthMm + 1.8)}" height="${n(heightMm + 1.8)}" fill="none" stroke="${COLOURS.own}" stroke-width="0.8"/>`;
}

/** Seams, compass letters and a few names, in the picture's own frame. */
function thumbnailWords(
  scene: PreviewScene,
  font: Font,
  { xMm, yMm, widthMm, heightMm }: PageBox,
  widthPx: number,
  glowPx: number,
): string {
  // Without panels: seams are too faint here to make words step aside, and panel ids would fill the sky.
  const layout = layoutLabels({ ...scene, panels: [] }, font, widthPx, {
    unitPx: UNIT_PX,
    glowPx,
    brightDots: BRIGHT_DOTS,
  });
  const seams = scene.panels.map((panel) => {
    if (panel.outlineMm) {
      const corners = outlineInPicture(scene, panel.outlineMm).map(([x, y]) => `${n(x)} ${n(y)}`);
      return `M${corners.join("L")}Z`;
    }
    const { x, y } = toPicture(scene, panel);
    return `M${n(x)} ${n(y)}h${n(panel.widthMm)}v${n(-panel.lengthMm)}h${n(-panel.widthMm)}Z`;
  });
  const ticks = layout.ticks.map(({ from, to }) => `M${n(from.x)} ${n(from.y)}L${n(to.x)} ${n(to.y)}`);
  // A seam breaks off where a word stands; stars shine through (see encodePreview).
  const clear = `stroke="${COLOURS.sky}" stroke-width="${n(0.5 * layout.unitMm)}" paint-order="stroke"`;
  const words = labelKinds.map((kind) => {
    const d = layout.labels.filter((label) => label.kind === kind).map((label) => label.d);
    return `<path fill="${kind === "name" ? COLOURS.name : labelColour[kind]}" ${clear} d="${d.join("")}"/>`;
  });
  return `<svg x="${n(xMm)}" y="${n(yMm)}" width="${n(widthMm)}" height="${n(heightMm)}" viewBox="0 0 ${n(scene.widthMm)} ${n(scene.lengthMm)}" preserveAspectRatio="none">
<g fill="none"><path stroke="${COLOURS.seam}" stroke-width="${n(0.15 * layout.unitMm)}" d="${seams.join("")}"/><path stroke="${labelColour.compass}" stroke-width="${n(0.3 * layout.unitMm)}" d="${ticks.join("")}"/></g>
${words.join("\n")}
</svg>`;
}

/** Copies a thumbnail's pixels to its place on the sheet. */
function blit(from: PreviewRaster, to: PreviewRaster, at: PageBox): void {
  const x = Math.round(at.xMm * SHEET_PX_PER_MM);
  const y = Math.round(at.yMm * SHEET_PX_PER_MM);
  for (let row = 0; row < from.heightPx; row++) {
    const start = row * from.widthPx * 3;
    to.data.set(from.data.subarray(start, start + from.widthPx * 3), ((y + row) * to.widthPx + x) * 3);
  }
}
