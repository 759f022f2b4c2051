import { type StrandStock, strandStock, usableStrands } from "../fibre/stock.ts";
import { panelWarnings } from "../panel/frameFaults.ts";
import { makePlacer } from "../panel/placement.ts";
import { type WorkPanel, workPanels } from "../panel/work.ts";
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
import { checkAsCut } from "./asCutChecks.ts";
import { bearingWarning } from "./bearing.ts";
import { buildWarnings } from "./buildWarnings.ts";
import { closedPanels } from "./closedPanels.ts";
import { extinctionEffect } from "./extinctionEffect.ts";
import { measureFidelity } from "./fidelity.ts";
import { tooFarWarnings } from "./fidelityShifts.ts";
import { measureTruth } from "./fidelityTruth.ts";
import type { SlideRecord } from "./fidelityTypes.ts";
import { neighbourIds } from "./neighbours.ts";
import { leftRecords, numberedHoles, panelRecord } from "./records.ts";
import { allowsSlide, type FoundSlide, findSlide } from "./slide.ts";
import type { Hole, LeftRecord, Schedule } from "./types.ts";
import {
  boreFirstWarning,
  darkStrandsWarning,
  daylightWarning,
  emptyCeilingWarnings,
  farZoneWarning,
  foldedBodiesWarnings,
  noMoonWarning,
  paperWarning,
  tightBitWarnings,
  unusedBearingWarning,
} from "./warnings.ts";

/** The moment, the observer and the objects over the ceiling: the part of the flow that needs no panels. */
export interface PlannedSky {
  readonly moment: Moment;
  readonly observer: Observer;
  readonly field: Field;
  /** How the sky was slid within the plan's limits; null where it allows none. */
  readonly slide: SlideRecord | null;
}

/**
 * A plan that lets the sky slide is asked for its panels too: where the slid sky lies depends on them.
 * @throws InputError for a moment, zone or aim that cannot be, and for an aim below the horizon; UnbuildableError when nothing is over the ceiling
 */
export function planSky(plan: Plan, sky: SkyData): PlannedSky {
  const moment = momentOf(plan);
  const observer = observerAt(moment.instantUtcMs, geoPlaceOf(plan.place));
  refuseAimBelowHorizon(plan, sky, observer, moment);
  const slid = allowsSlide(plan) ? slideOver(plan, sky, observer) : null;
  const field = findField(inCeilingFrame(plan), sky, observer, slid?.slide);
  if (field.count === 0) {
    throw new UnbuildableError([
      {
        code: "empty-field",
        message: `no object lies over the ceiling: ${field.notShown.belowHorizon} are below the horizon and ${field.notShown.offCeiling + field.notShown.beyondProjection} elsewhere in the sky; aim higher, widen the field, or set show.belowHorizon`,
      },
    ]);
  }
  return { moment, observer, field, slide: slid?.record ?? null };
}

function slideOver(plan: Plan, sky: SkyData, observer: Observer): FoundSlide {
  const { panels, stock } = drillablePanels(plan);
  return findSlide(inCeilingFrame(plan), sky, observer, makePlacer(panels, plan.holes, plan.frame), stock);
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
  if (planned === null || panels === null) throw new UnbuildableError(onceEach(findings));
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

/** The sky of a plan that lets it slide finds the same wrong with the panels. */
const onceEach = (findings: readonly Finding[]): Finding[] =>
  findings.filter(({ message }, i) => findings.findIndex((other) => other.message === message) === i);

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
  const panels = workPanels(inCeilingFrame(plan));
  return { panels, stock, warnings: closedPanels(panels, stock, plan) };
}

interface DrillablePanels {
  readonly panels: readonly WorkPanel[];
  readonly stock: readonly StrandStock[];
  readonly warnings: readonly string[];
}

/** As `makeSchedule`, for a sky already planned. */
export const scheduleFrom = (plan: Plan, sky: SkyData, planned: PlannedSky): Schedule =>
  scheduleAndSetAside(plan, sky, planned, drillablePanels(plan)).schedule;

function scheduleAndSetAside(
  plan: Plan,
  sky: SkyData,
  { moment, observer, field, slide }: PlannedSky,
  { panels, stock, warnings: marginWarnings }: DrillablePanels,
): Omit<PlannedSchedule, "planned"> {
  const {
    selection,
    ungraded,
    setAside,
    warnings: setAsideWarnings,
  } = selectAllHoles(inCeilingFrame(plan), sky, observer, field, panels, stock);

  const { holes, bored } = numberedHoles(selection, panels, field, sky, ungraded);
  const measured = measureFidelity(selection, plan, field, sky, stock, sunAltitudeDeg(observer), ungraded);
  const fidelity = {
    ...measured,
    extinction: extinctionEffect(plan, sky, observer, field, selection, panels, stock),
    ...measureTruth(holes, field, plan, slide, measured),
  };
  const onPanel = new Map<string, Hole[]>(panels.map(({ id }) => [id, []]));
  for (const hole of holes) onPanel.get(hole.panel)!.push(hole);
  const neighbours = neighbourIds(panels);
  const records = panels.map((panel, i) =>
    panelRecord(panel, neighbours[i]!, onPanel.get(panel.id)!, bored, plan),
  );
  const asCut = checkAsCut(records, holes, plan);
  if (asCut.findings.length > 0) throw new UnbuildableError(asCut.findings);
  const warnings = [
    ...moment.notices,
    farZoneWarning(moment, plan),
    daylightWarning(fidelity.sunAltDeg),
    unusedBearingWarning(plan, field.view),
    bearingWarning(plan),
    ...emptyCeilingWarnings(plan, field.view),
    ...marginWarnings,
    ...buildWarnings(inCeilingFrame(plan), panels),
    paperWarning(plan),
    ...tightBitWarnings(plan),
    darkStrandsWarning(fidelity.strands, !selection.anyDropped),
    ...panelWarnings(panels, plan),
    boreFirstWarning(records, plan),
    ...asCut.warnings,
    ...foldedBodiesWarnings(selection, field, sky, plan.holes.merge),
    noMoonWarning(field),
    ...setAsideWarnings,
    ...tooFarWarnings(fidelity.tooFar),
  ].filter((warning) => warning !== null);
  let left: LeftRecord[] | undefined;
  const schedule: Schedule = {
    lacunar: 1,
    plan,
    civil: moment.civil,
    instantUtc: moment.instantUtc,
    panels: records,
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
