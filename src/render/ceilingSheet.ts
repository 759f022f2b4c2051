import type { Ring } from "../panel/rings.ts";
import type { PointMm } from "../projection/frames.ts";
import { type Chain, dimensionText } from "./ceilingChains.ts";
import type { CeilingScene, Wall } from "./ceilingScene.ts";
import type { PageBox } from "./proofSheetPage.ts";
import type { SheetText } from "./sheetText.ts";

/** A3, ISO 216. */
const LONG_MM = 420;
const SHORT_MM = 297;
/** To the sheet's frame, and from there to what is drawn. */
export const BORDER_MM = 8;
const CONTENT_MM = BORDER_MM + 4;
const GAP_MM = 5;
export const COLUMN_MM = 84;

/** The band round the ceiling that stands for the walls, with their names in it. */
export const BAND_MM = 6;
export const DIMENSION = { sizeMm: 2.4, stepMm: 3, clearMm: 1.3, overallMm: 5, tickMm: 0.9 } as const;

/** Scales 1 : n, and the same times 10, 100 ..: those of ISO 5455 and steps between, for which a rule reads easily. */
const DENOMINATORS = [1, 1.5, 2, 2.5, 3, 4, 5, 7.5];

/** Where the ceiling lies on its paper. Paper mm from the sheet's upper-left corner, y down. */
export interface SheetFrame {
  readonly denominator: number;
  /** Of the ceiling's upper-left corner. */
  readonly leftMm: number;
  readonly topMm: number;
  readonly ceilingWidthMm: number;
  readonly ceilingLengthMm: number;
}

/** The one place where the ceiling's y is turned over. */
export const toPaper = (frame: SheetFrame, { xMm, yMm }: PointMm): { x: number; y: number } => ({
  x: frame.leftMm + xMm / frame.denominator,
  y: frame.topMm + (frame.ceilingLengthMm - yMm) / frame.denominator,
});

export const ringOnPaper = (frame: SheetFrame, ring: Ring): Ring =>
  ring.map(([xMm, yMm]) => {
    const { x, y } = toPaper(frame, { xMm, yMm });
    return [x, y] as const;
  });

/** The same as an attribute: a group with it is drawn in true mm of the ceiling frame, y up. */
export function ceilingTransform(frame: SheetFrame): string {
  const scale = Number((1 / frame.denominator).toFixed(10));
  const bottomMm = frame.topMm + frame.ceilingLengthMm / frame.denominator;
  return `translate(${Number(frame.leftMm.toFixed(4))} ${Number(bottomMm.toFixed(4))}) scale(${scale} ${-scale})`;
}

/** A chain at a scale: which of its figures stand in which row, the nearest to its line being 0. */
export interface LaidChain extends Chain {
  readonly figures: readonly {
    readonly text: string;
    readonly middleMm: number;
    readonly widthMm: number;
    readonly row: number;
  }[];
  readonly rows: number;
}

export interface CeilingSheet {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly frame: SheetFrame;
  readonly chains: readonly LaidChain[];
  /** For the legend, from left to right; the title block stands at the bottom of the last one. */
  readonly columns: readonly PageBox[];
}

/** The legend's rows in the order in which they are to stand, and the title block. */
export interface LegendNeeds {
  readonly rowsMm: readonly number[];
  readonly titleMm: number;
}

/**
 * The sheet that shows the ceiling largest: upright or across, the legend beside or below.
 * @throws Error when the legend alone fills the sheet
 */
export function layOutSheet(
  scene: CeilingScene,
  chains: readonly Chain[],
  legend: LegendNeeds,
  text: SheetText,
): CeilingSheet {
  for (let decade = 1; decade <= 1e6; decade *= 10)
    for (const step of DENOMINATORS) {
      const denominator = step * decade;
      for (const [widthMm, heightMm] of [
        [LONG_MM, SHORT_MM],
        [SHORT_MM, LONG_MM],
      ] as const) {
        const laid = chains.map((chain) => layOutChain(chain, denominator, text));
        for (const columns of [beside(widthMm, heightMm, legend), below(widthMm, heightMm, legend)]) {
          const sheet = columns && sheetAt(scene, laid, denominator, widthMm, heightMm, columns);
          if (sheet) return sheet;
        }
      }
    }
  throw new Error("the legend leaves no room for the ceiling on its sheet");
}

/** Where, from the ceiling's edge outward, the lines of the dimensions at a wall lie, and how much is needed in all. */
export function dimensionDepths(wall: Wall, chains: readonly LaidChain[]) {
  const chain = chains.find((one) => one.wall === wall);
  if (!chain) return { chainMm: 0, overallMm: 0, allMm: BAND_MM };
  const figuresMm = chain.rows * DIMENSION.stepMm;
  const withOverall = (wall === "bottom" || wall === "left") && chain.marksMm.length > 2;
  // Figures stand above their line as one reads: under the ceiling and at its right that is toward the ceiling.
  if (wall === "bottom" || wall === "right") {
    const chainMm = BAND_MM + DIMENSION.clearMm + figuresMm;
    const overallMm = withOverall ? chainMm + DIMENSION.overallMm : 0;
    return { chainMm, overallMm, allMm: Math.max(chainMm, overallMm) + DIMENSION.clearMm };
  }
  const chainMm = BAND_MM + DIMENSION.clearMm;
  const overallMm = withOverall ? chainMm + figuresMm + DIMENSION.clearMm : 0;
  return {
    chainMm,
    overallMm,
    allMm: withOverall ? overallMm + DIMENSION.stepMm : chainMm + figuresMm,
  };
}

function layOutChain(chain: Chain, denominator: number, text: SheetText): LaidChain {
  const figures = chain.marksMm.slice(1).map((to, i) => {
    const from = chain.marksMm[i]!;
    const words = dimensionText(to - from);
    return {
      text: words,
      middleMm: (from + to) / 2,
      widthMm: text.widthMm(words, DIMENSION.sizeMm),
      roomMm: (to - from) / denominator,
    };
  });
  const taken: [number, number][][] = [];
  const rows = new Map<object, number>();
  // Those with room between their own marks first: they stay at the line.
  for (const figure of [...figures].sort((a, b) => b.roomMm - a.roomMm)) {
    const middle = figure.middleMm / denominator;
    const half = figure.widthMm / 2 + 0.3;
    // Between its marks, or above their strokes.
    let row = figure.roomMm > figure.widthMm + 1.2 ? 0 : 1;
    while (taken[row]?.some(([from, to]) => middle + half > from && middle - half < to)) row++;
    taken[row] ??= [];
    taken[row]!.push([middle - half, middle + half]);
    rows.set(figure, row);
  }
  return {
    ...chain,
    figures: figures.map((figure) => ({ ...figure, row: rows.get(figure)! })),
    rows: taken.length,
  };
}

interface Arrangement {
  readonly columns: readonly PageBox[];
  readonly drawing: PageBox;
}

const sum = (values: readonly number[]) => values.reduce((all, value) => all + value, 0);

function beside(pageWidthMm: number, pageHeightMm: number, legend: LegendNeeds): Arrangement | null {
  const heightMm = pageHeightMm - 2 * CONTENT_MM;
  if (sum(legend.rowsMm) + legend.titleMm > heightMm) return null;
  const xMm = pageWidthMm - CONTENT_MM - COLUMN_MM;
  return {
    columns: [{ xMm, yMm: CONTENT_MM, widthMm: COLUMN_MM, heightMm }],
    drawing: { xMm: CONTENT_MM, yMm: CONTENT_MM, widthMm: xMm - GAP_MM - CONTENT_MM, heightMm },
  };
}

function below(pageWidthMm: number, pageHeightMm: number, legend: LegendNeeds): Arrangement | null {
  const widthMm = pageWidthMm - 2 * CONTENT_MM;
  const count = Math.floor((widthMm + GAP_MM) / (COLUMN_MM + GAP_MM));
  const columnMm = (widthMm - (count - 1) * GAP_MM) / count;
  const mostMm = pageHeightMm - 2 * CONTENT_MM;
  for (let stripMm = legend.titleMm; stripMm < mostMm; stripMm++) {
    if (flow(legend, count, stripMm) === null) continue;
    const yMm = pageHeightMm - CONTENT_MM - stripMm;
    return {
      columns: Array.from({ length: count }, (_, i) => ({
        xMm: CONTENT_MM + i * (columnMm + GAP_MM),
        yMm,
        widthMm: columnMm,
        heightMm: stripMm,
      })),
      drawing: { xMm: CONTENT_MM, yMm: CONTENT_MM, widthMm, heightMm: yMm - GAP_MM - CONTENT_MM },
    };
  }
  return null;
}

/** For each row its column and how far down it stands there; null if the columns are too short. */
export function flow(
  { rowsMm, titleMm }: LegendNeeds,
  columns: number,
  heightMm: number,
): { readonly column: number; readonly downMm: number }[] | null {
  const places: { column: number; downMm: number }[] = [];
  let [column, downMm] = [0, 0];
  const roomMm = () => heightMm - (column === columns - 1 ? titleMm : 0);
  for (const rowMm of rowsMm) {
    while (downMm + rowMm > roomMm() + 1e-9) {
      column++;
      downMm = 0;
      if (column >= columns) return null;
    }
    places.push({ column, downMm });
    downMm += rowMm;
  }
  return places;
}

function sheetAt(
  { widthMm, lengthMm }: CeilingScene,
  chains: readonly LaidChain[],
  denominator: number,
  pageWidthMm: number,
  pageHeightMm: number,
  { columns, drawing }: Arrangement,
): CeilingSheet | null {
  const around = (wall: Wall) => dimensionDepths(wall, chains).allMm;
  const [acrossMm, downMm] = [widthMm / denominator, lengthMm / denominator];
  const spareX = drawing.widthMm - around("left") - acrossMm - around("right");
  const spareY = drawing.heightMm - around("top") - downMm - around("bottom");
  if (spareX < 0 || spareY < 0) return null;
  return {
    widthMm: pageWidthMm,
    heightMm: pageHeightMm,
    chains,
    columns,
    frame: {
      denominator,
      leftMm: tenths(drawing.xMm + spareX / 2 + around("left")),
      topMm: tenths(drawing.yMm + spareY / 2 + around("top")),
      ceilingWidthMm: widthMm,
      ceilingLengthMm: lengthMm,
    },
  };
}

const tenths = (mm: number): number => Math.round(mm * 10) / 10;
