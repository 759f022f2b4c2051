import { type Finding, InputError } from "../plan/errors.ts";
import { nearestName } from "../plan/nearestName.ts";
import type { FramePlan } from "../plan/plan.ts";
import { boxOf } from "./rings.ts";
import type { WorkPanel } from "./work.ts";

const MOST_NAMED = 8;
const mm = (value: number) => `${Number(value.toFixed(2))}`;

/**
 * Battens of the person's own that miss their board.
 * @throws InputError for a batten on a panel that there is not
 */
export function addedBattenFaults(plan: FramePlan, panels: readonly WorkPanel[]): Finding[] {
  const byId = new Map(panels.map((panel) => [panel.id, panel]));
  return plan.battens.flatMap(({ panel: id, from, to }, i): Finding[] => {
    const panel = byId.get(id);
    if (panel === undefined) {
      const near = nearestName(id, [...byId.keys()]);
      const known = `${[...byId.keys()].slice(0, MOST_NAMED).join(", ")}${byId.size > MOST_NAMED ? " and so on" : ""}`;
      throw new InputError(
        `frame.battens[${i}].panel: there is no panel ${id}; ${near ? `did you mean ${near}?` : `panels are ${known}`}`,
        { key: `frame.battens.${i}.panel` },
      );
    }
    const onBoard = panel.frame?.battens.some(
      (batten) => batten.kind === "extra" && batten.from === from && batten.to === to,
    );
    if (onBoard) return [];
    const { widthMm, lengthMm } = boxOf(panel.boardRing);
    return [
      {
        code: "batten-off-board",
        message: `panel ${id}: the batten from [${mm(from[0])}, ${mm(from[1])}] to [${mm(to[0])}, ${mm(to[1])}] has nothing of its board of ${mm(widthMm)} x ${mm(lengthMm)} mm under it; its ends are written in the panel's face frame, from the board's lower-left corner, seen from the room`,
      },
    ];
  });
}
