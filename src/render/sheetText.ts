import type { Font, InkBox } from "./font.ts";
import { svgNumber as n } from "./svgText.ts";
import { wrapWords } from "./wrapWords.ts";

export interface TextStyle {
  readonly sizeMm: number;
  readonly anchor?: "start" | "middle" | "end";
  /** Clockwise about the anchor, as SVG turns; -90 reads upward. */
  readonly turnedDeg?: number;
  readonly fill?: string;
  /** The text gets smaller where it would be wider. */
  readonly roomMm?: number;
}

/** Text on a paper sheet, mm, y down: outlines to the eye, plain words in `aria-label` to programs. */
export interface SheetText {
  widthMm(text: string, sizeMm: number): number;
  /** An element with one line of text, its baseline at the point. */
  at(text: string, xMm: number, yMm: number, style: TextStyle): string;
  /** Lines that words run on over. */
  wrapped(text: string, sizeMm: number, roomMm: number): readonly string[];
  /** Outlines of all glyphs so far, for `defs`. */
  defs(): string;
  /** Characters of all text so far that the font lacks. */
  missing(): readonly string[];
}

/** Each glyph is outlined once, this large, and placed wherever it stands: a sixth of the bytes that words would take. */
const MADE_AT = 10;

export function sheetText(font: Font): SheetText {
  const glyphs = new Map<string, string>();
  const lines = new Map<string, { readonly uses: string; readonly widthEm: number }>();
  const lineOf = (text: string) => {
    let line = lines.get(text);
    if (line === undefined) {
      const { placed, widthMm } = font.glyphs(text, MADE_AT);
      const uses = placed.map(({ name, xMm }) => {
        if (!glyphs.has(name)) glyphs.set(name, font.glyphPath(name, MADE_AT));
        if (glyphs.get(name) === "") return "";
        return `<use href="#g${name}"${xMm === 0 ? "" : ` x="${n(xMm)}"`}/>`;
      });
      line = { uses: uses.join(""), widthEm: widthMm / MADE_AT };
      lines.set(text, line);
    }
    return line;
  };
  const widthMm = (text: string, sizeMm: number) => lineOf(text).widthEm * sizeMm;
  const texts = new Set<string>();
  return {
    widthMm,
    at(text, xMm, yMm, { sizeMm, anchor = "start", turnedDeg = 0, fill, roomMm }) {
      texts.add(text);
      const { uses, widthEm } = lineOf(text);
      const fitMm = roomMm === undefined ? sizeMm : Math.min(sizeMm, Math.max(roomMm, 1) / widthEm);
      const scale = Number((fitMm / MADE_AT).toFixed(4));
      const back = anchor === "start" ? 0 : (anchor === "middle" ? -0.5 : -1) * widthEm * MADE_AT;
      const transform = [
        `translate(${n(xMm)} ${n(yMm)})`,
        ...(turnedDeg === 0 ? [] : [`rotate(${n(turnedDeg)})`]),
        `scale(${scale})`,
        ...(back === 0 ? [] : [`translate(${n(back)} 0)`]),
      ].join(" ");
      return `<g aria-label="${escaped(text)}"${fill ? ` fill="${fill}"` : ""} transform="${transform}">${uses}</g>`;
    },
    wrapped: (text, sizeMm, roomMm) =>
      wrapWords(
        text,
        (word) => widthMm(word, sizeMm),
        widthMm("n n", sizeMm) - widthMm("nn", sizeMm),
        roomMm,
      ),
    defs: () => [...glyphs].map(([name, d]) => (d === "" ? "" : `<path id="g${name}" d="${d}"/>`)).join("\n"),
    missing: () => [...new Set([...texts].flatMap((text) => font.missing(text)))],
  };
}

const escaped = (text: string): string =>
  text.replace(/[&<>"]/g, (sign) => `&#${sign.codePointAt(0)};`).replace(/\p{Cc}/gu, " ");

/** Of the text size: what a line of text stands above and below its baseline, taken generously. */
const UP = 0.78;
const DOWN = 0.22;

/** What a centred line of text takes up, upright or reading upward. */
export function centredBox(
  widthMm: number,
  xMm: number,
  yMm: number,
  sizeMm: number,
  upright = true,
): InkBox {
  const [up, down, half] = [UP * sizeMm, DOWN * sizeMm, widthMm / 2];
  return upright
    ? { leftMm: xMm - half, rightMm: xMm + half, topMm: yMm - up, bottomMm: yMm + down }
    : { leftMm: xMm - up, rightMm: xMm + down, topMm: yMm - half, bottomMm: yMm + half };
}
