import { showPath } from "./describeIssue.ts";
import { type Change, editText } from "./editText.ts";
import { InputError } from "./errors.ts";
import type { PlaceLookUp } from "./fill.ts";
import { parseKeyPath } from "./keyPath.ts";
import { joinFreeKeys, type KeySchema, planKeys, unknownKey } from "./knownKeys.ts";
import { displacedBy } from "./otherForms.ts";
import { type DataPath, isGroup, sameData, valueIn } from "./planData.ts";
import { type PlanText, parsePlanText, readPlanText } from "./read.ts";
import { resolveKey } from "./resolveKey.ts";
import { sourceCollection } from "./sourceTokens.ts";
import { readTypedValue, type TypedValue, yamlLine } from "./valueText.ts";

export interface SetRequest {
  /** Keys and values as typed, taken together. */
  readonly pairs: readonly (readonly [key: string, value: string])[];
  /** Keys to take out, so that their defaults hold again. */
  readonly unset: readonly string[];
}

/** A key that changed; `undefined` stands for a key that is not written. */
export interface ChangedKey {
  readonly key: string;
  readonly from: unknown;
  readonly to: unknown;
}

export interface SetPlan extends PlanText {
  readonly text: string;
  readonly changed: readonly ChangedKey[];
  /** What a careful person should know about it. */
  readonly notices: readonly string[];
}

interface Wanted {
  readonly key: string;
  readonly steps: readonly string[];
  readonly value: TypedValue;
  readonly typed: string;
}

/**
 * Changes keys in the text of a plan, its comments and layout kept, and checks the outcome as any plan is checked.
 * @param text      YAML 1.2 or JSON; it need not be a valid plan yet
 * @param fileName  how messages name the file
 * @param lookUp    finds a place that the outcome gives by name
 * @throws InputError for a key nobody knows, a value that is no YAML, and an outcome that is no valid plan
 */
export function setKeys(text: string, fileName: string, request: SetRequest, lookUp?: PlaceLookUp): SetPlan {
  const schema = planKeys();
  const wanted = request.pairs.map(([key, typed]): Wanted => {
    const steps = joinFreeKeys(schema, parseKeyPath(key));
    const why = unknownKey(schema, steps);
    if (why !== null) throw new InputError(`${key}: ${why}`);
    return { key, steps, typed, value: readTypedValue(typed, key) };
  });
  const unset = request.unset.map((key) => ({ key, steps: joinFreeKeys(schema, parseKeyPath(key)) }));
  refuseContradictions(wanted, unset);

  const edited = editAll(text, fileName, schema, wanted, unset);
  try {
    return { ...edited, ...readPlanText(edited.text, fileName, lookUp) };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const hints = wanted
      .filter((each, i) => typeof each.value.data !== "string" && isValidAsWords(i))
      .map(
        ({ key, typed }) =>
          `${key}: if you mean the words themselves, put them in double quotes of their own: ${JSON.stringify(typed)}`,
      );
    throw new InputError([...error.problems, ...hints], { cause: error });
  }

  function isValidAsWords(index: number): boolean {
    const asWords = wanted.map((each, i) =>
      i === index ? { ...each, value: { data: each.typed, verbatim: null } } : each,
    );
    try {
      readPlanText(editAll(text, fileName, schema, asWords, unset).text, fileName, lookUp);
      return true;
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      return false;
    }
  }
}

function refuseContradictions(
  wanted: readonly Wanted[],
  unset: readonly { readonly key: string; readonly steps: readonly string[] }[],
): void {
  const isWithin = (inner: readonly string[], outer: readonly string[]) =>
    outer.every((step, i) => inner[i] === step);
  for (const [i, { key, steps }] of wanted.entries()) {
    // A later pair that swallows an earlier one leaves nothing of it.
    const swallowed = wanted.slice(i + 1).find((later) => isWithin(steps, later.steps));
    if (swallowed)
      throw new InputError(
        swallowed.key === key
          ? `${key}: is set twice; keep one of the two`
          : `${key}: is set, and then overwritten with ${swallowed.key} as a whole; keep one of the two`,
      );
    const outer = unset.find((each) => isWithin(steps, each.steps));
    if (outer)
      throw new InputError(`${key}: is set, and --unset ${outer.key} takes it out; keep one of the two`);
  }
}

function editAll(
  text: string,
  fileName: string,
  schema: KeySchema,
  wanted: readonly Wanted[],
  unset: readonly { readonly key: string; readonly steps: readonly string[] }[],
): Omit<SetPlan, keyof PlanText> {
  const before = parsePlanText(text, fileName).data;
  if (before !== null && !isGroup(before)) readPlanText(text, fileName); // says what a plan is
  let now = { text, data: before };
  let laidOutAnew = false;
  const touched: { path: DataPath; from: unknown; removed: boolean }[] = [];
  const notices: string[] = [];
  const edit = (change: Change) => {
    const edited = editText(now.text, fileName, change);
    laidOutAnew ||= edited.laidOutAnew;
    now = { text: edited.text, data: parsePlanText(edited.text, fileName).data };
  };
  const carryOut = (change: Change) => {
    const removed = change.value === null;
    const from = valueIn(now.data, change.path);
    if (change.value !== null && sameData(from, change.value.data)) return;
    for (const part of inParts(now.text, fileName, change, from)) edit(part);
    touched.push({ path: change.path, from, removed });
  };

  for (const { steps, value } of wanted) {
    const path = resolveKey(now.data, schema, steps, true);
    for (const change of changesFor(now.data, schema, path, value)) carryOut(change);
  }
  const afterSets = now.data;
  for (const { key, steps } of lastFirst(unset)) {
    const path = resolveKey(now.data, schema, steps, false);
    if (valueIn(now.data, path) !== undefined)
      carryOut({ path: withoutEmptied(now.data, path), value: null });
    else {
      const why = unknownKey(schema, steps);
      if (why !== null) throw new InputError(`${key}: ${why}`);
      notices.push(`${key} is not in the plan: there is nothing to take out`);
    }
  }

  if (laidOutAnew) notices.push("the plan had to be written out again: comments stay, some spaces moved");
  const movesByName = wanted.some(({ steps }) => steps.join(".") === "place.name");
  const movesByDegrees = wanted.some(({ steps }) => /^place(\.latitude|\.longitude)?$/.test(steps.join(".")));
  const place = valueIn(now.data, ["place"]);
  if (movesByName && !movesByDegrees && isGroup(place) && "latitude" in place)
    notices.push(
      "with place.latitude and place.longitude written, place.name is for your own eyes: the sky stays where it was; to move it, set place as a whole: place '{name: …, country: …}'",
    );
  const changed = outermost(touched).map(
    ({ path, from, removed }): ChangedKey => ({
      key: showPath(path),
      from,
      to: removed ? undefined : valueIn(afterSets, path),
    }),
  );
  return { text: now.text, changed, notices };
}

/** One key may take two changes: its own, and the end of what belongs to another form of its group. */
function changesFor(data: unknown, schema: KeySchema, path: DataPath, value: TypedValue): readonly Change[] {
  const displaced = displacedBy(data, schema, path, value.data);
  if (displaced === null) return [setFrom(standingAt(data, path), path, value)];
  const { group, keys } = displaced;
  const stays = Object.keys(valueIn(data, group) as object).some((key) => !keys.includes(key));
  if (!stays) return [setFrom(group.length, path, value)];
  return [{ path, value }, ...keys.map((key): Change => ({ path: [...group, key], value: null }))];
}

/**
 * A group that is written over several lines keeps those of the keys that stay, with their comments: it is changed key by key.
 */
function inParts(text: string, fileName: string, change: Change, from: unknown): readonly Change[] {
  const { path, value } = change;
  if (value === null || !isGroup(from) || !isGroup(value.data)) return [change];
  const next = value.data;
  const isOfLines =
    sourceCollection(parsePlanText(text, fileName, true).document, path)?.collection.type === "block-map";
  if (!isOfLines || !Object.keys(from).some((key) => Object.hasOwn(next, key))) return [change];
  const sets = Object.entries(next).filter(
    ([key, data]) => !(Object.hasOwn(from, key) && sameData(from[key], data)),
  );
  const ends = Object.keys(from).filter((key) => !Object.hasOwn(next, key));
  return [
    ...sets.map(([key, data]): Change => ({ path: [...path, key], value: { data, verbatim: null } })),
    ...ends.map((key): Change => ({ path: [...path, key], value: null })),
  ];
}

/** How many steps of a path lead to something written: `view.aim.star` to a plain `zenith` two, which it then replaces. */
function standingAt(data: unknown, path: DataPath): number {
  for (let depth = 1; depth < path.length; depth++) {
    const here = valueIn(data, path.slice(0, depth));
    if (here !== undefined && (typeof here !== "object" || here === null)) return depth;
  }
  return path.length;
}

/** Sets what stands `depth` steps down a path, as the group that holds the value at its end. */
const setFrom = (depth: number, path: DataPath, value: TypedValue): Change => ({
  path: path.slice(0, depth),
  value: path.slice(depth).reduceRight<TypedValue>(
    ({ data, verbatim }, step) => ({
      data: typeof step === "number" ? [data] : { [step]: data },
      verbatim:
        verbatim === null
          ? null
          : typeof step === "number"
            ? `[${verbatim}]`
            : `{${yamlLine(step)}: ${verbatim}}`,
    }),
    value,
  ),
});

/** The path to take out: with a group's last key goes the group, since an empty one says nothing. */
function withoutEmptied(data: unknown, path: DataPath): DataPath {
  let out = path;
  while (out.length > 1 && Object.keys(valueIn(data, out.slice(0, -1)) as object).length === 1)
    out = out.slice(0, -1);
  return out;
}

/** Entries of a list are counted before any is taken out: the last go first. */
const lastFirst = <T extends { readonly steps: readonly string[] }>(unset: readonly T[]): readonly T[] =>
  [...unset].sort((a, b) => {
    const differs = a.steps.findIndex((step, i) => step !== b.steps[i]);
    const [stepA, stepB] = [a.steps[differs], b.steps[differs]];
    return differs < 0 || stepA === undefined || stepB === undefined ? 0 : Number(stepB) - Number(stepA) || 0;
  });

/** Paths without those that lie within another. */
const outermost = <T extends { readonly path: DataPath }>(touched: readonly T[]): readonly T[] =>
  touched.filter(
    ({ path }, i) =>
      !touched.some(
        (other, j) =>
          j !== i &&
          other.path.every((step, depth) => path[depth] === step) &&
          (other.path.length < path.length || j < i),
      ),
  );
