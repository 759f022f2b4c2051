import {
  type GeoRawProjection,
  geoAzimuthalEqualAreaRaw,
  geoAzimuthalEquidistantRaw,
  geoGnomonicRaw,
  geoOrthographicRaw,
  geoStereographicRaw,
} from "d3-geo";
import { keyError } from "../plan/errors.ts";
import type { ProjectionName, ViewPlan } from "../plan/plan.ts";
import { azimuthDeg, directionOf } from "../sky/apparent.ts";
import { cross, dot, type Matrix3, normalise, type Vector3 } from "../sky/matrix.ts";
import { farthestCornerMm, type PointMm } from "./frames.ts";
import { NO_SLIDE, type Slide } from "./slide.ts";

const RAD = Math.PI / 180;

/** Nearer than this to the zenith an aim counts as the zenith, and the top bearing says which way is +Y. */
const ZENITH_WITHIN_DEG = 0.01;
const EYE_FIELD_LIMIT_DEG = 150;

interface Radial {
  readonly raw: GeoRawProjection & { invert(x: number, y: number): [number, number] };
  /** Multiplies d3's raw form to give the textbook radial function, e.g. 2 tan(z/2). */
  readonly rawScale: number;
  /** Radial function of the angle from the aim, radians. */
  readonly f: (z: number) => number;
  /** Directions with a smaller cosine to the aim cannot be shown. */
  readonly leastCos: number;
  /** Radius beyond which no direction lies, in units of `f`. */
  readonly greatestRadius: number;
}

type Raw = Radial["raw"];

/** Radial functions. Source: Snyder 1987, USGS Professional Paper 1395, chapters 20 to 25. */
const RADIALS: Readonly<Record<ProjectionName | "gnomonic", Radial>> = {
  // d3's raw stereographic has k0 = 1/2; ours has k0 = 1, as in Snyder's examples.
  stereographic: {
    raw: geoStereographicRaw as Raw,
    rawScale: 2,
    f: (z) => 2 * Math.tan(z / 2),
    leastCos: -1 + 1e-9,
    greatestRadius: 1e5,
  },
  equalArea: {
    raw: geoAzimuthalEqualAreaRaw as Raw,
    rawScale: 1,
    f: (z) => 2 * Math.sin(z / 2),
    leastCos: -1 + 1e-15,
    greatestRadius: 2,
  },
  equidistant: {
    raw: geoAzimuthalEquidistantRaw as Raw,
    rawScale: 1,
    f: (z) => z,
    leastCos: -1 + 1e-15,
    greatestRadius: Math.PI,
  },
  orthographic: {
    raw: geoOrthographicRaw as Raw,
    rawScale: 1,
    f: (z) => Math.sin(z),
    leastCos: 0,
    greatestRadius: 1,
  },
  gnomonic: {
    raw: geoGnomonicRaw as Raw,
    rawScale: 1,
    f: (z) => Math.tan(z),
    leastCos: 1e-9,
    greatestRadius: Number.POSITIVE_INFINITY,
  },
};

/** Where a view looks: the apparent direction of its aim, and which way is up around it. */
export interface AimedAt {
  /** Apparent direction (east, north, up), refracted if refraction is shown. */
  readonly enu: Vector3;
  /** Azimuth for an aim so near the nadir that its direction has none. */
  readonly azimuthDeg?: number;
  /** Apparent direction of a star at J2000 declination +90, for `up: north`. */
  readonly northEnu: Vector3;
}

/** Sky directions to points of the ceiling and back. */
export interface View {
  /** Where the aim lies, ceiling frame: after the slide, if any. */
  readonly centre: PointMm;
  readonly slide: Slide;
  /** Millimetres for each unit of the radial function: mm per radian at the aim. */
  readonly mmPerRadian: number;
  /** Rows: ceiling +X, ceiling +Y and the aim, as unit vectors in (east, north, up). */
  readonly axes: Matrix3;
  /** The aim counts as the zenith: the top bearing says which way is +Y, and the ceiling lies as the room does. */
  readonly aimedAtZenith: boolean;
  /** Directions with no larger cosine to the aim cannot be shown. */
  readonly leastCos: number;
  /**
   * Projects one of many directions.
   * @param enu  unit directions [e0, n0, u0, ...]
   * @param i    which of them
   * @param xyMm [x0, y0, ...] in the ceiling frame; values 2i and 2i + 1 are set
   * @returns false where a direction cannot be shown: at or behind the eye's plane, beyond the projection's limit
   */
  projectAt(enu: Float64Array, i: number, xyMm: Float64Array): boolean;
  projectOne(enu: Vector3): PointMm | null;
  /** Direction (east, north, up) shown at a point of the ceiling; null where the projection shows none. */
  unproject(point: PointMm): Vector3 | null;
  /** Angle from the aim in degrees of the direction at a distance from the centre; null beyond the projection's limit. */
  angleFromAimDeg(distanceMm: number): number | null;
}

/**
 * The one place where sky and ceiling meet.
 * @param view    the plan's view, positions in the ceiling frame
 * @param ceiling its rectangle, mm
 * @param slide   how the whole sky is slid and turned on the ceiling: the true points of a schedule are those after it
 * @throws InputError when the eye sees more than 150 degrees of field
 */
export function makeView(
  view: ViewPlan,
  ceiling: { width: number; length: number },
  aim: AimedAt,
  slide: Slide = NO_SLIDE,
): View {
  const radial = RADIALS[view.kind === "eye" ? "gnomonic" : view.projection];
  const planned: PointMm =
    view.kind === "eye"
      ? { xMm: view.eye.x, yMm: view.eye.y }
      : { xMm: ceiling.width / 2, yMm: ceiling.length / 2 };
  const centre: PointMm = { xMm: planned.xMm + slide.xMm, yMm: planned.yMm + slide.yMm };
  const mmPerRadian =
    view.kind === "eye"
      ? view.eye.below
      : Math.max(ceiling.width, ceiling.length) / 2 / radial.f((view.span / 2) * RAD);
  if (view.kind === "eye") refuseWideEye(planned, view.eye.below, ceiling);

  const axes = rolled(ceilingAxes(view, aim), view.roll + slide.turnDeg);
  const [x0, x1, x2, y0, y1, y2, z0, z1, z2] = axes;
  const { raw, rawScale, leastCos, greatestRadius } = radial;
  const scale = mmPerRadian * rawScale;

  const projectAt = (enu: Float64Array, i: number, xyMm: Float64Array): boolean => {
    const e = enu[i * 3]!;
    const n = enu[i * 3 + 1]!;
    const u = enu[i * 3 + 2]!;
    const along = z0 * e + z1 * n + z2 * u;
    if (!(along > leastCos || (leastCos === 0 && along === 0))) return false;
    const right = x0 * e + x1 * n + x2 * u;
    const top = y0 * e + y1 * n + y2 * u;
    const point = raw(Math.atan2(right, along), Math.atan2(top, Math.sqrt(right * right + along * along)));
    xyMm[i * 2] = centre.xMm + scale * point[0];
    xyMm[i * 2 + 1] = centre.yMm + scale * point[1];
    return true;
  };

  const unproject = ({ xMm, yMm }: PointMm): Vector3 | null => {
    const x = (xMm - centre.xMm) / scale;
    const y = (yMm - centre.yMm) / scale;
    if (Math.hypot(x, y) * rawScale > greatestRadius) return null;
    if (x === 0 && y === 0) return [z0, z1, z2];
    const [lambda, phi] = raw.invert(x, y);
    const right = Math.sin(lambda) * Math.cos(phi);
    const along = Math.cos(lambda) * Math.cos(phi);
    const top = Math.sin(phi);
    return [
      right * x0 + top * y0 + along * z0,
      right * x1 + top * y1 + along * z1,
      right * x2 + top * y2 + along * z2,
    ];
  };

  return {
    centre,
    slide,
    mmPerRadian,
    axes,
    aimedAtZenith: zenithDistanceDeg([z0, z1, z2]) < ZENITH_WITHIN_DEG,
    leastCos,
    unproject,
    projectAt,
    projectOne(enu) {
      const xy = new Float64Array(2);
      return projectAt(Float64Array.from(enu), 0, xy) ? { xMm: xy[0]!, yMm: xy[1]! } : null;
    },
    angleFromAimDeg(distanceMm) {
      const direction = unproject({ xMm: centre.xMm + distanceMm, yMm: centre.yMm });
      return direction === null
        ? null
        : Math.acos(Math.max(-1, Math.min(1, dot(direction, [z0, z1, z2])))) / RAD;
    },
  };
}

/**
 * Unit vectors of ceiling +X, +Y and the aim in (east, north, up), before roll. Seen from below, +X is to the right
 * of +Y, so aim x (+Y) = +X: with north at the top, +X points WEST.
 */
function ceilingAxes(view: ViewPlan, aim: AimedAt): Matrix3 {
  const z = normalise(aim.enu);
  const fromZenithDeg = zenithDistanceDeg(z);
  if (fromZenithDeg < ZENITH_WITHIN_DEG) {
    const b = view.topBearing * RAD;
    return axesFrom([Math.sin(b), Math.cos(b), 0], z);
  }
  if (view.up === "north") {
    const toNorth = perpendicular(aim.northEnu, z);
    if (toNorth === null) {
      throw keyError(
        "view.up",
        "`north` has no direction when the aim is the celestial pole itself; write `up: zenith`",
      );
    }
    return axesFrom(toNorth, z);
  }
  const azimuth =
    (180 - fromZenithDeg < ZENITH_WITHIN_DEG ? (aim.azimuthDeg ?? 0) : azimuthDeg(z[0], z[1])) * RAD;
  // The direction in which altitude increases fastest.
  const altitude = Math.PI / 2 - fromZenithDeg * RAD;
  return axesFrom(
    [-Math.sin(altitude) * Math.sin(azimuth), -Math.sin(altitude) * Math.cos(azimuth), Math.cos(altitude)],
    z,
  );
}

const zenithDistanceDeg = ([e, n, u]: Vector3): number => Math.atan2(Math.hypot(e, n), u) / RAD;

function axesFrom(up: Vector3, z: Vector3): Matrix3 {
  const y = perpendicular(up, z)!;
  const x = cross(z, y);
  return [...x, ...y, ...z] as Matrix3;
}

/** The part of v across z, as a unit vector; null when v lies along z. */
function perpendicular(v: Vector3, z: Vector3): Vector3 | null {
  const along = dot(v, z);
  const across: Vector3 = [v[0] - along * z[0], v[1] - along * z[1], v[2] - along * z[2]];
  return Math.hypot(...across) < 1e-9 ? null : normalise(across);
}

/** Turning the sky counter-clockwise by `rollDeg` turns the ceiling's axes clockwise against it. */
function rolled([x0, x1, x2, y0, y1, y2, z0, z1, z2]: Matrix3, rollDeg: number): Matrix3 {
  const c = Math.cos(rollDeg * RAD);
  const s = Math.sin(rollDeg * RAD);
  return [
    c * x0 - s * y0,
    c * x1 - s * y1,
    c * x2 - s * y2,
    s * x0 + c * y0,
    s * x1 + c * y1,
    s * x2 + c * y2,
    z0,
    z1,
    z2,
  ];
}

function refuseWideEye(eye: PointMm, belowMm: number, ceiling: { width: number; length: number }): void {
  const farthest = farthestCornerMm(eye, ceiling);
  const fieldDeg = (2 * Math.atan2(farthest, belowMm)) / RAD;
  if (fieldDeg > EYE_FIELD_LIMIT_DEG) {
    const least = Math.ceil(farthest / Math.tan((EYE_FIELD_LIMIT_DEG / 2) * RAD));
    throw keyError(
      "view.eye",
      `the eye, ${belowMm} mm below the face, would see a field of ${fieldDeg.toFixed(2)} degrees to the farthest corner; the limit is ${EYE_FIELD_LIMIT_DEG}: lower the eye to ${least} mm below or more, or use a chart`,
    );
  }
}

/** Direction of an aim given as altitude and azimuth. */
export const aimAtHorizontal = (
  altitudeDeg: number,
  azimuthDeg: number,
): Pick<AimedAt, "enu" | "azimuthDeg"> => ({
  enu: directionOf(altitudeDeg, azimuthDeg),
  azimuthDeg,
});
