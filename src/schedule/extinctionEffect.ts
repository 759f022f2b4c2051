import type { StrandStock } from "../fibre/stock.ts";
import type { WorkPanel } from "../panel/work.ts";
import type { Plan } from "../plan/plan.ts";
import { type Field, findField, horizontalOf } from "../projection/field.ts";
import { inCeilingFrame } from "../projection/frames.ts";
import type { Observer } from "../sky/observer.ts";
import type { SkyData } from "../sky/skyData.ts";
import { selectAllHoles } from "./allHoles.ts";
import { hundredths, tenThousandths } from "./rounding.ts";
import type { Selection } from "./select.ts";
import type { ExtinctionRecord } from "./types.ts";

/** What a plan's extinction changes against the same plan without; null where it has none, and nothing is computed. */
export function extinctionEffect(
  plan: Plan,
  sky: SkyData,
  observer: Observer,
  field: Field,
  selection: Selection,
  panels: readonly WorkPanel[],
  stock: readonly StrandStock[],
): ExtinctionRecord | null {
  const { extinction } = plan.show;
  if (extinction === 0) return null;
  const clearPlan = inCeilingFrame({ ...plan, show: { ...plan.show, extinction: 0 } });
  // The sky is slid as the plan's is: what a slide chosen anew would change is not the air's doing.
  const clear = findField(clearPlan, sky, observer, field.view.slide);
  const clearSelection = selectAllHoles(clearPlan, sky, observer, clear, panels, stock).selection;
  const lit = litRanks(field, selection);
  const litWithout = litRanks(clear, clearSelection);
  const faintestWithout = clearSelection.placed.at(-1);
  return {
    magPerAirMass: extinction,
    lost: [...litWithout].filter((rank) => !lit.has(rank)).length,
    gained: [...lit].filter((rank) => !litWithout.has(rank)).length,
    lowest: lowestHole(field, selection),
    limitingMagWithout: faintestWithout === undefined ? null : hundredths(faintestWithout.mag),
  };
}

/** Every object that gives its light to a hole, by its rank: the same in every field of a moment. */
const litRanks = (field: Field, { whyLeft }: Selection): Set<number> =>
  new Set(field.rank.filter((_, j) => whyLeft[j] === null));

function lowestHole(field: Field, { placed }: Selection): ExtinctionRecord["lowest"] {
  let lowest: { altDeg: number; dimmedMag: number } | null = null;
  for (const { leader } of placed) {
    const { altDeg } = horizontalOf(field, leader);
    if (lowest === null || altDeg < lowest.altDeg)
      lowest = { altDeg, dimmedMag: field.mag[leader]! - field.vMag[leader]! };
  }
  return lowest && { altDeg: tenThousandths(lowest.altDeg), dimmedMag: hundredths(lowest.dimmedMag) };
}
