import { holeDepthMm, overdrillMm } from "./cncDepth.ts";
import type { Problem } from "./describeIssue.ts";
import type { PlanInput } from "./schema.ts";

/** Left of the sacrificial board under the deepest hole. */
const LEFT_UNDER_MM = 1;

const mm = (value: number) => `${Number(value.toFixed(2))}`;

/**
 * What the machine's keys ask for and cannot be.
 * @param sizes those with strands
 */
export function cncProblems(
  { cnc, board }: PlanInput,
  sizes: readonly { readonly bit: number; readonly flute?: number | undefined }[],
): Problem[] {
  const problems: Problem[] = [];
  const problem = (key: string, message: string) =>
    problems.push({ path: ["cnc", key], atKey: false, message });
  const widest = sizes.reduce((most, { bit }) => Math.max(most, bit), 0);
  if (cnc.mode === "through" && widest > 0) {
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
