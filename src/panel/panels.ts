import { type Finding, UnbuildableError } from "../plan/errors.ts";
import { upToHundredths as mm } from "../plan/mmWords.ts";
import { gridId } from "../plan/panelIds.ts";
import type { PanelOutlinePlan, PanelRectanglePlan, Plan } from "../plan/plan.ts";
import { largestRectangle } from "./largestRectangle.ts";
import { inset } from "./mitre.ts";
import { outside, overlapping, roomFaults, unsound } from "./panelFaults.ts";
import { type BoxMm, boxOf, counterClockwise, isRectangle, type Ring, rectangleRing } from "./rings.ts";
import { roomRing } from "./walls.ts";
import { writtenMm } from "./written.ts";

export type RectangleMm = BoxMm;

/** A removable panel. */
export interface Panel {
  readonly id: string;
  /** Bounding box of what is seen from the room, fabric included: ceiling frame. */
  readonly finished: RectangleMm;
  readonly finishedRing: Ring;
  /** Bounding box of what is cut, the finished outline less the fabric's thickness all round: ceiling frame. */
  readonly board: RectangleMm;
  /** The board's outline in its face frame, as it is written: whole hundredths. */
  readonly boardRing: Ring;
  /** The same exactly (a rectangle: drawn in to whole hundredths): what all that lies on the board is reckoned from. */
  readonly exactRing: Ring;
  readonly isRectangle: boolean;
}

/**
 * The panels of a plan, in the plan's order.
 * @param plan positions in the ceiling frame (`inCeilingFrame`)
 * @throws UnbuildableError for a room that crosses itself, and naming each panel without size, crossing itself, outside the ceiling or over another one
 */
export function layOutPanels(plan: Plan): Panel[] {
  const room = roomFaults(plan);
  if (room.length > 0) throw new UnbuildableError(room);
  const given: readonly (PanelRectanglePlan | PanelOutlinePlan)[] = Array.isArray(plan.panels)
    ? plan.panels
    : gridOf(plan);
  const outlines = given.map((panel) => ({
    id: panel.id,
    ring:
      "outline" in panel
        ? panel.outline
        : rectangleRing({ xMm: panel.x, yMm: panel.y, widthMm: panel.width, lengthMm: panel.length }),
  }));
  const findings: Finding[] = [];
  const panels = outlines.flatMap(({ id, ring }): Panel[] => {
    const fault = unsound({ id, ring });
    if (fault !== null) {
      findings.push(fault);
      return [];
    }
    findings.push(...outside({ id, ring }, plan));
    const panel = panelOf(id, counterClockwise(ring), plan.fabric.thickness);
    if (typeof panel !== "string") return [panel];
    findings.push({ code: "panel-without-board", message: panel });
    return [];
  });
  findings.push(...overlapping(panels));
  if (findings.length > 0) throw new UnbuildableError(findings);
  return panels;
}

/**
 * What a grid fills: the largest rectangle along the axes that keeps the perimeter to every wall, so that all taper of the
 * room goes into the perimeter. Null when there is none.
 */
export function panelBlock(plan: Plan, perimeterMm: number): RectangleMm | null {
  const { width, length, outline } = plan.ceiling;
  if (outline !== undefined) return largestRectangle(inset(roomRing(plan), perimeterMm));
  return {
    xMm: perimeterMm,
    yMm: perimeterMm,
    widthMm: width - 2 * perimeterMm,
    lengthMm: length - 2 * perimeterMm,
  };
}

const HUNDREDTH = 0.01;
/** Down, so that what is legal on the drawn board is legal on the true one. */
const floored = (mm: number) => Math.floor(mm / HUNDREDTH + 1e-6) / 100;

/** The panel, or why it has no board. */
function panelOf(id: string, ring: Ring, fabricMm: number): Panel | string {
  const finished = boxOf(ring);
  if (isRectangle(ring)) {
    const board = {
      xMm: finished.xMm + fabricMm,
      yMm: finished.yMm + fabricMm,
      widthMm: finished.widthMm - 2 * fabricMm,
      lengthMm: finished.lengthMm - 2 * fabricMm,
    };
    if (board.widthMm <= 0 || board.lengthMm <= 0) {
      return `panel ${id}: ${mm(finished.widthMm)} x ${mm(finished.lengthMm)} mm less ${mm(fabricMm)} mm of fabric all round leaves no board; make it larger or the fabric thinner`;
    }
    const face = { xMm: 0, yMm: 0, widthMm: floored(board.widthMm), lengthMm: floored(board.lengthMm) };
    const exactRing = rectangleRing(face);
    return { id, finished, finishedRing: ring, board, boardRing: exactRing, exactRing, isRectangle: true };
  }
  const boards = inset(ring, fabricMm);
  if (boards.length !== 1) {
    return `panel ${id}: its outline less ${mm(fabricMm)} mm of fabric all round ${boards.length === 0 ? "leaves no board" : `falls into ${boards.length} boards`}; make it wider or the fabric thinner`;
  }
  const board = boxOf(boards[0]!);
  const exactRing = boards[0]!.map(([x, y]) => [x - board.xMm, y - board.yMm] as const);
  const boardRing = exactRing.map(([x, y]) => [writtenMm(x), writtenMm(y)] as const);
  return { id, finished, finishedRing: ring, board, boardRing, exactRing, isRectangle: false };
}

function gridOf(plan: Plan): PanelRectanglePlan[] {
  const { columns, rows, gap, perimeter } = plan.panels as Exclude<Plan["panels"], readonly unknown[]>;
  const block = panelBlock(plan, perimeter);
  const width = ((block?.widthMm ?? 0) - (columns - 1) * gap) / columns;
  const length = ((block?.lengthMm ?? 0) - (rows - 1) * gap) / rows;
  if (block === null || width <= 0 || length <= 0) {
    throw new UnbuildableError([
      {
        code: "no-room-for-panels",
        message: `panels: gaps of ${gap} mm and a perimeter of ${perimeter} mm leave no room for ${columns} x ${rows} panels on a ceiling of ${plan.ceiling.width} x ${plan.ceiling.length} mm; take fewer panels or smaller gaps`,
      },
    ]);
  }
  return Array.from({ length: rows * columns }, (_, i) => {
    const row = Math.floor(i / columns);
    const column = i % columns;
    return {
      id: gridId(row, column),
      x: block.xMm + column * (width + gap),
      y: block.yMm + (rows - 1 - row) * (length + gap),
      width,
      length,
    };
  });
}
