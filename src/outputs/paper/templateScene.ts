import { upToHundredths } from "../../plan/mmWords.ts";
import type { Plan, WallSide } from "../../plan/plan.ts";
import { faceToBack } from "../../projection/frames.ts";
import { withTrueCorners } from "../../schedule/asCut.ts";
import { outOfSquareWords } from "../../schedule/outOfSquare.ts";
import type { Hole, PanelRecord } from "../../schedule/types.ts";
import { panelEdges, SIDES, seenFromBack } from "../panelEdges.ts";
import type { PdfText } from "../pdf/text.ts";
import type { Frame } from "../proofWords.ts";
import { type NumberPlace, placeNumbers, type TemplateHole } from "./holeNumbers.ts";
import { type Mark, marksOf } from "./marks.ts";
import { fromCornerWords } from "./measureFrom.ts";

type Points = readonly (readonly [number, number])[];

export interface GridLine {
  readonly atMm: number;
  readonly words: string;
}

/** All that a template shows of one panel, in the frame named: mm from the lower-left corner of the board's bounding box, y up. */
export interface TemplateScene {
  readonly frame: Frame;
  readonly panel: string;
  readonly widthMm: number;
  readonly lengthMm: number;
  /** True corners: on a board out of square some lie above or below the box. */
  readonly outline: Points;
  /** From where to where the outline reaches along y; 0 to the length unless the board is out of square. */
  readonly reachYMm: readonly [number, number];
  /** How it is out of square; null where it is not. */
  readonly squareness: string | null;
  /** Where places on this sheet are counted from, after "from". */
  readonly fromCorner: string;
  /** The side that is measured from: the FACE's left edge. */
  readonly referenceSide: WallSide;
  readonly battens: readonly Points[];
  readonly screws: Points;
  readonly hangers: Points;
  readonly keepOuts: readonly { readonly words: string; readonly ring: Points }[];
  readonly holes: readonly (TemplateHole & { readonly place: NumberPlace })[];
  readonly gridX: readonly GridLine[];
  readonly gridY: readonly GridLine[];
  /** What stands along each side, as it lies in this frame. */
  readonly edges: Readonly<Record<WallSide, string>>;
  /** Thinnest first, with how many holes of it the panel has. */
  readonly sizes: readonly { readonly mark: Mark; readonly count: number }[];
}

const GRID_MM = 200;

/** @param board the panel as its outputs take it; `holes` are those of this panel */
export function templateScene(
  frame: Frame,
  board: PanelRecord,
  panels: readonly PanelRecord[],
  holes: readonly Hole[],
  plan: Plan,
  text: PdfText,
): TemplateScene {
  const { widthMm, lengthMm, id } = board;
  const point = ([xMm, yMm]: readonly [number, number]): readonly [number, number] => {
    if (frame === "FACE") return [xMm, yMm];
    const back = faceToBack({ xMm, yMm }, widthMm);
    return [back.xMm, back.yMm];
  };
  const marks = marksOf(plan.fibre.sizes);
  const shown = holes.map((hole): TemplateHole => {
    const [xMm, yMm] = point([hole.xMm, hole.yMm]);
    return {
      xMm,
      yMm,
      mark: { ...marks.get(hole.diameterMm)!, bitMm: hole.bitMm },
      number: hole.hole.slice(id.length + 1),
      below:
        frame === "FACE"
          ? ""
          : [`${hole.diameterMm}`, ...(hole.bundle === null ? [] : [hole.bundle])].join(" / "),
    };
  });
  const outline = withTrueCorners(board).outlineMm.map(point);
  const places = placeNumbers(shown, text);
  const edges = panelEdges(board, panels, plan);
  return {
    frame,
    panel: id,
    widthMm,
    lengthMm,
    outline,
    reachYMm: [Math.min(0, ...outline.map(([, y]) => y)), Math.max(lengthMm, ...outline.map(([, y]) => y))],
    squareness: outOfSquareWords(board, frame),
    fromCorner: fromCornerWords(board, frame),
    referenceSide: frame === "FACE" ? "left" : "right",
    battens: board.battensMm.map((ring) => ring.map(point)),
    screws: board.screwsMm.map(point),
    hangers: board.hangersMm.map(point),
    keepOuts: board.keepOutMm.map((one) => ({
      words: `keep out: ${one.id} (${one.kind})`,
      ring: ("atMm" in one ? ringAround(one.atMm, one.radiusMm) : one.outlineMm).map(point),
    })),
    holes: shown.map((hole, i) => ({ ...hole, place: places[i]! })),
    gridX: gridX(frame, widthMm),
    gridY: steps(lengthMm).map((atMm) => ({ atMm, words: `y ${upToHundredths(atMm)}` })),
    edges: edgeWords(frame, edges),
    sizes: [...marks.values()]
      .map((mark) => ({ mark, count: holes.filter((hole) => hole.diameterMm === mark.diameterMm).length }))
      .sort((a, b) => a.mark.diameterMm - b.mark.diameterMm),
  };
}

const steps = (spanMm: number) =>
  Array.from({ length: Math.ceil(spanMm / GRID_MM - 1e-9) - 1 }, (_, i) => GRID_MM * (i + 1));

/** Lines are counted from the reference edge in both frames: a board cut a little narrow moves none of them. */
const gridX = (frame: Frame, widthMm: number): GridLine[] =>
  steps(widthMm).map((fromReferenceMm) => {
    if (frame === "FACE") return { atMm: fromReferenceMm, words: `x ${upToHundredths(fromReferenceMm)}` };
    const { xMm } = faceToBack({ xMm: fromReferenceMm, yMm: 0 }, widthMm);
    return {
      atMm: xMm,
      words: `x ${upToHundredths(xMm)} (${upToHundredths(fromReferenceMm)} from the reference edge)`,
    };
  });

function edgeWords(frame: Frame, edges: ReturnType<typeof panelEdges>): Readonly<Record<WallSide, string>> {
  const words = {} as Record<WallSide, string>;
  for (const side of SIDES) {
    const { wall, neighbours } = edges.find(
      (edge) => edge.side === (frame === "FACE" ? side : seenFromBack(side)),
    )!;
    const reference = side === (frame === "FACE" ? "left" : "right");
    words[side] = [
      `${side} edge${reference ? " = REFERENCE EDGE" : ""}`,
      `toward the ${wall.replace(/^the /, "")}`,
      ...(neighbours.length > 0 ? [`beside ${neighbours.join(", ")}`] : []),
    ].join(" · ");
  }
  return words;
}

const CORNERS_OF_A_CIRCLE = 72;

const ringAround = ([x, y]: readonly [number, number], radiusMm: number): Points =>
  Array.from({ length: CORNERS_OF_A_CIRCLE }, (_, i) => {
    const angle = (2 * Math.PI * i) / CORNERS_OF_A_CIRCLE;
    return [x + radiusMm * Math.cos(angle), y + radiusMm * Math.sin(angle)];
  });
