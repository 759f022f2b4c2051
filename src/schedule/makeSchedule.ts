import { type StrandStock, strandStock, usableStrands } from "../fibre/stock.ts";
import { layOutPanels, type Panel } from "../panel/panels.ts";
import { legalArea } from "../panel/placement.ts";
import { type Finding, UnbuildableError } from "../plan/errors.ts";
import type { Plan } from "../plan/plan.ts";
import { type Field, findField } from "../projection/field.ts";
import { inCeilingFrame } from "../projection/frames.ts";
import { type Moment, momentOf } from "../sky/civilTime.ts";
import { sunAltitudeDeg } from "../sky/darkness.ts";
import { type Observer, observerAt } from "../sky/observer.ts";
import { geoPlaceOf } from "../sky/place.ts";
import type { SkyData } from "../sky/skyData.ts";
import { refuseAimBelowHorizon } from "./aimBelowHorizon.ts";
import { type ObjectsSetAside, selectAllHoles } from "./allHoles.ts";
import { bearingWarning } from "./bearing.ts";
import { extinctionEffect } from "./extinctionEffect.ts";
import { measureFidelity } from "./fidelity.ts";
import { leftRecords, numberedHoles, panelRecord } from "./records.ts";
import { hundredths } from "./rounding.ts";
import type { LeftRecord, Schedule } from "./types.ts";
import {
  crowdedWarning,
  darkStrandsWarning,
  daylightWarning,
  emptyCeilingWarnings,
  farZoneWarning,
  foldedBodiesWarnings,
  noMoonWarning,
  tightBitWarnings,
  unusedBearingWarning,
} from "./warnings.ts";

/** The moment, the observer and the objects over the ceiling: the part of the flow that needs no panels. */
export interface PlannedSky {
  readonly moment: Moment;
  readonly observer: Observer;
  readonly field: Field;
}

/** @throws InputError for a moment, zone or aim that cannot be, and for an aim below the horizon; UnbuildableError when nothing is over the ceiling */
export function planSky(plan: Plan, sky: SkyData): PlannedSky {
  const moment = momentOf(plan);
  const observer = observerAt(moment.instantUtcMs, geoPlaceOf(plan.place));
  refuseAimBelowHorizon(plan, sky, observer, moment);
  const field = findField(inCeilingFrame(plan), sky, observer);
  if (field.count === 0) {
    throw new UnbuildableError([
      {
        code: "empty-field",
        message: `no object lies over the ceiling: ${field.notShown.belowHorizon} are below the horizon and ${field.notShown.offCeiling + field.notShown.beyondProjection} elsewhere in the sky; aim higher, widen the field, or set show.belowHorizon`,
      },
    ]);
  }
  return { moment, observer, field };
}

/**
 * Runs every stage of a plan. Pure: the same plan and data give the same schedule.
 * @throws InputError and UnbuildableError: the latter with every reason, of the sky and of the panels
 */
export const makeSchedule = (plan: Plan, sky: SkyData): Schedule => planAndSchedule(plan, sky).schedule;

export interface PlannedSchedule {
  readonly planned: PlannedSky;
  readonly schedule: Schedule;
  readonly setAside: ObjectsSetAside;
}

/** As `makeSchedule`, with the sky it was made for and what was not left to grading. */
export function planAndSchedule(plan: Plan, sky: SkyData): PlannedSchedule {
  const findings: Finding[] = [];
  const planned = collecting(findings, () => planSky(plan, sky));
  const panels = collecting(findings, () => drillablePanels(plan));
  if (planned === null || panels === null) throw new UnbuildableError(findings);
  return { planned, ...scheduleAndSetAside(plan, sky, planned, panels) };
}

/** What `act` gives, or null and its reasons against building. */
function collecting<T>(findings: Finding[], act: () => T): T | null {
  try {
    return act();
  } catch (error) {
    if (!(error instanceof UnbuildableError)) throw error;
    for (const finding of error.findings) findings.push(finding);
    return null;
  }
}

/** @throws UnbuildableError for panels that cannot be, and when no panel has room for a hole */
function drillablePanels(plan: Plan): DrillablePanels {
  const stock = strandStock(plan.fibre);
  if (usableStrands(stock) === 0) {
    throw new UnbuildableError([
      {
        code: "no-strands",
        message: `fibre.reserve of ${plan.fibre.reserve} holds back every strand; make it smaller`,
      },
    ]);
  }
  const panels = layOutPanels(inCeilingFrame(plan));
  return { panels, stock, warnings: checkMargins(panels, stock, plan.holes.edge) };
}

interface DrillablePanels {
  readonly panels: readonly Panel[];
  readonly stock: readonly StrandStock[];
  readonly warnings: readonly string[];
}

/** As `makeSchedule`, for a sky already planned. */
export const scheduleFrom = (plan: Plan, sky: SkyData, planned: PlannedSky): Schedule =>
  scheduleAndSetAside(plan, sky, planned, drillablePanels(plan)).schedule;

function scheduleAndSetAside(
  plan: Plan,
  sky: SkyData,
  { moment, observer, field }: PlannedSky,
  { panels, stock, warnings: marginWarnings }: DrillablePanels,
): Omit<PlannedSchedule, "planned"> {
  const {
    selection,
    ungraded,
    setAside,
    warnings: setAsideWarnings,
  } = selectAllHoles(inCeilingFrame(plan), sky, observer, field, panels, stock);

  const holes = numberedHoles(selection, panels, field, sky, ungraded);
  const fidelity = {
    ...measureFidelity(selection, plan, field, sky, stock, sunAltitudeDeg(observer), ungraded),
    extinction: extinctionEffect(plan, sky, observer, field, selection, panels, stock),
  };
  const warnings = [
    ...moment.notices,
    farZoneWarning(moment, plan),
    daylightWarning(fidelity.sunAltDeg),
    unusedBearingWarning(plan, field.view),
    bearingWarning(plan),
    ...emptyCeilingWarnings(plan, field.view),
    ...marginWarnings,
    ...tightBitWarnings(plan),
    darkStrandsWarning(fidelity.strands),
    crowdedWarning(holes, plan.holes.spacing),
    ...foldedBodiesWarnings(selection, field, sky, plan.holes.merge),
    noMoonWarning(field),
    ...setAsideWarnings,
  ].filter((warning) => warning !== null);
  let left: LeftRecord[] | undefined;
  const counts = new Map<string, number>();
  for (const { panel } of holes) counts.set(panel, (counts.get(panel) ?? 0) + 1);
  const schedule: Schedule = {
    lacunar: 1,
    plan,
    civil: moment.civil,
    instantUtc: moment.instantUtc,
    panels: panels.map((panel) => panelRecord(panel, panels, counts.get(panel.id) ?? 0)),
    holes,
    // Tens of thousands of records that most callers never read: made when first asked for.
    get left() {
      left ??= leftRecords(selection, field, sky);
      return left;
    },
    fidelity,
    warnings,
  };
  return { schedule, setAside };
}

function checkMargins(panels: readonly Panel[], stock: readonly StrandStock[], edgeMm: number): string[] {
  const thinnest = Math.min(...stock.map((size) => size.bitMm));
  const closed = panels.filter((panel) => legalArea(panel, thinnest, edgeMm) === null);
  const message = ({ id, board }: Panel) =>
    `panel ${id}: holes.edge of ${edgeMm} mm and a ${thinnest} mm bit leave no place on a board of ${hundredths(board.widthMm)} x ${hundredths(board.lengthMm)} mm`;
  if (closed.length === panels.length) {
    throw new UnbuildableError(
      closed.map((panel) => ({
        code: "no-legal-area",
        message: `${message(panel)}; make the panel larger or the margin smaller`,
      })),
    );
  }
  return closed.map((panel) => `${message(panel)}: it gets no holes`);
}
