import { InvalidArgumentError } from "commander";
import { parseLengthMm } from "../plan/lengths.ts";

/** Option parser: a plain decimal number within bounds; trailing text is refused. */
export const numberBetween =
  (least: number, most: number, what: string) =>
  (text: string): number => {
    const value = Number(text);
    if (!/^[+-]?(\d+(\.\d*)?|\.\d+)$/.test(text.trim()) || !(value >= least && value <= most)) {
      throw new InvalidArgumentError(`Write ${what}, from ${least} to ${most}.`);
    }
    return value;
  };

/** Option parser: a whole number within bounds. */
export const wholeBetween =
  (least: number, most: number, what: string) =>
  (text: string): number => {
    const value = Number(text);
    if (!/^\d+$/.test(text.trim()) || value < least || value > most) {
      throw new InvalidArgumentError(`Write a whole number of ${what}, from ${least} to ${most}.`);
    }
    return value;
  };

/** Option parser: minutes with their unit, such as 15min; without one it is refused, since hours might be meant. */
export const minutesUpTo =
  (most: number) =>
  (text: string): number => {
    const value = Number(/^\s*(\d{1,4})\s*min(?:utes?)?\s*$/.exec(text)?.[1] ?? Number.NaN);
    if (!(value >= 1 && value <= most)) {
      throw new InvalidArgumentError(
        `Write minutes with their unit, such as 15min, from 1min to ${most}min.`,
      );
    }
    return value;
  };

/** Option parser: the diameter of a fibre with its unit, in mm. */
export const fibreDiameter = (text: string): number => {
  const mm = parseLengthMm(text);
  if (mm === null || mm <= 0)
    throw new InvalidArgumentError("Write a fibre's diameter with its unit, such as 0.75mm.");
  return mm;
};
