import { type CST, isSeq, type YAMLMap, type YAMLSeq } from "yaml";
import {
  blockTextStart,
  isBlank,
  isBlankOrComment,
  itemEnd,
  itemStart,
  lineEnd,
  lineStart,
  nextLine,
  realItems,
  type Slot,
  type Splice,
} from "./sourceTokens.ts";

type Collection = CST.BlockMap | CST.BlockSequence | CST.FlowCollection;

/**
 * The splices that add an entry at the end of a map or list, in its own layout.
 * @param entry  one line: `key: value`, or the value alone for a list
 * @param eol    how lines of the text end
 * @param dense  no space after a comma
 */
export function addEntry(
  text: string,
  { node, collection }: { readonly node: YAMLMap | YAMLSeq; readonly collection: Collection },
  entry: string,
  eol: string,
  dense: boolean,
): readonly Splice[] {
  const last = realItems(collection).at(-1);
  if (collection.type === "flow-collection") return addToFlow(text, collection, last, entry, eol, dense);
  const first = realItems(collection)[0]!;
  const indent = " ".repeat(columnOf(text, itemStart(first)));
  const line = `${indent}${isSeq(node) ? "- " : ""}${entry}`;
  const value = last!.value;
  if (value?.type === "block-scalar") {
    const end = blockTextStart(value) + value.source.length;
    return [{ start: end, end, text: text[end - 1] === "\n" ? `${line}${eol}` : `${eol}${line}` }];
  }
  const end = lineEnd(text, itemEnd(last!));
  return [{ start: end, end, text: `${eol}${line}` }];
}

const columnOf = (text: string, offset: number): number => offset - lineStart(text, offset);

function addToFlow(
  text: string,
  collection: CST.FlowCollection,
  last: ReturnType<typeof realItems>[number] | undefined,
  entry: string,
  eol: string,
  dense: boolean,
): readonly Splice[] {
  const open = collection.start.offset + collection.start.source.length;
  if (last === undefined) return [{ start: open, end: open, text: entry }];
  const end = itemEnd(last);
  const begin = itemStart(last);
  const lead = text.slice(lineStart(text, begin), begin);
  const close = collection.end.find(({ type }) => type === "flow-map-end" || type === "flow-seq-end")!.offset;
  const lastLineEnd = lineEnd(text, end);
  const comma = commaAfter(collection, end);
  if (!isBlank(lead) || close < lastLineEnd) {
    const at = comma === null ? end : comma + 1;
    return [{ start: at, end: at, text: comma === null ? `,${dense ? "" : " "}${entry}` : ` ${entry},` }];
  }
  return [
    ...(comma === null ? [{ start: end, end, text: "," }] : []),
    { start: lastLineEnd, end: lastLineEnd, text: `${eol}${lead}${entry}${comma === null ? "" : ","}` },
  ];
}

function commaAfter(collection: CST.FlowCollection, offset: number): number | null {
  const tokens = collection.items.flatMap((item) => item.start);
  return tokens.find((token) => token.type === "comma" && token.offset >= offset)?.offset ?? null;
}

/** The splices that take an entry out, with its line and the comment at its end; null when nothing else would be left. */
export function removeEntry(
  text: string,
  { collection, items, index, item }: Slot,
): readonly Splice[] | null {
  if (items.length === 1) return null;
  const start = itemStart(item);
  const end = itemEnd(item);
  const line = lineStart(text, start);
  const isFirstOfLine = isBlank(text.slice(line, start));
  if (collection.type !== "flow-collection") {
    // The first key of an entry of a list stands behind the entry's dash.
    if (!isFirstOfLine) return [{ start, end: itemStart(items[index + 1]!), text: "" }];
    const next = nextLine(text, end);
    return [wholeLines(text, line, next)];
  }
  const after = commaAfter(collection, end);
  if (after !== null) {
    const rest = lineEnd(text, after);
    if (isFirstOfLine && isBlankOrComment(text.slice(after + 1, rest)))
      return [wholeLines(text, line, nextLine(text, after))];
    const space = /^[ \t]*/.exec(text.slice(after + 1, rest))![0].length;
    return [{ start, end: after + 1 + space, text: "" }];
  }
  const previousEnd = itemEnd(items[index - 1]!);
  const comma = item.start.find(({ type }) => type === "comma")!.offset;
  if (!isFirstOfLine) return [{ start: previousEnd, end, text: "" }];
  const isAlone = isBlankOrComment(text.slice(end, lineEnd(text, end)));
  const before = lineEnd(text, lineStart(text, line - 1));
  // The bracket that closes moves up, unless a comment would swallow it.
  const movesUp = comma < before && isBlank(text.slice(comma + 1, before));
  return [
    { start: comma, end: comma + 1, text: "" },
    isAlone
      ? wholeLines(text, line, nextLine(text, end))
      : { start: movesUp ? before : start, end, text: "" },
  ];
}

/** Lines without which the text still ends as it did: with a line end or without. */
function wholeLines(text: string, start: number, next: number): Splice {
  const isLastWithoutEnd = next === text.length && !text.endsWith("\n") && start > 0;
  if (!isLastWithoutEnd) return { start, end: next, text: "" };
  return { start: lineEnd(text, lineStart(text, start - 1)), end: next, text: "" };
}
