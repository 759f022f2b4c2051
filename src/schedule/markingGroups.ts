import type { Finding } from "../plan/errors.ts";
import type { MarkingPlan } from "../plan/plan.ts";
import { layOutBoards } from "./markingBoards.ts";
import { plainFrame } from "./markingFrame.ts";
import type { MarkingPicture } from "./markingTypes.ts";
import type { PanelRecord } from "./types.ts";

const nameOf = (panels: readonly PanelRecord[]) => panels.map(({ id }) => id).join("+");

/** Why panels cannot be marked in one picture; null when each hangs beside another, and all together. */
export function groupFinding(together: readonly PanelRecord[]): Finding | null {
  const reached = reachedFrom(together[0]!, together);
  const apart = together.filter(({ id }) => !reached.has(id));
  if (apart.length === 0) return null;
  return {
    code: "marking-group-apart",
    message: `marking.groups: ${nameOf(together)}: ${nameOf(apart)} ${apart.length === 1 ? "is no neighbour" : "are no neighbours"} of ${[...reached].join(", ")}; group panels that meet along a seam (beside ${[...reached].join(", ")}: ${beside(together, reached)})`,
  };
}

const beside = (together: readonly PanelRecord[], reached: ReadonlySet<string>): string =>
  [...new Set(together.filter(({ id }) => reached.has(id)).flatMap(({ neighbours }) => neighbours))]
    .filter((id) => !reached.has(id))
    .join(", ") || "none";

function reachedFrom(first: PanelRecord, among: readonly PanelRecord[]): ReadonlySet<string> {
  const reached = new Set([first.id]);
  const open = [first];
  for (let panel = open.pop(); panel !== undefined; panel = open.pop())
    for (const next of among)
      if (!reached.has(next.id) && panel.neighbours.includes(next.id)) {
        reached.add(next.id);
        open.push(next);
      }
  return reached;
}

/** Why a picture is too coarse to mark by, and what would do; null when the plan accepts it. */
export function coarseFinding(
  picture: Omit<MarkingPicture, "checks">,
  together: readonly PanelRecord[],
  marking: MarkingPlan,
): Finding | null {
  const { id, coarsestMmPerPx, warped, widthPx, heightPx } = picture;
  if (coarsestMmPerPx <= marking.coarsest) return null;
  const ways: string[] = [];
  if (warped) ways.push("move the projector nearer or zoom in until the board fills its picture");
  const smaller = smallerGroup(together, marking);
  if (smaller !== null) ways.push(smaller);
  if (!warped) {
    const onSide = mmPerPxOf(together, [heightPx, widthPx]);
    if (onSide <= marking.coarsest)
      ways.push(
        `stand the projector on its side (marking.pixels: [${heightPx}, ${widthPx}], ${told(onSide)} mm per pixel)`,
      );
  }
  ways.push(`accept it with marking: {coarsest: ${Math.ceil(coarsestMmPerPx * 100 - 1e-9) / 100}mm}`);
  return {
    code: "marking-too-coarse",
    message: `marking ${id}: ${told(coarsestMmPerPx)} mm per pixel in a picture of ${widthPx} x ${heightPx}, over ${marking.coarsest} mm: ${ways.join("; or ")}`,
  };
}

const mmPerPxOf = (together: readonly PanelRecord[], [widthPx, heightPx]: readonly [number, number]) => {
  const { widthMm, lengthMm } = layOutBoards(together);
  return plainFrame(widthMm, lengthMm, widthPx, heightPx).mmPerPx;
};

/** The largest part of a group that hangs together and is fine enough, in the words of a way out. */
function smallerGroup(together: readonly PanelRecord[], { pixels, coarsest }: MarkingPlan): string | null {
  let parts: readonly (readonly PanelRecord[])[] = [together];
  while (parts[0]!.length > 1) {
    // All parts of one panel less that still hang together.
    const next = new Map<string, readonly PanelRecord[]>();
    for (const part of parts)
      for (const without of part) {
        const rest = part.filter((panel) => panel !== without);
        if (groupFinding(rest) === null) next.set(nameOf(rest), rest);
      }
    parts = [...next.values()];
    const best = parts
      .map((part) => ({ part, mmPerPx: mmPerPxOf(part, pixels) }))
      .sort((a, b) => a.mmPerPx - b.mmPerPx)[0]!;
    if (best.mmPerPx <= coarsest)
      return best.part.length === 1
        ? `mark its panels one by one (${nameOf(best.part)}: ${told(best.mmPerPx)} mm per pixel)`
        : `take groups of ${best.part.length}, such as ${nameOf(best.part)} (${told(best.mmPerPx)} mm per pixel)`;
  }
  return null;
}

/** Never told finer than it is. */
const told = (mmPerPx: number): string => (Math.ceil(mmPerPx * 1000 - 1e-9) / 1000).toFixed(3);
