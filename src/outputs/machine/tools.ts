import { holeDepthMm, mustPeck } from "../../plan/cncDepth.ts";
import type { Plan } from "../../plan/plan.ts";

/** A hole as machines see it; the file says the frame. */
export interface MachineHole {
  readonly hole: string;
  readonly xMm: number;
  readonly yMm: number;
  readonly bitMm: number;
}

/** One bit of a drilling program, with what it is to do. */
export interface Tool {
  /** The same for a bit on every panel. */
  readonly number: number;
  readonly bitMm: number;
  /** Below the board's upper side; positive. */
  readonly depthMm: number;
  /** Step of each peck; null for a single stroke. */
  readonly peckMm: number | null;
  /** mm a minute into the board: a starting value. */
  readonly feedMmPerMin: number;
  readonly holes: readonly MachineHole[];
}

/** final: each hole with its own bit. pilot: with the pilot bit, or its own where that is thinner. */
export type Pass = "final" | "pilot";

/** A turn of the spindle takes the bit in by this share of its diameter; common practice, no source. */
const FEED_PER_TURN = 0.03;
/** A peck goes so many bits deeper; common practice, no source. */
const PECK_IN_BITS = 2;

const thousandth = (mm: number) => Math.round(mm * 1000) / 1000;

export const pilotBitMm = (bitMm: number, { work }: Pick<Plan, "work">): number =>
  Math.min(bitMm, work.pilot);

/** All bits of a plan: those of the fibres, thinnest first, then the pilot's. The place in this list is the tool's number. */
export const allBitsMm = ({ fibre, work }: Pick<Plan, "fibre" | "work">): number[] => [
  ...new Set([...fibre.sizes.map(({ bit }) => bit).sort((a, b) => a - b), work.pilot]),
];

/** The tool that scribes comes after all bits. */
export const scribeToolNumber = (plan: Pick<Plan, "fibre" | "work">): number => allBitsMm(plan).length + 1;

/**
 * The tools that some holes need, thinnest first; holes of a tool keep their order.
 * @param depthMm of every hole; by the plan's mode when not given
 */
export function toolsFor(holes: readonly MachineHole[], plan: Plan, pass: Pass, depthMm?: number): Tool[] {
  const bits = allBitsMm(plan);
  const byBit = new Map<number, MachineHole[]>();
  for (const hole of holes) {
    const bitMm = pass === "pilot" ? pilotBitMm(hole.bitMm, plan) : hole.bitMm;
    const its = byBit.get(bitMm);
    if (its) its.push({ ...hole, bitMm });
    else byBit.set(bitMm, [{ ...hole, bitMm }]);
  }
  return [...byBit]
    .sort(([a], [b]) => a - b)
    .map(([bitMm, its]) => ({ ...toolOf(bitMm, plan, bits.indexOf(bitMm) + 1, depthMm), holes: its }));
}

function toolOf(bitMm: number, plan: Plan, number: number, deepMm?: number): Omit<Tool, "holes"> {
  const { cnc, board, fibre } = plan;
  const depthMm = thousandth(deepMm ?? holeDepthMm(cnc, board.thickness, bitMm));
  const flute = fibre.sizes.find(({ bit }) => bit === bitMm)?.flute;
  const pecked = cnc.peck === "always" || (cnc.peck === "auto" && mustPeck(depthMm, bitMm, flute));
  return {
    number,
    bitMm,
    depthMm,
    peckMm: pecked ? thousandth(Math.min(PECK_IN_BITS * bitMm, depthMm)) : null,
    feedMmPerMin: cnc.feed ?? Math.max(10, Math.round((cnc.spindle * FEED_PER_TURN * bitMm) / 10) * 10),
  };
}
