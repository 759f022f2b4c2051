import { EQUATOR_RADIUS_M, FLATTENING } from "../plan/wgs84.ts";

/** A place on Earth (WGS 84). */
export interface GeoPlace {
  /** Geodetic latitude, north positive, -90 to 90. */
  readonly latitudeDeg: number;
  /** East positive, -180 to 180. */
  readonly longitudeDeg: number;
  readonly elevationM: number;
}

/** Position of a place in Earth's rotating frame: distance from the axis and from the equator's plane, in metres. */
export function geocentricMetres(place: GeoPlace): { axisM: number; equatorM: number } {
  const lat = (place.latitudeDeg * Math.PI) / 180;
  const s = (1 - FLATTENING) ** 2;
  const c = EQUATOR_RADIUS_M / Math.sqrt(Math.cos(lat) ** 2 + s * Math.sin(lat) ** 2);
  return {
    axisM: (c + place.elevationM) * Math.cos(lat),
    equatorM: (s * c + place.elevationM) * Math.sin(lat),
  };
}
