import type { StrandStock } from "../fibre/stock.ts";
import { lacksEdgeBattens } from "../panel/battenFaults.ts";
import { LegalRegion } from "../panel/legal.ts";
import { panelNames } from "../panel/panelNames.ts";
import { constraintsOf, type WorkPanel } from "../panel/work.ts";
import { UnbuildableError } from "../plan/errors.ts";
import type { Plan } from "../plan/plan.ts";
import { hundredths } from "./rounding.ts";

/** Why panels have no place for a hole, and what to change; the panels that this is so of. */
interface Closed {
  readonly why: string;
  readonly change: string;
  readonly panels: WorkPanel[];
}

/**
 * Panels on which not even the thinnest bit has a legal place: one sentence a cause, naming all its panels.
 * @throws UnbuildableError when there is no other panel
 */
export function closedPanels(
  panels: readonly WorkPanel[],
  stock: readonly StrandStock[],
  plan: Plan,
): string[] {
  const thinnest = Math.min(...stock.map((size) => size.bitMm));
  const isClosed = (panel: WorkPanel) => new LegalRegion(constraintsOf(panel, thinnest, plan.holes)).isEmpty;
  const byCause = new Map<string, Closed>();
  let count = 0;
  for (const panel of panels) {
    if (!isClosed(panel)) continue;
    count++;
    const cause = causeOf(panel, isClosed, thinnest, plan);
    const known = byCause.get(cause.why);
    if (known) known.panels.push(panel);
    else byCause.set(cause.why, { ...cause, panels: [panel] });
  }
  const causes = [...byCause.values()];
  const message = ({ why, panels: closed }: Closed) => `${panelNames(closed.map(({ id }) => id))}: ${why}`;
  if (count === panels.length) {
    throw new UnbuildableError(
      causes.map((cause) => ({
        code: "no-legal-area",
        message: `${message(cause)}; make ${cause.panels.length === 1 ? "the panel" : "the panels"} larger or ${cause.change}`,
      })),
    );
  }
  return causes.map((cause) => {
    const one = cause.panels.length === 1;
    const bored = plan.frame !== "none" && plan.frame.bored !== undefined;
    const but = bored && cause.panels.some(({ frame }) => frame!.within.length > 0);
    return `${message(cause)}: ${one ? "it gets" : "they get"} no holes${but ? " but those bored through battens" : ""}; make ${one ? "it" : "them"} larger or ${cause.change} if ${one ? "it" : "they"} should`;
  });
}

/** Keep-outs, if without them there were a place: the one that alone leaves none, or all that touch the board. */
function causeOf(
  panel: WorkPanel,
  isClosed: (panel: WorkPanel) => boolean,
  thinnestMm: number,
  plan: Plan,
): Pick<Closed, "why" | "change"> {
  const { keepOuts, board } = panel;
  const size = `${hundredths(board.widthMm)} x ${hundredths(board.lengthMm)} mm`;
  if (plan.frame !== "none" && lacksEdgeBattens(panel)) {
    return {
      why: `frame.inset of ${plan.frame.inset} mm leaves no edge battens on a board of ${size}, nothing to hang it from`,
      change: "the inset smaller",
    };
  }
  const margins = `holes.edge of ${plan.holes.edge} mm${plan.frame === "none" ? "" : `, battens of ${plan.frame.batten.width} mm with holes.batten of ${plan.holes.batten} mm`}`;
  if (keepOuts.length === 0 || isClosed({ ...panel, keepOuts: [] })) {
    return {
      why: `${margins} and a ${thinnestMm} mm bit leave no place on a board of ${size}`,
      change: "the margin smaller",
    };
  }
  const alone = keepOuts.find((one) => isClosed({ ...panel, keepOuts: [one] }));
  const blamed = alone === undefined ? keepOuts : [alone];
  const names = `${blamed.length === 1 ? "keep-out" : "keep-outs"} ${blamed.map(({ id, kind }) => `${id} (${kind})`).join(", ")}`;
  return {
    why: `${names} with ${margins} about ${blamed.length === 1 ? "it" : "them"} and a ${thinnestMm} mm bit ${blamed.length === 1 ? "leaves" : "leave"} no place`,
    change: `${blamed.length === 1 ? "that keep-out" : "those keep-outs"} smaller, or move ${blamed.length === 1 ? "it" : "them"}`,
  };
}
