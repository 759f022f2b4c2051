import { InputError } from "./errors.ts";

const EXAMPLES = "write a dotted path such as view.aim, fibre.bundles.count or panels[0].width";

/** One step of a path: `.name`, `[0]`, `[name]` or `["name"]`. */
const STEP = /\.?(?:\[(?:"([^"]*)"|'([^']*)'|([^[\]"']+))\]|(?<=^|\.)([^.[\]"'\s]+))/y;

/**
 * Takes a dotted path apart: `panels[0].width` and `panels.0.width` give `panels`, `0`, `width`. Whether a number counts
 * the entries of a list or names a key only the plan can tell.
 * @throws InputError for a text that is no such path
 */
export function parseKeyPath(text: string): string[] {
  const steps: string[] = [];
  STEP.lastIndex = 0;
  while (STEP.lastIndex < text.length) {
    const match = STEP.exec(text);
    const step = match?.slice(1).find((part) => part !== undefined);
    const startsOddly = steps.length === 0 && /^[.[]/.test(text);
    if (step === undefined || step === "" || startsOddly) {
      throw new InputError(`${JSON.stringify(text)} is not a key; ${EXAMPLES}`);
    }
    steps.push(step);
  }
  if (steps.length === 0) throw new InputError(`the key is empty; ${EXAMPLES}`);
  return steps;
}
