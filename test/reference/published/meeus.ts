import { dmsDeg, hmsDeg } from "./sexagesimal.ts";

/*
 * J. Meeus, Astronomical Algorithms, 2nd ed., Willmann-Bell 1998 (models of IAU 1976 and 1980).
 * The book was not opened: the values come from an open test suite that cites its pages. "recomputed" in a source
 * means that scripts/reference/check_published.py gets it again with ERFA.
 */

export const meeusJulianDates = {
  source: "Meeus ex. 7.a, 7.b (p. 61), p. 62; recomputed",
  /** Gregorian but for those marked julian; `day` with its fraction. */
  rows: [
    { year: 1957, month: 10, day: 4.81, calendar: "gregorian", jd: 2436116.31 },
    { year: 333, month: 1, day: 27.5, calendar: "julian", jd: 1842713.0 },
    { year: 2000, month: 1, day: 1.5, calendar: "gregorian", jd: 2451545.0 },
    { year: 1987, month: 1, day: 27.0, calendar: "gregorian", jd: 2446822.5 },
    { year: 1600, month: 1, day: 1.0, calendar: "gregorian", jd: 2305447.5 },
    { year: -4712, month: 1, day: 1.5, calendar: "julian", jd: 0.0 },
  ],
} as const;

export const meeusSiderealTime = {
  source: "Meeus ex. 12.a (p. 88), 12.b (p. 89), Greenwich; recomputed (gmst82, gst94)",
  rows: [
    {
      example: "12.a",
      utc: "1987-04-10T00:00:00Z",
      jd: 2446895.5,
      kind: "mean",
      gstDeg: hmsDeg(13, 10, 46.3668),
    },
    {
      example: "12.a",
      utc: "1987-04-10T00:00:00Z",
      jd: 2446895.5,
      kind: "apparent",
      gstDeg: hmsDeg(13, 10, 46.1351),
    },
    {
      example: "12.b",
      utc: "1987-04-10T19:21:00Z",
      jd: 2446896.30625,
      kind: "mean",
      gstDeg: hmsDeg(8, 34, 57.0896),
    },
  ],
  /** The last printed digit is 0.0001 s of time, 0.0015 arcsec; apparent: GMST and dPsi cos(obliquity), no more terms. */
  toleranceArcsec: 0.001,
} as const;

export const meeusVenusAltAz = {
  source: "Meeus ex. 13.b (p. 95), Venus from Washington, place of date; recomputed with his 12.a nutation",
  utc: "1987-04-10T19:21:00Z",
  latitudeDeg: dmsDeg("+", 38, 55, 17),
  /** East positive: he prints 77 03 56 west. */
  longitudeDeg: dmsDeg("-", 77, 3, 56),
  /** In the working he rounds it to 5h08m15.7s, which moves the result by 0.0001 degrees. */
  longitudeAsWorkedDeg: -hmsDeg(5, 8, 15.7),
  raOfDateDeg: hmsDeg(23, 9, 16.641),
  decOfDateDeg: dmsDeg("-", 6, 43, 11.61),
  /** As he counts it, from the south through west. */
  azimuthFromSouthDeg: 68.0337,
  azimuthDeg: 248.0337,
  altitudeDeg: 15.1249,
  /** The rounding of the longitude, and half of the last digit. */
  toleranceDeg: 0.0002,
  toleranceAsWorkedDeg: 0.00005,
} as const;

export const meeusPollux = {
  source: "Meeus ex. 13.a (p. 95): equatorial to ecliptic, J2000; recomputed",
  raDeg: hmsDeg(7, 45, 18.946),
  decDeg: dmsDeg("+", 28, 1, 34.26),
  obliquityDeg: 23.4392911,
  eclipticLongitudeDeg: 113.21563,
  eclipticLatitudeDeg: 6.68417,
  toleranceDeg: 0.000005,
} as const;

/** Proper motions here are of time and of arc a year; pmRaSPerYr is not times cos dec. */
export const meeusThetaPersei = {
  source:
    "Meeus ex. 21.b (p. 135) mean place and 23.a (p. 152) apparent place, theta Persei, 2028 November 13.19 TD; recomputed within the tolerance",
  jdTt: 2462088.69,
  utc: "2028-11-13T04:32:29Z", // TD less about 67 to 75 s; a minute moves the place by under 0.001 arcsec
  raJ2000Deg: hmsDeg(2, 44, 11.986),
  decJ2000Deg: dmsDeg("+", 49, 13, 42.48),
  pmRaSPerYr: 0.03425,
  pmDecArcsecPerYr: -0.0895,
  mean: { raDeg: hmsDeg(2, 46, 11.331), decDeg: dmsDeg("+", 49, 20, 54.54) },
  nutationArcsec: { ra: 15.843, dec: 6.217 },
  aberrationArcsec: { ra: 30.045, dec: 6.697 },
  apparent: { raDeg: hmsDeg(2, 46, 14.39), decDeg: dmsDeg("+", 49, 21, 7.45) },
  /** The same inputs through IAU 2006/2000A, computed with ERFA, not published. */
  iau2006: {
    mean: { raDeg: hmsDeg(2, 46, 11.324), decDeg: dmsDeg("+", 49, 20, 54.5) },
    apparent: { raDeg: hmsDeg(2, 46, 14.386), decDeg: dmsDeg("+", 49, 21, 7.4) },
  },
  /** Between the models of 1976 and of 2006; of arc on the sky. */
  toleranceArcsec: 0.15,
} as const;

export const meeusPolaris = {
  source: "Meeus p. 136: alpha Ursae Minoris, mean places; recomputed within the tolerance (IAU 2006)",
  raJ2000Deg: hmsDeg(2, 31, 48.704),
  decJ2000Deg: dmsDeg("+", 89, 15, 50.72),
  pmRaSPerYr: 0.19877,
  pmDecArcsecPerYr: -0.0152,
  rows: [
    { equinox: "B1900", raDeg: hmsDeg(1, 22, 33.9), decDeg: dmsDeg("+", 88, 46, 26.18) },
    { equinox: "J2050", raDeg: hmsDeg(3, 48, 16.43), decDeg: dmsDeg("+", 89, 27, 15.38) },
    { equinox: "J2100", raDeg: hmsDeg(5, 53, 29.17), decDeg: dmsDeg("+", 89, 32, 22.18) },
  ],
  /** Of arc on the sky, across the models of precession. */
  toleranceArcsec: 0.2,
} as const;

export const meeusNutation = {
  source: "Meeus ex. 22.a (p. 148), IAU 1980; recomputed (nut80, obl80)",
  jdTt: 2446895.5,
  dPsiArcsec: -3.788,
  dEpsArcsec: 9.443,
  meanObliquityDeg: dmsDeg("+", 23, 26, 27.407),
  trueObliquityDeg: dmsDeg("+", 23, 26, 36.85),
  toleranceArcsec: 0.0006,
} as const;

export const meeusRefraction = {
  source:
    "Meeus ex. 16.a (p. 107) and p. 106: Bennett (from apparent altitude), Saemundsson (from true altitude); recomputed",
  bennett: { apparentAltitudeDeg: 0.5, refractionArcmin: 28.754 },
  saemundsson: { trueAltitudeArcmin: 33.246, refractionArcmin: 24.618 },
  bennettAtZenithArcsec: -0.08,
  improvedBennettAtZenithArcsec: -0.89,
  toleranceArcmin: 0.0005,
} as const;

export const meeusSeparations = {
  source: "Meeus ex. 17.a (p. 110), Arcturus to Spica, and p. 110, Aldebaran to Antares; recomputed",
  rows: [
    {
      a: [hmsDeg(14, 15, 39.7), dmsDeg("+", 19, 10, 57)],
      b: [hmsDeg(13, 25, 11.6), dmsDeg("-", 11, 9, 41)],
      separationDeg: dmsDeg("+", 32, 47, 35),
      toleranceDeg: 0.5 / 3600,
    },
    {
      a: [hmsDeg(4, 35, 55.2), dmsDeg("+", 16, 30, 33)],
      b: [hmsDeg(16, 29, 24), dmsDeg("-", 26, 25, 55)],
      separationDeg: dmsDeg("+", 169, 58, 0),
      toleranceDeg: 0.5 / 60,
    },
  ],
} as const;

export const meeusSun = {
  source:
    "Meeus ex. 25.a (p. 165), Sun, 1992 October 13 0h TD, low accuracy method; recomputed within the tolerance",
  jdTt: 2448908.5,
  trueLongitudeDeg: 199.90987,
  apparentRaDeg: hmsDeg(13, 13, 31.4),
  apparentDecDeg: dmsDeg("-", 7, 47, 6),
  distanceAu: 0.99766,
  /** His method is good to 0.01 degrees; the place is printed to 1.5 arcsec. */
  toleranceArcsec: 36,
} as const;

export const meeusMoonAndVenus = {
  source:
    "Meeus ex. 47.a (p. 342) Moon 1992 April 12 0h TD, ex. 33.a (p. 225) Venus 1992 December 20 0h TD: apparent, geocentric; FROM MEMORY, pages too; recomputed within the tolerance with moon98 and plan94",
  rows: [
    {
      body: "Moon",
      jdTt: 2448724.5,
      apparentRaDeg: 134.68847,
      apparentDecDeg: 13.768368,
      toleranceArcsec: 20,
    },
    {
      body: "Venus",
      jdTt: 2448976.5,
      apparentRaDeg: hmsDeg(21, 4, 41.5),
      apparentDecDeg: dmsDeg("-", 18, 53, 16.8),
      toleranceArcsec: 10,
    },
  ],
} as const;

export const meeusMagnitudes = {
  source: "Meeus ex. 56.a-e (pp. 393-395): light added, and differences from ratios of light; recomputed",
  sums: [
    { mags: [1.96, 2.89], sumMag: 1.58 },
    { mags: [4.73, 5.22, 5.6], sumMag: 3.93 },
  ],
  ratioOfMags: { a: 0.14, b: 2.12, ratio: 6.19 },
  magsOfRatio: { ratio: 500, differenceMag: 6.75 },
  toleranceMag: 0.005,
} as const;
