import { dmsDeg, hmsDeg } from "./sexagesimal.ts";

/**
 * The brightest stars. The Bright Star Catalogue's place of Rigil Kentaurus lies 6.4 arcsec from Hipparcos's, that of
 * all others within 1 arcsec. Null where two copies disagree or none was read.
 * pm: RA times cos dec, and Dec.
 */
export const brightestStars = {
  source:
    "Bright Star Catalogue 5th ed., CDS V/50 (place to 0.1 s and 1 arcsec, V, B-V); ICRS J2000 and proper motions: Hipparcos, ESA SP-1200, or its 2007 reduction; pm of Betelgeuse and Antares from memory",
  rows: [
    bright(
      "Sirius",
      32349,
      hmsDeg(6, 45, 8.9),
      dmsDeg("-", 16, 42, 58),
      -1.46,
      0.0,
      [101.28715533, -16.71611586],
      [-546.01, -1223.08],
    ),
    bright("Canopus", 30438, hmsDeg(6, 23, 57.1), dmsDeg("-", 52, 41, 45), -0.72, 0.15, null, [19.99, 23.67]),
    bright(
      "Arcturus",
      69673,
      hmsDeg(14, 15, 39.7),
      dmsDeg("+", 19, 10, 57),
      -0.04,
      1.23,
      [213.9153003, 19.1824092],
      [-1093.4, -2000],
    ),
    bright(
      "Rigil Kentaurus",
      71683,
      hmsDeg(14, 39, 35.9),
      dmsDeg("-", 60, 50, 7),
      -0.01,
      0.71,
      null,
      [-3678.19, 481.84],
    ),
    bright(
      "Vega",
      91262,
      hmsDeg(18, 36, 56.3),
      dmsDeg("+", 38, 47, 1),
      0.03,
      0.0,
      [279.23473479, 38.78368896],
      [200.94, 286.23],
    ),
    bright(
      "Capella",
      24608,
      hmsDeg(5, 16, 41.4),
      dmsDeg("+", 45, 59, 53),
      0.08,
      0.8,
      [79.17232794, 45.99799147],
      [75.52, -427.13],
    ),
    bright(
      "Rigel",
      24436,
      hmsDeg(5, 14, 32.3),
      dmsDeg("-", 8, 12, 6),
      0.12,
      -0.03,
      [78.63446707, -8.20163836],
      [1.31, 0.5],
    ),
    bright(
      "Procyon",
      37279,
      hmsDeg(7, 39, 18.1),
      dmsDeg("+", 5, 13, 30),
      0.38,
      0.42,
      [114.825498, 5.224988],
      [-716.57, -1034.58],
    ),
    bright(
      "Achernar",
      7588,
      hmsDeg(1, 37, 42.9),
      dmsDeg("-", 57, 14, 12),
      0.46,
      -0.16,
      null,
      [88.02, -40.08],
    ),
    bright(
      "Betelgeuse",
      27989,
      hmsDeg(5, 55, 10.3),
      dmsDeg("+", 7, 24, 25),
      0.5,
      1.85,
      [88.792939, 7.407064],
      [27.5, 11.3],
    ),
    bright("Altair", 97649, hmsDeg(19, 50, 47.0), dmsDeg("+", 8, 52, 6), 0.77, 0.22, null, [536.23, 385.29]),
    bright(
      "Aldebaran",
      21421,
      hmsDeg(4, 35, 55.2),
      dmsDeg("+", 16, 30, 33),
      0.85,
      1.54,
      null,
      [62.78, -189.36],
    ),
    bright(
      "Antares",
      80763,
      hmsDeg(16, 29, 24.4),
      dmsDeg("-", 26, 25, 55),
      0.96,
      1.83,
      [247.35191542, -26.43200261],
      [-12.1, -23.3],
    ),
    bright(
      "Spica",
      65474,
      hmsDeg(13, 25, 11.6),
      dmsDeg("-", 11, 9, 41),
      0.98,
      -0.23,
      [201.29824736, -11.16131949],
      [-42.5, -31.73],
    ),
    bright("Pollux", 37826, hmsDeg(7, 45, 18.9), dmsDeg("+", 28, 1, 34), 1.14, 1.0, null, [-625.69, -45.95]),
    bright(
      "Fomalhaut",
      113368,
      hmsDeg(22, 57, 39.1),
      dmsDeg("-", 29, 37, 20),
      1.16,
      0.09,
      null,
      [329.22, -164.22],
    ),
    bright("Deneb", 102098, hmsDeg(20, 41, 25.9), dmsDeg("+", 45, 16, 49), 1.25, 0.09, null, [1.99, 1.85]),
    bright(
      "Regulus",
      49669,
      hmsDeg(10, 8, 22.3),
      dmsDeg("+", 11, 58, 2),
      1.35,
      -0.11,
      [152.09296244, 11.96720878],
      [-249.4, 4.91],
    ),
    bright(
      "Polaris",
      11767,
      hmsDeg(2, 31, 48.7),
      dmsDeg("+", 89, 15, 51),
      2.02,
      0.6,
      [37.95456067, 89.26410897],
      [44.22, -11.74],
    ),
  ],
} as const;

type Pair = readonly [number, number];

function bright(
  name: string,
  hip: number,
  raDeg: number,
  decDeg: number,
  vMag: number,
  bv: number,
  icrsJ2000Deg: Pair | null,
  pmMasPerYr: Pair,
) {
  return { name, hip, raDeg, decDeg, vMag, bv, icrsJ2000Deg, pmMasPerYr } as const;
}

/** Positions of the Hipparcos Catalogue are at J1991.25: 8.75 years before J2000. */
export const epochTrap = {
  source: "Hipparcos, ESA SP-1200 (J1991.25 place, proper motion); J2000 recomputed",
  rows: [
    {
      hip: 32349,
      j1991p25Deg: [101.28854105, -16.71314306],
      pmMasPerYr: [-546.01, -1223.08],
      j2000Deg: [101.28715533, -16.71611586],
      toleranceMas: 1,
    },
    {
      hip: 57939,
      j1991p25Deg: [178.23256802, 37.73280827],
      pmMasPerYr: [4003.69, -5813.0],
      j2000Deg: [178.24487, 37.71868],
      toleranceMas: 25,
    },
  ],
} as const;

/** End to end: from a Hipparcos star to azimuth and altitude. */
export const endToEndAltAz = {
  source:
    "Computed with ERFA 2.0.1, Hipparcos 2007 stars, UT1 = UTC, height 0; refraction for 1013.25 hPa, 10 C; not published",
  rows: [
    {
      star: "Sirius",
      hip: 32349,
      utc: "2000-01-01T00:00:00Z",
      latitudeDeg: 51.4779,
      longitudeDeg: 0,
      azimuthDeg: 178.632,
      altitudeDeg: 21.795,
      refractedAltitudeDeg: 21.835,
    },
    {
      star: "Polaris",
      hip: 11767,
      utc: "2024-01-01T00:00:00Z",
      latitudeDeg: 51.4779,
      longitudeDeg: 0,
      azimuthDeg: 359.172,
      altitudeDeg: 51.843,
      refractedAltitudeDeg: 51.856,
    },
    {
      star: "Vega",
      hip: 91262,
      utc: "2024-08-04T06:00:00Z",
      latitudeDeg: 31.9583,
      longitudeDeg: -111.6,
      azimuthDeg: 307.889,
      altitudeDeg: 77.907,
      refractedAltitudeDeg: 77.91,
    },
    {
      star: "Arcturus",
      hip: 69673,
      utc: "1969-07-20T20:17:40Z",
      latitudeDeg: 29.7604,
      longitudeDeg: -95.3698,
      azimuthDeg: 83.538,
      altitudeDeg: 29.76,
      refractedAltitudeDeg: 29.788,
    },
    {
      star: "Betelgeuse",
      hip: 27989,
      utc: "2024-01-15T22:00:00Z",
      latitudeDeg: 40.7128,
      longitudeDeg: -74.006,
      azimuthDeg: 91.986,
      altitudeDeg: 13.703,
      refractedAltitudeDeg: 13.768,
    },
    {
      star: "Rigel",
      hip: 24436,
      utc: "1985-07-13T12:00:00Z",
      latitudeDeg: -33.8688,
      longitudeDeg: 151.2093,
      azimuthDeg: 174.008,
      altitudeDeg: -47.74,
      refractedAltitudeDeg: null,
    },
    {
      star: "Antares",
      hip: 80763,
      utc: "2050-06-21T12:00:00Z",
      latitudeDeg: -33.8688,
      longitudeDeg: 151.2093,
      azimuthDeg: 41.53,
      altitudeDeg: 80.479,
      refractedAltitudeDeg: 80.482,
    },
    {
      star: "Vega",
      hip: 91262,
      utc: "1952-02-06T07:30:00Z",
      latitudeDeg: 51.5074,
      longitudeDeg: -0.1278,
      azimuthDeg: 108.361,
      altitudeDeg: 64.909,
      refractedAltitudeDeg: 64.916,
    },
  ],
  /** The last printed digit; azimuth errors count times cos altitude. */
  toleranceDeg: 0.001,
} as const;

/** How many stars are brighter than V (below it; `upTo`: at most it). */
export const starCounts = {
  source:
    "Bright Star Catalogue counted in a copy; Hipparcos: OEIS A053406; data/source table: its own README",
  bsc5Below: { 0: 4, 1: 15, 2: 48, 3: 170, 4: 513, 5: 1604, 6: 5023, 6.5: 8355, 7: 9046 },
  bsc5UpTo: { 2.5: 93, 3.5: 287, 4.5: 904, 5.5: 2887, 6.5: 8404 },
  hipparcosBelow: { "-1": 1, 0: 4, 1: 15, 2: 49, 3: 172, 4: 511, 5: 1600, 6: 4968 },
  xhipUpTo: { 2: 49, 3: 177, 4: 519, 5: 1627, 6: 5044, 6.5: 8874, 7: 15544, 8: 41411, 9: 83392, 10: 108003 },
  xhipRows: 118216,
} as const;

/** HIP numbers are from memory but for those in `brightestStars`; check_published.py finds them in the star table. */
export const starPairs = {
  source:
    "Computed from Bright Star Catalogue J2000 places; Mizar-Alcor published as 11.8 arcmin; recomputed from the data/source star table",
  rows: [
    { a: "Mizar", hipA: 65378, b: "Alcor", hipB: 65477, separationDeg: 0.1969, toleranceDeg: 0.0005 },
    { a: "Dubhe", hipA: 54061, b: "Merak", hipB: 53910, separationDeg: 5.374, toleranceDeg: 0.001 },
    { a: "Dubhe", hipA: 54061, b: "Polaris", hipB: 11767, separationDeg: 28.707, toleranceDeg: 0.001 },
    { a: "Castor", hipA: 36850, b: "Pollux", hipB: 37826, separationDeg: 4.505, toleranceDeg: 0.001 },
    { a: "Alnitak", hipA: 26727, b: "Mintaka", hipB: 25930, separationDeg: 2.736, toleranceDeg: 0.001 },
    { a: "Arcturus", hipA: 69673, b: "Spica", hipB: 65474, separationDeg: 32.793, toleranceDeg: 0.001 },
    { a: "Vega", hipA: 91262, b: "Altair", hipB: 97649, separationDeg: 34.195, toleranceDeg: 0.001 },
    { a: "Vega", hipA: 91262, b: "Deneb", hipB: 102098, separationDeg: 23.847, toleranceDeg: 0.001 },
    { a: "Altair", hipA: 97649, b: "Deneb", hipB: 102098, separationDeg: 38.014, toleranceDeg: 0.001 },
    { a: "Betelgeuse", hipA: 27989, b: "Rigel", hipB: 24436, separationDeg: 18.606, toleranceDeg: 0.001 },
    { a: "Sirius", hipA: 32349, b: "Betelgeuse", hipB: 27989, separationDeg: 27.104, toleranceDeg: 0.001 },
    {
      a: "Alpha Centauri",
      hipA: 71683,
      b: "Beta Centauri",
      hipB: 68702,
      separationDeg: 4.411,
      toleranceDeg: 0.001,
    },
    { a: "Aldebaran", hipA: 21421, b: "Antares", hipB: 80763, separationDeg: 169.963, toleranceDeg: 0.001 },
  ],
} as const;
