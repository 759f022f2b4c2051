import { type Finding, UnbuildableError } from "../plan/errors.ts";
import type { Plan } from "../plan/plan.ts";

export interface RectangleMm {
  readonly xMm: number;
  readonly yMm: number;
  readonly widthMm: number;
  readonly lengthMm: number;
}

/** A removable panel in the ceiling frame; x and y are lower-left corners. */
export interface Panel {
  readonly id: string;
  /** What is seen from the room, fabric included. */
  readonly finished: RectangleMm;
  /** What is cut: the finished outline less the fabric's thickness all round. */
  readonly board: RectangleMm;
}

/** A, B .. Z, AA, AB ..: rows from the top. */
export function rowLetters(row: number): string {
  const rest = Math.floor(row / 26);
  return (rest > 0 ? rowLetters(rest - 1) : "") + String.fromCharCode(65 + (row % 26));
}

/** Less than this is a rounding of the plan's own figures, not an overlap. */
const TOUCHING_MM = 1e-6;

/**
 * The panels of a plan, in the plan's order.
 * @param plan positions in the ceiling frame (`inCeilingFrame`)
 * @throws UnbuildableError naming each panel without size, outside the ceiling or over another one
 */
export function layOutPanels(plan: Plan): Panel[] {
  const finished = Array.isArray(plan.panels)
    ? plan.panels.map(({ id, x, y, width, length }) => ({
        id,
        xMm: x,
        yMm: y,
        widthMm: width,
        lengthMm: length,
      }))
    : gridOf(plan);
  const thickness = plan.fabric.thickness;
  const panels = finished.map(({ id, ...rectangle }) => ({
    id,
    finished: rectangle,
    board: {
      xMm: rectangle.xMm + thickness,
      yMm: rectangle.yMm + thickness,
      widthMm: rectangle.widthMm - 2 * thickness,
      lengthMm: rectangle.lengthMm - 2 * thickness,
    },
  }));
  const findings = [...withoutSize(panels, thickness), ...outside(panels, plan), ...overlapping(panels)];
  if (findings.length > 0) throw new UnbuildableError(findings);
  return panels;
}

function gridOf(plan: Plan): ({ id: string } & RectangleMm)[] {
  const { columns, rows, gap, perimeter } = plan.panels as Exclude<Plan["panels"], readonly unknown[]>;
  const widthMm = (plan.ceiling.width - 2 * perimeter - (columns - 1) * gap) / columns;
  const lengthMm = (plan.ceiling.length - 2 * perimeter - (rows - 1) * gap) / rows;
  if (widthMm <= 0 || lengthMm <= 0) {
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
      id: `${rowLetters(row)}${column + 1}`,
      xMm: perimeter + column * (widthMm + gap),
      yMm: perimeter + (rows - 1 - row) * (lengthMm + gap),
      widthMm,
      lengthMm,
    };
  });
}

const mm = (value: number) => `${Number(value.toFixed(2))}`;

function withoutSize(panels: readonly Panel[], thickness: number): Finding[] {
  return panels
    .filter(({ board }) => board.widthMm <= 0 || board.lengthMm <= 0)
    .map(({ id, finished }) => ({
      code: "panel-without-board",
      message: `panel ${id}: ${mm(finished.widthMm)} x ${mm(finished.lengthMm)} mm less ${mm(thickness)} mm of fabric all round leaves no board; make it larger or the fabric thinner`,
    }));
}

function outside(panels: readonly Panel[], plan: Plan): Finding[] {
  return panels.flatMap(({ id, finished }) => {
    const beyond: [string, number][] = [
      ["left", -finished.xMm],
      ["bottom", -finished.yMm],
      ["right", finished.xMm + finished.widthMm - plan.ceiling.width],
      ["top", finished.yMm + finished.lengthMm - plan.ceiling.length],
    ];
    const sides = beyond
      .filter(([, over]) => over > TOUCHING_MM)
      .map(([side, over]) => `${mm(over)} mm past the ${side} edge`);
    if (sides.length === 0) return [];
    return [
      {
        code: "panel-outside-ceiling",
        message: `panel ${id} leaves the ceiling of ${plan.ceiling.width} x ${plan.ceiling.length} mm: it reaches ${sides.join(" and ")}; move it or make it smaller`,
      },
    ];
  });
}

/** Who put hundreds of panels in one place needs no list of every pair. */
const MOST_OVERLAPS = 100;

function overlapping(panels: readonly Panel[]): Finding[] {
  const findings: Finding[] = [];
  // Sweep from left to right: only panels that share some x are compared.
  const byLeft = [...panels].sort((a, b) => a.finished.xMm - b.finished.xMm);
  for (const [i, a] of byLeft.entries()) {
    for (let j = i + 1; j < byLeft.length; j++) {
      const b = byLeft[j]!;
      const across =
        Math.min(a.finished.xMm + a.finished.widthMm, b.finished.xMm + b.finished.widthMm) - b.finished.xMm;
      if (b.finished.xMm >= a.finished.xMm + a.finished.widthMm - TOUCHING_MM) break;
      const along =
        Math.min(a.finished.yMm + a.finished.lengthMm, b.finished.yMm + b.finished.lengthMm) -
        Math.max(a.finished.yMm, b.finished.yMm);
      if (findings.length >= MOST_OVERLAPS) return findings;
      if (along > TOUCHING_MM) {
        findings.push({
          code: "panels-overlap",
          message: `panels ${a.id} and ${b.id} overlap by ${mm(across)} x ${mm(along)} mm; move or shrink one of them`,
        });
      }
    }
  }
  return findings;
}
