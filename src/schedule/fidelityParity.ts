import { directionOf } from "../sky/apparent.ts";
import { cross, dot, normalise, type Vector3 } from "../sky/matrix.ts";
import type { GradedHole } from "./fidelityShifts.ts";
import type { ParityRecord } from "./fidelityTypes.ts";
import { rounded } from "./rounding.ts";

const DEG = 180 / Math.PI;

/**
 * Which way round the holes are, found from the finished list alone: directions are laid out as an observer sees them who looks
 * at the aim from inside (angle from the aim outward, some up, and right of it), and drilled points are fitted to that by the best affine map.
 * Its determinant is positive if both turn the same way, and negative if the ceiling is mirrored. Null for fewer than three holes, or all
 * on a line.
 * @param aim direction (east, north, up) about which the sky is laid out
 */
export function parityOf(holes: readonly GradedHole[], aim: Vector3): ParityRecord | null {
  const up = acrossOf(aim);
  const right = cross(aim, up); // facing north, the right hand is in the east
  const n = holes.length;
  // Sums of the sky's (u, v), counted from the aim, and the ceiling's (x, y), from the first hole; then about their middles.
  let [su, sv, sx, sy, uu, uv, vv, ux, uy, vx, vy] = [0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0];
  for (const { altDeg, azDeg, ceilingXMm, ceilingYMm } of holes) {
    const direction = directionOf(altDeg, azDeg);
    const [across, above] = [dot(direction, right), dot(direction, up)];
    const sine = Math.hypot(across, above);
    const outward = sine === 0 ? 0 : (Math.atan2(sine, dot(direction, aim)) * DEG) / sine;
    const [u, v] = [across * outward, above * outward];
    const [x, y] = [ceilingXMm - holes[0]!.ceilingXMm, ceilingYMm - holes[0]!.ceilingYMm];
    su += u;
    sv += v;
    sx += x;
    sy += y;
    uu += u * u;
    uv += u * v;
    vv += v * v;
    ux += u * x;
    uy += u * y;
    vx += v * x;
    vy += v * y;
  }
  uu -= (su * su) / n;
  uv -= (su * sv) / n;
  vv -= (sv * sv) / n;
  ux -= (su * sx) / n;
  uy -= (su * sy) / n;
  vx -= (sv * sx) / n;
  vy -= (sv * sy) / n;
  const spread = uu * vv - uv * uv;
  if (n < 3 || !(spread > 1e-9 * uu * vv)) return null;
  // Normal equations: the map's determinant is that of the moments sky to ceiling over that of the sky's own.
  const determinant = (ux * vy - uy * vx) / spread;
  return { asSeenFromBelow: determinant > 0, determinantMm2PerDeg2: rounded(determinant, 1e6) };
}

/** Some direction across another: toward the zenith, or north for an aim there. */
function acrossOf(aim: Vector3): Vector3 {
  const toward: Vector3 = Math.abs(aim[2]) > 0.999 ? [0, 1, 0] : [0, 0, 1];
  const along = dot(toward, aim);
  return normalise([toward[0] - along * aim[0], toward[1] - along * aim[1], toward[2] - along * aim[2]]);
}
