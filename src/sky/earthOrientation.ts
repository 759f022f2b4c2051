import { type Matrix3, multiply, rotateFrameX, rotateFrameZ } from "./matrix.ts";
import { delaunayArguments, nutation2000b } from "./nutation.ts";

const ARCSEC = Math.PI / 648_000;
const TURN = 2 * Math.PI;

const poly = (t: number, ...coefficients: number[]): number =>
  coefficients.reduceRight((sum, c) => sum * t + c, 0);

/** Mean obliquity of the ecliptic, radians, IAU 2006 (Capitaine, Wallace, Chapront, Astron. Astrophys. 412, 567, 2003). */
export const meanObliquityRad = (t: number): number =>
  poly(t, 84381.406, -46.836769, -0.0001831, 0.0020034, -0.000000576, -0.0000000434) * ARCSEC;

/**
 * Frame bias, precession (IAU 2006) and nutation (IAU 2000B) in one rotation: ICRS axes to the true equator and
 * equinox of date, by the four Fukushima-Williams angles.
 * @param t Julian centuries of TT since J2000.0
 * Source: J. Hilton et al., Cel. Mech. Dyn. Astron. 94, 351 (2006); IERS Conventions 2010, ch. 5.
 */
export const icrsToTrueOfDate = (t: number): Matrix3 => icrsToDate(t, nutation2000b(t));

/** The same without nutation: ICRS axes to the mean equator and equinox of date. */
export const icrsToMeanOfDate = (t: number): Matrix3 => icrsToDate(t, { longitudeRad: 0, obliquityRad: 0 });

function icrsToDate(t: number, nutation: { longitudeRad: number; obliquityRad: number }): Matrix3 {
  const gamma = poly(t, -0.052928, 10.556378, 0.4932044, -0.00031238, -0.000002788, 0.000000026) * ARCSEC;
  const phi = poly(t, 84381.412819, -46.811016, 0.0511268, 0.00053289, -0.00000044, -0.0000000176) * ARCSEC;
  const psi = poly(t, -0.041775, 5038.481484, 1.5584175, -0.00018522, -0.000026452, -0.0000000148) * ARCSEC;
  return multiply(
    rotateFrameX(-(meanObliquityRad(t) + nutation.obliquityRad)),
    multiply(rotateFrameZ(-(psi + nutation.longitudeRad)), multiply(rotateFrameX(phi), rotateFrameZ(gamma))),
  );
}

/** Earth rotation angle in radians, 0 to 2 pi (IAU 2000). @param jdUt1 Julian Date, UT1 */
export function earthRotationAngleRad(jdUt1: number): number {
  const days = jdUt1 - 2451545;
  const turns = (jdUt1 % 1) + 0.779057273264 + 0.00273781191135448 * days;
  return TURN * (turns - Math.floor(turns));
}

/**
 * Greenwich apparent sidereal time in radians, 0 to 2 pi: IAU 2006 mean time plus the equation of the equinoxes.
 * Source: Capitaine, Wallace, McCarthy, Astron. Astrophys. 432, 355 (2005); the two largest complementary terms.
 * @param jdUt1 Julian Date, UT1
 * @param t     Julian centuries of TT since J2000.0
 */
export function apparentSiderealTimeRad(jdUt1: number, t: number): number {
  const omega = delaunayArguments(t)[4];
  const equinoxes =
    nutation2000b(t).longitudeRad * Math.cos(meanObliquityRad(t)) +
    (0.00264096 * Math.sin(omega) + 0.00006352 * Math.sin(2 * omega)) * ARCSEC;
  const angle = meanSiderealTimeRad(jdUt1, t) + equinoxes;
  return angle - TURN * Math.floor(angle / TURN);
}

/** Greenwich mean sidereal time in radians, 0 to 2 pi, IAU 2006. Source as for apparent time. */
export function meanSiderealTimeRad(jdUt1: number, t: number): number {
  const angle =
    earthRotationAngleRad(jdUt1) +
    poly(t, 0.014506, 4612.156534, 1.3915817, -0.00000044, -0.000029956, -0.0000000368) * ARCSEC;
  return angle - TURN * Math.floor(angle / TURN);
}
