import { type Document, isNode, isScalar, visit } from "yaml";
import { showPath } from "./describeIssue.ts";
import { InputError } from "./errors.ts";
import { type DataPath, sameData, withoutValue, withValue } from "./planData.ts";
import { parsePlanText } from "./read.ts";
import { type Splice, slotAt, sourceCollection, spliced } from "./sourceTokens.ts";
import { addEntry, removeEntry } from "./spliceEntry.ts";
import { replaceValue } from "./spliceValue.ts";
import { jsonLine, type TypedValue, yamlLine, yamlLineWithin } from "./valueText.ts";

/** One change of a plan's data: a new value at a path, or none. */
export type Change =
  | { readonly path: DataPath; readonly value: TypedValue }
  | { readonly path: DataPath; readonly value: null };

export interface EditedText {
  readonly text: string;
  /** True when the text could not be changed in place and was written out again: comments stay, some spaces move. */
  readonly laidOutAnew: boolean;
}

/**
 * Carries one change into the text of a plan and touches no character beside it, where that can be. Whatever is tried must
 * hold exactly the data wanted before it counts.
 * @param text  YAML or JSON; JSON stays JSON
 * @throws InputError when the change would move another key along, through an anchor and its aliases
 */
export function editText(text: string, fileName: string, change: Change): EditedText {
  const { document, data } = parsePlanText(text, fileName, true);
  const wanted =
    change.value === null
      ? withoutValue(data, change.path)
      : withValue(data ?? {}, change.path, change.value.data);
  const json = jsonStyle(text);
  if (
    json !== null &&
    change.value !== null &&
    !sameData(JSON.parse(JSON.stringify(change.value.data)), change.value.data)
  )
    throw new InputError(`${showPath(change.path)}: JSON has no way to write ${yamlLine(change.value.data)}`);
  const holdsWanted = (tried: string): boolean => {
    if (json !== null && !isJson(tried)) return false;
    try {
      return sameData(parsePlanText(tried, fileName).data, wanted);
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      return false;
    }
  };

  const splices =
    change.value === null
      ? [removal(text, document, change.path)]
      : valueLines(change.value, json).map((line) => entered(text, document, change.path, line, json));
  for (const each of splices) {
    const tried = each === null ? null : spliced(text, each);
    if (tried !== null && holdsWanted(tried)) return { text: tried, laidOutAnew: false };
  }
  const anew = json === null ? writtenAnew(text, document, change) : null;
  if (anew !== null && holdsWanted(anew)) return { text: anew, laidOutAnew: true };
  throw new InputError(`${fileName}: ${whyNot(document, change.path)}`);
}

interface JsonStyle {
  readonly dense: boolean;
}

const isJson = (text: string): boolean => {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
};

const jsonStyle = (text: string): JsonStyle | null =>
  isJson(text) ? { dense: JSON.stringify(JSON.parse(text)) === text.trim() } : null;

/** How the value may be written, the dearest first: as typed. */
const valueLines = ({ data, verbatim }: TypedValue, json: JsonStyle | null): readonly string[] => {
  if (json !== null) return [jsonLine(data, json.dense)];
  return [...(verbatim === null ? [] : [verbatim]), yamlLine(data), yamlLineWithin(data)];
};

const keyText = (key: string | number, json: JsonStyle | null): string =>
  json === null && /^[A-Za-z_]\w*$|^\d[\d.]*[a-z]+$/.test(String(key))
    ? String(key)
    : JSON.stringify(String(key));

/** Replaces the value at a path, or adds it to the nearest group there is, with the groups between. */
function entered(
  text: string,
  document: Document,
  path: DataPath,
  valueLine: string,
  json: JsonStyle | null,
): readonly Splice[] | null {
  const [colon, eol] = [json?.dense ? ":" : ": ", /\r\n/.test(text) ? "\r\n" : "\n"];
  const pairOf = (key: string | number, line: string) => `${keyText(key, json)}${colon}${line}`;
  let line = valueLine;
  for (let depth = path.length; depth > 0; depth--) {
    const slot = slotAt(document, path.slice(0, depth));
    if (slot !== null) return replaceValue(text, slot, line);
    const key = path[depth - 1]!;
    const around = sourceCollection(document, path.slice(0, depth - 1));
    const entry = typeof key === "number" ? line : pairOf(key, line);
    if (around !== null) return addEntry(text, around, entry, eol, json?.dense === true);
    if (depth === 1 && isEmpty(document)) {
      const feed = text === "" || text.endsWith("\n") ? "" : eol;
      return [{ start: text.length, end: text.length, text: `${feed}${entry}${eol}` }];
    }
    line = typeof key === "number" ? `[${line}]` : `{${entry}}`;
  }
  return null;
}

/** Nothing but comments: a first key can be written below them. */
const isEmpty = ({ contents }: Document): boolean =>
  contents === null || (isScalar(contents) && contents.value === null && contents.source === "");

const removal = (text: string, document: Document, path: DataPath): readonly Splice[] | null => {
  const slot = slotAt(document, path);
  return slot === null ? null : removeEntry(text, slot);
};

/** The library's own writer: it keeps comments and most of the layout. Null where it cannot follow the path. */
function writtenAnew(text: string, document: Document, { path, value }: Change): string | null {
  if (!isNode(document.contents)) return null;
  const copy = document.clone();
  let written: string;
  try {
    if (value === null) copy.deleteIn(path);
    else copy.setIn(path, copy.createNode(value.data, { flow: true, aliasDuplicateObjects: false }));
    written = copy.toString({ lineWidth: 0, flowCollectionPadding: false });
  } catch {
    return null; // the way leads through an alias, or an alias would lose its anchor
  }
  return /\r\n/.test(text) ? written.replace(/\r?\n/g, "\r\n") : written;
}

function whyNot(document: Document, path: DataPath): string {
  const anchors: string[] = [];
  visit(document, { Alias: (_, { source }) => void anchors.push(source) });
  const key = showPath(path);
  return anchors.length > 0
    ? `${key} cannot be changed alone: the plan repeats a part of itself (anchor &${[...new Set(anchors)].join(", &")}), and what stands there would change with it; write the repeated part out where it is used first`
    : `${key} cannot be changed without moving something else; change it in an editor`;
}
