import { formsOf, type KeySchema, ownKey, stepInto } from "./knownKeys.ts";
import { type DataPath, isGroup, valueIn } from "./planData.ts";

/** Two ways to say one thing, which the schema holds side by side. */
const EITHER: readonly { readonly group: string; readonly keys: readonly string[] }[] = [
  { group: "view.eye", keys: ["below", "aboveFloor"] },
];

export interface Displaced {
  /** The group that changes its form. */
  readonly group: DataPath;
  /** Its keys that belong to the other form. */
  readonly keys: readonly string[];
}

/**
 * Keys that cannot stay when a key is set, since they belong to another form of the same group: `view.aim.star` leaves no
 * altitude beside it, `view.kind: chart` no eye.
 */
export function displacedBy(
  data: unknown,
  schema: KeySchema,
  path: DataPath,
  value: unknown,
): Displaced | null {
  let forms: readonly KeySchema[] = formsOf(schema);
  for (const [depth, step] of path.entries()) {
    const group = path.slice(0, depth);
    const here = valueIn(data, group);
    if (isGroup(here)) {
      const isLast = depth === path.length - 1;
      const keys = othersIn(here, forms, String(step), isLast ? value : undefined, group.join("."));
      if (keys.length > 0) return { group, keys };
    }
    forms = stepInto(forms, String(step));
  }
  return null;
}

function othersIn(
  here: Readonly<Record<string, unknown>>,
  forms: readonly KeySchema[],
  key: string,
  value: unknown,
  group: string,
): readonly string[] {
  const present = Object.keys(here);
  const either = EITHER.find((each) => each.group === group && each.keys.includes(key));
  if (either) return present.filter((other) => other !== key && either.keys.includes(other));

  const groups = forms.filter((form) => form.properties !== undefined);
  if (groups.length < 2) return [];
  const has = (form: KeySchema, name: string) => ownKey(form, name) !== undefined;
  const kind = Object.keys(groups[0]!.properties!).find((name) =>
    groups.every((form) => ownKey(form, name)?.const !== undefined),
  );
  const takes = (form: KeySchema) =>
    kind === undefined ? has(form, key) : key === kind && ownKey(form, kind)?.const === value;
  const common = (form: KeySchema) => present.filter((name) => has(form, name)).length;
  const chosen = groups.filter(takes).sort((a, b) => common(b) - common(a))[0];
  if (chosen === undefined) return [];
  // What no form knows is no part of another form: it is for the check to tell.
  return present.filter((name) => !has(chosen, name) && groups.some((form) => has(form, name)));
}
