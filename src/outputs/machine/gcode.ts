import { RETRACT_MM } from "../../plan/cncDepth.ts";
import { bitWords, commentText, wrapped } from "./plainText.ts";
import type { MachineHole, Tool } from "./tools.ts";

/**
 * How a controller is spoken to.
 * rs274: canned cycles and tool changes of RS-274 (NISTIR 6556: G81, G83, T M6). plain: G0 and G1 alone, one file a bit.
 */
export const DIALECTS = ["rs274", "plain"] as const;
export type Dialect = (typeof DIALECTS)[number];

/** A bit goes rapidly back to so far above the bottom of its last peck. */
const ABOVE_LAST_MM = 0.3;
/** Seconds for the spindle to come up. */
const SPIN_UP_S = 3;
/** Some controllers keep only so many signs of a line. */
const LINE = 70;

/** A number with a decimal point and no trailing zeros beyond one decimal; never -0. */
export const number = (value: number): string => {
  const text = (Math.round(value * 1000) / 1000 + 0).toFixed(3).replace(/0{1,2}$/, "");
  return text === "-0.0" ? "0.0" : text;
};

export const comment = (text: string): string[] =>
  wrapped(commentText(text), LINE - 2).map((line) => `(${line})`);

export const comments = (lines: readonly string[]): string[] => lines.flatMap(comment);

/** mm, absolute, XY plane, no compensation of radius or length, no cycle, feed a minute; away from the board, spindle off. */
export const preamble = (safeMm: number, dialect: Dialect): string[] => [
  ...(dialect === "rs274" ? ["G21 G90 G17 G40 G49 G80 G94"] : ["G21", "G90", "G17", "G94"]),
  "M5",
  `G0 Z${number(safeMm)}`,
];

export const ending = (safeMm: number): string[] => [`G0 Z${number(safeMm)}`, "M5", "M30"];

export const spindleOn = (turnsPerMin: number): string[] => [
  `S${Math.round(turnsPerMin)} M3`,
  `G4 P${SPIN_UP_S}`,
];

const toolWords = ({ number: n, bitMm, depthMm, peckMm, holes }: Tool): string =>
  `T${n}: ${bitWords(bitMm)} bit, ${holes.length} ${holes.length === 1 ? "hole" : "holes"}, ${number(depthMm)} mm deep${peckMm === null ? "" : `, pecked by ${number(peckMm)} mm`}`;

/**
 * One bit's strokes as canned cycles; back to the safe height between holes.
 * @param zeroOn where Z0 is, in words
 */
export function cycleStrokes(tool: Tool, safeMm: number, turnsPerMin: number, zeroOn: string): string[] {
  const { holes, depthMm, peckMm, feedMmPerMin } = tool;
  const cycle = peckMm === null ? "G81" : "G83";
  const first = ` Z${number(-depthMm)} R${number(RETRACT_MM)}${peckMm === null ? "" : ` Q${number(peckMm)}`} F${number(feedMmPerMin)}`;
  return [
    ...comment(toolWords(tool)),
    ...comment(
      `MSG, put the ${bitWords(tool.bitMm)} bit in as T${tool.number}, then set Z0 anew on ${zeroOn}`,
    ),
    `T${tool.number} M6`,
    ...spindleOn(turnsPerMin),
    `G0 Z${number(safeMm)}`,
    ...holes.map((hole, i) => `${i === 0 ? `G98 ${cycle} ` : ""}${at(hole)}${i === 0 ? first : ""}`),
    "G80",
    `G0 Z${number(safeMm)}`,
    "M5",
  ];
}

/** The same as plain moves, without a tool change. */
export function plainStrokes(tool: Tool, safeMm: number, turnsPerMin: number): string[] {
  const feed = ` F${number(tool.feedMmPerMin)}`;
  return [
    ...comment(toolWords(tool)),
    ...spindleOn(turnsPerMin),
    ...tool.holes.flatMap((hole) => [
      `G0 ${at(hole)}`,
      `G0 Z${number(RETRACT_MM)}`,
      ...strokesMm(tool).flatMap((toMm, i) => [
        ...(i === 0
          ? []
          : [
              `G0 Z${number(RETRACT_MM)}`,
              `G0 Z${number(Math.min(RETRACT_MM, ABOVE_LAST_MM - strokesMm(tool)[i - 1]!))}`,
            ]),
        `G1 Z${number(-toMm)}${feed}`,
      ]),
      `G0 Z${number(safeMm)}`,
    ]),
    "M5",
  ];
}

const at = ({ xMm, yMm }: MachineHole) => `X${number(xMm)} Y${number(yMm)}`;

/** Depths that the strokes of one hole end at, counted from Z0; pecks are counted from where a stroke begins, as G83 does. */
function strokesMm({ depthMm, peckMm }: Tool): number[] {
  if (peckMm === null) return [depthMm];
  const depths: number[] = [];
  for (let deep = peckMm - RETRACT_MM; deep < depthMm - 1e-9; deep += peckMm) depths.push(deep);
  return [...depths, depthMm];
}

export const program = (lines: readonly string[], dialect: Dialect): string =>
  `${(dialect === "rs274" ? ["%", ...lines, "%"] : lines).join("\n")}\n`;
