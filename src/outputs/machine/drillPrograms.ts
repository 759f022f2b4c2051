import { SPOT_MM } from "../../plan/cncDepth.ts";
import type { Plan } from "../../plan/plan.ts";
import { faceToBack } from "../../projection/frames.ts";
import type { CutPanelRecord } from "../../schedule/asCut.ts";
import type { Proofs } from "../../schedule/proofs.ts";
import type { Frame } from "../proofWords.ts";
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
import { headWords, pinHeadWords, throughWords } from "./machineWords.ts";
import { bareWords, passWords } from "./passWords.ts";
import { bitWords } from "./plainText.ts";
import type { DatumHole, DatumPair, SetUp } from "./setUps.ts";
import { type MachineHole, type Pass, pilotBitMm, type Tool, toolsFor } from "./tools.ts";

export interface ProgramOf {
  readonly panel: CutPanelRecord;
  readonly proofs: Proofs;
  readonly plan: Plan;
}

const BOARD = "the board";

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
    const title =
      pass === "pilot"
        ? "pilot holes"
        : plan.cnc.mode === "spot"
          ? "spots"
          : "holes to size, on the bare board";
    const head = (its: Dialect, notes: readonly string[]) =>
      comments(
        headWords(
          {
            title,
            frame,
            dialect: its,
            setUp,
            setUps: setUps.length,
            depth: depthWords(setUp, setUps, plan),
            notes: [
              ...passWords(panel, plan, pass),
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
          plainProgram(tool, plan, head("plain", [`This file: the ${bitWords(tool.bitMm)} bit alone.`])),
        );
    if (setUp.datums !== null) {
      for (const [file, text] of datumPrograms(of, setUps, setUp.number, frame, dialect, pass))
        programs.set(file, text);
    }
  }
  return programs;
}

/** Who has a dimple drilled also lays the board so that a bit may come through it, where datum holes follow. */
function depthWords(setUp: SetUp, setUps: readonly SetUp[], plan: Plan): string {
  if (plan.cnc.mode === "through") return throughWords(plan);
  const later = setUps.filter(({ datums }) => datums?.from === setUp.number && freshOf(datums).length > 0);
  const spots = `Spots: dimples ${SPOT_MM} mm deep, to be drilled by hand.`;
  return later.length === 0
    ? spots
    : `${spots} Lay the board on a sacrificial board of ${number(plan.cnc.sacrificial)} mm or more all the same: ${later.map(({ number: n }) => `datum-${n}.nc`).join(" and ")}, run before it is moved, drills right through.`;
}

/** Holes that are not there before a pair is needed. */
const freshOf = ({ holes }: DatumPair): readonly DatumHole[] => holes.filter(({ isFirst }) => isFirst);

const emptyNote = (tools: readonly Tool[]) =>
  tools.length === 0 ? ["There is nothing to drill in this set-up."] : [];

function wholeProgram(tools: readonly Tool[], plan: Plan, head: readonly string[], zeroOn = BOARD): string {
  const { safeHeight, spindle } = plan.cnc;
  return program(
    [
      ...head,
      ...preamble(safeHeight, "rs274"),
      ...tools.flatMap((tool) => cycleStrokes(tool, safeHeight, spindle, zeroOn)),
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

const datumWord = ({ hole, xMm, yMm, bitMm }: MachineHole, plan: Plan, pass: Pass) =>
  `${hole} at X${number(xMm)} Y${number(yMm)}, ${bitWords(pass === "pilot" ? pilotBitMm(bitMm, plan) : bitMm)}`;

export const pairWords = (
  { holes }: DatumPair,
  frame: Frame,
  widthMm: number,
  plan: Plan,
  pass: Pass,
): string =>
  holesInFrame(holes, frame, widthMm)
    .map((hole) => datumWord(hole, plan, pass))
    .join(" and ");

/** pins-2.nc, or pins-pilot-2.nc: the passes may lie on different sides, and their pins are of different bits. */
const pinsName = (setUp: number, pass: Pass) => `pins-${pass === "pilot" ? "pilot-" : ""}${setUp}`;

const reachWords = ({ window }: SetUp, frame: Frame, widthMm: number): string => {
  const left = frame === "FACE" ? window.xMm : widthMm - window.xMm - window.widthMm;
  return `This set-up reaches X${number(left)} to X${number(left + window.widthMm)}, Y${number(window.yMm)} to Y${number(window.yMm + window.lengthMm)}`;
};

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
  const { number: n, datums } = setUp;
  return [
    `${reachWords(setUp, frame, widthMm)}: lay that part of the board over the bed.`,
    ...(datums === null
      ? []
      : [
          `Datum holes that are there already, and are not drilled here: ${pairWords(datums, frame, widthMm, plan, pass)}. Run ${pinsName(n, pass)}.nc on the bare sacrificial board first, stand a straight pin of that size in each hole, of hard wire or the shank of a twist drill, that ends below the board's upper side, then lower the board onto both pins. Keep X0 Y0 as that file had it.`,
        ]),
    ...setUps
      .filter(({ datums: its }) => its?.from === n)
      .map(({ number: later, datums: its }) => nextWords(n, later, its!, frame, widthMm, plan, pass)),
  ];
}

/** Which holes carry the board on, and where each of them is drilled. */
function nextWords(
  n: number,
  later: number,
  pair: DatumPair,
  frame: Frame,
  widthMm: number,
  plan: Plan,
  pass: Pass,
): string {
  const spot = plan.cnc.mode === "spot";
  const placed = holesInFrame(pair.holes, frame, widthMm);
  const words = pair.holes.map(({ isDowel, isFirst, madeIn }, i) => {
    const made =
      spot && isFirst
        ? ""
        : madeIn === n && isFirst
          ? ""
          : madeIn === n
            ? ", there already"
            : `, there already from set-up ${madeIn}`;
    const kind = isDowel ? ", for a dowel and no star, to be filled before painting" : ", of a star";
    return `${datumWord(placed[i]!, plan, pass)}${kind}${made}`;
  });
  const run = !spot
    ? ""
    : freshOf(pair).length > 0
      ? ` Run datum-${later}.nc to drill ${freshOf(pair).length === 2 ? "them" : "the new one"} through before the board is moved.`
      : " Neither is drilled again.";
  return `Holes that carry the board to set-up ${later}: ${words.join(", and ")}.${run}`;
}

/** Pins for a set-up, and in spot mode their holes through the board, drilled while it lies in the set-up before. */
function datumPrograms(
  { plan, panel, proofs }: ProgramOf,
  setUps: readonly SetUp[],
  setUpNumber: number,
  frame: Frame,
  dialect: Dialect,
  pass: Pass,
): Map<string, string> {
  const setUp = setUps[setUpNumber - 1]!;
  const pair = setUp.datums!;
  const placed = (holes: readonly DatumHole[]) => holesInFrame(holes, frame, panel.widthMm);
  const deep = Math.min(PIN_DEEP_MM, plan.cnc.sacrificial - 1);
  const programs = new Map<string, string>();
  const add = (
    name: string,
    tools: readonly Tool[],
    words: (its: Dialect) => readonly string[],
    zeroOn: string,
  ) => {
    programs.set(`${name}.nc`, wholeProgram(tools, plan, comments(words("rs274")), zeroOn));
    if (dialect === "plain")
      for (const tool of tools)
        programs.set(
          `${name}-${tool.bitMm.toFixed(2)}mm.nc`,
          plainProgram(tool, plan, comments(words("plain"))),
        );
  };
  const drills = `drill-${pass === "pilot" ? "pilot-" : ""}${setUpNumber}.nc`;
  const pins = {
    title: "holes for pins in the SACRIFICIAL board, before the panel is laid on it",
    frame,
    setUp,
    setUps: setUps.length,
    depth: `Holes ${number(deep)} mm deep; sacrificial board of ${number(plan.cnc.sacrificial)} mm or more.`,
    notes: [
      `The pins: ${pairWords(pair, frame, panel.widthMm, plan, pass)}.`,
      `${reachWords(setUp, frame, panel.widthMm)}: choose X0 Y0 so that this lies over the bed.`,
      `Keep X0 Y0 for ${drills}, and set Z0 anew on the panel once it lies on the pins.`,
    ],
  };
  add(
    pinsName(setUpNumber, pass),
    toolsFor(placed(pair.holes), plan, pass, deep),
    (its) => pinHeadWords({ ...pins, dialect: its }, panel, plan),
    "the SACRIFICIAL board",
  );
  const fresh = freshOf(pair);
  if (plan.cnc.mode === "spot" && fresh.length > 0) {
    const through = {
      title: "datum holes THROUGH the board, before it is moved",
      frame,
      setUp: setUps[pair.from - 1]!,
      setUps: setUps.length,
      depth: throughWords(plan),
      notes: [
        `Run it ${bareWords(panel)}.`,
        `Its holes carry the board to set-up ${setUpNumber}. A star's is drilled to its final size.`,
        ...(fresh.length === 2
          ? []
          : [
              `One hole only: the other of the two is there already from set-up ${pair.holes.find(({ isFirst }) => !isFirst)!.madeIn}, and is not drilled again.`,
            ]),
      ],
    };
    add(
      `datum-${setUpNumber}`,
      toolsFor(placed(fresh), { ...plan, cnc: { ...plan.cnc, mode: "through" } }, "final"),
      (its) => headWords({ ...through, dialect: its }, panel, proofs, plan),
      BOARD,
    );
  }
  return programs;
}
