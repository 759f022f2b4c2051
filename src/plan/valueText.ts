import { Document, parseDocument, visit } from "yaml";
import { InputError } from "./errors.ts";
import { yamlSentence } from "./read.ts";

export interface TypedValue {
  readonly data: unknown;
  /** As typed, where it may stand in a YAML text like that; null where only its data may. */
  readonly verbatim: string | null;
}

/**
 * Reads a value as it is typed on a command line: YAML 1.2.
 * @throws InputError for what is no YAML, and for what holds a comment: the words after # would be lost unsaid
 */
export function readTypedValue(typed: string, key: string): TypedValue {
  const shown = typed.length > 60 ? `${typed.slice(0, 59)}…` : typed;
  const fail = (why: string, cause?: unknown): never => {
    throw new InputError(`${key}: ${JSON.stringify(shown)} ${why}`, { cause });
  };
  const quoted = `in double quotes of their own: ${JSON.stringify(shown)}`;
  if (/^\uFEFF/.test(typed)) return fail("begins with a byte order mark; leave it out");
  if (typed.length > LONGEST_VALUE) return fail("is too long for a value of a plan");
  if (isFarTooDeep(typed)) return fail("is nested beyond all measure");
  const document = parsed(typed);
  const fault = document.errors[0] ?? document.warnings[0];
  if (fault) {
    return fail(
      `is not readable as YAML: ${yamlSentence(fault.message)}; put words that are no YAML ${quoted}`,
    );
  }
  let isPlain = true;
  let hasComment = Boolean(document.comment || document.commentBefore);
  visit(document, {
    Alias: () => fail("is an alias: the anchor it stands for is not part of the value"),
    Node(_, node) {
      if (node.comment || node.commentBefore) hasComment = true;
      if (node.tag !== undefined || ("anchor" in node && node.anchor)) isPlain = false;
    },
    Pair(_, { key: name }) {
      if (String(name) === "__proto__") fail("holds the key __proto__, which no plan has");
    },
  });
  if (hasComment)
    return fail(`holds a comment from its # on; if the # is part of the words, put them ${quoted}`);
  const verbatim = isPlain && !/[\r\n]/.test(typed.trim()) && typed.trim() !== "" ? typed.trim() : null;
  return { data: document.toJS(), verbatim };
}

/** A plan is five groups deep; a parser that calls itself a thousand times over may end the whole program. */
function isFarTooDeep(text: string): boolean {
  let depth = 0;
  for (const sign of text) {
    if (sign === "[" || sign === "{") depth++;
    else if ((sign === "]" || sign === "}") && depth > 0) depth--;
    if (depth > MOST_DEPTH) return true;
  }
  return (
    new RegExp(`(?:[-?:] +){${MOST_DEPTH},}`).test(text) ||
    new RegExp(`^ {${10 * MOST_DEPTH},}`, "m").test(text)
  );
}

const MOST_DEPTH = 50;

/** Hundreds of panels fit into it. */
const LONGEST_VALUE = 200_000;

const parsed = (text: string): Document =>
  parseDocument(text, { version: "1.2", prettyErrors: false, logLevel: "error" }) as Document;

/** Data on one line of YAML, groups and lists in brackets. */
export function yamlLine(data: unknown): string {
  const document = new Document(data ?? null, { version: "1.2", aliasDuplicateObjects: false });
  visit(document, {
    Collection(_, node) {
      node.flow = true;
    },
  });
  return document
    .toString({ lineWidth: 0, blockQuote: false, flowCollectionPadding: false })
    .trim()
    .replace(/\n\s*/g, " ");
}

/** As `yamlLine`, with quotes where commas or brackets would end the words within a group. */
export const yamlLineWithin = (data: unknown): string => yamlLine([data]).slice(1, -1).trim();

/** Data on one line of JSON. @param dense  without a space anywhere */
export function jsonLine(data: unknown, dense: boolean): string {
  if (dense || data === null || typeof data !== "object") return JSON.stringify(data);
  if (Array.isArray(data)) return `[${data.map((each) => jsonLine(each, false)).join(", ")}]`;
  const pairs = Object.entries(data).map(
    ([key, value]) => `${JSON.stringify(key)}: ${jsonLine(value, false)}`,
  );
  return `{${pairs.join(", ")}}`;
}

/** For a sentence: cut where it would fill the line. */
export function shownValue(data: unknown): string {
  if (data === undefined) return "(left out)";
  const line = yamlLine(data);
  return line.length > 100 ? `${line.slice(0, 99)}…` : line;
}
