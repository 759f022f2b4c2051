import { panelChains } from "./ceilingChains.ts";
import { wallDimensions } from "./ceilingDimensions.ts";
import { keepOutWords, takeKeepOuts } from "./ceilingKeepOutWords.ts";
import { legendRows } from "./ceilingLegend.ts";
import { drilling, type MarkStyle, markDefs, structure } from "./ceilingMarks.ts";
import { panelWords } from "./ceilingPanelWords.ts";
import type { CeilingScene } from "./ceilingScene.ts";
import {
  BORDER_MM,
  type CeilingSheet,
  ceilingTransform,
  flow,
  layOutSheet,
  ringOnPaper,
  toPaper,
} from "./ceilingSheet.ts";
import { titleBlock, titleHeightMm } from "./ceilingTitle.ts";
import { wallBand } from "./ceilingWalls.ts";
import type { Font } from "./font.ts";
import { together } from "./insideWords.ts";
import { MADE_BY } from "./madeBy.ts";
import { sheetRoom } from "./sheetRoom.ts";
import { sheetText } from "./sheetText.ts";
import { type SizeSymbol, symbolsOf } from "./sizeSymbols.ts";

export interface CeilingDrawing {
  readonly svg: string;
  readonly sheet: CeilingSheet;
  /** Characters that the font cannot draw. */
  readonly missingCharacters: readonly string[];
}

/**
 * The working drawing of a ceiling on A3, seen from below: root and viewBox in paper mm. The groups `structure` and `drilling`
 * hold true mm of the ceiling frame under one transform; each hole is a `use` with its id and its place as in the schedule.
 * @param widthPx  for a raster: the root's size in px; else it is in mm
 */
export function drawCeiling(scene: CeilingScene, font: Font, widthPx?: number): CeilingDrawing {
  const text = sheetText(font);
  const chains = panelChains(scene);
  const rows = legendRows(scene, text);
  const legend = { rowsMm: rows.map(({ heightMm }) => heightMm), titleMm: titleHeightMm + 3 };
  const sheet = layOutSheet(scene, chains, legend, text);
  const { frame, columns } = sheet;
  const ofPlan = symbolsOf(scene.planSizesMm);
  const symbols = new Map(
    scene.sizes.map(({ diameterMm }) => [diameterMm, ofPlan.get(diameterMm)!] as const),
  );
  const style: MarkStyle = {
    denominator: frame.denominator,
    symbols,
    symbolScale: symbolScaleOf(scene, frame.denominator),
  };

  const room = sheetRoom(
    holeDiscs(scene, sheet, symbols, style.symbolScale),
    scene.panels.map(({ finished }) => ringOnPaper(frame, finished)),
    scene.panels.flatMap(({ battens }) => battens.map((ring) => ringOnPaper(frame, ring))),
  );
  takeKeepOuts(scene, frame, room);
  const inside = together([
    keepOutWords(scene, frame, room, text),
    panelWords(scene, chains, frame, room, text),
  ]);
  const places = flow(legend, columns.length, columns[0]!.heightMm)!;
  const legendParts = rows.map((row, i) => {
    const { column, downMm } = places[i]!;
    return row.draw(columns[column]!.xMm, columns[column]!.yMm + downMm, frame.denominator);
  });
  const body = [
    `<rect width="${sheet.widthMm}" height="${sheet.heightMm}" fill="#fff"/>`,
    `<rect x="${BORDER_MM}" y="${BORDER_MM}" width="${sheet.widthMm - 2 * BORDER_MM}" height="${sheet.heightMm - 2 * BORDER_MM}" fill="none" stroke="#000" stroke-width="0.35"/>`,
    wallBand(scene, frame, text),
    `<g id="structure" transform="${ceilingTransform(frame)}">`,
    structure(scene, style),
    "</g>",
    `<g id="wall-dimensions">\n${wallDimensions(sheet, text)}\n</g>`,
    `<g id="inside-lines">\n${inside.under}\n</g>`,
    `<g id="drilling" transform="${ceilingTransform(frame)}">`,
    drilling(scene, style),
    "</g>",
    // A thin white rim, so that figures read where holes are dense.
    `<g id="inside-words" stroke="#fff" stroke-width="1.2" stroke-linejoin="round" paint-order="stroke">\n${inside.over}\n</g>`,
    `<g id="legend">\n${legendParts.join("\n")}\n</g>`,
    titleBlock(scene, columns.at(-1)!, frame.denominator, sheet, text),
  ];
  const size =
    widthPx === undefined
      ? `width="${sheet.widthMm}mm" height="${sheet.heightMm}mm"`
      : `width="${widthPx}" height="${Math.round((widthPx * sheet.heightMm) / sheet.widthMm)}" preserveAspectRatio="none"`;
  const svg = [
    `<svg xmlns="http://www.w3.org/2000/svg" ${size} viewBox="0 0 ${sheet.widthMm} ${sheet.heightMm}">`,
    `<!-- ${MADE_BY} -->`,
    `<defs>\n${markDefs(style)}\n${text.defs()}\n</defs>`,
    ...body,
    "</svg>",
    "",
  ].join("\n");
  return { svg, sheet, missingCharacters: text.missing() };
}

/** Full size while holes have some 3 mm of paper to themselves; on a crowded ceiling down to half. */
function symbolScaleOf({ widthMm, lengthMm, holes }: CeilingScene, denominator: number): number {
  const pitchMm = Math.sqrt((widthMm * lengthMm) / Math.max(1, holes.length)) / denominator;
  return Number(Math.min(1, Math.max(0.45, pitchMm / 3)).toFixed(2));
}

const holeDiscs = (
  scene: CeilingScene,
  { frame }: CeilingSheet,
  symbols: ReadonlyMap<number, SizeSymbol>,
  symbolScale: number,
) =>
  scene.holes.map((hole) => ({
    ...toPaper(frame, { xMm: hole.ceilingXMm, yMm: hole.ceilingYMm }),
    radiusMm: symbols.get(hole.diameterMm)!.reachMm * symbolScale,
  }));
