import { boreFirst } from "../panel/boreFirst.ts";
import type { Shape } from "../panel/keepOuts.ts";
import type { Panel } from "../panel/panels.ts";
import type { Place } from "../panel/placement.ts";
import type { Ring } from "../panel/rings.ts";
import type { WorkPanel } from "../panel/work.ts";
import type { Plan } from "../plan/plan.ts";
import { describeObject, type Field, horizontalOf } from "../projection/field.ts";
import { ceilingToFace, type PointMm } from "../projection/frames.ts";
import { altitudeDeg, azimuthDeg } from "../sky/apparent.ts";
import type { SkyData } from "../sky/skyData.ts";
import { drillOrder } from "./drillOrder.ts";
import { hundredths, tenThousandths } from "./rounding.ts";
import type { PlacedHole, Selection } from "./select.ts";
import type { Hole, LeftRecord, PanelRecord, ShapeRecord } from "./types.ts";
import type { UngradedHole } from "./ungraded.ts";

/** What a hole's row says of the sky, not yet rounded. */
interface Row
  extends Pick<
    Hole,
    "kind" | "hip" | "name" | "constellation" | "mag" | "bv" | "altDeg" | "azDeg" | "merged"
  > {
  readonly skyPoint: PointMm;
}

interface UnnumberedHole {
  readonly diameterMm: number;
  readonly bitMm: number;
  readonly place: Place;
  readonly row: () => Row;
}

function gradedHole(hole: PlacedHole, { lights }: Selection, field: Field, sky: SkyData): UnnumberedHole {
  const { leader, mag } = hole;
  return {
    ...hole,
    row: () => ({
      ...describeObject(field, leader, sky),
      ...horizontalOf(field, leader),
      mag: hundredths(mag),
      skyPoint: { xMm: field.xMm[leader]!, yMm: field.yMm[leader]! },
      merged: (lights.foldedInto.get(leader) ?? []).map((j) => field.rank[j]!).filter((hip) => hip > 0),
    }),
  };
}

const ungradedHole = (hole: UngradedHole): UnnumberedHole => ({
  ...hole,
  row: () => ({
    ...hole,
    hip: null,
    mag: null,
    bv: null,
    altDeg: altitudeDeg(...hole.enu),
    azDeg: azimuthDeg(hole.enu[0], hole.enu[1]),
    merged: [],
  }),
});

/** The holes with their numbers (and which of them go through a batten), rounded as they are written, sorted by panel and number. */
export function numberedHoles(
  selection: Selection,
  panels: readonly Panel[],
  field: Field,
  sky: SkyData,
  ungraded: readonly UngradedHole[] = [],
): { readonly holes: Hole[]; readonly bored: ReadonlySet<string> } {
  const bored = new Set<string>();
  const byPanel = new Map<
    number,
    { bitMm: number; xFaceMm: number; yFaceMm: number; hole: UnnumberedHole }[]
  >();
  const put = (hole: UnnumberedHole) => {
    const face = ceilingToFace(hole.place, panels[hole.place.panel]!.board);
    const list = byPanel.get(hole.place.panel) ?? [];
    byPanel.set(hole.place.panel, list);
    list.push({ bitMm: hole.bitMm, xFaceMm: hundredths(face.xMm), yFaceMm: hundredths(face.yMm), hole });
  };
  for (const hole of selection.placed) put(gradedHole(hole, selection, field, sky));
  for (const hole of ungraded) put(ungradedHole(hole));
  const inOrder = [...byPanel].sort(([a], [b]) => (panels[a]!.id < panels[b]!.id ? -1 : 1));
  const holes = inOrder.flatMap(([panel, list]) =>
    drillOrder(list).map(({ xFaceMm, yFaceMm, hole }, i): Hole => {
      const { place } = hole;
      if (place.bored) bored.add(`${panels[panel]!.id}-${i + 1}`);
      const row = hole.row();
      return {
        hole: `${panels[panel]!.id}-${i + 1}`,
        panel: panels[panel]!.id,
        xMm: xFaceMm,
        yMm: yFaceMm,
        diameterMm: hole.diameterMm,
        bitMm: hole.bitMm,
        kind: row.kind,
        hip: row.hip,
        name: row.name,
        constellation: row.constellation,
        mag: row.mag,
        bv: row.bv,
        altDeg: tenThousandths(row.altDeg),
        azDeg: tenThousandths(row.azDeg) % 360,
        skyXMm: hundredths(row.skyPoint.xMm),
        skyYMm: hundredths(row.skyPoint.yMm),
        ceilingXMm: hundredths(place.xMm),
        ceilingYMm: hundredths(place.yMm),
        shiftMm: hundredths(place.shiftMm),
        merged: row.merged,
        bundle: null,
        lengthMm: null,
      };
    }),
  );
  return { holes, bored };
}

/**
 * What got no light of its own, brightest first.
 * @param brighterThanMag stop at the first object of the field that is no brighter
 */
export function leftRecords(
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

/** A panel as schedule.json holds it, with the count of its holes. */
export function panelRecord(
  panel: WorkPanel,
  neighbours: readonly string[],
  holes: readonly Hole[],
  bored: ReadonlySet<string>,
  plan: Plan,
): PanelRecord {
  const { id, board, finishedRing, boardRing, isRectangle, frame, keepOuts } = panel;
  const first = boreFirst(panel, plan.frame, plan.drill, plan.board.thickness);
  const ring = (corners: Ring) => corners.map(([x, y]) => [hundredths(x), hundredths(y)] as const);
  return {
    id,
    xMm: hundredths(board.xMm),
    yMm: hundredths(board.yMm),
    widthMm: hundredths(board.widthMm),
    lengthMm: hundredths(board.lengthMm),
    // A rectangle as it is, not drawn in to the hundredths that its holes keep from.
    outlineMm: ring(
      isRectangle
        ? [
            [0, 0],
            [board.widthMm, 0],
            [board.widthMm, board.lengthMm],
            [0, board.lengthMm],
          ]
        : boardRing,
    ),
    battensMm: (frame?.battens ?? []).map((batten) => ring(batten.ring)),
    screwsMm: ring(frame?.screws ?? []),
    hangersMm: ring(frame?.hangers ?? []),
    keepOutMm: keepOuts.map(({ id: keepOut, kind, shape }) => ({ id: keepOut, kind, ...shapeRecord(shape) })),
    neighbours,
    finishedOutlineMm: ring(finishedRing.map(([x, y]) => [x - board.xMm, y - board.yMm] as const)),
    holeCount: holes.length,
    boredHoles: holes.filter(({ hole }) => bored.has(hole)).map(({ hole }) => hole),
    boreFirst: holes.filter(({ xMm, yMm }) => first(xMm, yMm)).map(({ hole }) => hole),
  };
}

const shapeRecord = (shape: Shape): ShapeRecord =>
  "ring" in shape
    ? { outlineMm: shape.ring.map(([x, y]) => [hundredths(x), hundredths(y)]) }
    : { atMm: [hundredths(shape.at[0]), hundredths(shape.at[1])], radiusMm: hundredths(shape.radiusMm) };
