import { distanceToRing, ringHolds } from "../panel/rings.ts";
import { holeDepthMm } from "../plan/cncDepth.ts";
import type { Plan } from "../plan/plan.ts";
import { faceToBack } from "../projection/frames.ts";
import { boardAsCut, ringAsCut } from "../schedule/asCut.ts";
import type { Hole, PanelRecord } from "../schedule/types.ts";
import { type DrawnHole, readDxfCircles, readXnc } from "./machine/readDrawn.ts";
import { readGcode } from "./machine/readGcode.ts";
import { allBitsMm, pilotBitMm } from "./machine/tools.ts";
import { pinFaults } from "./pinFaults.ts";
import { SAME_MM, same, sameHoles, type WantedHole } from "./sameHoles.ts";

/**
 * Reads back what is about to be written for the machine, against the schedule: every hole once, at its place, with its bit, inside the
 * outline, off the battens; nothing drilled where a pin stands.
 * @param holes those of this panel
 * @param files `machineFiles` of it
 * @returns a sentence a fault; none when all holds. A fault found here is ours.
 */
export function preflightMachine(
  panel: PanelRecord,
  holes: readonly Hole[],
  plan: Plan,
  files: ReadonlyMap<string, string>,
): string[] {
  const board = boardAsCut(panel, plan);
  const bits = new Set(plan.fibre.sizes.map(({ bit }) => bit));
  const onBoard = holes.flatMap((hole) => placeFaults(hole, board, bits));
  const inFile = (
    names: readonly string[],
    read: () => readonly DrawnHole[],
    wanted: readonly WantedHole[],
  ) => {
    try {
      if (names.length === 0) return ["no such file was made"];
      return sameHoles(wanted, read());
    } catch (error) {
      return [(error as Error).message];
    }
  };
  const faults = (label: string, its: readonly string[]) =>
    its.map((fault) => `${panel.id} ${label}: ${fault}`);
  const programs = (pattern: RegExp) => [...files.keys()].filter((name) => pattern.test(name)).sort();
  const strokes = (names: readonly string[], boardMm: number) =>
    names.flatMap((name) => readProgram(files.get(name)!, bitOfName(name), plan, boardMm));
  const starsOnly = (drawn: readonly DrawnHole[], wanted: readonly WantedHole[]) =>
    // Several set-ups may drill dowels besides; they are no holes of the schedule.
    plan.cnc.bed === undefined ? drawn : drawn.filter((one) => wanted.some((hole) => same(hole, one)));
  const onSide = (frame: "FACE" | "BACK", pilot: boolean): WantedHole[] =>
    holes.map((hole) => ({
      hole: hole.hole,
      ...(frame === "FACE" ? { xMm: hole.xMm, yMm: hole.yMm } : faceToBack(hole, board.widthMm)),
      bitMm: pilot ? pilotBitMm(hole.bitMm, plan) : hole.bitMm,
    }));
  const face = onSide("FACE", false);
  const passes = [
    { label: "drill.nc", pattern: /^drill(-\d+)?\.nc$/, wanted: onSide(plan.cnc.frame, false) },
    {
      label: "drill.nc in plain moves",
      pattern: /^drill(-\d+)?-\d+\.\d\dmm\.nc$/,
      wanted: onSide(plan.cnc.frame, false),
    },
    { label: "drill-pilot.nc", pattern: /^drill-pilot(-\d+)?\.nc$/, wanted: onSide("FACE", true) },
    {
      label: "drill-pilot.nc in plain moves",
      pattern: /^drill-pilot(-\d+)?-\d+\.\d\dmm\.nc$/,
      wanted: onSide("FACE", true),
    },
  ];
  const pins = () => {
    try {
      return pinFaults(files, (name, tool) => bitOf(name, tool, plan), plan.board.thickness);
    } catch (error) {
      return [(error as Error).message];
    }
  };
  return [
    ...onBoard,
    ...faults("set-ups", pins()),
    ...faults(
      "panel.dxf",
      inFile(
        programs(/^panel\.dxf$/),
        () => {
          const { inMm, holes: drawn } = readDxfCircles(files.get("panel.dxf")!);
          if (!inMm) throw new Error("does not say mm");
          return drawn;
        },
        face,
      ),
    ),
    ...faults(
      "drill.xnc",
      inFile(programs(/^drill\.xnc$/), () => readXnc(files.get("drill.xnc")!), face),
    ),
    ...passes.flatMap(({ label, pattern, wanted }) => {
      const names = programs(pattern);
      const optional = label !== "drill.nc";
      if (optional && names.length === 0) return [];
      return faults(
        label,
        inFile(names, () => starsOnly(strokes(names, plan.board.thickness), wanted), wanted),
      );
    }),
  ];
}

const bitOfName = (name: string): number | null => {
  const bit = /-(\d+\.\d\d)mm\.nc$/.exec(name)?.[1];
  return bit === undefined ? null : Number(bit);
};

/** Of a stroke: by its file's name, else by its tool. @throws Error for a tool that is no bit of the plan */
function bitOf(name: string, tool: number | null, plan: Plan): number {
  const bits = allBitsMm(plan);
  const named = bitOfName(name);
  const bitMm = named === null ? bits[(tool ?? 0) - 1] : bits.find((bit) => Math.abs(bit - named) < 0.006);
  if (bitMm === undefined) throw new Error(`${name}: no bit is T${tool}`);
  return bitMm;
}

function readProgram(text: string, fileBitMm: number | null, plan: Plan, boardMm: number): DrawnHole[] {
  const bits = allBitsMm(plan);
  return readGcode(text).map(({ xMm, yMm, depthMm, tool, spindleOn }) => {
    const bitMm = fileBitMm ?? bits[(tool ?? 0) - 1];
    if (bitMm === undefined) throw new Error(`no bit is T${tool}`);
    if (!spindleOn) throw new Error(`a stroke at ${xMm}, ${yMm} with the spindle off`);
    const exact = bits.find((bit) => Math.abs(bit - bitMm) < 0.006) ?? bitMm;
    const wanted = holeDepthMm(plan.cnc, boardMm, exact);
    if (Math.abs(depthMm - wanted) > SAME_MM)
      throw new Error(`a stroke at ${xMm}, ${yMm} ends ${depthMm} mm deep, not ${wanted}`);
    return { xMm, yMm, bitMm };
  });
}

function placeFaults(
  { hole, xMm, yMm, bitMm }: Hole,
  board: ReturnType<typeof boardAsCut>,
  bits: ReadonlySet<number>,
): string[] {
  const ring = board.asCut === undefined ? board.outlineMm : ringAsCut(board.asCut);
  const r = bitMm / 2;
  const faults: string[] = [];
  if (!bits.has(bitMm)) faults.push(`${hole}: no ${bitMm} mm bit is in the plan`);
  if (!ringHolds(ring, xMm, yMm) || distanceToRing(ring, xMm, yMm) < r - SAME_MM)
    faults.push(`${hole}: is not inside the board's outline`);
  if (board.boredHoles.includes(hole)) return faults;
  for (const batten of board.battensMm)
    if (ringHolds(batten, xMm, yMm) || distanceToRing(batten, xMm, yMm) < r - SAME_MM)
      faults.push(`${hole}: is on a batten`);
  return faults;
}
