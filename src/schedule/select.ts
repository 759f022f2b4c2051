import { type Graded, grade } from "../fibre/grade.ts";
import { type MergedObjects, mergeClose } from "../fibre/merge.ts";
import { type StrandStock, usableStrands } from "../fibre/stock.ts";
import type { Place, Placer } from "../panel/placement.ts";
import type { HoleRulesPlan } from "../plan/plan.ts";
import type { Field } from "../projection/field.ts";

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
 * @param apart  objects that do not compete, and why they have no light; null for one that has it from elsewhere
 */
export function selectHoles(
  field: Field,
  placer: Placer,
  stock: readonly StrandStock[],
  rules: HoleRulesPlan,
  apart: ReadonlyMap<number, string | null> = new Map(),
): Selection {
  const competes = new Uint8Array(field.count).fill(1);
  const reasons = new Map<number, string | null>(apart);
  for (const i of apart.keys()) competes[i] = 0;
  const thinnestBitMm = Math.min(...stock.map((size) => size.bitMm));
  const { xMm, yMm } = field;
  const drop = (i: number, place: Place | null) => {
    competes[i] = 0;
    const where = placer.panelAt(xMm[i]!, yMm[i]!) < 0 ? "over no panel; " : "";
    reasons.set(
      i,
      place === null
        ? `${where}the margins leave no place for its bit`
        : `${where}nearest legal place ${place.shiftMm.toFixed(1)} mm away, maxShift ${rules.maxShift} mm`,
    );
  };

  // What lies over no panel and out of reach even of the thinnest bit never competes.
  for (let i = 0; i < field.count; i++) {
    if (!competes[i] || placer.panelAt(xMm[i]!, yMm[i]!) >= 0) continue;
    const place = placer.nearestPlace(xMm[i]!, yMm[i]!, thinnestBitMm);
    if (place === null || place.shiftMm > rules.maxShift) drop(i, place);
  }

  for (;;) {
    const lights = mergeClose(field, rules.merge, competes);
    const placed: PlacedHole[] = [];
    let dropped = false;
    for (const one of grade(lights, stock)) {
      const place = placer.nearestPlace(xMm[one.leader]!, yMm[one.leader]!, one.bitMm);
      if (place !== null && place.shiftMm <= rules.maxShift) {
        placed.push({ ...one, place });
        continue;
      }
      drop(one.leader, place);
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
