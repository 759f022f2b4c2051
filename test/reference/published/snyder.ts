// biome-ignore-all lint/suspicious/noApproximativeNumericConstant: the digits stand as in the table
/*
 * J. P. Snyder, Map Projections - A Working Manual, USGS Professional Paper 1395, 1987, Appendix A, sphere; read
 * through the open reproductions neacsum/snyder and apispoint/snyder; recomputed by check_published.py.
 * East is +x here, as on a map of the ground: a sky seen from below has x turned about.
 */

export const snyderExamples = {
  source: "Snyder 1987, Appendix A (chapters 20, 21, 22, 24, 25)",
  /** x, y, c as printed (seven decimals); xFull, yFull to eleven (computed). c is the angle from the centre. */
  rows: [
    {
      projection: "orthographic",
      chapter: 20,
      radius: 1,
      centre: { latDeg: 40, lonDeg: -100 },
      point: { latDeg: 30, lonDeg: -110 },
      x: -0.1503837,
      y: -0.1651911,
      cPrintedDeg: 12.9082572,
      xFull: -0.15038373318,
      yFull: -0.16519110347,
    },
    {
      projection: "stereographic", // k0 = 1
      chapter: 21,
      radius: 1,
      centre: { latDeg: 40, lonDeg: -100 },
      point: { latDeg: 30, lonDeg: -75 },
      x: 0.3807224,
      y: -0.1263802,
      cPrintedDeg: 22.6832261,
      xFull: 0.38072239284,
      yFull: -0.12638018449,
    },
    {
      projection: "gnomonic",
      chapter: 22,
      radius: 1,
      centre: { latDeg: 40, lonDeg: -100 },
      point: { latDeg: 30, lonDeg: -110 },
      x: -0.1542826,
      y: -0.1694739,
      cPrintedDeg: 12.9082593,
      xFull: -0.15428260829,
      yFull: -0.16947387706,
    },
    {
      projection: "equalArea",
      chapter: 24,
      radius: 3,
      centre: { latDeg: 40, lonDeg: -100 },
      point: { latDeg: -20, lonDeg: 100 },
      x: -4.2339303,
      y: 4.0257775,
      cPrintedDeg: 153.6733917,
      xFull: -4.23393031946,
      yFull: 4.02577749318,
    },
    {
      projection: "equidistant",
      chapter: 25,
      radius: 3,
      centre: { latDeg: 40, lonDeg: -100 },
      point: { latDeg: -20, lonDeg: 100 },
      x: -5.8311398,
      y: 5.5444634,
      cPrintedDeg: 153.6733925,
      xFull: -5.8311398391,
      yFull: 5.54446335971,
    },
  ],
  /** Half of the last printed digit of x and y. */
  tolerance: 0.5e-7,
  toleranceFull: 0.5e-11,
  /** c is printed from seven-digit arithmetic; these are exact. */
  cExactDeg: { "30N 110W": 12.9082587, "30N 75W": 22.6832254, "20S 100E": 153.6733925 },
  inverseToleranceDeg: 1e-5,
} as const;

/** One point, 30 N 110 W, about 40 N 100 W, R = 1, in all five. */
export const samePointInFive = {
  source:
    "Snyder's examples for gnomonic and orthographic; computed from his formulas for the rest (nine decimals)",
  centre: { latDeg: 40, lonDeg: -100 },
  point: { latDeg: 30, lonDeg: -110 },
  xy: {
    gnomonic: [-0.154282608, -0.169473877],
    stereographic: [-0.152308223, -0.167305087],
    equalArea: [-0.151342919, -0.166244735],
    equidistant: [-0.151663461, -0.166596838],
    orthographic: [-0.150383733, -0.165191103],
  },
  tolerance: 0.5e-9,
} as const;

/** Distance from the centre over the radius, at angle c. */
export const radialLaw = {
  source: "Computed: tan c, 2 tan(c/2), 2 sin(c/2), c, sin c (Snyder 1987, chapters 20-25)",
  rows: [
    {
      cDeg: 10,
      gnomonic: 0.176327,
      stereographic: 0.174977,
      equalArea: 0.174311,
      equidistant: 0.174533,
      orthographic: 0.173648,
    },
    {
      cDeg: 30,
      gnomonic: 0.57735,
      stereographic: 0.535898,
      equalArea: 0.517638,
      equidistant: 0.523599,
      orthographic: 0.5,
    },
    {
      cDeg: 45,
      gnomonic: 1,
      stereographic: 0.828427,
      equalArea: 0.765367,
      equidistant: 0.785398,
      orthographic: 0.707107,
    },
    {
      cDeg: 60,
      gnomonic: 1.732051,
      stereographic: 1.154701,
      equalArea: 1,
      equidistant: 1.047198,
      orthographic: 0.866025,
    },
    {
      cDeg: 90,
      gnomonic: Number.POSITIVE_INFINITY,
      stereographic: 2,
      equalArea: 1.414214,
      equidistant: 1.570796,
      orthographic: 1,
    },
  ],
  tolerance: 0.5e-6,
} as const;
