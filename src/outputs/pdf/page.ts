import type { PdfSheet } from "./sheet.ts";

const POINTS = 72 / 25.4;

export interface LineStyle {
  readonly widthMm: number;
  readonly colour?: string;
  readonly dashMm?: readonly [number, number];
}

export interface WordStyle {
  readonly sizeMm: number;
  readonly colour?: string;
  readonly anchor?: "start" | "middle" | "end";
  /** Counter-clockwise about the point; 90 reads upward. */
  readonly turnedDeg?: number;
  /** The text gets smaller where it would be wider. */
  readonly roomMm?: number;
}

export interface BoxOnPage {
  readonly leftMm: number;
  readonly topMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
}

type Points = readonly (readonly [number, number])[];

/** One page: mm from its upper-left corner, y down. Colours are #rrggbb. */
export interface PdfPage {
  /** One straight stroke. */
  line(x1: number, y1: number, x2: number, y2: number, style: LineStyle): void;
  /** Many straight strokes of one style. */
  lines(pieces: readonly (readonly [number, number, number, number])[], style: LineStyle): void;
  /** Straight strokes from point to point and back to the first. */
  outline(points: Points, style: LineStyle): void;
  filled(points: Points, colour: string): void;
  circle(x: number, y: number, radiusMm: number, style: LineStyle): void;
  disc(x: number, y: number, radiusMm: number, colour: string): void;
  /** Path data (as of an SVG) about (0, 0), y UP, stroked at a point. */
  shape(path: string, x: number, y: number, style: LineStyle): void;
  box(box: BoxOnPage, style: LineStyle): void;
  /** One line of text, its baseline at the point. @returns its width */
  words(text: string, x: number, y: number, style: WordStyle): number;
  /** Nothing that `draw` draws shows outside the box. */
  within(box: BoxOnPage, draw: () => void): void;
}

/** Four decimals of a point: 0.00004 mm. */
const n = (value: number): string => {
  const rounded = Math.round(value * 1e4) / 1e4;
  return Object.is(rounded, -0) ? "0" : String(rounded);
};
const at = (x: number, y: number) => `${n(x * POINTS)} ${n(y * POINTS)}`;
const byte = (hex: string) => n(Number.parseInt(hex, 16) / 255);
const colourOf = (colour: string) =>
  `${byte(colour.slice(1, 3))} ${byte(colour.slice(3, 5))} ${byte(colour.slice(5, 7))}`;

/** Four cubic arcs; the usual constant leaves them within 0.03 % of the radius. */
const ARC = (4 / 3) * (Math.SQRT2 - 1);

/**
 * The operators of a page (ISO 32000-1, 8 and 9), in the library's axes: points, y down. It has calls of its own for all of
 * these, which took five times as long.
 */
export function pdfPage(sheet: PdfSheet): PdfPage {
  const { write } = sheet;
  let state = { stroke: "", fill: "", width: "", dash: "" };
  const strokeWith = ({ widthMm, colour = "#000000", dashMm }: LineStyle, unit = POINTS) => {
    const wanted = {
      stroke: `${colourOf(colour)} RG`,
      width: `${n(widthMm * unit)} w`,
      dash: dashMm ? `[${n(dashMm[0] * unit)} ${n(dashMm[1] * unit)}] 0 d` : "[] 0 d",
    };
    for (const key of ["stroke", "width", "dash"] as const) {
      if (state[key] === wanted[key] || (key === "dash" && state.dash === "" && !dashMm)) continue;
      write(wanted[key]);
      state[key] = wanted[key];
    }
  };
  const fillWith = (colour: string) => {
    const wanted = `${colourOf(colour)} rg`;
    if (state.fill !== wanted) write(wanted);
    state.fill = wanted;
  };
  const trace = (points: Points) => {
    points.forEach(([x, y], i) => {
      write(`${at(x, y)} ${i === 0 ? "m" : "l"}`);
    });
  };
  const round = (x: number, y: number, r: number) => {
    const c = r * ARC;
    write(
      `${at(x + r, y)} m
${at(x + r, y + c)} ${at(x + c, y + r)} ${at(x, y + r)} c
${at(x - c, y + r)} ${at(x - r, y + c)} ${at(x - r, y)} c
${at(x - r, y - c)} ${at(x - c, y - r)} ${at(x, y - r)} c
${at(x + c, y - r)} ${at(x + r, y - c)} ${at(x + r, y)} c
h`,
    );
  };
  const rectangle = ({ leftMm, topMm, widthMm, heightMm }: BoxOnPage) =>
    write(`${at(leftMm, topMm)} ${at(widthMm, heightMm)} re`);
  /** What changes in between is undone. */
  const aside = (draw: () => void) => {
    const before = { ...state };
    write("q");
    draw();
    write("Q");
    state = before;
  };
  return {
    line(x1, y1, x2, y2, style) {
      strokeWith(style);
      write(`${at(x1, y1)} m ${at(x2, y2)} l S`);
    },
    lines(pieces, style) {
      strokeWith(style);
      for (const [x1, y1, x2, y2] of pieces) write(`${at(x1, y1)} m ${at(x2, y2)} l`);
      write("S");
    },
    outline(points, style) {
      strokeWith(style);
      trace(points);
      write("s");
    },
    filled(points, colour) {
      fillWith(colour);
      trace(points);
      write("h f");
    },
    circle(x, y, radiusMm, style) {
      strokeWith(style);
      round(x, y, radiusMm);
      write("S");
    },
    disc(x, y, radiusMm, colour) {
      fillWith(colour);
      round(x, y, radiusMm);
      write("f");
    },
    shape(path, x, y, style) {
      aside(() => {
        write(`${n(POINTS)} 0 0 ${n(-POINTS)} ${at(x, y)} cm`);
        strokeWith(style, 1);
        write(sheet.path(path));
        write("S");
      });
    },
    box(box, style) {
      strokeWith(style);
      rectangle(box);
      write("S");
    },
    words(line, x, y, { sizeMm, colour = "#000000", anchor = "start", turnedDeg = 0, roomMm }) {
      if (line === "") return 0;
      const fullMm = sheet.widthMm(line, sizeMm);
      const shrink = roomMm === undefined ? 1 : Math.min(1, Math.max(roomMm, 1) / fullMm);
      const widthMm = fullMm * shrink;
      const back = anchor === "start" ? 0 : anchor === "middle" ? widthMm / 2 : widthMm;
      const angle = (turnedDeg * Math.PI) / 180;
      const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
      fillWith(colour);
      write(`BT
/${sheet.font()} ${n(sizeMm * shrink * POINTS)} Tf
${n(cos)} ${n(-sin)} ${n(-sin)} ${n(-cos)} ${at(x - back * cos, y + back * sin)} Tm
<${sheet.encoded(line)}> Tj
ET`);
      return widthMm;
    },
    within(box, draw) {
      aside(() => {
        rectangle(box);
        write("W n");
        draw();
      });
    },
  };
}
