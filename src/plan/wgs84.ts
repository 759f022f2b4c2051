/** The ellipsoid of the maps. Source: WGS 84 (NIMA TR8350.2): a = 6378137 m, 1/f = 298.257223563. */
export const EQUATOR_RADIUS_M = 6_378_137;
export const FLATTENING = 1 / 298.257223563;
