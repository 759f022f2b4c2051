import type { StrandStock } from "../fibre/stock.ts";
import { leastApartMm, makeClearance } from "../panel/clearance.ts";
import { keepOutsOf, starReach } from "../panel/keepOuts.ts";
import type { Placer } from "../panel/placement.ts";
import { UnbuildableError } from "../plan/errors.ts";
import type { Plan } from "../plan/plan.ts";
import { describeObject, type Field, moonInField } from "../projection/field.ts";
import type { PointMm } from "../projection/frames.ts";
import { moonOutline, type OutlinePoint, outlineOnCeiling } from "../projection/moonOutline.ts";
import type { View } from "../projection/view.ts";
import type { Vector3 } from "../sky/matrix.ts";
import { type MoonSeen, moonSeen } from "../sky/moonPhase.ts";
import type { Observer } from "../sky/observer.ts";
import { refracted } from "../sky/refraction.ts";
import type { SkyData } from "../sky/skyData.ts";
import type { UngradedHole } from "./ungraded.ts";

/** The Moon drawn as the outline of its lit part. */
export interface MoonRing {
  readonly holes: readonly UngradedHole[];
  /** Diameter of its fibres. */
  readonly fibreMm: number;
  /** Objects of the field that are not graded, and why; null for the Moon itself. */
  readonly apart: ReadonlyMap<number, string | null>;
  readonly warnings: readonly string[];
}

/** A hole of the ring that moved further than this shows as a dent. */
const DENT_MM = 1;

/**
 * @param plan  in the ceiling frame, with a ring
 * @param stock what is left of it after the reserve
 * @throws UnbuildableError when the ring asks for more strands of its diameter than there are
 */
export function moonRing(
  plan: Plan,
  field: Field,
  sky: SkyData,
  observer: Observer,
  stock: readonly StrandStock[],
  placer: Placer,
): MoonRing {
  const { ring: diameterMm, fibre } = plan.show.moon as { ring: number; fibre: number };
  const size = stock.find((one) => one.diameterMm === fibre)!;
  const moon = moonInField(field);
  if (moon < 0) return { holes: [], fibreMm: fibre, apart: new Map(), warnings: [] };

  const { view } = field;
  const radiusMm = diameterMm / 2;
  const centre = { xMm: field.xMm[moon]!, yMm: field.yMm[moon]! };
  const seen = moonSeen(observer);
  const limb = sunwardLimb(plan, view, centre, seen);
  const apartMm = leastApartMm(plan.holes.spacing, size.bitMm);
  const outline = moonOutline(radiusMm, seen.cosPhaseAngle, apartMm);
  const { constellation } = describeObject(field, moon, sky);
  const holes = placed(outlineOnCeiling(outline, centre, limb), plan, view, placer, size.bitMm).map(
    (one): UngradedHole => ({
      kind: "moon",
      name: "Moon",
      constellation,
      diameterMm: fibre,
      bitMm: size.bitMm,
      ...one,
    }),
  );
  if (holes.length > size.usable) {
    throw new UnbuildableError([
      {
        code: "moon-ring-strands",
        message: `the Moon's ring of ${diameterMm} mm takes ${holes.length} strands of ${fibre} mm, and after the reserve there are ${size.usable}; draw it smaller, take another show.moon.fibre, or add bundles`,
      },
    ]);
  }

  const widestBitMm = Math.max(...stock.map((one) => one.bitMm));
  const reachMm = radiusMm + leastApartMm(plan.holes.spacing, widestBitMm);
  const apart = new Map<number, string | null>();
  if (holes.length > 0) {
    for (let j = 0; j < field.count; j++) {
      if (Math.hypot(field.xMm[j]! - centre.xMm, field.yMm[j]! - centre.yMm) <= reachMm)
        apart.set(j, "behind the Moon's ring");
    }
  }
  apart.set(moon, holes.length > 0 ? null : "no place of its ring can be drilled");
  const trueRadiusMm = Math.hypot(limb.xMm - centre.xMm, limb.yMm - centre.yMm);
  return {
    holes,
    fibreMm: fibre,
    apart,
    warnings: [
      sizeWarning(diameterMm, 2 * trueRadiusMm, apart.size - 1),
      thinWarning(outline, seen, radiusMm, apartMm),
      lostWarning(outline.length, holes.length),
      dentWarning(holes),
    ].filter((warning) => warning !== null),
  };
}

/** Where the middle of the real disk's bright limb lies on the ceiling. */
function sunwardLimb(plan: Plan, view: View, centre: PointMm, moon: MoonSeen): PointMm {
  const radius = (moon.semidiameterDeg * Math.PI) / 180;
  const at = (angle: number): PointMm | null => {
    const enu = moon.enu.map(
      (value, i) => Math.cos(angle) * value + Math.sin(angle) * moon.towardSun[i]!,
    ) as unknown as Vector3;
    return view.projectOne(plan.show.refraction ? refracted(enu) : enu);
  };
  const limb = at(radius);
  if (limb !== null) return limb;
  // The Moon stands at the rim of the chart, its limb beyond: the other side of the disk tells the same.
  const opposite = at(-radius)!;
  return { xMm: 2 * centre.xMm - opposite.xMm, yMm: 2 * centre.yMm - opposite.yMm };
}

/** The outline's points at their nearest legal places, those that need no move first; what finds no room is left out. */
function placed(
  outline: readonly PointMm[],
  plan: Plan,
  view: View,
  placer: Placer,
  bitMm: number,
): Pick<UngradedHole, "skyPoint" | "enu" | "place">[] {
  const clearance = makeClearance(plan.holes.spacing, bitMm);
  const { width, length } = plan.ceiling;
  const keepOuts = keepOutsOf(plan.keepOut);
  return outline
    .flatMap((skyPoint) => {
      const { xMm, yMm } = skyPoint;
      const enu = view.unproject(skyPoint);
      const place = placer.nearestPlace(xMm, yMm, bitMm);
      const onCeiling = xMm >= 0 && xMm <= width && yMm >= 0 && yMm <= length;
      const { reachMm, droppedBy } = starReach(keepOuts, xMm, yMm, plan.holes.maxShift);
      return enu !== null && onCeiling && droppedBy === null && place !== null && place.shiftMm <= reachMm
        ? [{ skyPoint, enu, place }]
        : [];
    })
    .sort((a, b) => a.place.shiftMm - b.place.shiftMm)
    .filter(({ place }) => {
      const free = clearance.isFree(place.xMm, place.yMm, bitMm);
      if (free) clearance.take(place.xMm, place.yMm, bitMm);
      return free;
    });
}

function sizeWarning(ringMm: number, trueMm: number, behind: number): string | null {
  const factor = ringMm / trueMm;
  if (factor < 1.05 && factor > 0.95) return null;
  const hides =
    behind === 0
      ? ""
      : ` (${behind} ${behind === 1 ? "object lies" : "objects lie"} behind it and are left out)`;
  return `the Moon's ring of ${ringMm} mm is ${(factor > 1 ? factor : 1 / factor).toFixed(1)} times ${factor > 1 ? "larger" : "smaller"} than life: on this ceiling the Moon is ${trueMm.toFixed(1)} mm wide${hides}`;
}

function thinWarning(
  outline: readonly OutlinePoint[],
  { cosPhaseAngle }: MoonSeen,
  radiusMm: number,
  apartMm: number,
): string | null {
  const onlyLimb = outline.every(
    (point) => radiusMm - Math.hypot(point.sunwardMm, point.acrossMm) < apartMm / 2,
  );
  return cosPhaseAngle < 0 && onlyLimb
    ? `${(50 * (1 + cosPhaseAngle)).toFixed(1)} % of the Moon's disk was lit: its crescent is too thin for two lines of holes ${apartMm.toFixed(1)} mm apart, and only the bright limb is drawn`
    : null;
}

const lostWarning = (points: number, holes: number): string | null =>
  points === holes
    ? null
    : `${points - holes} of the ${points} holes of the Moon's ring are left out: they lie under a keep-out that drops stars, or no place within reach keeps its distance from margins, keep-outs and the others`;

function dentWarning(holes: readonly UngradedHole[]): string | null {
  const moved = holes.filter(({ place }) => place.shiftMm > DENT_MM);
  if (moved.length === 0) return null;
  const farthest = Math.max(...moved.map(({ place }) => place.shiftMm));
  return `the Moon's ring runs over a seam or margin: ${moved.length} of its ${holes.length} holes are moved by more than ${DENT_MM} mm, ${farthest.toFixed(1)} mm at most`;
}
