import { lessStrands, milkyWayStrands, type SetAside, type StrandStock } from "../fibre/stock.ts";
import { makePlacer, type Place, type TakenHole } from "../panel/placement.ts";
import type { WorkPanel } from "../panel/work.ts";
import type { Plan } from "../plan/plan.ts";
import type { Field } from "../projection/field.ts";
import type { Observer } from "../sky/observer.ts";
import type { SkyData } from "../sky/skyData.ts";
import { milkyWaySower } from "./milkyWayDots.ts";
import { moonRing } from "./moonRing.ts";
import { type Selection, selectHoles } from "./select.ts";
import type { UngradedHole } from "./ungraded.ts";

/** What is not left to grading. */
export interface ObjectsSetAside extends SetAside {
  /** Objects of the field that take no part in it, and why; null for one that has light all the same. */
  readonly apart: ReadonlyMap<number, string | null>;
}

export interface AllHoles {
  /** Stars, planets and a Moon of one hole. */
  readonly selection: Selection;
  readonly ungraded: readonly UngradedHole[];
  readonly setAside: ObjectsSetAside;
  readonly warnings: readonly string[];
}

/**
 * Holes of every kind. The Moon's ring and the Milky Way get their strands before grading; dots of the Milky Way that find
 * no room give theirs back to the stars, and the grading is made again.
 * @param plan  in the ceiling frame
 * @param stock after the reserve, thickest first
 * @throws UnbuildableError when the stock is too small for the Moon's ring
 */
export function selectAllHoles(
  plan: Plan,
  sky: SkyData,
  observer: Observer,
  field: Field,
  panels: readonly WorkPanel[],
  stock: readonly StrandStock[],
): AllHoles {
  const placer = makePlacer(panels, plan.holes, plan.frame);
  const ring =
    typeof plan.show.moon === "object" ? moonRing(plan, field, sky, observer, stock, placer) : null;
  const ringHoles = ring?.holes ?? [];
  const ringPlaces = takenBy(ringHoles);
  const rest = ring === null ? stock : lessStrands(stock, ring.fibreMm, ringHoles.length);
  const warnings = [...(ring?.warnings ?? [])];
  const setAside = (milkyWay: boolean): ObjectsSetAside => ({
    moonFibreMm: ring?.fibreMm ?? 0,
    moonHoles: ringHoles.length,
    milkyWay,
    apart: ring?.apart ?? new Map(),
  });

  const thinnest = rest.at(-1)!;
  const share = milkyWayStrands(stock, plan.fibre);
  const strands = Math.min(share, thinnest.usable);
  const select = (dots: number, taken: readonly TakenHole[]) =>
    selectHoles(
      field,
      placer,
      dots === 0 ? rest : lessStrands(rest, thinnest.diameterMm, dots),
      plan,
      ring?.apart,
      taken,
    );
  if (strands === 0) {
    warnings.push(...noStrandWarning(plan, share));
    return { selection: select(0, ringPlaces), ungraded: ringHoles, setAside: setAside(false), warnings };
  }

  const sower = milkyWaySower({
    plan,
    view: field.view,
    observer,
    catalogue: sky.catalogue,
    panels,
    placer,
    diameterMm: thinnest.diameterMm,
    bitMm: thinnest.bitMm,
    strands,
  });
  const wanted = sower.bandIsThere ? strands : 0;
  let selection = select(wanted, ringPlaces);
  const dots = sower.sow(wanted, [...takenBy(selection.placed), ...ringPlaces]);
  // Strands given back are for stars that keep away from the dots there are: else they would take the dots' room as well.
  if (dots.length < wanted) selection = select(dots.length, [...ringPlaces, ...takenBy(dots)]);
  warnings.push(...givenBackWarning(plan, strands, dots.length, sower.bandIsThere));
  return { selection, ungraded: [...ringHoles, ...dots], setAside: setAside(dots.length > 0), warnings };
}

const takenBy = (holes: readonly { readonly place: Place; readonly bitMm: number }[]): TakenHole[] =>
  holes.map(({ place: { xMm, yMm }, bitMm }) => ({ xMm, yMm, bitMm }));

const noStrandWarning = ({ fibre }: Plan, share: number): string[] =>
  Number.parseFloat(fibre.milkyWay) === 0
    ? []
    : share === 0
      ? [`fibre.milkyWay of ${fibre.milkyWay} is less than half a strand: the Milky Way gets none`]
      : ["the Moon's ring takes every strand of the thinnest diameter: the Milky Way gets none"];

function givenBackWarning({ fibre }: Plan, strands: number, sown: number, bandIsThere: boolean): string[] {
  if (sown === strands) return [];
  const those = (n: number) => (n === 1 ? "its one strand goes" : `its ${n} strands go`);
  return [
    bandIsThere
      ? `the Milky Way has room for ${sown} of the ${strands} dots that fibre.milkyWay of ${fibre.milkyWay} asks for; the other ${strands - sown === 1 ? "strand goes" : `${strands - sown} strands go`} to stars`
      : `the Milky Way is not over the ceiling at this moment (or only its faint edge): ${those(strands)} to stars`,
  ];
}
