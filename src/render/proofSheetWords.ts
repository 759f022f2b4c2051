import type { Font } from "./font.ts";
import type { PageBox } from "./proofSheetPage.ts";
import type { SheetBox, SheetScene } from "./proofSheetScene.ts";
import { svgNumber as n } from "./svgText.ts";

/** Text sizes on paper, mm: 2.5 is 7.1 pt. */
const SIZE = { title: 5.6, headerLine: 2.9, number: 6.2, headline: 4, aside: 2.8, line: 2.5 } as const;
const LINE_STEP = 1.32;
/** Lines under the headline. */
const BOX_LINES = 4;
/** Between words of a headline. */
const WORD_GAP_MM = 1.5;
const OWN = "as planned";

export const headerHeightMm = (scene: SheetScene): number =>
  SIZE.title * 1.25 + scene.lines.length * SIZE.headerLine * LINE_STEP;

export const boxWordsHeightMm = SIZE.number * 0.8 + BOX_LINES * SIZE.line * LINE_STEP;

const kinds = ["dark", "quiet", "own"] as const;
type Kind = (typeof kinds)[number];

/** Writes lines of text into boxes of a page. */
export interface SheetWriter {
  header(scene: SheetScene, at: PageBox): void;
  box(box: SheetBox, at: PageBox): void;
  /** All that was written, as SVG in paper mm. */
  svg(colours: Readonly<Record<Kind, string>>): string;
}

/** Outlines are made once a word, this large, and placed wherever the word stands: a sheet says the same a dozen times. */
const MADE_AT = 10;

export function sheetWriter(font: Font): SheetWriter {
  const known = new Map<string, { id: string; widthEm: number }>();
  const outlines: string[] = [];
  const placed: Record<Kind, string[]> = { dark: [], quiet: [], own: [] };

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
  const wordsOf = (text: string) => text.split(/\s+/u).filter((word) => word !== "");
  const widthMm = (text: string, sizeMm: number): number => {
    const words = wordsOf(text);
    return (
      sizeMm *
      words.reduce((sum, word) => sum + outlined(word).widthEm, Math.max(0, words.length - 1) * spaceEm)
    );
  };

  /** One line of text, made smaller where it would be too wide. @returns its width */
  const line = (kind: Kind, text: string, xMm: number, yMm: number, sizeMm: number, roomMm: number) => {
    const wideMm = widthMm(text, sizeMm);
    const fitMm = wideMm <= roomMm ? sizeMm : (sizeMm * Math.max(roomMm, 1)) / wideMm;
    const scale = (fitMm / MADE_AT).toFixed(4);
    let x = xMm;
    for (const word of wordsOf(text)) {
      const { id, widthEm } = outlined(word);
      placed[kind].push(`<use href="#${id}" transform="translate(${n(x)} ${n(yMm)}) scale(${scale})"/>`);
      x += (widthEm + spaceEm) * fitMm;
    }
    return Math.min(wideMm, roomMm);
  };

  /** Parts run on over lines of a width; one that is too wide alone gets a line of its own. */
  const wrapped = (parts: readonly string[], between: string, roomMm: number): string[] => {
    const lines: string[] = [];
    for (const part of parts) {
      const longer = `${lines.at(-1)}${between}${part}`;
      if (lines.length > 0 && widthMm(longer, SIZE.line) <= roomMm) lines[lines.length - 1] = longer;
      else lines.push(part);
    }
    return lines;
  };

  return {
    header(scene, at) {
      let y = at.yMm + SIZE.title * 0.85;
      line("dark", scene.title, at.xMm, y, SIZE.title, at.widthMm);
      for (const [i, text] of scene.lines.entries()) {
        y += SIZE.headerLine * (i === 0 ? 1.6 : LINE_STEP);
        line("dark", text, at.xMm, y, SIZE.headerLine, at.widthMm);
      }
    },
    box(box, at) {
      let y = at.yMm + SIZE.number * 0.74;
      let x = at.xMm;
      const rightMm = at.xMm + at.widthMm;
      const put = (kind: Kind, text: string, sizeMm: number, keptMm = 0) => {
        if (text !== "") x += line(kind, text, x, y, sizeMm, rightMm - x - keptMm) + WORD_GAP_MM;
      };
      const ownMm = box.own ? widthMm(OWN, SIZE.aside) + WORD_GAP_MM : 0;
      const asideMm = box.aside === "" ? 0 : widthMm(box.aside, SIZE.aside) + WORD_GAP_MM;
      put("dark", String(box.number), SIZE.number);
      put("dark", box.headline, SIZE.headline, ownMm + asideMm);
      put("dark", box.aside, SIZE.aside, ownMm);
      if (box.own) put("own", OWN, SIZE.aside);
      const lines = box.lines.flatMap((text) => wrapped(wordsOf(text), " ", at.widthMm));
      const left = Math.max(0, BOX_LINES - lines.length);
      const names = wrapped(
        box.names.map((name, i) => (i < box.names.length - 1 ? `${name},` : name)),
        " ",
        at.widthMm,
      );
      lines.push(...names.slice(0, left).map((text, i) => (i < left - 1 ? text : text.replace(/,$/, ""))));
      for (const [i, text] of lines.slice(0, BOX_LINES).entries()) {
        y += SIZE.line * (i === 0 ? LINE_STEP * 1.1 : LINE_STEP);
        line("quiet", text, at.xMm, y, SIZE.line, at.widthMm);
      }
    },
    svg: (colours) =>
      [
        `<defs>${outlines.join("")}</defs>`,
        ...kinds.map((kind) => `<g fill="${colours[kind]}">${placed[kind].join("\n")}</g>`),
      ].join("\n"),
  };
}
