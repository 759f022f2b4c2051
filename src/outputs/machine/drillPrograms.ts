import type { Plan } from "../../plan/plan.ts";
import { faceToBack } from "../../projection/frames.ts";
import type { CutPanelRecord } from "../../schedule/asCut.ts";
import type { Proofs } from "../../schedule/proofs.ts";
import type { Frame } from "../proofWords.ts";
import { workWords } from "../workWords.ts";
import {
  comments,
  cycleStrokes,
  type Dialect,
  ending,
  number,
  plainStrokes,
  preamble,
  program,
} from "./gcode.ts";
import { headWords } from "./machineWords.ts";
import type { DatumPair, SetUp } from "./setUps.ts";
import { type MachineHole, type Pass, pilotBitMm, type Tool, toolsFor } from "./tools.ts";

export interface ProgramOf {
  readonly panel: CutPanelRecord;
  readonly proofs: Proofs;
  readonly plan: Plan;
}

/** @returns the holes with their places in the frame named */
export const holesInFrame = (
  holes: readonly MachineHole[],
  frame: Frame,
  widthMm: number,
): readonly MachineHole[] =>
  frame === "FACE" ? holes : holes.map((hole) => ({ ...hole, ...faceToBack(hole, widthMm) }));

/** A pin stands so deep in the sacrificial board, or 1 mm above the bed. */
const PIN_DEEP_MM = 8;

/**
 * Drilling programs of one pass, by file name: drill.nc, or drill-1.nc, drill-2.nc .. for several set-ups; with the plain dialect
 * drill-0.60mm.nc .. beside them.
 * @param setUps FACE
 */
export function drillPrograms(
  of: ProgramOf,
  setUps: readonly SetUp[],
  pass: Pass,
  dialect: Dialect,
): Map<string, string> {
  const { plan, panel } = of;
  const frame: Frame = pass === "pilot" ? "FACE" : plan.cnc.frame;
  const base = pass === "pilot" ? "drill-pilot" : "drill";
  const programs = new Map<string, string>();
  for (const setUp of setUps) {
    const name = setUps.length === 1 ? base : `${base}-${setUp.number}`;
    const tools = toolsFor(holesInFrame(setUp.holes, frame, panel.widthMm), plan, pass);
    const title = pass === "pilot" ? "pilot holes" : plan.cnc.mode === "spot" ? "spots" : "holes to size";
    const head = (its: Dialect, notes: readonly string[]) =>
      comments(
        headWords(
          {
            title,
            frame,
            dialect: its,
            setUp,
            setUps: setUps.length,
            notes: [
              ...workWords(plan),
              ...setUpNotes(setUp, setUps, frame, panel.widthMm, plan, pass),
              ...notes,
            ],
          },
          panel,
          of.proofs,
          plan,
        ),
      );
    programs.set(`${name}.nc`, wholeProgram(tools, plan, head("rs274", emptyNote(tools))));
    if (dialect === "plain")
      for (const tool of tools)
        programs.set(
          `${name}-${tool.bitMm.toFixed(2)}mm.nc`,
          plainProgram(tool, plan, head("plain", [`This file: the ${tool.bitMm} mm bit alone.`])),
        );
    if (setUp.datums !== null) {
      for (const [file, text] of datumPrograms(of, setUps, setUp.number, frame, dialect, pass))
        programs.set(file, text);
    }
  }
  return programs;
}

const emptyNote = (tools: readonly Tool[]) =>
  tools.length === 0 ? ["There is nothing to drill in this set-up."] : [];

function wholeProgram(tools: readonly Tool[], plan: Plan, head: readonly string[]): string {
  const { safeHeight, spindle } = plan.cnc;
  return program(
    [
      ...head,
      ...preamble(safeHeight, "rs274"),
      ...tools.flatMap((tool) => cycleStrokes(tool, safeHeight, spindle)),
      ...ending(safeHeight),
    ],
    "rs274",
  );
}

function plainProgram(tool: Tool, plan: Plan, head: readonly string[]): string {
  const { safeHeight, spindle } = plan.cnc;
  return program(
    [
      ...head,
      ...preamble(safeHeight, "plain"),
      ...plainStrokes(tool, safeHeight, spindle),
      ...ending(safeHeight),
    ],
    "plain",
  );
}

const pairInFrame = (pair: DatumPair, frame: Frame, widthMm: number) =>
  holesInFrame(pair.holes, frame, widthMm);

const pairWords = (pair: DatumPair, frame: Frame, widthMm: number, plan: Plan, pass: Pass) =>
  pairInFrame(pair, frame, widthMm)
    .map(
      ({ hole, xMm, yMm, bitMm }) =>
        `${hole} at X${number(xMm)} Y${number(yMm)}, ${pass === "pilot" ? pilotBitMm(bitMm, plan) : bitMm} mm`,
    )
    .join(" and ");

/** pins-2.nc, or pins-pilot-2.nc: the passes may lie on different sides, and their pins are of different bits. */
const pinsName = (setUp: number, pass: Pass) => `pins-${pass === "pilot" ? "pilot-" : ""}${setUp}`;

/** How the board gets from one set-up to the next. */
function setUpNotes(
  setUp: SetUp,
  setUps: readonly SetUp[],
  frame: Frame,
  widthMm: number,
  plan: Plan,
  pass: Pass,
): string[] {
  if (setUps.length === 1) return [];
  const { window, number: n, datums } = setUp;
  const left = frame === "FACE" ? window.xMm : widthMm - window.xMm - window.widthMm;
  return [
    `This set-up reaches X${number(left)} to X${number(left + window.widthMm)}, Y${number(window.yMm)} to Y${number(window.yMm + window.lengthMm)}: lay that part of the board over the bed.`,
    ...(datums === null
      ? []
      : [
          `Datum holes shared with set-up ${datums.from}: ${pairWords(datums, frame, widthMm, plan, pass)}. Run ${pinsName(n, pass)}.nc on the bare sacrificial board first, stand a straight pin of that size in each hole (hard wire or the shank of a twist drill), then lower the board onto both pins. Keep X0 Y0 as that file had it.`,
        ]),
    ...setUps.flatMap(({ number: later, datums: its }) =>
      its?.from !== n
        ? []
        : [
            `${its.ofStars ? "Holes of stars" : "Holes for dowels, not of stars, to be filled before painting,"} that carry the board to set-up ${later}: ${pairWords(its, frame, widthMm, plan, pass)}.${plan.cnc.mode === "spot" ? ` Run datum-${later}.nc to drill them through before the board is moved.` : ""}`,
          ],
    ),
  ];
}

/** Pins for a set-up, and in spot mode their holes through the board, drilled while it lies in the set-up before. */
function datumPrograms(
  of: ProgramOf,
  setUps: readonly SetUp[],
  setUpNumber: number,
  frame: Frame,
  dialect: Dialect,
  pass: Pass,
): Map<string, string> {
  const { plan, panel } = of;
  const setUp = setUps[setUpNumber - 1]!;
  const pair = pairInFrame(setUp.datums!, frame, panel.widthMm);
  const deep = Math.min(PIN_DEEP_MM, plan.cnc.sacrificial - 1);
  const programs = new Map<string, string>();
  const add = (name: string, at: SetUp, tools: readonly Tool[], title: string, notes: readonly string[]) => {
    const head = (its: Dialect) =>
      comments([
        ...headWords(
          { title, frame, dialect: its, setUp: at, setUps: setUps.length, notes },
          panel,
          of.proofs,
          plan,
        ),
      ]);
    programs.set(`${name}.nc`, wholeProgram(tools, plan, head("rs274")));
    if (dialect === "plain")
      for (const tool of tools)
        programs.set(`${name}-${tool.bitMm.toFixed(2)}mm.nc`, plainProgram(tool, plan, head("plain")));
  };
  add(
    pinsName(setUpNumber, pass),
    setUp,
    toolsFor(pair, plan, pass).map((tool) => ({ ...tool, depthMm: deep })),
    "holes for pins in the SACRIFICIAL board, before the panel is laid on it",
    [
      "For THIS file alone Z0 is the upper side of the sacrificial board, and the panel is not on the bed.",
      "Then set Z0 on the panel for drilling.",
    ],
  );
  if (plan.cnc.mode === "spot")
    add(
      `datum-${setUpNumber}`,
      setUps[setUp.datums!.from - 1]!,
      toolsFor(pair, { ...plan, cnc: { ...plan.cnc, mode: "through" } }, "final"),
      "datum holes through the board, before it is moved",
      [`They carry the board to set-up ${setUpNumber}.`],
    );
  return programs;
}
