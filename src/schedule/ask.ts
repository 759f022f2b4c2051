import { type StrandOrder, strandsFor } from "../fibre/order.ts";
import { lessSetAside, NOTHING_SET_ASIDE, strandStock } from "../fibre/stock.ts";
import { makePlacer } from "../panel/placement.ts";
import { workPanels } from "../panel/work.ts";
import type { Plan } from "../plan/plan.ts";
import type { Field } from "../projection/field.ts";
import { inCeilingFrame } from "../projection/frames.ts";
import type { ObjectsSetAside } from "./allHoles.ts";
import { selectHoles } from "./select.ts";

/**
 * The strands and whole bundles that a sky asks for down to a magnitude. Which objects can have a hole depends a little
 * on the bits they get, and that on the number of bundles: the count is repeated until the two agree.
 * @param setAside what the plan's schedule has beside its stars
 */
export function askForStrands(
  plan: Plan,
  field: Field,
  faintestMag: number,
  setAside: ObjectsSetAside = { ...NOTHING_SET_ASIDE, apart: new Map() },
): StrandOrder {
  const panels = workPanels(inCeilingFrame(plan));
  const placer = makePlacer(panels, plan.holes, plan.frame);
  let order = strandsFor(0, plan.fibre, setAside);
  for (let round = 0; round < 8; round++) {
    const stock = lessSetAside(strandStock(plan.fibre, order.bundles), plan.fibre, setAside)!;
    const { lights } = selectHoles(field, placer, stock, plan, setAside.apart);
    const objects = lights.mag.reduce((sum, mag) => sum + (mag <= faintestMag ? 1 : 0), 0);
    const next = strandsFor(objects, plan.fibre, setAside);
    if (next.bundles <= order.bundles) return next;
    order = next;
  }
  return order;
}
