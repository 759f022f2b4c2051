import type { Finding } from "../plan/errors.ts";
import type { FramePlan } from "../plan/plan.ts";
import type { Frame } from "./frame.ts";
import type { Panel } from "./panels.ts";

const mm = (value: number) => `${Number(value.toFixed(1))}`;
const at = ([x, y]: readonly [number, number]) => `[${mm(x)}, ${mm(y)}]`;

/** Battens of the person's own that lie beside their panel. */
export function battenFaults(
  panels: readonly (Panel & { readonly frame: Frame | null })[],
  frame: FramePlan,
): Finding[] {
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
