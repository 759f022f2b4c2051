import { FRAME_WORDS, proofWords } from "../proofWords.ts";
import { datumWords } from "./datumCorner.ts";
import type { ProgramOf } from "./drillPrograms.ts";
import { bareWords } from "./passWords.ts";
import { asciiText } from "./plainText.ts";
import { type MachineHole, toolsFor } from "./tools.ts";

/** Sign, digits, point, three decimals: no zero is suppressed. */
const coordinate = (mm: number) => (Math.round(mm * 1000) / 1000 + 0).toFixed(3);

/** Some readers take X1 for a coordinate and T1 for a tool even in a comment: a gap keeps them apart. */
const remark = (line: string) => asciiText(line).replace(/([XYTM])(?=-?\d)/g, "$1 ");

/**
 * drill.xnc: every hole once, at bit diameter. FACE, mm.
 * Source: Ucamco, XNC format specification, rev. 2021.11, as read through open emitters.
 */
export function drillXnc({ panel, proofs, plan }: ProgramOf, holes: readonly MachineHole[]): string {
  const tools = toolsFor(holes, plan, "final").map((tool) => ({
    ...tool,
    code: `T${String(tool.number).padStart(2, "0")}`,
  }));
  const words = [
    `Lacunar, panel ${panel.id}. ${FRAME_WORDS.FACE}. Millimetres.`,
    ...datumWords(panel, "FACE"),
    "Each hole is given once, at the diameter of its bit.",
    `Drill from it ${bareWords(panel)}.`,
    ...proofWords(proofs, "FACE"),
  ];
  return [
    "M48",
    ...words.map((line) => `; ${remark(line)}`),
    "METRIC",
    ...tools.map(({ code, bitMm }) => `${code}C${coordinate(bitMm)}`),
    "%",
    "G05",
    ...tools.flatMap(({ code, holes: its }) => [
      code,
      ...its.map(({ xMm, yMm }) => `X${coordinate(xMm)}Y${coordinate(yMm)}`),
    ]),
    "M30",
    "",
  ].join("\n");
}
