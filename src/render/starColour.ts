/** Red, green and blue in sRGB pixel values, 0 to 255, not rounded. */
export type Rgb = readonly [number, number, number];

/** One source lights every fibre: a slightly warm white (our choice). */
export const sourceLight: Rgb = [255, 244, 232];

/** Luminance of every tinted star, that of sRGB white being 1: low enough for hot and cool stars to keep their colour. */
export const tintedLuminance = 0.66;

/** Colour temperature from colour index. Source: Ballesteros 2012, EPL 97, 34008, eq. 14 (1.7, where some copies have 1.6). */
export function temperatureOfBvK(bv: number): number {
  return 4600 * (1 / (0.92 * bv + 1.7) + 1 / (0.92 * bv + 0.62));
}

/**
 * Chromaticity (CIE 1931 x, y) of a black body of 1667 to 25,000 K. Source: the cubic fit of Kim et al. 2002, J. Korean
 * Phys. Soc. 41, 865 (US patent 7,024,034); coefficients from memory, checked in the tests against Planck's law.
 */
export function blackBodyXy(temperatureK: number): readonly [number, number] {
  const t = Math.min(25000, Math.max(1667, temperatureK));
  const x =
    t < 4000
      ? -0.2661239e9 / t ** 3 - 0.2343589e6 / t ** 2 + 0.8776956e3 / t + 0.17991
      : -3.0258469e9 / t ** 3 + 2.1070379e6 / t ** 2 + 0.2226347e3 / t + 0.24039;
  const y =
    t < 2222
      ? -1.1063814 * x ** 3 - 1.3481102 * x ** 2 + 2.18555832 * x - 0.20219683
      : t < 4000
        ? -0.9549476 * x ** 3 - 1.37418593 * x ** 2 + 2.09137015 * x - 0.16748867
        : 3.081758 * x ** 3 - 5.8733867 * x ** 2 + 3.75112997 * x - 0.37001483;
  return [x, y];
}

/** Transfer of sRGB, IEC 61966-2-1: linear 0 to 1 in, pixel value 0 to 255 out. */
function srgbValue(linear: number): number {
  const v = Math.min(1, Math.max(0, linear));
  return 255 * (v <= 0.0031308 ? 12.92 * v : 1.055 * v ** (1 / 2.4) - 0.055);
}

/**
 * Colour of a star's fibre when each has its own light: a black body of the star's temperature, all at one luminance.
 * Where sRGB cannot show that hue so bright, white is mixed in, which leaves the luminance alone. Unknown: white.
 * @param bv  clamped to -0.4 ... 2.0, where the temperature formula holds, and taken in steps of 0.05: few colours, few gradients
 */
export function tintOfBv(bv: number | null): Rgb {
  if (bv === null) return tintAt([tintedLuminance, tintedLuminance, tintedLuminance]);
  const [x, y] = blackBodyXy(temperatureOfBvK(Math.round(Math.min(2, Math.max(-0.4, bv)) * 20) / 20));
  const bigX = (x / y) * tintedLuminance;
  const bigZ = ((1 - x - y) / y) * tintedLuminance;
  const bigY = tintedLuminance;
  // XYZ to linear sRGB, IEC 61966-2-1.
  return tintAt([
    3.2406 * bigX - 1.5372 * bigY - 0.4986 * bigZ,
    -0.9689 * bigX + 1.8758 * bigY + 0.0415 * bigZ,
    0.0557 * bigX - 0.204 * bigY + 1.057 * bigZ,
  ]);
}

function tintAt(linear: Rgb): Rgb {
  const most = Math.max(...linear);
  const least = Math.min(...linear);
  const white = tintedLuminance;
  let keep = 1;
  if (most > 1) keep = Math.min(keep, (1 - white) / (most - white));
  if (least < 0) keep = Math.min(keep, white / (white - least));
  const [r, g, b] = linear.map((v) => srgbValue(white + keep * (v - white))) as [number, number, number];
  return [r, g, b];
}
