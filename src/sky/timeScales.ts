/** Milliseconds of POSIX time (UTC without leap seconds) to Julian Date, UTC. */
export const julianDateUtc = (instantUtcMs: number): number => 2440587.5 + instantUtcMs / 86_400_000;

/**
 * First days with a new TAI - UTC, in seconds. Source: IERS Bulletin C, as in the IANA leap-seconds list,
 * which announces no further step to 2027-06-28.
 */
const TAI_MINUS_UTC: readonly (readonly [utcDay: string, seconds: number])[] = [
  ["1972-01-01", 10],
  ["1972-07-01", 11],
  ["1973-01-01", 12],
  ["1974-01-01", 13],
  ["1975-01-01", 14],
  ["1976-01-01", 15],
  ["1977-01-01", 16],
  ["1978-01-01", 17],
  ["1979-01-01", 18],
  ["1980-01-01", 19],
  ["1981-07-01", 20],
  ["1982-07-01", 21],
  ["1983-07-01", 22],
  ["1985-07-01", 23],
  ["1988-01-01", 24],
  ["1990-01-01", 25],
  ["1991-01-01", 26],
  ["1992-07-01", 27],
  ["1993-07-01", 28],
  ["1994-07-01", 29],
  ["1996-01-01", 30],
  ["1997-07-01", 31],
  ["1999-01-01", 32],
  ["2006-01-01", 33],
  ["2009-01-01", 34],
  ["2012-07-01", 35],
  ["2015-07-01", 36],
  ["2017-01-01", 37],
];

const LEAP_STEPS_MS: readonly (readonly [ms: number, seconds: number])[] = TAI_MINUS_UTC.map(
  ([day, seconds]) => [Date.parse(`${day}T00:00:00Z`), seconds],
);

/** Last day for which the leap-second list speaks. */
export const LEAP_SECONDS_KNOWN_TO_MS = Date.parse("2027-06-28T00:00:00Z");

/**
 * TT - UTC in seconds. From 1972 by leap seconds (the last value is kept for the future); before that UTC stands for
 * UT, and TT - UT follows the polynomials of Espenak and Meeus. A minute of error here moves no star: the Earth's
 * turn is taken from UT alone.
 * @param instantUtcMs POSIX milliseconds, years 1800 to 2200
 */
export function ttMinusUtcSeconds(instantUtcMs: number): number {
  for (let i = LEAP_STEPS_MS.length - 1; i >= 0; i--) {
    const [fromMs, taiMinusUtc] = LEAP_STEPS_MS[i]!;
    if (instantUtcMs >= fromMs) return taiMinusUtc + 32.184;
  }
  return deltaTSecondsBefore1986(2000 + (instantUtcMs - Date.UTC(2000, 0, 1)) / (365.2425 * 86_400_000));
}

/**
 * Delta T = TT - UT1 in seconds, for 1800 to 1986.
 * Source: F. Espenak, J. Meeus, Five Millennium Canon of Solar Eclipses, NASA 2006, polynomial expressions.
 * @param year decimal year
 */
export function deltaTSecondsBefore1986(year: number): number {
  const poly = (t: number, ...c: number[]) => c.reduceRight((sum, a) => sum * t + a, 0);
  if (year < 1860) {
    return poly(
      year - 1800,
      13.72,
      -0.332447,
      0.0068612,
      0.0041116,
      -0.00037436,
      0.0000121272,
      -0.0000001699,
      0.000000000875,
    );
  }
  if (year < 1900) return poly(year - 1860, 7.62, 0.5737, -0.251754, 0.01680668, -0.0004473624, 1 / 233174);
  if (year < 1920) return poly(year - 1900, -2.79, 1.494119, -0.0598939, 0.0061966, -0.000197);
  if (year < 1941) return poly(year - 1920, 21.2, 0.84493, -0.0761, 0.0020936);
  if (year < 1961) return poly(year - 1950, 29.07, 0.407, -1 / 233, 1 / 2547);
  return poly(year - 1975, 45.45, 1.067, -1 / 260, -1 / 718);
}

/** Julian centuries of TT since J2000.0. */
export const ttCenturies = (instantUtcMs: number): number =>
  (julianDateUtc(instantUtcMs) - 2451545 + ttMinusUtcSeconds(instantUtcMs) / 86_400) / 36_525;
