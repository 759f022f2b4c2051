import type { Plan } from "../plan/plan.ts";
import type { Hole } from "./types.ts";

export interface PassCount {
  readonly bitMm: number;
  readonly holes: number;
}

/** How many holes each bit makes in the two passes, thinnest first: pilot holes on the bare face, then each opened to size. */
export function passCounts(
  holes: readonly Pick<Hole, "bitMm">[],
  { work }: Pick<Plan, "work">,
): { readonly pilot: readonly PassCount[]; readonly opening: readonly PassCount[] } {
  const count = (bitOf: (bitMm: number) => number): PassCount[] => {
    const counts = new Map<number, number>();
    for (const { bitMm } of holes) counts.set(bitOf(bitMm), (counts.get(bitOf(bitMm)) ?? 0) + 1);
    return [...counts].sort(([a], [b]) => a - b).map(([bitMm, its]) => ({ bitMm, holes: its }));
  };
  return { pilot: count((bitMm) => Math.min(bitMm, work.pilot)), opening: count((bitMm) => bitMm) };
}
