import { photometricFit } from "../fibre/brightness.ts";
import type { StrandStock } from "../fibre/stock.ts";
import type { Plan } from "../plan/plan.ts";
import type { Field } from "../projection/field.ts";
import type { SkyData } from "../sky/skyData.ts";
import { bearingRecord } from "./bearing.ts";
import type { Truth } from "./fidelityTypes.ts";
import { leftRecords } from "./records.ts";
import { hundredths, tenThousandths } from "./rounding.ts";
import type { Selection } from "./select.ts";
import type { Fidelity, StrandRecord } from "./types.ts";
import type { UngradedHole } from "./ungraded.ts";

/**
 * How true the placed holes are to the field.
 * @param stock what the reserve leaves
 */
export function measureFidelity(
  selection: Selection,
  plan: Plan,
  field: Field,
  sky: SkyData,
  stock: readonly StrandStock[],
  sunAltDeg: number,
  ungraded: readonly UngradedHole[] = [],
): Omit<Fidelity, "extinction" | keyof Truth> {
  const { placed, lights } = selection;
  const limitingMag = placed.length === 0 ? null : hundredths(placed.at(-1)!.mag);
  const used = new Map<number, number>();
  let squares = 0;
  let shiftMaxMm = 0;
  let moved = 0;
  for (const { diameterMm } of [...placed, ...ungraded]) {
    used.set(diameterMm, (used.get(diameterMm) ?? 0) + 1);
  }
  for (const { place } of placed) {
    squares += place.shiftMm ** 2;
    shiftMaxMm = Math.max(shiftMaxMm, place.shiftMm);
    if (place.shiftMm >= 0.01) moved++;
  }
  const fit = photometricFit(placed);
  return {
    objectsInField: field.count,
    holes: placed.length + ungraded.length,
    moonRing: ungraded.filter(({ kind }) => kind === "moon").length,
    milkyWay: ungraded.filter(({ kind }) => kind === "milkyWay").length,
    merged: placed.reduce((sum, { leader }) => sum + (lights.foldedInto.get(leader)?.length ?? 0), 0),
    limitingMag,
    missing:
      limitingMag === null
        ? []
        : leftRecords(selection, field, sky, limitingMag).filter((one) => one.mag < limitingMag),
    strands: stock.map(
      (size): StrandRecord => ({
        diameterMm: size.diameterMm,
        bitMm: size.bitMm,
        owned: size.owned,
        heldBack: size.heldBack,
        used: used.get(size.diameterMm) ?? 0,
        dark: size.usable - (used.get(size.diameterMm) ?? 0),
      }),
    ),
    shiftRmsMm: hundredths(placed.length === 0 ? 0 : Math.sqrt(squares / placed.length)),
    shiftMaxMm: hundredths(shiftMaxMm),
    moved,
    photometricRmsMag: hundredths(fit.rmsMag),
    fibreSpanMag: hundredths(fit.fibreSpanMag),
    skySpanMag: hundredths(fit.skySpanMag),
    notShown: field.notShown,
    sunAltDeg: tenThousandths(sunAltDeg),
    bearing: field.view.aimedAtZenith ? bearingRecord(plan, field.view.centre) : null,
  };
}
