// biome-ignore-all lint/correctness/noPrecisionLoss: the digits stand as printed in the source
/*
 * Test values of ERFA 2.0.1 (open issue of the IAU's SOFA library), program t_erfa_c.c. Radians unless the name says
 * otherwise; dates are two-part Julian dates. All are recomputed by scripts/reference/check_published.py.
 */
const source = "ERFA 2.0.1 t_erfa_c.c (IAU SOFA); recomputed";
const mjd0 = 2400000.5;

export const erfaEarthRotation = {
  source,
  era00: { ut1: [mjd0, 54388.0], rad: 0.4022837240028158102 },
  gmst82: { ut1: [mjd0, 53736.0], rad: 1.754174981860675096 },
  gmst06: { ut1: [mjd0, 53736.0], tt: [mjd0, 53736.0], rad: 1.754174971870091203 },
  gst06a: { ut1: [mjd0, 53736.0], tt: [mjd0, 53736.0], rad: 1.754166137675019159 },
  toleranceRad: 1e-12,
} as const;

export const erfaPrecessionNutation = {
  source,
  obl06: { tt: [mjd0, 54388.0], rad: 0.4090749229387258204 },
  nut06a: { tt: [mjd0, 53736.0], dPsi: -0.9630912025820308797e-5, dEps: 0.4063238496887249798e-4 },
  /** Frame bias and precession, GCRS to mean equator and equinox of date. */
  pmat06: {
    tt: [mjd0, 50123.9999],
    rows: [
      [0.9999995505176007047, 0.8695404617348208406e-3, 0.3779735201865589104e-3],
      [-0.8695404723772031414e-3, 0.9999996219496027161, -0.1361752497080270143e-6],
      [-0.377973495703408949e-3, -0.1924880847894457113e-6, 0.9999999285679971958],
    ],
  },
  toleranceRad: 1e-12,
} as const;

export const erfaHorizontal = {
  source,
  hd2ae: {
    hourAngle: 1.1,
    dec: 1.2,
    latitude: 0.3,
    azimuth: 5.916889243730066194,
    altitude: 0.4472186304990486228,
  },
  ae2hd: {
    azimuth: 5.5,
    altitude: 1.1,
    latitude: 0.7,
    hourAngle: 0.5933291115507309663,
    dec: 0.961393476164781762,
  },
  hd2pa: { hourAngle: 1.1, dec: 1.2, latitude: 0.3, parallacticAngle: 1.90622742800199558 },
  toleranceRad: 1e-13,
} as const;

export const erfaSphere = {
  source,
  seps: { a: [1.0, 0.1], b: [0.2, -3.0], rad: 2.346722016996998842 },
  pas: { a: [1.0, 0.1], b: [0.2, -1.0], rad: -2.724544922932270424 },
  toleranceRad: 1e-12,
} as const;

/** Gnomonic: xi toward increasing right ascension, eta toward increasing declination, in units of the radius. */
export const erfaGnomonic = {
  source,
  tpxes: { star: [1.3, 1.55], tangent: [2.3, 1.5], xi: -0.01753200983236980595, eta: 0.05962940005778712891 },
  tpsts: { xi: -0.03, eta: 0.07, tangent: [2.3, 1.5], star: [0.7596127167359629775, 1.540864645109263028] },
  tolerance: 1e-13,
} as const;

/** Proper motions in rad/yr of coordinate angle, parallax in arcsec, radial velocity in km/s. */
export const erfaSpaceMotion = {
  source,
  pmsafe: {
    before: { ra: 1.234, dec: 0.789, pmRa: 1e-5, pmDec: -2e-5, parallaxArcsec: 1e-2, rvKmPerS: 10 },
    from: [mjd0, 48348.5625],
    to: [mjd0, 51544.5],
    after: {
      ra: 1.234087484501017061,
      dec: 0.7888249982450468567,
      pmRa: 0.9996457663586073988e-5,
      pmDec: -0.2000040085106754565e-4,
      parallaxArcsec: 0.9999997295356830666e-2,
      rvKmPerS: 10.38468380293920069,
    },
  },
  starpm: {
    before: {
      ra: 0.01686756,
      dec: -1.093989828,
      pmRa: -1.78323516e-5,
      pmDec: 2.336024047e-6,
      parallaxArcsec: 0.74723,
      rvKmPerS: -21.6,
    },
    from: [mjd0, 50083.0],
    to: [mjd0, 53736.0],
    after: { ra: 0.01668919069414256149, dec: -1.093966454217127897 },
  },
  toleranceRad: 1e-12,
} as const;

const star = { ra: 2.71, dec: 0.174, pmRa: 1e-5, pmDec: 5e-6, parallaxArcsec: 0.1, rvKmPerS: 55 } as const;

/** ICRS to CIRS (atci13) and to the observed place with refraction and polar motion (atco13). */
export const erfaApparentPlace = {
  source,
  star,
  atci13: {
    tdb: [2456165.5, 0.401182685],
    ra: 2.710121572968696744,
    dec: 0.1729371367219539137,
    equationOfOrigins: -0.002900618712657375647,
  },
  atco13: {
    utc: [2456384.5, 0.969254051],
    ut1MinusUtcS: 0.1550675,
    longitude: -0.527800806,
    latitude: -1.2345856,
    elevationM: 2738,
    xPole: 2.47230737e-7,
    yPole: 1.82640464e-6,
    pressureHpa: 731,
    temperatureC: 12.8,
    relativeHumidity: 0.59,
    wavelengthUm: 0.55,
    azimuth: 0.09251774485485515207,
    zenithDistance: 1.407661405256499357,
    hourAngle: -0.9265154431529724692e-1,
    dec: 0.17166265600725262,
    ra: 2.710260453504961012,
    equationOfOrigins: -0.003020548354802412839,
  },
  toleranceRad: 1e-9,
} as const;

export const erfaRefraction = {
  source,
  refco: {
    pressureHpa: 800,
    temperatureC: 10,
    relativeHumidity: 0.9,
    wavelengthUm: 0.4,
    a: 0.2264949956241415009e-3,
    b: -0.259865826172934397e-6,
  },
  toleranceRad: 1e-15,
} as const;

export const erfaLeapSeconds = {
  source,
  /** TAI - UTC. */
  rows: [
    { date: [2003, 6, 1], taiMinusUtcS: 32 },
    { date: [2008, 1, 17], taiMinusUtcS: 33 },
    { date: [2017, 9, 1], taiMinusUtcS: 37 },
  ],
  cal2jd: { date: [2003, 6, 1], mjd: 52791 },
} as const;
