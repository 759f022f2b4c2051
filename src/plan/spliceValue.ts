import type { CST } from "yaml";
import {
  blockTextStart,
  isBlank,
  lineEnd,
  lineStart,
  type Slot,
  type Splice,
  tokenEnd,
} from "./sourceTokens.ts";

/**
 * The splices that give a written entry another value. What stands before it (an anchor, a tag) goes with the old value;
 * comments at the ends of lines stay.
 * @param valueText  one line
 */
export function replaceValue(text: string, { item }: Slot, valueText: string): readonly Splice[] {
  const before: readonly CST.SourceToken[] = item.sep ?? item.start;
  const indicator = before.find(({ type }) => type === "map-value-ind" || type === "seq-item-ind");
  const value = item.value ?? undefined;
  const prop = before.find(({ type }) => type === "anchor" || type === "tag");

  if (value === undefined) {
    const after = prop ?? indicator;
    if (after === undefined) {
      const end = tokenEnd(item.key!); // `{title}`: a key without so much as a colon
      return [{ start: end, end, text: `: ${valueText}` }];
    }
    if (prop !== undefined) {
      const last = before.findLast(({ type }) => type === "anchor" || type === "tag")!;
      return [{ start: prop.offset, end: last.offset + last.source.length, text: valueText }];
    }
    const end = after.offset + after.source.length;
    return [{ start: end, end, text: ` ${valueText}` }];
  }

  const start = prop?.offset ?? value.offset;
  if (value.type === "block-scalar") {
    // The header's comment stays at the end of the line, and so do the empty lines below.
    const header = value.props.filter(({ type }) => type !== "newline") as readonly CST.SourceToken[];
    const comment = header.findIndex(({ type }) => type === "comment");
    const kept =
      comment < 0 ? [] : header.slice(header[comment - 1]?.type === "space" ? comment - 1 : comment);
    const keptText = kept.map(({ source }) => source).join("");
    const end = tokenEnd(value);
    const isEmpty = isBlank(text.slice(blockTextStart(value), end));
    return [{ start, end: isEmpty ? lineEnd(text, start) : end, text: valueText + keptText }];
  }
  if (value.type !== "block-map" && value.type !== "block-seq")
    return [{ start, end: tokenEnd(value), text: valueText }];

  // A block goes with its comments; the new value stands on the line of the key.
  const end = lineEnd(text, tokenEnd(value));
  const startsBelow = before.some(({ type }) => type === "newline");
  if (!startsBelow || indicator === undefined) return [{ start, end, text: valueText }];
  const after = indicator.offset + indicator.source.length;
  const feed = lineEnd(text, after);
  // From an anchor or tag on the key's own line only the comment is left.
  const comment = before.find(({ type, offset }) => type === "comment" && offset < feed);
  const propEnd = prop !== undefined && prop.offset < feed ? propsEnd(before, feed) : after;
  return [
    { start: after, end: propEnd, text: ` ${valueText}` },
    { start: comment === undefined ? Math.max(propEnd, lineStart(text, feed)) : feed, end, text: "" },
  ];
}

function propsEnd(tokens: readonly CST.SourceToken[], before: number): number {
  const last = tokens.findLast(
    ({ type, offset }) => (type === "anchor" || type === "tag") && offset < before,
  )!;
  return last.offset + last.source.length;
}
