import type { Plan } from "../../plan/plan.ts";
import type { CutPanelRecord } from "../../schedule/asCut.ts";
import type { Proofs } from "../../schedule/proofs.ts";
import { FRAME_WORDS, type Frame, proofWords } from "../proofWords.ts";
import { drillingCautions } from "../workWords.ts";
import { datumWords } from "./datumCorner.ts";
import type { Dialect } from "./gcode.ts";
import { number } from "./gcode.ts";
import type { SetUp } from "./setUps.ts";

/** What stands at the head of a program. */
export interface ProgramHead {
  readonly title: string;
  readonly frame: Frame;
  readonly dialect: Dialect;
  readonly setUp: SetUp;
  readonly setUps: number;
  /** What the passes and the file itself need said. */
  readonly notes: readonly string[];
}

const NEEDS: Readonly<Record<Dialect, string>> = {
  rs274: "Needs RS-274 with G81, G83 and T M6. For other controllers: lacunar make --dialect plain.",
  plain: "Plain moves G0 and G1, one bit a file, no tool change.",
};

export function headWords(
  { title, frame, dialect, setUp, setUps, notes }: ProgramHead,
  panel: CutPanelRecord,
  proofs: Proofs,
  plan: Plan,
): string[] {
  const { cnc, board } = plan;
  return [
    `Lacunar, panel ${panel.id}: ${title}`,
    `${FRAME_WORDS[frame]}. This side of the board lies up.`,
    "Millimetres, absolute. Z0 is the upper side of the board.",
    datumWords(panel, frame),
    ...(setUps === 1
      ? []
      : [`Set-up ${setUp.number} of ${setUps}. X and Y are those of the whole board in every set-up.`]),
    NEEDS[dialect],
    ...notes,
    cnc.mode === "spot"
      ? "Spots: dimples 1 mm deep, to be drilled by hand."
      : `Through holes in ${number(board.thickness)} mm of ${board.material}: lay it on a sacrificial board of ${number(cnc.sacrificial)} mm or more.`,
    "Feeds and speeds are STARTING VALUES, never tried on your machine: try them on the sample board first.",
    `Heights: travel at Z${number(cnc.safeHeight)}, above every clamp.`,
    ...drillingCautions(),
    "Before the first hole:",
    ...proofWords(proofs, frame),
  ];
}
