import { showPath } from "./describeIssue.ts";
import { InputError } from "./errors.ts";
import { formsOf, hasFreeKeys, type KeySchema, ownKey, stepInto } from "./knownKeys.ts";
import { diameterOfKeyMm } from "./lengths.ts";
import { type DataPath, isGroup, valueIn } from "./planData.ts";

const isIndex = (step: string): boolean => /^\d{1,6}$/.test(step);

/**
 * The path that steps of a key mean in a plan's data: a number counts the entries of a list, a diameter finds the strands
 * written as `0.5mm` or `0.50 mm`.
 * @param mayAdd  whether the entry after a list's last is meant too
 * @throws InputError for a list without that entry, and for a list taken for a group or the other way round
 */
export function resolveKey(
  data: unknown,
  schema: KeySchema,
  steps: readonly string[],
  mayAdd: boolean,
): DataPath {
  const path: (string | number)[] = [];
  let here = data;
  let forms: readonly KeySchema[] = formsOf(schema);
  for (const step of steps) {
    const resolved = resolveStep(here, forms, step, mayAdd, showPath(path));
    path.push(resolved);
    here = valueIn(here, [resolved]);
    forms = stepInto(forms, step);
  }
  return path;
}

function resolveStep(
  here: unknown,
  forms: readonly KeySchema[],
  step: string,
  mayAdd: boolean,
  group: string,
): string | number {
  if (Array.isArray(here)) {
    const count = `${here.length} ${here.length === 1 ? "entry" : "entries"}`;
    if (!isIndex(step))
      throw new InputError(
        `${group}: is a list of ${count} in this plan: name one of them, as in ${group}[0].${step}, or set ${group} as a whole`,
      );
    if (Number(step) > here.length - (mayAdd ? 0 : 1))
      throw new InputError(
        `${group}[${step}]: the list has ${count}, counted from 0${mayAdd ? `; ${group}[${here.length}] adds one` : ""}`,
      );
    return Number(step);
  }
  const listIsMeant = isIndex(step) && forms.some((form) => form.items !== undefined);
  if (isGroup(here)) {
    if (listIsMeant && !forms.some((form) => hasFreeKeys(form) || ownKey(form, step)))
      throw new InputError(
        `${group}[${step}]: ${group} is a group of keys in this plan, no list; set ${group} as a whole`,
      );
    return sameDiameter(here, forms, step) ?? step;
  }
  if (!listIsMeant) return step;
  if (Number(step) > 0)
    throw new InputError(`${group}[${step}]: ${group} has no entries yet; the first is ${group}[0]`);
  return 0;
}

/** The key of the same length among free keys. */
function sameDiameter(
  group: Readonly<Record<string, unknown>>,
  forms: readonly KeySchema[],
  step: string,
): string | undefined {
  if (!forms.some(hasFreeKeys) || Object.hasOwn(group, step)) return undefined;
  const wanted = diameterOfKeyMm(step);
  return wanted === null ? undefined : Object.keys(group).find((key) => diameterOfKeyMm(key) === wanted);
}
