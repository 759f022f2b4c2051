import type { PointMm } from "./frames.ts";

/** A point of the outline in the Moon's own axes: from its centre toward the Sun, and across that. */
export interface OutlinePoint {
  readonly sunwardMm: number;
  readonly acrossMm: number;
}

/**
 * Points along the outline of the Moon's lit part: half a circle on the side of the Sun, from horn to horn, and the
 * terminator, half an ellipse through the same horns. Each line is divided evenly; where a crescent's two lines run closer
 * than the spacing, only the limb is kept: a very thin one, or a new Moon, is half a circle.
 * @param cosPhaseAngle 1 full, 0 half, -1 new
 * @param apartMm       least distance of any two points
 * Source of the shape: Meeus, Astronomical Algorithms, 2nd ed., ch. 48 (lit fraction k = (1 + cos i) / 2 is the part of
 * the diameter toward the Sun that is lit).
 */
export function moonOutline(radiusMm: number, cosPhaseAngle: number, apartMm: number): OutlinePoint[] {
  if (apartMm > 2 * radiusMm) return [];
  const limbSteps = Math.floor(Math.PI / (2 * Math.asin(apartMm / (2 * radiusMm))) + 1e-9);
  const limb = Array.from({ length: limbSteps + 1 }, (_, i): OutlinePoint => {
    const angle = (i / limbSteps - 0.5) * Math.PI;
    return { sunwardMm: radiusMm * Math.cos(angle), acrossMm: radiusMm * Math.sin(angle) };
  });
  return [...limb, ...terminator(radiusMm, cosPhaseAngle, apartMm)];
}

function terminator(radiusMm: number, cosPhaseAngle: number, apartMm: number): OutlinePoint[] {
  const walked = walk(radiusMm, cosPhaseAngle, Math.max(720, Math.ceil((40 * radiusMm) / apartMm)));
  const lengthMm = walked.at(-1)!.alongMm;
  for (let steps = Math.floor(lengthMm / apartMm + 1e-9); steps > 1; steps--) {
    const points = evenly(walked, lengthMm, steps);
    const closest = points.reduce(
      (least, point, i) => (i === 0 ? least : Math.min(least, distanceMm(point, points[i - 1]!))),
      Number.POSITIVE_INFINITY,
    );
    if (closest < apartMm - 1e-9) continue; // the chord of a bend is shorter than its arc
    return points.slice(1, -1).filter((point) => fromLimbMm(point, radiusMm) >= apartMm - 1e-9);
  }
  return [];
}

interface Walked extends OutlinePoint {
  readonly alongMm: number;
}

/** The terminator from horn to horn in small steps, with the way walked. */
function walk(radiusMm: number, cosPhaseAngle: number, steps: number): Walked[] {
  const walked: Walked[] = [];
  for (let i = 0; i <= steps; i++) {
    const angle = (i / steps - 0.5) * Math.PI;
    const point = {
      sunwardMm: -cosPhaseAngle * radiusMm * Math.cos(angle),
      acrossMm: radiusMm * Math.sin(angle),
    };
    const last = walked.at(-1);
    walked.push({ ...point, alongMm: last ? last.alongMm + distanceMm(last, point) : 0 });
  }
  return walked;
}

function evenly(walked: readonly Walked[], lengthMm: number, steps: number): OutlinePoint[] {
  let k = 1;
  return Array.from({ length: steps + 1 }, (_, i): OutlinePoint => {
    const wantedMm = (lengthMm * i) / steps;
    while (k < walked.length - 1 && walked[k]!.alongMm < wantedMm) k++;
    const [from, to] = [walked[k - 1]!, walked[k]!];
    const part = (wantedMm - from.alongMm) / (to.alongMm - from.alongMm);
    return {
      sunwardMm: from.sunwardMm + part * (to.sunwardMm - from.sunwardMm),
      acrossMm: from.acrossMm + part * (to.acrossMm - from.acrossMm),
    };
  });
}

const distanceMm = (a: OutlinePoint, b: OutlinePoint): number =>
  Math.hypot(a.sunwardMm - b.sunwardMm, a.acrossMm - b.acrossMm);

/** From a point inside the disk to the nearest of the lit limb: the half circle, or on the dark side a horn. */
const fromLimbMm = (point: OutlinePoint, radiusMm: number): number =>
  point.sunwardMm >= 0
    ? radiusMm - Math.hypot(point.sunwardMm, point.acrossMm)
    : Math.hypot(point.sunwardMm, radiusMm - Math.abs(point.acrossMm));

/**
 * An outline on the ceiling. @param sunward a second point of the ceiling: from the centre it lies toward the Sun
 */
export function outlineOnCeiling(
  outline: readonly OutlinePoint[],
  centre: PointMm,
  sunward: PointMm,
): PointMm[] {
  const [dx, dy] = [sunward.xMm - centre.xMm, sunward.yMm - centre.yMm];
  const length = Math.hypot(dx, dy);
  const [ax, ay] = [dx / length, dy / length];
  return outline.map(({ sunwardMm, acrossMm }) => ({
    xMm: centre.xMm + sunwardMm * ax - acrossMm * ay,
    yMm: centre.yMm + sunwardMm * ay + acrossMm * ax,
  }));
}
