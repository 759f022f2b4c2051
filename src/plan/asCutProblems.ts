import type { Problem } from "./describeIssue.ts";
import { noSuchPanel, panelIdsOf } from "./panelIds.ts";
import type { PlanInput } from "./schema.ts";

/** A tape and a saw do not differ by more: two figures were swapped, or a slip of the unit. */
const DIAGONAL_MISFIT_MM = 10;

/**
 * Boards as cut need a panel that is a rectangle and diagonals that close. Opposite sides being equal, the board is a
 * parallelogram: the squares of its diagonals add up to twice those of its sides (parallelogram law).
 */
export function asCutProblems({ asCut, panels }: PlanInput): Problem[] {
  const ids = panelIdsOf(panels);
  const known = new Set(ids);
  return Object.entries(asCut).flatMap(([id, { width, length, diagonals }]): Problem[] => {
    const problem = (message: string, atKey = false): Problem[] => [{ path: ["asCut", id], atKey, message }];
    if (!known.has(id)) return problem(noSuchPanel(id, ids), true);
    const listed = Array.isArray(panels) ? panels.find((panel) => panel.id === id) : undefined;
    if (listed !== undefined && "outline" in listed) {
      return problem(
        "this panel is an outline, and an outline is not scaled; write its corners as measured on the cut board (fabric added all round) as the panel's `outline`, and make the plan again before anything is drilled",
      );
    }
    if (diagonals === undefined) return [];
    const { risingRight, fallingRight } = diagonals;
    const across = Math.hypot(risingRight, fallingRight) / Math.SQRT2;
    const wanted = Math.hypot(width, length);
    if (Math.abs(across - wanted) <= DIAGONAL_MISFIT_MM) return [];
    return [
      {
        path: ["asCut", id, "diagonals"],
        atKey: false,
        message: `a board of ${width} x ${length} mm has diagonals of about ${wanted.toFixed(1)} mm, and ${risingRight} and ${fallingRight} mm do not go with it; measure width, length and both diagonals again`,
      },
    ];
  });
}
