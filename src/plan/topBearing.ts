import type { PlacePlan, TopBearingOrigin } from "./plan.ts";
import { type LatLonDeg, wallLine } from "./wallLine.ts";

/** Below this a bearing says nothing, beyond it the points are on no wall. */
const SHORTEST_WALL_M = 2;
const LONGEST_WALL_M = 5000;

/** A town's coordinates stand for all of it; farther than this from them a wall is in another town. */
const WALL_WITHIN_M = 100_000;

export interface FilledBearing {
  readonly topBearing: number;
  readonly topBearingFrom?: TopBearingOrigin;
}

/**
 * The true bearing of the ceiling's +Y from any form that a plan may give it in, and what it was made from.
 * @param place null where it has a problem of its own
 * @param problem told each fault, by the key it belongs to
 * @returns the bearing to 1e-6 degrees, so that a plan written out gives the same number again; null with a problem
 */
export function fillTopBearing(
  given: number | TopBearingOrigin,
  replayed: TopBearingOrigin | undefined,
  place: PlacePlan | null,
  problem: (key: "topBearing" | "topBearingFrom", message: string) => void,
): FilledBearing | null {
  if (typeof given !== "number") {
    if (replayed !== undefined) {
      problem("topBearingFrom", "leave it out: `view.topBearing` says already what the bearing comes from");
      return null;
    }
    const topBearing = trueBearingDeg(given, place, (message) => problem("topBearing", message));
    return topBearing === null ? null : { topBearing, topBearingFrom: given };
  }
  if (replayed === undefined) return { topBearing: given };
  const topBearing = trueBearingDeg(replayed, place, (message) => problem("topBearingFrom", message));
  if (topBearing === null) return null;
  if (Math.abs(topBearing - given) > 1e-6) {
    problem(
      "topBearingFrom",
      `gives ${topBearing} degrees where view.topBearing is ${given}; keep the one that is meant and leave the other out`,
    );
    return null;
  }
  return { topBearing: given, topBearingFrom: replayed };
}

function trueBearingDeg(
  origin: TopBearingOrigin,
  place: PlacePlan | null,
  problem: (message: string) => void,
): number | null {
  if ("magnetic" in origin) return roundedBearing(origin.magnetic + origin.declination);
  const { from, to } = origin;
  const { bearingDeg, lengthM } = wallLine(from, to);
  if (place !== null) {
    const town: LatLonDeg = [place.latitude, place.longitude];
    const awayM = wallLine(town, from).lengthM;
    if (awayM > WALL_WITHIN_M) {
      const swapped =
        Math.abs(from[1]) <= 90 && wallLine(town, [from[1], from[0]]).lengthM <= WALL_WITHIN_M
          ? "longitude and latitude seem to have changed places; write [latitude, longitude]"
          : "check both, and the order [latitude, longitude]";
      problem(`the point ${from.join(", ")} lies ${Math.round(awayM / 1000)} km from the place; ${swapped}`);
      return null;
    }
  }
  if (lengthM < SHORTEST_WALL_M) {
    problem(
      `the two points are ${lengthM.toFixed(2)} m apart; over less than ${SHORTEST_WALL_M} m a map gives no bearing: take points farther apart along the wall, or along a longer line that runs as it does`,
    );
    return null;
  }
  if (lengthM > LONGEST_WALL_M) {
    problem(
      `the two points are ${(lengthM / 1000).toFixed(1)} km apart; no wall is: check their digits (at most ${LONGEST_WALL_M / 1000} km)`,
    );
    return null;
  }
  return roundedBearing(bearingDeg);
}

const roundedBearing = (deg: number): number => (Math.round((((deg % 360) + 360) % 360) * 1e6) / 1e6) % 360;
