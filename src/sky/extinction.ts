/**
 * Air mass toward an altitude, 1 at the zenith.
 * @param altDeg apparent altitude in degrees; at or below the horizon the value at the horizon (about 38) is kept
 * Source: F. Kasten, A. T. Young, Applied Optics 28, 4735 (1989).
 */
export function airMass(altDeg: number): number {
  const h = Math.max(0, altDeg);
  return 1 / (Math.sin((h * Math.PI) / 180) + 0.50572 * (h + 6.07995) ** -1.6364);
}
