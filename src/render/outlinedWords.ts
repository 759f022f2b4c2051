import type { Font } from "./font.ts";
import { svgNumber as n } from "./svgText.ts";

/** Lines of text on paper as outlines: each word is outlined once, and placed wherever it stands. */
export interface OutlinedWords {
  widthMm(text: string, sizeMm: number): number;
  /** One line of text, made smaller where it would be wider than its room: `use` elements, and its width. */
  line(
    text: string,
    xMm: number,
    yMm: number,
    sizeMm: number,
    roomMm?: number,
  ): { readonly uses: readonly string[]; readonly widthMm: number };
  /** Parts that run on over lines of a width; one that is too wide alone gets a line of its own. */
  wrapped(parts: readonly string[], between: string, sizeMm: number, roomMm: number): string[];
  of(text: string): string[];
  /** Outlines of all words so far, for `defs`. */
  defs(): string;
}

/** Outlines are made this large. */
const MADE_AT = 10;

export function outlinedWords(font: Font): OutlinedWords {
  const known = new Map<string, { id: string; widthEm: number }>();
  const outlines: string[] = [];
  const outlined = (word: string) => {
    let one = known.get(word);
    if (one === undefined) {
      const { d, widthMm } = font.textPath(word, 0, 0, MADE_AT, "start");
      one = { id: `w${known.size}`, widthEm: widthMm / MADE_AT };
      known.set(word, one);
      outlines.push(`<path id="${one.id}" d="${d}"/>`);
    }
    return one;
  };
  const spaceEm = outlined("n n").widthEm - outlined("nn").widthEm;
  const of = (text: string) => text.split(/\s+/u).filter((word) => word !== "");
  const widthMm = (text: string, sizeMm: number): number => {
    const words = of(text);
    return (
      sizeMm *
      words.reduce((sum, word) => sum + outlined(word).widthEm, Math.max(0, words.length - 1) * spaceEm)
    );
  };
  return {
    widthMm,
    of,
    line(text, xMm, yMm, sizeMm, roomMm = Number.POSITIVE_INFINITY) {
      const wideMm = widthMm(text, sizeMm);
      const fitMm = wideMm <= roomMm ? sizeMm : (sizeMm * Math.max(roomMm, 1)) / wideMm;
      const scale = (fitMm / MADE_AT).toFixed(4);
      let x = xMm;
      const uses = of(text).map((word) => {
        const { id, widthEm } = outlined(word);
        const use = `<use href="#${id}" transform="translate(${n(x)} ${n(yMm)}) scale(${scale})"/>`;
        x += (widthEm + spaceEm) * fitMm;
        return use;
      });
      return { uses, widthMm: Math.min(wideMm, roomMm) };
    },
    wrapped(parts, between, sizeMm, roomMm) {
      const lines: string[] = [];
      for (const part of parts) {
        const longer = `${lines.at(-1)}${between}${part}`;
        if (lines.length > 0 && widthMm(longer, sizeMm) <= roomMm) lines[lines.length - 1] = longer;
        else lines.push(part);
      }
      return lines;
    },
    defs: () => outlines.join(""),
  };
}
