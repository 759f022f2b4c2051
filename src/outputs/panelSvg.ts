import { faceToBack } from "../projection/frames.ts";
import type { Font } from "../render/font.ts";
import { MADE_BY } from "../render/madeBy.ts";
import { symbolsOf } from "../render/sizeSymbols.ts";
import { svgNumber as n } from "../render/svgText.ts";
import { type CutPanelRecord, withTrueCorners } from "../schedule/asCut.ts";
import { outOfSquareWords } from "../schedule/outOfSquare.ts";
import { proofsOf } from "../schedule/proofs.ts";
import type { Hole } from "../schedule/types.ts";
import { panelSvgWords } from "./panelSvgWords.ts";
import { FRAME_WORDS, type Frame, proofWords } from "./proofWords.ts";

type PointMm = readonly [number, number];

/** Hairline: a laser's software takes the middle of the stroke. */
const HAIRLINE_MM = 0.1;
const SCREW_MM = 2;
const HANGER_MM = 4;

/**
 * face.svg or back.svg at true scale: the page is the board's bounding box, no margin; one circle a hole at bit diameter, in a group for each
 * fibre's size; outline, battens, screws, hanging points and words in groups of their own, without circles. No transforms and no `use`,
 * so that the plainest reader of SVG 1.1 finds every place in mm. SVG's y runs down: y = length - yMm. A board out of square is drawn
 * so: its outline may leave the page, width by length from the reference edge's lower end, by as much as it is off.
 * @param board as cut (`boardAsCut`)
 * @param holes those of this panel
 * @param diametersMm of all fibres of the ceiling, so that each has its colour on every panel
 */
export function panelSvg(
  frame: Frame,
  board: CutPanelRecord,
  holes: readonly Hole[],
  diametersMm: readonly number[],
  font: Font,
): { readonly svg: string; readonly missingCharacters: readonly string[] } {
  const { id, widthMm, lengthMm } = board;
  const { outlineMm } = withTrueCorners(board);
  const squareness = outOfSquareWords(board, frame);
  const onPage = ([xFaceMm, yFaceMm]: PointMm): PointMm => {
    const face = { xMm: xFaceMm, yMm: yFaceMm };
    const { xMm, yMm } = frame === "FACE" ? face : faceToBack(face, widthMm);
    return [xMm, lengthMm - yMm];
  };
  const ring = (corners: readonly PointMm[]) =>
    `<path d="M${corners.map((corner) => onPage(corner).map(n).join(" ")).join("L")}Z"/>`;
  const cross = (r: number, diagonal: boolean) => (point: PointMm) => {
    const [x, y] = onPage(point);
    return diagonal
      ? `<path d="M${n(x - r)} ${n(y - r)}L${n(x + r)} ${n(y + r)}M${n(x - r)} ${n(y + r)}L${n(x + r)} ${n(y - r)}"/>`
      : `<path d="M${n(x - r)} ${n(y)}H${n(x + r)}M${n(x)} ${n(y - r)}V${n(y + r)}"/>`;
  };
  const layer = (name: string, colour: string, content: readonly string[], more = "") =>
    `<g id="${name}" fill="none" stroke="${colour}" stroke-width="${HAIRLINE_MM}"${more}>\n${content.join("\n")}\n</g>`;
  const symbols = symbolsOf(diametersMm);
  const sizes = [...symbols].flatMap(([diameterMm, { colour }]) => {
    const its = holes.filter((hole) => hole.diameterMm === diameterMm);
    if (its.length === 0) return [];
    const circles = its.map((hole) => {
      const [x, y] = onPage([hole.xMm, hole.yMm]);
      return `<circle id="${hole.hole}" cx="${n(x)}" cy="${n(y)}" r="${Number((hole.bitMm / 2).toFixed(5))}"/>`;
    });
    const name = `holes-${String(diameterMm).replace(".", "_")}mm`;
    return [
      { diameterMm, bitMm: its[0]!.bitMm, colour, layer: layer(name, colour, circles), count: its.length },
    ];
  });
  const sentences = [
    `Panel ${id} ${FRAME_WORDS[frame]}`,
    `1 : 1, mm: page ${n(widthMm)} x ${n(lengthMm)} mm, ${squareness === null ? "the board's bounding box" : "the board's width and length from the reference edge's lower end"}.`,
    frame === "FACE"
      ? "The left edge is the reference edge; the upper edge is the ceiling's top side."
      : "The right edge is the reference edge, the FACE's left; the upper edge is the ceiling's top side.",
    ...sizes.map(
      ({ diameterMm, bitMm, count }) =>
        `${diameterMm} mm fibre, bit ${bitMm} mm: ${count} ${count === 1 ? "hole" : "holes"}`,
    ),
    ...(sizes.length === 0 ? ["No holes on this panel."] : []),
    ...(squareness === null
      ? []
      : [
          `${squareness[0]!.toUpperCase()}${squareness.slice(1)}. Other corners than those of the reference edge lie off those of the page.`,
        ]),
    ...proofWords(proofsOf(board, holes), frame),
    "Drill flat on a bench and clamped, never overhead; eye protection; dust taken off at the tool and a fine-dust mask. Laser fumes of MDF are harmful: follow the machine's own rules. Local codes and licensed practice decide.",
  ];
  const words = panelSvgWords(
    sentences,
    outlineMm.map(onPage),
    holes.map((hole) => onPage([hole.xMm, hole.yMm])),
    { widthMm, lengthMm },
    font,
  );
  const svg = [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="${n(widthMm)}mm" height="${n(lengthMm)}mm" viewBox="0 0 ${n(widthMm)} ${n(lengthMm)}">`,
    `<!-- ${MADE_BY} -->`,
    `<title>Panel ${id} ${FRAME_WORDS[frame]}</title>`,
    `<desc>True scale: one unit is 1 mm. ${sizes.map((size) => `${size.diameterMm} mm fibre: bit ${size.bitMm} mm`).join("; ")}</desc>`,
    // First, so that no letter lies over a hole.
    words.group,
    layer("outline", "#000000", [ring(outlineMm)]),
    layer("battens", "#7A6A50", board.battensMm.map(ring), ' stroke-dasharray="4 2"'),
    layer("screws", "#555555", board.screwsMm.map(cross(SCREW_MM, true))),
    layer("hangers", "#555555", board.hangersMm.map(cross(HANGER_MM, false))),
    ...sizes.map((size) => size.layer),
    "</svg>",
    "",
  ].join("\n");
  return { svg, missingCharacters: words.missingCharacters };
}
