export type DataPath = readonly (string | number)[];

type Group = Readonly<Record<string, unknown>>;

export const isGroup = (value: unknown): value is Group =>
  typeof value === "object" && value !== null && !Array.isArray(value);

export function valueIn(data: unknown, path: DataPath): unknown {
  let value = data;
  for (const step of path) {
    if (Array.isArray(value)) value = value[Number(step)];
    else if (isGroup(value) && Object.hasOwn(value, String(step))) value = value[String(step)];
    else return undefined;
  }
  return value;
}

/** A copy with another value at a path; groups and lists that are missing on the way are made. */
export function withValue(data: unknown, path: DataPath, value: unknown): unknown {
  const [step, ...rest] = path;
  if (step === undefined) return value;
  if (Array.isArray(data) || typeof step === "number") {
    const copy = Array.isArray(data) ? [...data] : [];
    copy[Number(step)] = withValue(copy[Number(step)], rest, value);
    return copy;
  }
  const group = isGroup(data) ? data : {};
  return { ...group, [step]: withValue(valueIn(group, [step]), rest, value) };
}

/** A copy without what stands at a path. */
export function withoutValue(data: unknown, path: DataPath): unknown {
  const step = path[path.length - 1]!;
  const parentPath = path.slice(0, -1);
  const parent = valueIn(data, parentPath);
  if (Array.isArray(parent))
    return withValue(
      data,
      parentPath,
      parent.filter((_, i) => i !== Number(step)),
    );
  const { [String(step)]: _, ...others } = parent as Group;
  return withValue(data, parentPath, others);
}

/** Whether two trees of plain data hold the same; the order of keys does not count. */
export function sameData(a: unknown, b: unknown): boolean {
  if (Array.isArray(a) || Array.isArray(b))
    return (
      Array.isArray(a) &&
      Array.isArray(b) &&
      a.length === b.length &&
      a.every((each, i) => sameData(each, b[i]))
    );
  if (!isGroup(a) || !isGroup(b)) return Object.is(a, b);
  const keys = Object.keys(a);
  return (
    keys.length === Object.keys(b).length &&
    keys.every((key) => Object.hasOwn(b, key) && sameData(a[key], b[key]))
  );
}
