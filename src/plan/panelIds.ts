import type { Problem } from "./describeIssue.ts";
import { nearestName } from "./nearestName.ts";
import type { PlanInput } from "./schema.ts";

/** A, B .. Z, AA, AB ..: rows from the top. */
export function rowLetters(row: number): string {
  const rest = Math.floor(row / 26);
  return (rest > 0 ? rowLetters(rest - 1) : "") + String.fromCharCode(65 + (row % 26));
}

/** Rows count from the top, columns from the left. */
export const gridId = (row: number, column: number): string => `${rowLetters(row)}${column + 1}`;

/** Of a grid or a list, in their order. */
export const panelIdsOf = (panels: PlanInput["panels"]): string[] =>
  Array.isArray(panels)
    ? panels.map(({ id }) => id)
    : Array.from({ length: panels.rows * panels.columns }, (_, i) => {
        return gridId(Math.floor(i / panels.columns), i % panels.columns);
      });

/** Of an id that no panel has. */
export function noSuchPanel(id: string, known: readonly string[]): string {
  const near = nearestName(id, known);
  const some = known.length > 12 ? `${known.slice(0, 12).join(", ")} and so on` : known.join(", ");
  return `there is no panel ${JSON.stringify(id)}; ${near ? `did you mean ${near}?` : `there are ${some}`}`;
}

/** Battens of the person's own need a panel and a length. */
export function battenProblems({ frame, panels }: PlanInput): Problem[] {
  if (frame === "none" || frame.battens.length === 0) return [];
  const known = panelIdsOf(panels);
  const ids = new Set(known);
  return frame.battens.flatMap(({ panel, from, to }, i): Problem[] => {
    const path = ["frame", "battens", i];
    if (!ids.has(panel))
      return [{ path: [...path, "panel"], atKey: false, message: noSuchPanel(panel, known) }];
    if (Math.hypot(to[0] - from[0], to[1] - from[1]) > 0) return [];
    return [
      { path, atKey: false, message: "`from` and `to` are one point; write the ends of its centre line" },
    ];
  });
}
