import { holeDepthMm, LEAST_SAFE_HEIGHT_MM, overdrillMm, RETRACT_MM } from "./cncDepth.ts";
import type { Problem } from "./describeIssue.ts";
import { upToHundredths as mm } from "./mmWords.ts";
import type { PlanInput } from "./schema.ts";

/** Left of the sacrificial board under the deepest hole. */
const LEFT_UNDER_MM = 1;

/** A pin that stands less deep in the sacrificial board leans. */
const LEAST_PIN_DEEP_MM = 3;
/** A pilot bit wider than the widest bit by more than this is a slip of the unit. */
const PILOT_WIDER_MM = 1;

/**
 * What the machine's keys ask for and cannot be.
 * @param sizes those with strands
 */
export function cncProblems(
  { cnc, board, work }: PlanInput,
  sizes: readonly { readonly bit: number; readonly flute?: number | undefined }[],
): Problem[] {
  const problems: Problem[] = [];
  const problem = (key: string, message: string) =>
    problems.push({ path: ["cnc", key], atKey: false, message });
  const widest = sizes.reduce((most, { bit }) => Math.max(most, bit), 0);
  if (widest > 0 && work.pilot > widest + PILOT_WIDER_MM)
    problems.push({
      path: ["work", "pilot"],
      atKey: false,
      message: `a pilot bit of ${mm(work.pilot)} mm is wider than the widest bit of the fibres, ${mm(widest)} mm; write the bit that marks holes for the opening, such as 0.8mm`,
    });
  if (cnc.safeHeight < LEAST_SAFE_HEIGHT_MM)
    problem(
      "safeHeight",
      `strokes begin ${RETRACT_MM} mm above the board, and travelling at ${mm(cnc.safeHeight)} mm leaves no room over a board that bows; write ${LEAST_SAFE_HEIGHT_MM}mm or more, such as 15mm`,
    );
  if (cnc.bed !== undefined && cnc.sacrificial < LEAST_PIN_DEEP_MM + LEFT_UNDER_MM)
    problem(
      "sacrificial",
      `a sacrificial board of ${mm(cnc.sacrificial)} mm holds no pins, which a panel larger than the bed (cnc.bed) is laid on; take one of ${LEAST_PIN_DEEP_MM + LEFT_UNDER_MM} mm or more`,
    );
  // Spots go nowhere, but the datum holes of a panel larger than the bed go through.
  if ((cnc.mode === "through" || cnc.bed !== undefined) && widest > 0) {
    const under = overdrillMm(cnc, widest);
    if (under > cnc.sacrificial - LEFT_UNDER_MM) {
      problem(
        cnc.overdrill === undefined ? "sacrificial" : "overdrill",
        `holes that end ${mm(under)} mm below the board would hit the bed under a sacrificial board of ${mm(cnc.sacrificial)} mm, of which ${LEFT_UNDER_MM} mm is to stay; take a thicker one${cnc.overdrill === undefined ? "" : ", or a smaller overdrill"}`,
      );
    }
  }
  if (cnc.peck !== "never") return problems;
  for (const { bit, flute } of sizes) {
    const deep = holeDepthMm(cnc, board.thickness, bit);
    if (flute === undefined || deep <= flute + 1e-9) continue;
    problem(
      "peck",
      `a flute of ${mm(flute)} mm on the ${mm(bit)} mm bit is shorter than the hole of ${mm(deep)} mm, and \`never\` leaves the chips in it; write auto, or take a longer bit`,
    );
  }
  return problems;
}
