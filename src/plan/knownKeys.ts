import { showPath } from "./describeIssue.ts";
import { planJsonSchema } from "./jsonSchema.ts";
import { nearestName } from "./nearestName.ts";
import { MISPLACED } from "./schema.ts";

/** The parts of a JSON Schema that say which keys there are. */
export interface KeySchema {
  readonly properties?: Readonly<Record<string, KeySchema>>;
  readonly additionalProperties?: boolean | KeySchema;
  readonly items?: KeySchema;
  readonly anyOf?: readonly KeySchema[];
  readonly oneOf?: readonly KeySchema[];
  readonly const?: unknown;
}

/** The schema of a plan, as it is asked for keys. */
export const planKeys = (): KeySchema => planJsonSchema() as KeySchema;

/** All forms that a value may take: a union within a union is one of more forms, and a group may say besides what it asks for. */
export function formsOf(schema: KeySchema): readonly KeySchema[] {
  const inner = [...(schema.anyOf ?? []), ...(schema.oneOf ?? [])];
  const own = schema.properties !== undefined || schema.items !== undefined;
  return inner.length === 0 || own ? [schema, ...inner.flatMap(formsOf)] : inner.flatMap(formsOf);
}

export const ownKey = (schema: KeySchema, key: string): KeySchema | undefined =>
  schema.properties !== undefined && Object.hasOwn(schema.properties, key)
    ? schema.properties[key]
    : undefined;

/** Free keys, such as the diameters of `fibre.bundles.strands`. */
export const hasFreeKeys = (schema: KeySchema): boolean => typeof schema.additionalProperties === "object";

/** Groups under free keys, such as the boards of `asCut` by panel: their names have no dots, and their keys follow. */
const holdsGroups = ({ additionalProperties }: KeySchema): boolean =>
  typeof additionalProperties === "object" && additionalProperties.properties !== undefined;

const isIndex = (step: string): boolean => /^\d+$/.test(step);

/** What one step leads to; empty for a key that nobody knows. */
export function stepInto(schemas: readonly KeySchema[], step: string): readonly KeySchema[] {
  return schemas.flatMap((schema) => {
    const next: KeySchema[] = [];
    const own = ownKey(schema, step);
    if (own !== undefined) next.push(own);
    else if (typeof schema.additionalProperties === "object") next.push(schema.additionalProperties);
    if (schema.items !== undefined && isIndex(step)) next.push(schema.items);
    return next.flatMap(formsOf);
  });
}

/** Steps of a path, those past a group of free keys put together again: a diameter such as `0.5mm` has a dot of its own. */
export function joinFreeKeys(schema: KeySchema, steps: readonly string[]): readonly string[] {
  let here: readonly KeySchema[] = formsOf(schema);
  for (const [depth, step] of steps.entries()) {
    if (here.length > 0 && here.every(hasFreeKeys) && !here.some(holdsGroups))
      return [...steps.slice(0, depth), steps.slice(depth).join(".")];
    here = stepInto(here, step);
  }
  return steps;
}

/**
 * Why nobody knows a path, and what may have been meant; null for a known one.
 * @param steps free keys joined
 */
export function unknownKey(schema: KeySchema, steps: readonly string[]): string | null {
  let here: readonly KeySchema[] = formsOf(schema);
  for (const [depth, step] of steps.entries()) {
    const next = stepInto(here, step);
    if (next.length > 0) {
      here = next;
      continue;
    }
    const wrong = steps.slice(0, depth + 1);
    const misplaced = Object.hasOwn(MISPLACED, wrong.join(".")) ? MISPLACED[wrong.join(".")] : undefined;
    if (misplaced !== undefined) return `unknown key; ${misplaced}`;
    const all = pathsOf(schema, "");
    const meant = meantBy(steps, depth, here, all);
    if (meant.length > 0) return `unknown key; did you mean ${orList(meant)}?`;
    const known = [...new Set(here.flatMap((form) => Object.keys(form.properties ?? {})))];
    const group = showPath(wrong.slice(0, -1).map((part) => (isIndex(part) ? Number(part) : part)));
    if (known.length > 0) return `unknown key; known ${group ? `in ${group}` : "here"}: ${known.join(", ")}`;
    return here.some((form) => form.items !== undefined)
      ? `unknown key; ${group} is a list: name one of its entries, as in ${group}[0]`
      : `unknown key; ${group} holds no keys of its own`;
  }
  return null;
}

const orList = (names: readonly string[]): string => {
  const quoted = names.map((name) => `\`${name}\``);
  return quoted.length === 1
    ? quoted[0]!
    : `${quoted.slice(0, -1).join(", ")} or ${quoted[quoted.length - 1]}`;
};

/** More would be no help: then those of the fewest steps are named, or none. */
const MOST_MEANT = 3;

/** Known paths that a wrong one may stand for: the slip put right, a group left out, or a slip of the whole. */
function meantBy(
  steps: readonly string[],
  depth: number,
  here: readonly KeySchema[],
  all: readonly string[],
): readonly string[] {
  const siblings = here.flatMap((form) => Object.keys(form.properties ?? {}));
  const near = nearestName(steps[depth]!, siblings);
  if (near !== null) {
    const right = [...steps.slice(0, depth), near, ...steps.slice(depth + 1)];
    const shown = showPath(right.map((part) => (isIndex(part) ? Number(part) : part)));
    const whole = shown.replace(/\[\d+\]/g, "[0]");
    if (depth === steps.length - 1 || all.includes(whole)) return [shown];
  }
  const rest = steps.slice(depth).join(".").toLowerCase();
  const elsewhere = all.filter((path) => path.toLowerCase().endsWith(`.${rest}`));
  const stepsOf = (path: string) => path.split(".").length;
  const fewest = Math.min(...elsewhere.map(stepsOf));
  for (const some of [elsewhere, elsewhere.filter((path) => stepsOf(path) === fewest)])
    if (some.length > 0 && some.length <= MOST_MEANT) return some;
  const leaf = (path: string) => path.slice(path.lastIndexOf(".") + 1);
  const nearPath =
    nearestName(steps.join("."), all) ??
    (depth === 0 && steps.length === 1
      ? all.find((path) => leaf(path) === nearestName(rest, all.map(leaf)))
      : undefined);
  return nearPath ? [nearPath] : [];
}

/** Every path that a plan may have, entries of lists written `[0]`. */
function pathsOf(schema: KeySchema, base: string): string[] {
  const paths = formsOf(schema).flatMap((form) => [
    ...Object.entries(form.properties ?? {}).flatMap(([key, inner]) => {
      const path = base === "" ? key : `${base}.${key}`;
      return [path, ...pathsOf(inner, path)];
    }),
    ...(form.items === undefined ? [] : pathsOf(form.items, `${base}[0]`)),
  ]);
  return [...new Set(paths)];
}
