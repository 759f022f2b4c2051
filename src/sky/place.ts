import type { PlacePlan } from "../plan/plan.ts";
import { onEllipsoid } from "../plan/wgs84.ts";

/** A place on Earth (WGS 84). */
export interface GeoPlace {
  /** Geodetic latitude, north positive, -90 to 90. */
  readonly latitudeDeg: number;
  /** East positive, -180 to 180. */
  readonly longitudeDeg: number;
  readonly elevationM: number;
}

export const geoPlaceOf = ({ latitude, longitude, elevation }: PlacePlan): GeoPlace => ({
  latitudeDeg: latitude,
  longitudeDeg: longitude,
  elevationM: elevation,
});

/** Position of a place in Earth's rotating frame: distance from the axis and from the equator's plane, in metres. */
export function geocentricMetres(place: GeoPlace): { axisM: number; equatorM: number } {
  const lat = (place.latitudeDeg * Math.PI) / 180;
  const { axisM, equatorM } = onEllipsoid(lat);
  return {
    axisM: axisM + place.elevationM * Math.cos(lat),
    equatorM: equatorM + place.elevationM * Math.sin(lat),
  };
}
