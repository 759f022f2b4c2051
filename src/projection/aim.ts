import { keyError } from "../plan/errors.ts";
import type { AimPlan, ShowPlan } from "../plan/plan.ts";
import { apparentDirection, equatorialVector } from "../sky/apparent.ts";
import type { Vector3 } from "../sky/matrix.ts";
import { normalise } from "../sky/matrix.ts";
import type { Observer } from "../sky/observer.ts";
import { refracted } from "../sky/refraction.ts";
import type { SkyData } from "../sky/skyData.ts";
import { type AimedAt, aimAtHorizontal } from "./view.ts";

/**
 * The apparent direction of a plan's aim. A place in right ascension and declination is treated as a star at that
 * J2000 place without proper motion; a star has its own.
 * @throws InputError for a star or constellation that nobody knows
 */
export function resolveAim(aim: AimPlan, show: ShowPlan, sky: SkyData, observer: Observer): AimedAt {
  const seen = (icrs: Vector3): Vector3 => {
    const enu = apparentDirection(icrs, observer);
    return show.refraction ? refracted(enu) : enu;
  };
  const northEnu = seen([0, 0, 1]);
  if (aim === "zenith") return { enu: [0, 0, 1], northEnu };
  if ("altitude" in aim) return { ...aimAtHorizontal(aim.altitude, aim.azimuth), northEnu };
  if ("rightAscension" in aim)
    return { enu: seen(equatorialVector(aim.rightAscension * 15, aim.declination)), northEnu };
  if ("star" in aim) return { enu: seen(starVector(aim.star, sky, observer)), northEnu };

  const constellation = sky.constellations.find(aim.constellation);
  if (!constellation) {
    const near = sky.constellations.suggest(aim.constellation);
    throw keyError(
      "view.aim.constellation",
      `${JSON.stringify(aim.constellation)} is not a constellation; ${near ? `did you mean ${near}?` : "write an IAU code such as Cru or a Latin name such as Crux"}`,
    );
  }
  return { enu: seen(equatorialVector(constellation.raHours * 15, constellation.decDeg)), northEnu };
}

function starVector(star: string | number, sky: SkyData, observer: Observer): Vector3 {
  const { catalogue, stars, designations } = sky;
  const text = typeof star === "number" ? `HIP ${star}` : star;
  const hip = designations.find(text)[0]?.hip;
  const row = hip === undefined ? -1 : catalogue.hip.indexOf(hip);
  if (row < 0) {
    const near = hip === undefined ? designations.suggest(text) : null;
    throw keyError(
      "view.aim.star",
      `${hip === undefined ? `${JSON.stringify(text)} is not a star known here` : `HIP ${hip} is not in the catalogue`}; ${near ? `did you mean ${near}?` : "write a name such as Vega, a designation such as α Cen, or a Hipparcos number"}`,
    );
  }
  const moved: [number, number, number] = [stars.p[row * 3]!, stars.p[row * 3 + 1]!, stars.p[row * 3 + 2]!];
  const k = stars.pmRow.indexOf(row);
  if (k >= 0)
    for (let axis = 0; axis < 3; axis++)
      moved[axis]! += stars.velocityRadPerYr[k * 3 + axis]! * observer.yearsFromJ2000;
  return normalise(moved);
}
