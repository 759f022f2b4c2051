/**
 * Light of an end-glow fibre on a magnitude scale with an arbitrary zero: it goes with the area of the core, every core
 * being lit alike, and the core is taken as the same share of every fibre (0.98 of the diameter at 1 mm, by the same table).
 * Claddings of 15 to 35 micrometres on all sizes (BS EN 60793-2-40:2011, table 1, note 1) would widen the span from
 * 0.5 to 1.5 mm by 0.04 to 0.11 magnitudes.
 */
export const coreMagnitude = (diameterMm: number): number => -5 * Math.log10(diameterMm);

export interface PhotometricFit {
  /** Add this to a fibre's `coreMagnitude` to stand on the sky's scale: the best common offset (least squares). */
  readonly offsetMag: number;
  /** RMS of delivered less true magnitude after that offset; 0 when there is no hole. */
  readonly rmsMag: number;
  /** Magnitudes between the thinnest and the thickest fibre used. */
  readonly fibreSpanMag: number;
  /** Magnitudes between the faintest and the brightest object shown. */
  readonly skySpanMag: number;
}

/** How far delivered magnitudes are from the sky's. @param holes what is shown, any order */
export function photometricFit(holes: readonly { mag: number; diameterMm: number }[]): PhotometricFit {
  if (holes.length === 0) return { offsetMag: 0, rmsMag: 0, fibreSpanMag: 0, skySpanMag: 0 };
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const differences = holes.map((hole) => hole.mag - coreMagnitude(hole.diameterMm));
  const offsetMag = mean(differences);
  let [thinnest, thickest, brightest, faintest] = [Infinity, 0, Infinity, -Infinity];
  for (const { mag, diameterMm } of holes) {
    thinnest = Math.min(thinnest, diameterMm);
    thickest = Math.max(thickest, diameterMm);
    brightest = Math.min(brightest, mag);
    faintest = Math.max(faintest, mag);
  }
  return {
    offsetMag,
    rmsMag: Math.sqrt(mean(differences.map((difference) => (difference - offsetMag) ** 2))),
    fibreSpanMag: coreMagnitude(thinnest) - coreMagnitude(thickest),
    skySpanMag: faintest - brightest,
  };
}
