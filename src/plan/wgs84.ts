/** The ellipsoid of the maps. Source: WGS 84 (NIMA TR8350.2): a = 6378137 m, 1/f = 298.257223563. */
export const EQUATOR_RADIUS_M = 6_378_137;
const FLATTENING = 1 / 298.257223563;

/** A point of the ellipsoid by its geodetic latitude: distance from the axis and from the equator's plane, in metres. */
export function onEllipsoid(latitudeRad: number): { axisM: number; equatorM: number } {
  const [sin, cos] = [Math.sin(latitudeRad), Math.cos(latitudeRad)];
  const s = (1 - FLATTENING) ** 2;
  const c = EQUATOR_RADIUS_M / Math.sqrt(cos ** 2 + s * sin ** 2);
  return { axisM: c * cos, equatorM: s * c * sin };
}
