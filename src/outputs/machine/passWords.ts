import type { Plan } from "../../plan/plan.ts";
import type { CutPanelRecord } from "../../schedule/asCut.ts";
import { workWords } from "../workWords.ts";
import type { Pass } from "./tools.ts";

/** When the board is put on a machine: the one state in which every program here is true. */
export const bareWords = ({ battensMm }: Pick<CutPanelRecord, "battensMm">): string =>
  `on the BARE board, before paint and cloth${battensMm.length > 0 ? " and before the frame is glued on" : ""}`;

/** Which pass a program belongs to, when it is run, and what is left for the hand. */
export function passWords(
  panel: Pick<CutPanelRecord, "battensMm">,
  { work, cnc }: Pick<Plan, "work" | "cnc">,
  pass: Pass,
): string[] {
  const [pilot, opening] = workWords({
    work: { ...work, pilot: Number(work.pilot.toFixed(2)) },
  });
  if (pass === "pilot") return [`Run it ${bareWords(panel)}.`, pilot];
  if (cnc.mode === "spot")
    return [
      `Run it ${bareWords(panel)}: its dimples mark every hole for drilling by hand.`,
      `Pass 1, pilot, by hand: drill through at each dimple with the ${Number(work.pilot.toFixed(2))} mm bit, thinner holes with their own.`,
      opening,
    ];
  return [
    `Its holes go to size right through the board: run it ${bareWords(panel)}, or not at all.`,
    ...(work.opening === "drill" ? ["Over cloth it is run on a sample only, never on the panel."] : []),
    `By hand, not with this program: ${opening}`,
  ];
}
