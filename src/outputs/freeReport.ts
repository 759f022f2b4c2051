import { listed } from "../plan/listed.ts";
import type { Plan } from "../plan/plan.ts";
import type { FreeMoment, FreeMoments } from "../schedule/freeMoments.ts";

/** The plain words of `lacunar check --free`. */
export function freeReport(free: FreeMoments, plan: Plan): string {
  const { moments, best, bright, faintestMag, movedOverMm } = free;
  const own = moments.find(({ minutes }) => minutes === 0)!;
  const lines = [
    `If the moment may slip: of the ${bright} brightest objects${faintestMag === null ? "" : ` (to magnitude ${faintestMag.toFixed(2)})`} those moved over ${movedOverMm} mm, other holes left aside;`,
    `RMS of their shifts weighted by light${plan.placement.shift > 0 || plan.placement.turn > 0 ? ", after a slide of its own for each moment" : ""}`,
    "",
    ...table(moments, timberOf(plan)),
    "",
    ...bestWords(best, own),
  ];
  return `${lines.join("\n")}\n`;
}

/** Below this gain a moment that means something is worth more. */
const WORTH_IT = 0.95;

function bestWords(best: FreeMoment, own: FreeMoment): string[] {
  if (best.rmsMm > WORTH_IT * own.rmsMm || best === own)
    return [
      best === own
        ? "No other minute serves the brightest better."
        : `No other minute serves the brightest much better: the least RMS, ${best.rmsMm.toFixed(2)} mm in place of ${own.rmsMm.toFixed(2)}, is ${slip(best.minutes)}.`,
    ];
  return [
    `Best: ${slip(best.minutes)}, RMS ${best.rmsMm.toFixed(2)} mm in place of ${own.rmsMm.toFixed(2)}. To take it, write`,
    `moment: ${best.moment}`,
  ];
}

function table(moments: readonly FreeMoment[], timber: string): string[] {
  const rows = [
    ["min", "moment", "moved", "RMS mm", "what it buys"],
    ...moments.map((one) => [
      one.minutes > 0 ? `+${one.minutes}` : String(one.minutes),
      one.moment,
      String(one.moved),
      one.rmsMm.toFixed(2),
      one.minutes === 0 ? "the plan's moment" : bought(one, timber),
    ]),
  ];
  const widths = [0, 1, 2, 3].map((column) => Math.max(...rows.map((row) => row[column]!.length)));
  return rows.map((row) =>
    row
      .map((cell, i) => (i === 4 ? cell : i === 1 ? cell.padEnd(widths[i]!) : cell.padStart(widths[i]!)))
      .join("  "),
  );
}

/** "6 minutes later keeps Antares and Acrux off the timber" */
export function bought(one: FreeMoment, timber: string): string {
  const { keeps, costs, leaves, comes } = one;
  const acts = [
    ...(keeps.length > 0 ? [`keeps ${listed(keeps, MOST_NAMED)} off ${timber}`] : []),
    ...(costs.length > 0 ? [`puts ${listed(costs, MOST_NAMED)} on ${timber}`] : []),
    ...(leaves.length > 0 ? [`loses ${listed(leaves, MOST_NAMED)} over the rim`] : []),
    ...(comes.length > 0 ? [`brings ${listed(comes, MOST_NAMED)} onto the ceiling`] : []),
  ];
  return `${slip(one.minutes)} ${acts.length === 0 ? "changes nothing among them" : acts.join("; ")}`;
}

const slip = (minutes: number): string =>
  `${Math.abs(minutes)} ${Math.abs(minutes) === 1 ? "minute" : "minutes"} ${minutes < 0 ? "earlier" : "later"}`;

/** What keeps holes away in this plan. */
export const timberOf = ({ frame, keepOut }: Plan): string =>
  frame === "none"
    ? keepOut.length > 0
      ? "margins and keep-outs"
      : "gaps and margins"
    : keepOut.length > 0
      ? "timber and keep-outs"
      : "the timber";

const MOST_NAMED = 5;
