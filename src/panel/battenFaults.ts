import type { Finding } from "../plan/errors.ts";
import { pointText as at, upToTenths as mm } from "../plan/mmWords.ts";
import type { FramePlan, Plan } from "../plan/plan.ts";
import type { Frame } from "./frame.ts";
import { panelNames } from "./panelNames.ts";
import type { Panel } from "./panels.ts";

type Framed = Panel & { readonly frame: Frame | null };

/** Battens of the person's own that lie beside their panel. */
export function battenFaults(panels: readonly Framed[], frame: FramePlan): Finding[] {
  return frame.battens.flatMap(({ panel: id, from, to }) => {
    const panel = panels.find((one) => one.id === id);
    if (panel === undefined) return [];
    const its = (panel.frame?.battens ?? []).some(
      (batten) => batten.kind === "extra" && batten.from === from && batten.to === to,
    );
    if (its) return [];
    return [
      {
        code: "batten-outside-panel",
        message: `panel ${id}: its batten from ${at(from)} to ${at(to)} misses the board of ${mm(panel.board.widthMm)} x ${mm(panel.board.lengthMm)} mm; measure it from the board's lower left corner, as seen from the room`,
      },
    ];
  });
}

/** Battens that do not fit between the board and what lies above it. */
export function cavityFaults({ frame, cavity }: Plan): Finding[] {
  if (frame === "none" || cavity === undefined || frame.batten.depth <= cavity) return [];
  return [
    {
      code: "cavity-too-shallow",
      message: `frame.batten.depth of ${mm(frame.batten.depth)} mm does not fit into a cavity of ${mm(cavity)} mm, from the board's back to the nearest thing above it: lay the battens flat, take thinner ones, or hang the panels lower (cavity)`,
    },
  ];
}

/** A frame whose inset leaves no panel an edge batten. Where some have one, the others are warned about. */
export function insetFaults(panels: readonly Framed[], { frame }: Plan): Finding[] {
  if (frame === "none" || panels.some((panel) => !lacksEdgeBattens(panel))) return [];
  return [
    {
      code: "no-edge-battens",
      message: `frame.inset of ${mm(frame.inset)} mm leaves no edge battens on ${panelNames(panels.map(({ id }) => id))}, so nothing to hang ${panels.length === 1 ? "it" : "them"} from; take a smaller inset`,
    },
  ];
}

export const lacksEdgeBattens = ({ frame }: Pick<Framed, "frame">): boolean =>
  !(frame?.battens.some(({ kind }) => kind === "edge") ?? true);
