const MM_PER_UNIT: Readonly<Record<string, number>> = {
  mm: 1,
  cm: 10,
  m: 1000,
  in: 25.4, // exact: international yard and pound agreement, 1959
  '"': 25.4,
  "″": 25.4,
  ft: 304.8,
  "'": 304.8,
  "′": 304.8,
};

// A whole number, a decimal, a fraction or a mixed number ("4", "2.4", "1/8", "4 1/2", "4-1/2"), then a unit.
const TERM = String.raw`(?:(\d+)(?:\s+|-))?(\d+)\s*\/\s*(\d+)|(\d+(?:\.\d*)?|\.\d+)`;
const FEET_AND_INCHES = new RegExp(String.raw`^(${TERM})\s*(ft|'|′)\s*-?\s*(${TERM})\s*(in|"|″)$`);
const ONE_TERM = new RegExp(String.raw`^(${TERM})\s*(mm|cm|m|in|ft|'|"|′|″)$`);

const numberOf = (whole?: string, numerator?: string, denominator?: string, decimal?: string): number =>
  decimal !== undefined ? Number(decimal) : Number(whole ?? 0) + Number(numerator) / Number(denominator);

/**
 * Reads a length as a plan file writes it.
 * @param text a length with its unit: `38mm`, `2.4m`, `48in`, `8ft`, `1/8in`, `4 1/2in`, `8' 4-1/2"`; a leading minus is allowed
 * @returns millimetres, or null when the text is not a length, has no unit, or divides by zero
 */
export function parseLengthMm(text: string): number | null {
  const trimmed = text.trim();
  const negative = trimmed.startsWith("-");
  const unsigned = negative ? trimmed.slice(1).trim() : trimmed;
  const mm = unsignedLengthMm(unsigned);
  if (mm === null || !Number.isFinite(mm)) return null;
  const exact = Math.round(mm * 1e6) / 1e6; // 48 in is 1219.2 mm, not 1219.1999999999998
  return negative ? -exact : exact;
}

/** A diameter written as a key, `0.5mm` or a bare `0.5` in millimetres; null when it is none. */
export const diameterOfKeyMm = (key: string): number | null =>
  /^[\d.]+$/.test(key) ? Number(key) : parseLengthMm(key);

function unsignedLengthMm(text: string): number | null {
  const one = ONE_TERM.exec(text);
  if (one) return numberOf(one[2], one[3], one[4], one[5]) * MM_PER_UNIT[one[6]!]!;
  const two = FEET_AND_INCHES.exec(text);
  if (!two) return null;
  const feet = numberOf(two[2], two[3], two[4], two[5]);
  const inches = numberOf(two[8], two[9], two[10], two[11]);
  return feet * 304.8 + inches * 25.4;
}

/** What to write instead, for messages. */
export const LENGTH_EXAMPLES =
  "millimetres as a number, or text with a unit such as 38mm, 2.4m, 48in, 1/8in or 8' 4-1/2\"";
