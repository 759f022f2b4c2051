/** A number for SVG: hundredths (a hundredth of a millimetre), no trailing zeros, never "-0". */
export function svgNumber(value: number): string {
  const hundredths = Math.round(value * 100);
  return hundredths === 0 ? "0" : String(hundredths / 100);
}
