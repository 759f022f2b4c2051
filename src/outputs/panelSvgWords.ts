import { ringHolds } from "../panel/rings.ts";
import type { Font } from "../render/font.ts";
import { svgNumber as n } from "../render/svgText.ts";

type PointMm = readonly [number, number];

const LARGEST_MM = 8;
const SMALLEST_MM = 2;
const LINE = 1.4;
/** Wide enough for the bar, too. */
const WIDTH_SIZES = 44;
const BAR_MM = 100;
const PLACES = 24;

/**
 * Words on the board, as outlines on a layer of their own, where they meet the fewest holes; and a bar of 100 mm where the board is that wide.
 * @param outline and holes in mm of the page, y down
 */
export function panelSvgWords(
  sentences: readonly string[],
  outline: readonly PointMm[],
  holes: readonly PointMm[],
  { widthMm, lengthMm }: { readonly widthMm: number; readonly lengthMm: number },
  font: Font,
): { readonly group: string; readonly missingCharacters: readonly string[] } {
  const block = setIn(sentences, widthMm, lengthMm, font);
  const hasBar = block.widthMm >= BAR_MM;
  const { x, y } = emptiest(block, outline, holes, widthMm, lengthMm);
  const paths = block.lines.map(
    (line, k) =>
      `<path d="${font.textPath(line, x, y + (k + 0.8) * LINE * block.sizeMm, block.sizeMm, "start").d}"/>`,
  );
  const barY = y + (block.lines.length + 0.6) * LINE * block.sizeMm;
  const bar = `<path id="bar-100mm" fill="none" stroke="#000000" stroke-width="0.1" d="M${n(x)} ${n(barY)}L${n(x + BAR_MM)} ${n(barY)}"/>`;
  return {
    group: `<g id="words" fill="#000000" stroke="none">\n${[...paths, ...(hasBar ? [bar] : [])].join("\n")}\n</g>`,
    missingCharacters: [...new Set(sentences.flatMap((sentence) => font.missing(sentence)))],
  };
}

interface Block {
  readonly lines: readonly string[];
  readonly sizeMm: number;
  readonly widthMm: number;
  readonly highMm: number;
}

/** As large as half the board holds, within bounds. */
function setIn(sentences: readonly string[], widthMm: number, lengthMm: number, font: Font): Block {
  for (let sizeMm = LARGEST_MM; ; sizeMm -= 0.5) {
    const roomMm = Math.min(0.9 * widthMm, WIDTH_SIZES * sizeMm);
    const lines = sentences.flatMap((sentence) => wrapped(sentence, sizeMm, roomMm, font));
    const highMm = (lines.length + 1) * LINE * sizeMm;
    if (sizeMm <= SMALLEST_MM || (roomMm <= 0.55 * widthMm && highMm <= 0.6 * lengthMm))
      return {
        lines: roomMm < BAR_MM ? lines : [...lines, "This bar is 100 mm:"],
        sizeMm,
        widthMm: roomMm,
        highMm: highMm + LINE * sizeMm,
      };
  }
}

function wrapped(text: string, sizeMm: number, roomMm: number, font: Font): string[] {
  const rows: string[] = [];
  for (const word of text.split(/\s+/u)) {
    const longer = rows.length === 0 ? word : `${rows.at(-1)} ${word}`;
    if (rows.length > 0 && font.glyphs(longer, sizeMm).widthMm <= roomMm) rows[rows.length - 1] = longer;
    else rows.push(word);
  }
  return rows;
}

/** Where on the page a block lies on the board and over the fewest holes; on a board too small for it, near its upper-left corner. */
function emptiest(
  block: Block,
  outline: readonly PointMm[],
  holes: readonly PointMm[],
  widthMm: number,
  lengthMm: number,
): { readonly x: number; readonly y: number } {
  let best = { x: 0.05 * widthMm, y: 0.05 * lengthMm, met: Number.POSITIVE_INFINITY };
  const roomX = widthMm - block.widthMm;
  const roomY = lengthMm - block.highMm;
  if (roomX <= 0 || roomY <= 0) return best;
  for (let i = 1; i < PLACES; i++)
    for (let k = 1; k < PLACES; k++) {
      const x = (i / PLACES) * roomX;
      const y = (k / PLACES) * roomY;
      const corners: PointMm[] = [
        [x, y],
        [x + block.widthMm, y],
        [x + block.widthMm, y + block.highMm],
        [x, y + block.highMm],
      ];
      const off = corners.filter(([cx, cy]) => !ringHolds(outline, cx, cy)).length;
      const met = holes.filter(
        ([hx, hy]) => hx > x - 3 && hx < x + block.widthMm + 3 && hy > y - 3 && hy < y + block.highMm + 3,
      ).length;
      if (met + 1000 * off < best.met) best = { x, y, met: met + 1000 * off };
    }
  return best;
}
