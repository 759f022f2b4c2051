import { photometricFit } from "../fibre/brightness.ts";
import { type StrandStock, strandStock } from "../fibre/stock.ts";
import { layOutPanels, type Panel } from "../panel/panels.ts";
import { legalArea, makePlacer } from "../panel/placement.ts";
import { UnbuildableError } from "../plan/errors.ts";
import type { Plan } from "../plan/plan.ts";
import { describeObject, type Field, findField, horizontalOf } from "../projection/field.ts";
import { ceilingToFace, inCeilingFrame } from "../projection/frames.ts";
import { type Moment, resolveMoment } from "../sky/civilTime.ts";
import { sunAltitudeDeg } from "../sky/darkness.ts";
import { type Observer, observerAt } from "../sky/observer.ts";
import type { SkyData } from "../sky/skyData.ts";
import { readingOrder } from "./number.ts";
import { type PlacedHole, type Selection, selectHoles } from "./select.ts";
import type { Fidelity, Hole, LeftRecord, PanelRecord, Schedule, StrandRecord } from "./types.ts";
import { crowdedWarning, darkStrandsWarning, daylightWarning, tightBitWarnings } from "./warnings.ts";

/** The moment, the observer and the objects over the ceiling: the part of the flow that needs no panels. */
export interface PlannedSky {
  readonly moment: Moment;
  readonly observer: Observer;
  readonly field: Field;
}

/** @throws InputError for a moment, zone or aim that cannot be; UnbuildableError when nothing is over the ceiling */
export function planSky(plan: Plan, sky: SkyData): PlannedSky {
  const { place } = plan;
  const moment = resolveMoment(plan.moment, place.timeZone);
  const observer = observerAt(moment.instantUtcMs, {
    latitudeDeg: place.latitude,
    longitudeDeg: place.longitude,
    elevationM: place.elevation,
  });
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

/** Runs every stage of a plan. Pure: the same plan and data give the same schedule. */
export function makeSchedule(plan: Plan, sky: SkyData): Schedule {
  return scheduleFrom(plan, sky, planSky(plan, sky));
}

/** As `makeSchedule`, for a sky already planned. */
export function scheduleFrom(plan: Plan, sky: SkyData, { moment, observer, field }: PlannedSky): Schedule {
  const seenFromBelow = inCeilingFrame(plan);
  const panels = layOutPanels(seenFromBelow);
  const stock = strandStock(plan.fibre);
  const marginWarnings = checkMargins(panels, stock, plan.holes.edge);
  const selection = selectHoles(field, makePlacer(panels, plan.holes.edge), stock, plan.holes);

  const holes = numberedHoles(selection, panels, field, sky);
  const fidelity = measureFidelity(selection, field, sky, stock, sunAltitudeDeg(observer));
  const warnings = [
    ...moment.notices,
    daylightWarning(fidelity.sunAltDeg),
    ...marginWarnings,
    ...tightBitWarnings(plan),
    darkStrandsWarning(fidelity.strands),
    crowdedWarning(holes, plan.holes.spacing),
  ].filter((warning) => warning !== null);
  let left: LeftRecord[] | undefined;
  return {
    lacunar: 1,
    plan,
    civil: moment.civil,
    instantUtc: moment.instantUtc,
    panels: panels.map((panel) => panelRecord(panel, holes)),
    holes,
    // Tens of thousands of records that most callers never read: made when first asked for.
    get left() {
      left ??= leftRecords(selection, field, sky);
      return left;
    },
    fidelity,
    warnings,
  };
}

/** @param brighterThanMag stop at the first object of the field that is no brighter */
function leftRecords(
  { whyLeft }: Selection,
  field: Field,
  sky: SkyData,
  brighterThanMag = Number.POSITIVE_INFINITY,
): LeftRecord[] {
  const left: LeftRecord[] = [];
  for (let j = 0; j < field.count && field.mag[j]! < brighterThanMag; j++) {
    const why = whyLeft[j]!;
    if (why === null) continue;
    const hip = field.rank[j]! > 0 ? field.rank[j]! : null;
    const name = hip === null ? describeObject(field, j, sky).name : sky.designations.displayName(hip);
    left.push({ hip, name, mag: hundredths(field.mag[j]!), why });
  }
  return left;
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

function numberedHoles(
  { placed, lights }: Selection,
  panels: readonly Panel[],
  field: Field,
  sky: SkyData,
): Hole[] {
  const byPanel = new Map<number, { bitMm: number; xFaceMm: number; yFaceMm: number; hole: PlacedHole }[]>();
  for (const hole of placed) {
    const face = ceilingToFace(hole.place, panels[hole.place.panel]!.board);
    const list = byPanel.get(hole.place.panel) ?? [];
    byPanel.set(hole.place.panel, list);
    list.push({ bitMm: hole.bitMm, xFaceMm: hundredths(face.xMm), yFaceMm: hundredths(face.yMm), hole });
  }
  const inOrder = [...byPanel].sort(([a], [b]) => (panels[a]!.id < panels[b]!.id ? -1 : 1));
  return inOrder.flatMap(([panel, list]) =>
    readingOrder(list).map(({ xFaceMm, yFaceMm, hole }, i): Hole => {
      const { leader, place } = hole;
      const described = describeObject(field, leader, sky);
      const { altDeg, azDeg } = horizontalOf(field, leader);
      return {
        hole: `${panels[panel]!.id}-${i + 1}`,
        panel: panels[panel]!.id,
        xMm: xFaceMm,
        yMm: yFaceMm,
        diameterMm: hole.diameterMm,
        bitMm: hole.bitMm,
        kind: described.kind,
        hip: described.hip,
        name: described.name,
        constellation: described.constellation,
        mag: hundredths(hole.mag),
        bv: described.bv,
        altDeg: tenThousandths(altDeg),
        azDeg: tenThousandths(azDeg) % 360,
        skyXMm: hundredths(field.xMm[leader]!),
        skyYMm: hundredths(field.yMm[leader]!),
        ceilingXMm: hundredths(place.xMm),
        ceilingYMm: hundredths(place.yMm),
        shiftMm: hundredths(place.shiftMm),
        merged: (lights.foldedInto.get(leader) ?? []).map((j) => field.rank[j]!).filter((hip) => hip > 0),
        bundle: null,
        lengthMm: null,
      };
    }),
  );
}

function measureFidelity(
  selection: Selection,
  field: Field,
  sky: SkyData,
  stock: readonly StrandStock[],
  sunAltDeg: number,
): Fidelity {
  const { placed, lights } = selection;
  const limitingMag = placed.length === 0 ? null : hundredths(placed.at(-1)!.mag);
  const used = new Map<number, number>();
  let squares = 0;
  let shiftMaxMm = 0;
  let moved = 0;
  for (const { diameterMm, place } of placed) {
    used.set(diameterMm, (used.get(diameterMm) ?? 0) + 1);
    squares += place.shiftMm ** 2;
    shiftMaxMm = Math.max(shiftMaxMm, place.shiftMm);
    if (place.shiftMm >= 0.01) moved++;
  }
  const fit = photometricFit(placed);
  return {
    objectsInField: field.count,
    holes: placed.length,
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
  };
}

function panelRecord({ id, board, finished }: Panel, holes: readonly Hole[]): PanelRecord {
  const ring = (x: number, y: number, width: number, length: number): [number, number][] =>
    (
      [
        [x, y],
        [x + width, y],
        [x + width, y + length],
        [x, y + length],
      ] as const
    ).map(([px, py]) => [hundredths(px), hundredths(py)]);
  return {
    id,
    xMm: hundredths(board.xMm),
    yMm: hundredths(board.yMm),
    widthMm: hundredths(board.widthMm),
    lengthMm: hundredths(board.lengthMm),
    outlineMm: ring(0, 0, board.widthMm, board.lengthMm),
    finishedOutlineMm: ring(
      finished.xMm - board.xMm,
      finished.yMm - board.yMm,
      finished.widthMm,
      finished.lengthMm,
    ),
    holeCount: holes.reduce((sum, hole) => sum + (hole.panel === id ? 1 : 0), 0),
  };
}

// Adding 0 turns -0 into 0.
const hundredths = (value: number): number => Math.round(value * 100) / 100 + 0;
const tenThousandths = (value: number): number => Math.round(value * 10_000) / 10_000 + 0;
