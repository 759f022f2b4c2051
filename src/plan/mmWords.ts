/** Millimetres in words: two decimals at most. */
export const upToHundredths = (mm: number): string => String(Number(mm.toFixed(2)));

/** One decimal at most. */
export const upToTenths = (mm: number): string => String(Number(mm.toFixed(1)));

/** [x, y], to a tenth. */
export const pointText = ([x, y]: readonly [number, number]): string =>
  `[${upToTenths(x)}, ${upToTenths(y)}]`;
