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
  /** How deep this file goes, and what that asks for. */
  readonly depth: string;
  /** What the passes and the file itself need said. */
  readonly notes: readonly string[];
}

const NEEDS: Readonly<Record<Dialect, string>> = {
  rs274: "Needs RS-274 with G81, G83 and T M6. For other controllers: lacunar make --dialect plain.",
  plain: "Plain moves G0 and G1, one bit a file, no tool change.",
};

const STARTING_VALUES =
  "Feeds and speeds are STARTING VALUES, never tried on your machine: try them on the sample board first.";

export const throughWords = ({ board, cnc }: Plan): string =>
  `Through holes in ${number(board.thickness)} mm of ${board.material}: lay it on a sacrificial board of ${number(cnc.sacrificial)} mm or more.`;

/** Clamps are as high as they are: the height is promised over the board alone. */
const heightWords = ({ cnc }: Plan, over: string): string =>
  `Heights: travel at Z${number(cnc.safeHeight)}, clear of ${over}: keep clamps lower than that, or out of the way.`;

export function headWords(
  { title, frame, dialect, setUp, setUps, depth, notes }: ProgramHead,
  panel: CutPanelRecord,
  proofs: Proofs,
  plan: Plan,
): string[] {
  return [
    `Lacunar, panel ${panel.id}: ${title}`,
    `${FRAME_WORDS[frame]}. This side of the board lies up.`,
    "Millimetres, absolute. Z0 is the upper side of the board.",
    ...datumWords(panel, frame),
    ...(setUps === 1
      ? []
      : [`Set-up ${setUp.number} of ${setUps}. X and Y are those of the whole board in every set-up.`]),
    NEEDS[dialect],
    ...notes,
    depth,
    STARTING_VALUES,
    heightWords(plan, "the board"),
    ...drillingCautions(),
    "Before the first hole:",
    ...proofWords(proofs, frame),
  ];
}

/** The head of a program that drills into the sacrificial board, the panel being elsewhere: no proofs, no depth of the panel. */
export function pinHeadWords(
  { title, frame, dialect, setUp, setUps, depth, notes }: ProgramHead,
  panel: CutPanelRecord,
  plan: Plan,
): string[] {
  return [
    `Lacunar, panel ${panel.id}: ${title}`,
    "The panel is NOT on the bed for this file, the sacrificial board is.",
    "Millimetres, absolute. For THIS file alone Z0 is the upper side of the sacrificial board.",
    `X and Y are those of the panel as it will lie on it. ${FRAME_WORDS[frame]}.`,
    `Set-up ${setUp.number} of ${setUps}.`,
    NEEDS[dialect],
    ...notes,
    depth,
    STARTING_VALUES,
    heightWords(plan, "the sacrificial board"),
    ...drillingCautions(),
  ];
}
