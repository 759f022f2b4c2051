/** To so many steps a unit; never -0. */
export const rounded = (value: number, stepsPerUnit: number): number =>
  Math.round(value * stepsPerUnit) / stepsPerUnit + 0;

/** Millimetres and magnitudes, as the schedule holds them. */
export const hundredths = (value: number): number => rounded(value, 100);

/** Angles in degrees, as the schedule holds them. */
export const tenThousandths = (value: number): number => rounded(value, 10_000);
