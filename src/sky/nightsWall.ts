import { altitudeDeg, azimuthDeg } from "./apparent.ts";
import type { Vector3 } from "./matrix.ts";
import { observerAt } from "./observer.ts";
import type { GeoPlace } from "./place.ts";
import { crossings, sample } from "./riseSet.ts";
import { bodyAt } from "./solarSystem.ts";

export const WALL_SIDES = ["top", "right", "bottom", "left"] as const;
export type WallSide = (typeof WALL_SIDES)[number];

/** A time at which a plumb line's shadow on the floor runs along a wall. */
export interface WallShadow {
  readonly instantUtcMs: number;
  readonly sunAltDeg: number;
  readonly sunAzDeg: number;
  /** Which way the shadow points, from the plumb line's foot: the Sun's azimuth and half a turn. */
  readonly shadowAzDeg: number;
  /** The walls between which it then runs, as sides of the ceiling seen from below. */
  readonly from: WallSide;
  readonly to: WallSide;
  /** Clockwise as seen looking down at the floor; negative where the Sun runs the other way round. */
  readonly turnsDegPerMinute: number;
  /** Of each metre of plumb line. */
  readonly lengthPerMetreM: number;
}

const RAD = Math.PI / 180;
const normalised = (deg: number) => ((deg % 360) + 360) % 360;

/**
 * Bearing along a wall: from its end at the first named side to its end at the second. The ceiling's +Y has the azimuth
 * `topBearing` and its +X, seen from below, a quarter turn less: with north at the top, +X points WEST.
 */
export function wallRuns(
  wall: WallSide,
  topBearingDeg: number,
): { bearingDeg: number; from: WallSide; to: WallSide } {
  return wall === "top" || wall === "bottom"
    ? { bearingDeg: normalised(topBearingDeg - 90), from: "left", to: "right" }
    : { bearingDeg: normalised(topBearingDeg), from: "bottom", to: "top" };
}

/**
 * Every time between two instants at which the Sun is up and the shadow of a plumb line runs along a wall, either way.
 * @param topBearingDeg true azimuth of the ceiling's top edge from its bottom edge
 */
export function wallShadows(
  wall: WallSide,
  topBearingDeg: number,
  fromMs: number,
  toMs: number,
  place: GeoPlace,
): WallShadow[] {
  const { bearingDeg, from, to } = wallRuns(wall, topBearingDeg);
  const [sinB, cosB] = [Math.sin(bearingDeg * RAD), Math.cos(bearingDeg * RAD)];
  const sunAt = (ms: number): Vector3 => bodyAt("Sun", observerAt(ms, place)).enu;
  // How far the Sun stands to the side of the vertical plane through the wall: it has no jump at north.
  const aside = (ms: number) => {
    const [e, n] = sunAt(ms);
    return e * cosB - n * sinB;
  };
  return crossings(sample(aside, fromMs, toMs), 0).flatMap(({ instantUtcMs }) => {
    const [e, n, u] = sunAt(instantUtcMs);
    if (u <= 0) return [];
    const sunAzDeg = azimuthDeg(e, n);
    const [e1, n1] = sunAt(instantUtcMs + 30_000);
    const [e0, n0] = sunAt(instantUtcMs - 30_000);
    const turns = normalised(azimuthDeg(e1, n1) - azimuthDeg(e0, n0) + 180) - 180;
    const pointsAlong = e * sinB + n * cosB < 0;
    return {
      instantUtcMs,
      sunAltDeg: altitudeDeg(e, n, u),
      sunAzDeg,
      shadowAzDeg: normalised(sunAzDeg + 180),
      from: pointsAlong ? from : to,
      to: pointsAlong ? to : from,
      turnsDegPerMinute: turns,
      lengthPerMetreM: Math.hypot(e, n) / u,
    };
  });
}
