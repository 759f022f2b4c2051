import { type CST, type Document, isMap, isScalar, isSeq, type YAMLMap, type YAMLSeq } from "yaml";

/** A change of a text: what stands from `start` to `end` becomes `text`. */
export interface Splice {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** Splices must not overlap; offsets are those of the text before any of them. Of two at one place the first comes first. */
export const spliced = (text: string, splices: readonly Splice[]): string =>
  [...splices]
    .sort((a, b) => a.start - b.start)
    .reduceRight((now, { start, end, text: next }) => now.slice(0, start) + next + now.slice(end), text);

type Collection = CST.BlockMap | CST.BlockSequence | CST.FlowCollection;
export type Item = Collection["items"][number];

/** Where a value stands: the entry of a map or list in the source, and the collection around it. */
export interface Slot {
  readonly collection: Collection;
  readonly items: readonly Item[];
  readonly index: number;
  readonly item: Item;
}

const collectionOf = (node: unknown): Collection | null => {
  const token = (isMap(node) || isSeq(node) ? node.srcToken : undefined) as Collection | undefined;
  return token ?? null;
};

const keyOf = (key: unknown): string => String(isScalar(key) ? key.value : key);

/** The node at a path, or undefined; an alias ends the way, since what it stands for is written elsewhere. */
function nodeAt(document: Document, path: readonly (string | number)[]): unknown {
  let node: unknown = document.contents;
  for (const step of path) {
    if (isMap(node)) node = node.items.find((pair) => keyOf(pair.key) === String(step))?.value;
    else if (isSeq(node)) node = node.items[Number(step)];
    else return undefined;
  }
  return node;
}

/** The map or list at a path as it stands in the source; null where there is none. */
export function sourceCollection(
  document: Document,
  path: readonly (string | number)[],
): { readonly node: YAMLMap | YAMLSeq; readonly collection: Collection } | null {
  const node = nodeAt(document, path);
  const collection = collectionOf(node);
  return collection === null ? null : { node: node as YAMLMap | YAMLSeq, collection };
}

/** Where the last step of a path stands in the source; null where it is not written. */
export function slotAt(document: Document, path: readonly (string | number)[]): Slot | null {
  const around = sourceCollection(document, path.slice(0, -1));
  const step = path[path.length - 1]!;
  if (around === null) return null;
  const index = isMap(around.node)
    ? around.node.items.findIndex((pair) => keyOf(pair.key) === String(step))
    : Number(step);
  // Source entries run along with the nodes; what trails them (a last comma, a last comment) comes after.
  const items = realItems(around.collection);
  const item = items[index];
  return item === undefined ? null : { collection: around.collection, items, index, item };
}

/** Entries that hold something: neither the comments after the last one nor what follows its comma. */
export const realItems = (collection: Collection): Item[] =>
  (collection.items as Item[]).filter(
    (item) =>
      (item.key ?? undefined) !== undefined ||
      item.value !== undefined ||
      item.sep !== undefined ||
      item.start.some(({ type }) => type === "seq-item-ind" || type === "explicit-key-ind"),
  );

const isFiller = ({ type }: CST.SourceToken): boolean =>
  type === "space" || type === "comment" || type === "newline" || type === "comma";

/** The first token of an entry that is no comma, space or comment. */
export function itemStart(item: Item): number {
  const first = item.start.find((token) => !isFiller(token)) ?? item.key ?? item.sep?.[0] ?? item.value;
  return first!.offset;
}

/** Offset after the last character of an entry's content: line ends and comments that follow do not belong. */
export function itemEnd(item: Item): number {
  if (item.value !== undefined && item.value !== null) return tokenEnd(item.value);
  const tokens = [...item.start, ...(item.sep ?? [])].filter((token) => !isFiller(token));
  const ends = tokens.map((token) => token.offset + token.source.length);
  if (item.key) ends.push(tokenEnd(item.key));
  return Math.max(...ends);
}

/** Offset after the last character of a token's content; of a block of text without its last line end. */
export function tokenEnd(token: CST.Token): number {
  switch (token.type) {
    case "block-map":
    case "block-seq":
      return itemEnd(realItems(token).at(-1)!);
    case "flow-collection": {
      const close = token.end.find(({ type }) => type === "flow-map-end" || type === "flow-seq-end");
      return close!.offset + close!.source.length;
    }
    case "block-scalar":
      return blockTextStart(token) + token.source.replace(/[\r\n]+$/, "").length;
    default:
      return token.offset + ("source" in token ? token.source.length : 0);
  }
}

/** Where the lines of a block of text begin, after its header. */
export function blockTextStart(token: CST.BlockScalar): number {
  const last = token.props.at(-1) as CST.SourceToken;
  return last.offset + last.source.length;
}

export const lineStart = (text: string, offset: number): number =>
  offset === 0 ? 0 : text.lastIndexOf("\n", offset - 1) + 1;

/** Offset of the line end (of its CR, if it has one), or of the end of the text. */
export function lineEnd(text: string, offset: number): number {
  const feed = text.indexOf("\n", offset);
  if (feed < 0) return text.length;
  return text[feed - 1] === "\r" && feed - 1 >= offset ? feed - 1 : feed;
}

/** Offset after the line end. */
export function nextLine(text: string, offset: number): number {
  const feed = text.indexOf("\n", offset);
  return feed < 0 ? text.length : feed + 1;
}

export const isBlank = (text: string): boolean => /^[ \t\r\n]*$/.test(text);

/** Nothing but space and perhaps a comment. */
export const isBlankOrComment = (text: string): boolean => /^[ \t\r]*(#.*)?$/s.test(text);
