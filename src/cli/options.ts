import { InvalidArgumentError } from "commander";

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
