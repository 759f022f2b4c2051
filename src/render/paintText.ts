import type { Font } from "./font.ts";
import { type PixelPoint, paintRings, type Rgb } from "./paint.ts";
import type { PreviewRaster } from "./previewRaster.ts";
import { wrapWords } from "./wrapWords.ts";

export interface PaintedTextStyle {
  /** Text size. */
  readonly sizePx: number;
  readonly anchor?: "start" | "middle" | "end";
  readonly rgb: Rgb;
  /** Clockwise about the anchor, as SVG turns; -90 reads upward. */
  readonly turnedDeg?: number;
}

/** Words on a raster, as outlines of a font; pixels from the upper-left corner, y down. */
export interface TextPainter {
  widthPx(text: string, sizePx: number): number;
  paint(raster: PreviewRaster, text: string, xPx: number, yPx: number, style: PaintedTextStyle): void;
  /** Lines that words run on over. */
  wrapped(text: string, sizePx: number, roomPx: number): readonly string[];
  /** Characters of all text so far that the font lacks. */
  missing(): readonly string[];
}

/** Glyphs are outlined once, this large, in hundredths. */
const MADE_AT = 200;

export function textPainter(font: Font): TextPainter {
  const outlines = new Map<string, readonly (readonly PixelPoint[])[]>();
  const lines = new Map<string, ReturnType<Font["glyphs"]>>();
  const texts = new Set<string>();
  const lineOf = (text: string) => {
    let line = lines.get(text);
    if (line === undefined) {
      line = font.glyphs(text, MADE_AT);
      lines.set(text, line);
    }
    return line;
  };
  const outlineOf = (name: string) => {
    let rings = outlines.get(name);
    if (rings === undefined) {
      rings = ringsOf(font.glyphPath(name, MADE_AT));
      outlines.set(name, rings);
    }
    return rings;
  };
  const widthPx = (text: string, sizePx: number) => (lineOf(text).widthMm * sizePx) / MADE_AT;
  return {
    widthPx,
    paint(raster, text, xPx, yPx, { sizePx, anchor = "start", rgb, turnedDeg = 0 }) {
      texts.add(text);
      const { placed, widthMm } = lineOf(text);
      const k = sizePx / MADE_AT;
      const back = anchor === "start" ? 0 : anchor === "middle" ? widthMm / 2 : widthMm;
      const turn = (turnedDeg * Math.PI) / 180;
      const [cos, sin] = [Math.cos(turn) * k, Math.sin(turn) * k];
      for (const { name, xMm } of placed) {
        const rings = outlineOf(name).map((ring) =>
          ring.map(([x, y]): PixelPoint => {
            const along = x + xMm - back;
            return [xPx + along * cos - y * sin, yPx + along * sin + y * cos];
          }),
        );
        paintRings(raster, rings, rgb);
      }
    },
    wrapped: (text, sizePx, roomPx) =>
      wrapWords(
        text,
        (word) => widthPx(word, sizePx),
        widthPx("n n", sizePx) - widthPx("nn", sizePx),
        roomPx,
      ),
    missing: () => [...new Set([...texts].flatMap((text) => font.missing(text)))],
  };
}

/** Straight pieces for each curve: at the sizes of a picture no corner of them shows. */
const PIECES = 6;

/** Path data of M, L, Q, C and Z with absolute coordinates, as rings of corners. */
function ringsOf(d: string): PixelPoint[][] {
  const rings: PixelPoint[][] = [];
  for (const [, letter, numbers] of d.matchAll(/([MLQCZ])([^MLQCZ]*)/g)) {
    const values = (numbers!.match(/-?[\d.]+/g) ?? []).map(Number);
    const points = Array.from(
      { length: values.length / 2 },
      (_, i): PixelPoint => [values[2 * i]!, values[2 * i + 1]!],
    );
    if (letter === "M") rings.push([]);
    const ring = rings.at(-1)!;
    if (letter === "Q" || letter === "C") {
      const control = [ring.at(-1)!, ...points];
      for (let i = 1; i <= PIECES; i++) ring.push(onCurve(control, i / PIECES));
    } else ring.push(...points);
  }
  return rings;
}

/** A point of a Bézier curve, by de Casteljau. */
function onCurve(control: readonly PixelPoint[], t: number): PixelPoint {
  if (control.length === 1) return control[0]!;
  const next = control.slice(1).map(([x, y], i): PixelPoint => {
    const [px, py] = control[i]!;
    return [px + t * (x - px), py + t * (y - py)];
  });
  return onCurve(next, t);
}
