import type { PdfText } from "./text.ts";

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

/** One page: mm from its upper-left corner, y down. */
export interface PdfPage {
  /** One straight stroke. */
  line(x1: number, y1: number, x2: number, y2: number, style: LineStyle): void;
  /** Straight strokes through points, closed or not. */
  outline(points: Points, style: LineStyle, closed?: boolean): void;
  filled(points: Points, colour: string): void;
  circle(x: number, y: number, radiusMm: number, style: LineStyle): void;
  disc(x: number, y: number, radiusMm: number, colour: string): void;
  /** Path data about (0, 0), y UP, stroked or filled at a point. */
  shape(path: string, x: number, y: number, style: LineStyle | { readonly fill: string }): void;
  box(box: BoxOnPage, style: LineStyle | { readonly fill: string }): void;
  /** One line of text, its baseline at the point. @returns its width */
  words(text: string, x: number, y: number, style: WordStyle): number;
  /** Nothing that `draw` draws shows outside the box. */
  within(box: BoxOnPage, draw: () => void): void;
}

export function pdfPage(document: PDFKit.PDFDocument, text: PdfText): PdfPage {
  const stroke = ({ widthMm, colour = "#000000", dashMm }: LineStyle, unit = POINTS) => {
    document.lineWidth(widthMm * unit);
    if (dashMm) document.dash(dashMm[0] * unit, { space: dashMm[1] * unit });
    document.stroke(colour);
    if (dashMm) document.undash();
  };
  const trace = (points: Points, closed: boolean) => {
    points.forEach(([x, y], i) => {
      if (i === 0) document.moveTo(x * POINTS, y * POINTS);
      else document.lineTo(x * POINTS, y * POINTS);
    });
    if (closed) document.closePath();
  };
  const rectangle = ({ leftMm, topMm, widthMm, heightMm }: BoxOnPage) =>
    document.rect(leftMm * POINTS, topMm * POINTS, widthMm * POINTS, heightMm * POINTS);
  return {
    line(x1, y1, x2, y2, style) {
      trace(
        [
          [x1, y1],
          [x2, y2],
        ],
        false,
      );
      stroke(style);
    },
    outline(points, style, closed = true) {
      trace(points, closed);
      stroke(style);
    },
    filled(points, colour) {
      trace(points, true);
      document.fill(colour);
    },
    circle(x, y, radiusMm, style) {
      document.circle(x * POINTS, y * POINTS, radiusMm * POINTS);
      stroke(style);
    },
    disc(x, y, radiusMm, colour) {
      document.circle(x * POINTS, y * POINTS, radiusMm * POINTS).fill(colour);
    },
    shape(path, x, y, style) {
      document.save().transform(POINTS, 0, 0, -POINTS, x * POINTS, y * POINTS).path(path);
      if ("fill" in style) document.fill(style.fill);
      else stroke(style, 1);
      document.restore();
    },
    box(box, style) {
      rectangle(box);
      if ("fill" in style) document.fill(style.fill);
      else stroke(style);
    },
    words(line, x, y, { sizeMm, colour = "#000000", anchor = "start", turnedDeg = 0, roomMm }) {
      if (line === "") return 0;
      const fullMm = text.widthMm(line, sizeMm);
      const shrink = roomMm === undefined ? 1 : Math.min(1, Math.max(roomMm, 1) / fullMm);
      const widthMm = fullMm * shrink;
      const back = anchor === "start" ? 0 : anchor === "middle" ? widthMm / 2 : widthMm;
      document.fillColor(colour).fontSize(sizeMm * shrink * POINTS);
      const turned = turnedDeg !== 0;
      if (turned) document.save().rotate(-turnedDeg, { origin: [x * POINTS, y * POINTS] });
      document.text(line, (x - back) * POINTS, y * POINTS, { lineBreak: false, baseline: "alphabetic" });
      if (turned) document.restore();
      return widthMm;
    },
    within(box, draw) {
      document.save();
      rectangle(box).clip();
      draw();
      document.restore();
    },
  };
}
