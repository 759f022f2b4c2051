/** A place on Earth (WGS 84). */
export interface GeoPlace {
  /** Geodetic latitude, north positive, -90 to 90. */
  readonly latitudeDeg: number;
  /** East positive, -180 to 180. */
  readonly longitudeDeg: number;
  readonly elevationM: number;
}

/**
 * Position of a place in Earth's rotating frame: distance from the axis and from the equator's plane, in metres.
 * Source: WGS 84 (NIMA TR8350.2): a = 6378137 m, 1/f = 298.257223563.
 */
export function geocentricMetres(place: GeoPlace): { axisM: number; equatorM: number } {
  const a = 6_378_137;
  const f = 1 / 298.257223563;
  const lat = (place.latitudeDeg * Math.PI) / 180;
  const s = (1 - f) ** 2;
  const c = a / Math.sqrt(Math.cos(lat) ** 2 + s * Math.sin(lat) ** 2);
  return {
    axisM: (c + place.elevationM) * Math.cos(lat),
    equatorM: (s * c + place.elevationM) * Math.sin(lat),
  };
}
