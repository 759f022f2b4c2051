import { type Graded, grade } from "../fibre/grade.ts";
import { type MergedObjects, mergeClose } from "../fibre/merge.ts";
import { type StrandStock, usableStrands } from "../fibre/stock.ts";
import { keepOutsOf, shapeHolds } from "../panel/keepOuts.ts";
import type { Place, Placer, TakenHole } from "../panel/placement.ts";
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
}

/**
 * Grades and places. An object without a legal place within reach is dropped and the grading made again from the merging
 * on, so that brightness order always follows diameter. A drop moves fainter objects to thicker strands, whose legal places are
 * fewer: what failed fails again, and several may be dropped at once. Only one that had others folded into it sets those free to
 * move in before the rest: the round ends with it.
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

  // Where one bit of one object would go, other holes left aside, does not change from round to round.
  const known = new Map<number, (Place | null)[]>();
  const nearest = (leader: number, bitMm: number, mayBore: boolean): Place | null => {
    const key = mayBore ? -bitMm : bitMm;
    let places = known.get(key);
    if (places === undefined) {
      places = [];
      known.set(key, places);
    }
    let place = places[leader];
    if (place === undefined) {
      place = placer.nearestPlace(xMm[leader]!, yMm[leader]!, bitMm, mayBore);
      places[leader] = place;
    }
    return place;
  };
  const bored = plan.frame === "none" ? 0 : (plan.frame.bored?.brightest ?? 0);
  let last: Round = { graded: [], spreadFrom: 0, places: [] };
  /** Most ceilings place all at once. Only after a failure is it asked which would fail even alone: those go first. */
  let someFail = false;
  for (;;) {
    const lights = mergeClose(field, rules.merge, competes);
    const graded = grade(lights, stock);
    let dropped = false;
    for (const [rank, one] of someFail ? graded.entries() : []) {
      const place = nearest(one.leader, one.bitMm, rank < bored);
      if (place !== null && place.shiftMm <= reach(one.leader)) continue;
      drop(one.leader, place);
      dropped = true;
      if (lights.foldedInto.has(one.leader)) break;
    }
    if (dropped) continue;
    const spreadFrom = plan.placement.spread ? Math.ceil(graded.length / 10) : graded.length;
    const places = placer.placeAll(
      graded.map(({ leader, bitMm }, rank) => ({
        xMm: xMm[leader]!,
        yMm: yMm[leader]!,
        bitMm,
        mayBore: rank < bored,
        reachMm: reach(leader),
      })),
      spreadFrom,
      standing(last, graded, spreadFrom),
      taken,
    );
    last = { graded, spreadFrom, places };
    if (!someFail && places.includes(null)) {
      someFail = true;
      continue;
    }
    const placed: PlacedHole[] = [];
    for (const [rank, one] of graded.entries()) {
      const place = places[rank]!;
      if (place !== null) {
        placed.push({ ...one, place });
        continue;
      }
      competes[one.leader] = 0;
      reasons.set(
        one.leader,
        `no place within ${reach(one.leader)} mm that keeps its distance from brighter holes`,
      );
      dropped = true;
      if (lights.foldedInto.has(one.leader)) break;
    }
    if (!dropped)
      return {
        placed,
        lights,
        whyLeft: whyLeft(field.count, lights, placed.length, reasons, usableStrands(stock)),
      };
  }
}

interface Round {
  readonly graded: readonly Graded[];
  readonly spreadFrom: number;
  readonly places: readonly (Place | null)[];
}

/** Places of the round before that a new one would find again: all up to the first that failed or is graded otherwise now. */
function standing(last: Round, graded: readonly Graded[], spreadFrom: number): Place[] {
  const places: Place[] = [];
  for (const [rank, place] of last.places.entries()) {
    const [was, is] = [last.graded[rank]!, graded[rank]];
    if (place === null || is?.leader !== was.leader || is.bitMm !== was.bitMm) break;
    if (rank < last.spreadFrom !== rank < spreadFrom) break;
    places.push(place);
  }
  return places;
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
    for (const keepOut of keepOuts) {
      if (!shapeHolds(keepOut.shape, field.xMm[i]!, field.yMm[i]!)) continue;
      if (keepOut.stars === "drop") drop(i, `under the ${keepOut.kind} ${keepOut.id}`);
      reach[i] = Math.min(reach[i]!, keepOut.upToMm ?? maxShiftMm);
    }
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
