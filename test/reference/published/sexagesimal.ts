/** Hours, minutes, seconds of right ascension or sidereal time, as printed, to degrees. */
export function hmsDeg(hours: number, minutes: number, seconds: number): number {
  return 15 * (hours + minutes / 60 + seconds / 3600);
}

/** Degrees, arcminutes, arcseconds, as printed, to degrees; the sign stands alone so that -0 degrees can be said. */
export function dmsDeg(sign: "+" | "-", degrees: number, arcminutes: number, arcseconds: number): number {
  const size = degrees + arcminutes / 60 + arcseconds / 3600;
  return sign === "-" ? -size : size;
}
