import { type Graded, strandBySize } from "../fibre/grade.ts";
import { type MergedObjects, mergeClose } from "../fibre/merge.ts";
import type { StrandStock } from "../fibre/stock.ts";
import { keepOutsOf, starReach } from "../panel/keepOuts.ts";
import type { Place, Placer, TakenHole, Wanted } from "../panel/placement.ts";
import type { Plan } from "../plan/plan.ts";
import type { Field } from "../projection/field.ts";
import { inCeilingFrame } from "../projection/frames.ts";

export interface PlacedHole extends Graded {
  readonly place: Place;
}

export interface Selection {
  readonly placed: readonly PlacedHole[];
  /** Everything that competed, merged, brightest first; the first `placed.length` of them have holes. */
  readonly lights: MergedObjects;
  /** Why each object of the field gives no light to any hole; null for those that do. */
  readonly whyLeft: readonly (string | null)[];
  /** An object that a strand was left for found no place. */
  readonly anyDropped: boolean;
}

/**
 * Grades and places: one object after another, brightest light first, on the strands from the thickest to the thinnest. One without a
 * legal place within reach is dropped and its strand goes to the next; if others had been folded into it, the merging is made
 * again without it. So brightness order always follows diameter.
 * @param stock  thickest first
 * @param taken  holes that are there already, to keep away from
 * @param apart  objects that do not compete, and why they have no light; null for one that has it from elsewhere
 */
export function selectHoles(
  field: Field,
  placer: Placer,
  stock: readonly StrandStock[],
  plan: Plan,
  apart: ReadonlyMap<number, string | null> = new Map(),
  taken: readonly TakenHole[] = [],
): Selection {
  const rules = plan.holes;
  const competes = new Uint8Array(field.count).fill(1);
  const reasons = new Map<number, string | null>(apart);
  for (const i of apart.keys()) competes[i] = 0;
  const thinnestBitMm = Math.min(...stock.map((size) => size.bitMm));
  const { xMm, yMm } = field;
  const reach = underKeepOuts(field, plan, rules.maxShift, (i, why) => {
    // One that does not compete has its reason, or its light from elsewhere.
    if (!competes[i]) return;
    competes[i] = 0;
    reasons.set(i, why);
  });
  const drop = (i: number, place: Place | null) => {
    competes[i] = 0;
    const where = placer.panelAt(xMm[i]!, yMm[i]!) < 0 ? "over no panel; " : "";
    const limit = reach(i) === rules.maxShift ? `maxShift ${rules.maxShift} mm` : `${reach(i)} mm allowed`;
    reasons.set(
      i,
      place === null
        ? `${where}the margins leave no place for its bit`
        : `${where}nearest legal place ${place.shiftMm.toFixed(1)} mm away, ${limit}`,
    );
  };

  // What lies over no panel and out of reach even of the thinnest bit never competes.
  for (let i = 0; i < field.count; i++) {
    if (!competes[i] || placer.panelAt(xMm[i]!, yMm[i]!) >= 0) continue;
    const place = placer.nearestPlace(xMm[i]!, yMm[i]!, thinnestBitMm);
    if (place === null || place.shiftMm > reach(i)) drop(i, place);
  }

  const bored = plan.frame === "none" ? 0 : (plan.frame.bored?.brightest ?? 0);
  const strands = strandBySize(stock);
  let lights = mergeClose(field, rules.merge, competes);
  // The brightest tenth are not spread: of what would be lit if all found a place.
  const spreadFrom = plan.placement.spread
    ? Math.ceil(Math.min(strands.length, lights.count) / 10)
    : strands.length;
  const widestBitMm = [...stock, ...taken].reduce((widest, { bitMm }) => Math.max(widest, bitMm), 0);
  let placing = placer.begin({ widestBitMm, taken });
  const placed: PlacedHole[] = [];
  let anyDropped = false;
  for (let next = 0; placed.length < strands.length && next < lights.count; next++) {
    const rank = placed.length;
    const leader = lights.leader[next]!;
    const { diameterMm, bitMm } = strands[rank]!;
    const wanted: Wanted = {
      xMm: xMm[leader]!,
      yMm: yMm[leader]!,
      bitMm,
      mayBore: rank < bored,
      reachMm: reach(leader),
    };
    const place = placing.place(wanted, rank >= spreadFrom);
    if (place !== null) {
      placed.push({ leader, mag: lights.mag[next]!, diameterMm, bitMm, place });
      continue;
    }
    const alone = placer.nearestPlace(wanted.xMm, wanted.yMm, bitMm, wanted.mayBore);
    if (alone === null || alone.shiftMm > wanted.reachMm) drop(leader, alone);
    else {
      competes[leader] = 0;
      reasons.set(leader, `no place within ${wanted.reachMm} mm that keeps its distance from brighter holes`);
    }
    anyDropped = true;
    if (lights.foldedInto.has(leader)) {
      lights = mergeClose(field, rules.merge, competes);
      next = rank - 1;
      // Those that were folded into it compete now, behind all that is placed; but one may have gone to a light that stands already.
      if (!placed.every(({ leader, mag }, i) => lights.leader[i] === leader && lights.mag[i] === mag)) {
        placing = placer.begin({ widestBitMm, taken });
        placed.length = 0;
        next = -1;
      }
    }
  }
  if (anyDropped) lights = mergeClose(field, rules.merge, competes);
  return {
    placed,
    lights,
    anyDropped,
    whyLeft: whyLeft(field.count, lights, placed.length, reasons, strands.length),
  };
}

/** How far each object may be moved: those under a keep-out as it says. @param drop called for those that it drops */
function underKeepOuts(
  field: Field,
  plan: Plan,
  maxShiftMm: number,
  drop: (i: number, why: string) => void,
): (i: number) => number {
  const keepOuts = keepOutsOf(inCeilingFrame(plan).keepOut);
  if (keepOuts.length === 0) return () => maxShiftMm;
  const reach = new Float64Array(field.count).fill(maxShiftMm);
  for (let i = 0; i < field.count; i++) {
    const { reachMm, droppedBy } = starReach(keepOuts, field.xMm[i]!, field.yMm[i]!, maxShiftMm);
    if (droppedBy !== null) drop(i, `under the ${droppedBy.kind} ${droppedBy.id}`);
    reach[i] = reachMm;
  }
  return (i) => reach[i]!;
}

function whyLeft(
  count: number,
  lights: MergedObjects,
  lit: number,
  reasons: ReadonlyMap<number, string | null>,
  strands: number,
): (string | null)[] {
  const why = new Array<string | null>(count).fill(`no strand left: all ${strands} light brighter objects`);
  for (const [object, reason] of reasons) why[object] = reason;
  for (let i = 0; i < lit; i++) {
    const leader = lights.leader[i]!;
    why[leader] = null;
    for (const object of lights.foldedInto.get(leader) ?? []) why[object] = null;
  }
  return why;
}
