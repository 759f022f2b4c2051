import type { AimPlan, ChartViewPlan, Plan, ViewPlan } from "../plan/plan.ts";
import { farthestCornerMm } from "../projection/frames.ts";
import { SHEET_BOXES } from "./nightsSheetTimes.ts";

/** Eyes above the floor, mm: in a chair, on a bed, standing (our choice). */
const SEATED_MM = 1200;
const LYING_MM = 500;
const STANDING_MM = 1600;

/** Stands in where a plan does not say how high its room is: common for a dwelling. */
const USUAL_ROOM_MM = 2550;

/** Field of an eye, corner to corner, that is still proposed; a plan's limit is 150 degrees. */
const WIDEST_EYE_DEG = 140;
/** And what a hall gets whose ceiling is too wide for any of those eyes. */
const HALL_EYE_DEG = 110;

/** Charts toward a side of the sky: half way up, and no wider than lets the horizon pass near the edge. */
const TOWARD_ALTITUDE_DEG = 45;
const TOWARD_SPAN_DEG = 100;

/** Two eyes nearer to each other than this are one choice. */
const SAME_EYE_MM = 50;

interface Proposal {
  readonly view: ViewPlan;
  /** Taken only where others fall away. */
  readonly spare: boolean;
}

/**
 * Views to choose from, the plan's own first: the eye at several heights, charts from narrow to the whole sky, and charts
 * toward the four sides. How the room lies to the sky (`topBearing`) is a fact and no choice: it stays, as do `up` and `roll`.
 */
export function sheetViews(plan: Plan): ViewPlan[] {
  const fresh: Proposal[] = [];
  for (const proposal of proposals(plan)) {
    const known = [plan.view, ...fresh.map(({ view }) => view)];
    if (!known.some((view) => sameView(view, proposal.view))) fresh.push(proposal);
  }
  let spares = SHEET_BOXES - 1 - fresh.filter(({ spare }) => !spare).length;
  const taken = fresh.filter(({ spare }) => !spare || spares-- > 0);
  return [plan.view, ...taken.slice(0, SHEET_BOXES - 1).map(({ view }) => view)];
}

function proposals(plan: Plan): Proposal[] {
  const { aim } = plan.view;
  const { width, length } = plan.ceiling;
  const chart = (projection: ChartViewPlan["projection"], span: number, at: AimPlan = aim): ViewPlan => ({
    kind: "chart",
    projection,
    span,
    ...shared(plan.view),
    aim: at,
  });
  const main = (view: ViewPlan): Proposal => ({ view, spare: false });
  const spare = (view: ViewPlan): Proposal => ({ view, spare: true });
  const toward = (azimuth: number) =>
    main(chart("stereographic", TOWARD_SPAN_DEG, { altitude: TOWARD_ALTITUDE_DEG, azimuth }));
  const wholeSkyDeg = spanOfWholeSky(width, length);
  return [
    ...eyes(plan),
    main(chart("stereographic", 100)),
    main(chart("stereographic", 140)),
    ...(aim === "zenith" ? [] : [main(chart("stereographic", 140, "zenith"))]),
    spare(chart("equidistant", 140)),
    main(chart("stereographic", 180)),
    spare(chart("equalArea", 180)),
    ...(wholeSkyDeg === null ? [] : [main(chart("stereographic", wholeSkyDeg, "zenith"))]),
    ...[0, 90, 180, 270].map(toward),
    spare(chart("stereographic", 120)),
    spare(chart("stereographic", 160)),
    spare(chart("equidistant", 180)),
    spare(chart("equalArea", 140)),
  ];
}

const shared = ({ aim, topBearing, up, roll }: ViewPlan) => ({ aim, topBearing, up, roll });

/** Eyes at heights of daily life, at the plan's own point of the floor; in a hall too wide for them one farther below. */
function eyes(plan: Plan): Proposal[] {
  const { view, ceiling } = plan;
  const at =
    view.kind === "eye" ? { x: view.eye.x, y: view.eye.y } : { x: ceiling.width / 2, y: ceiling.length / 2 };
  const farthestMm = farthestCornerMm({ xMm: at.x, yMm: at.y }, ceiling);
  const belowFor = (fieldDeg: number) => farthestMm / Math.tan((fieldDeg / 2) * (Math.PI / 180));
  const eye = (below: number): ViewPlan => ({ kind: "eye", eye: { below, ...at }, ...shared(view) });
  const roomMm = plan.room?.height ?? USUAL_ROOM_MM;
  const fits = (proposal: { aboveFloorMm: number }) =>
    roomMm - proposal.aboveFloorMm >= belowFor(WIDEST_EYE_DEG);
  const heights = [
    { aboveFloorMm: SEATED_MM, spare: false },
    { aboveFloorMm: LYING_MM, spare: false },
    { aboveFloorMm: STANDING_MM, spare: true },
  ].filter(fits);
  if (heights.length === 0)
    return [{ view: eye(Math.ceil(belowFor(HALL_EYE_DEG) / 100) * 100), spare: false }];
  return heights.map(({ aboveFloorMm, spare }) => ({ view: eye(roomMm - aboveFloorMm), spare }));
}

/**
 * Span at which the horizon of a stereographic chart just touches the ceiling's longer edges, whole degrees; null where
 * that is more than a chart can have. f(z) = 2 tan(z/2) is 2 at the horizon, and long/short times that half way along.
 */
function spanOfWholeSky(widthMm: number, lengthMm: number): number | null {
  const ratio = Math.max(widthMm, lengthMm) / Math.min(widthMm, lengthMm);
  const spanDeg = Math.ceil((4 * Math.atan(ratio) * 180) / Math.PI - 1e-9);
  return spanDeg <= 300 ? spanDeg : null;
}

function sameView(a: ViewPlan, b: ViewPlan): boolean {
  if (JSON.stringify(shared(a)) !== JSON.stringify(shared(b))) return false;
  if (a.kind === "eye" || b.kind === "eye")
    return a.kind === b.kind && Math.abs(eyeBelowMm(a) - eyeBelowMm(b)) < SAME_EYE_MM;
  return a.projection === b.projection && a.span === b.span;
}

const eyeBelowMm = (view: ViewPlan): number => (view.kind === "eye" ? view.eye.below : Number.NaN);
