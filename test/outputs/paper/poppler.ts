import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** PDF as poppler's tools read it (Debian's poppler-utils): a reader that nobody here wrote. */
export const popplerIsThere = spawnSync("pdftocairo", ["-v"]).status === 0;

/** A stroke or a fill on a page; mm from the page's LOWER-left corner, y up. */
export interface Stroke {
  /** Null for a fill. */
  readonly widthMm: number | null;
  readonly colour: string;
  readonly isCurved: boolean;
  readonly isClosed: boolean;
  /** End points and control points. */
  readonly points: readonly (readonly [number, number])[];
}

export interface PageRead {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly strokes: readonly Stroke[];
  readonly text: string;
}

const MM_PER_POINT = 25.4 / 72;

function run(tool: string, args: readonly string[]): string {
  const done = spawnSync(tool, args, { encoding: "utf8", maxBuffer: 1 << 28 });
  if (done.status !== 0) throw new Error(`${tool}: ${done.stderr}`);
  return done.stdout;
}

/** Acts on the file as written to disk, and removes it. */
export function withPdf<T>(bytes: Uint8Array, act: (path: string, folder: string) => T): T {
  const folder = mkdtempSync(join(tmpdir(), "pdf-"));
  try {
    const path = join(folder, "read.pdf");
    writeFileSync(path, bytes);
    return act(path, folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

export const readPdf = (
  bytes: Uint8Array,
): { fonts: string[][]; info: Map<string, string>; pages: PageRead[] } =>
  withPdf(bytes, (path, folder) => {
    const info = new Map(
      run("pdfinfo", [path])
        .trim()
        .split("\n")
        .map((line) => [line.slice(0, line.indexOf(":")), line.slice(line.indexOf(":") + 1).trim()] as const),
    );
    const fonts = run("pdffonts", [path])
      .trim()
      .split("\n")
      .slice(2)
      .map((line) => line.trim().split(/\s+/));
    const pages = Array.from({ length: Number(info.get("Pages")) }, (_, i) => {
      const svg = join(folder, `${i + 1}.svg`);
      const one = ["-f", `${i + 1}`, "-l", `${i + 1}`];
      // Without these two it fits pages into paper of its own choice.
      run("pdftocairo", ["-svg", "-noshrink", "-nocenter", ...one, path, svg]);
      return readSvg(readFileSync(svg, "utf8"), run("pdftotext", [...one, "-layout", path, "-"]));
    });
    return { fonts, info, pages };
  });

function readSvg(svg: string, text: string): PageRead {
  const size = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg)!;
  const heightPt = Number(size[2]);
  const drawn = svg.slice(svg.lastIndexOf("</defs>"));
  const strokes = [...drawn.matchAll(/<path [^>]*>/g)].flatMap(([element]): Stroke[] => {
    const style = (name: string) => new RegExp(`${name}[:=]"?([^;"]*)`).exec(element)?.[1] ?? "none";
    const d = / d="([^"]*)"/.exec(element)![1]!;
    const [a, b, c, e, f, g] = (/matrix\(([^)]*)\)/.exec(element)?.[1] ?? "1,0,0,1,0,0")
      .split(",")
      .map(Number) as [number, number, number, number, number, number];
    const numbers = d.match(/-?[\d.]+/g)?.map(Number) ?? [];
    const points = Array.from({ length: numbers.length / 2 }, (_, i): [number, number] => {
      const [x, y] = [numbers[2 * i]!, numbers[2 * i + 1]!];
      return [(a * x + c * y + f) * MM_PER_POINT, (heightPt - (b * x + e * y + g)) * MM_PER_POINT];
    });
    const isStroke = style("stroke") !== "none";
    return [
      {
        widthMm: isStroke
          ? Number(style("stroke-width")) * Math.sqrt(Math.abs(a * e - b * c)) * MM_PER_POINT
          : null,
        colour: isStroke ? style("stroke") : style("fill"),
        isCurved: d.includes("C"),
        isClosed: d.includes("Z"),
        points,
      },
    ];
  });
  return { widthMm: Number(size[1]) * MM_PER_POINT, heightMm: heightPt * MM_PER_POINT, strokes, text };
}
