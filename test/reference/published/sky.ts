/** Facts of the sky that a ceiling can be held against without any star table. */
export const skyIdentities = {
  source:
    "Textbook spherical astronomy; USNO definitions for rise, set and twilight; computed values recomputed with ERFA",
  /** Polaris from the mean pole of date. */
  polarisPolarDistanceArcmin: { 1950: 58.3, 2000: 44.15, 2024: 38.2, 2050: 32.7, 2100: 27.6 },
  polarisToleranceArcmin: 0.05,
  obliquityRoundedDeg: 23.44,
  /** Altitude of the noon Sun at 51.5 north. */
  noonSunAt51p5NorthDeg: { equinox: 38.5, juneSolstice: 61.94, decemberSolstice: 15.06 },
  riseSetZenithDistanceDeg: 90 + 50 / 60,
  twilightSunAltitudeDeg: { civil: -6, nautical: -12, astronomical: -18 },
  skyTurnPerUtDayDeg: 360.9856,
  skyTurnPerMinuteDeg: 0.2507,
  gmstAtJ2000Deg: 280.4606,
} as const;

export const refractionTable = {
  source: "Computed from Bennett's and Saemundsson's formulas as in Meeus ch. 16; recomputed",
  altitudeDeg: [0, 1, 5, 10, 20, 45],
  bennettFromApparentArcmin: [34.48, 24.33, 9.88, 5.39, 2.7, 0.99],
  saemundssonFromTrueArcmin: [28.98, 21.74, 9.67, 5.41, 2.74, 1.01],
  toleranceArcmin: 0.005,
} as const;

export const starTemperatures = {
  source:
    "F. J. Ballesteros, EPL 97, 34008 (2012), arXiv 1201.1809; computed from its formula (1.7, not the misprint 1.6); recomputed",
  bv: [-0.4, -0.24, -0.03, 0, 0.22, 0.42, 0.65, 0.8, 1.0, 1.23, 1.54, 1.85, 2.0],
  kelvin: [21707, 14633, 10516, 10125, 8011, 6776, 5778, 5281, 4743, 4251, 3734, 3333, 3169],
  toleranceKelvin: 0.5,
} as const;
