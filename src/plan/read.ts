import { type Document, isMap, isPair, isScalar, LineCounter, type Node, parseDocument, visit } from "yaml";
import { describeIssue, type Problem, showPath } from "./describeIssue.ts";
import { InputError } from "./errors.ts";
import { fillPlan, type PlaceLookUp } from "./fill.ts";
import type { Plan } from "./plan.ts";
import { planSchema } from "./schema.ts";

/** A plan is a page or two; anything far larger is some other file. */
const LARGEST_TEXT = 2_000_000;

/** To find where each of thousands stands would take minutes; so many are told, and their number. */
const MOST_PROBLEMS = 200;

/**
 * Reads the text of a plan file.
 * @param text      YAML 1.2 or JSON
 * @param fileName  how messages name the file
 * @param lookUp    finds a place that is given by name; without it such a plan is refused
 * @returns the plan with every default filled in
 * @throws InputError with one sentence a problem, each with file, line, column and key; UnbuildableError for a plan without such
 *         problems whose room cannot be, measured as it is
 */
export const readPlan = (text: string, fileName: string, lookUp?: PlaceLookUp): Plan =>
  readPlanText(text, fileName, lookUp).plan;

export interface PlanText {
  readonly plan: Plan;
  /** `file:line:column` of a key such as `view.aim.star`, or of the nearest group around it. */
  readonly locate: (key: string) => string;
}

/** The text as the YAML library and as plain data see it, before anything is asked of a plan. */
export interface ParsedText {
  readonly document: Document;
  readonly data: unknown;
  /** `file:line:column` of an offset. */
  readonly at: (offset: number) => string;
}

/**
 * Parses the text of a plan file, whatever it says.
 * @throws InputError if it is no YAML, several documents, or beyond all measure
 */
export function parsePlanText(text: string, fileName: string, keepSourceTokens = false): ParsedText {
  if (text.length > LARGEST_TEXT) throw new InputError(`${fileName}: too large for a plan file (over 2 MB)`);
  const lines = new LineCounter();
  const document = parsedOrRefused(text, fileName, {
    lineCounter: lines,
    prettyErrors: false,
    logLevel: "error",
    version: "1.2",
    keepSourceTokens,
  });
  const at = (offset: number): string => {
    const { line, col } = lines.linePos(offset);
    return `${fileName}:${line}:${col}`;
  };

  const fault = document.errors[0] ?? document.warnings[0];
  if (fault)
    throw new InputError(`${at(fault.pos[0])}: not readable as YAML: ${yamlSentence(fault.message)}`);

  const proto = protoKey(document);
  if (proto !== null) throw new InputError(`${at(proto)}: __proto__: unknown key`);
  try {
    return { document, data: document.toJS({ maxAliasCount: 100 }), at };
  } catch (cause) {
    throw new InputError(`${fileName}: not readable as YAML: its aliases lead nowhere or without end`, {
      cause,
    });
  }
}

/** As `readPlan`, and tells later where a key stands, for what only later stages can judge. */
export function readPlanText(text: string, fileName: string, lookUp?: PlaceLookUp): PlanText {
  const { document, data, at } = parsePlanText(text, fileName);
  if (data === null || typeof data !== "object" || Array.isArray(data)) {
    throw new InputError(
      `${fileName}:1:1: not a plan; a plan is a group of keys such as \`moment\`, \`place\`, \`view\`, \`ceiling\`, \`panels\` and \`fibre\``,
    );
  }

  const problemLines = (problems: readonly Problem[]): string[] => {
    const told = problems
      .slice(0, MOST_PROBLEMS)
      .map((problem) => ({ problem, offset: offsetOf(document, problem) }))
      .sort((a, b) => a.offset - b.offset)
      .map(
        ({ problem, offset }) =>
          `${at(offset)}: ${problem.path.length > 0 ? `${showPath(problem.path)}: ` : ""}${problem.message}`,
      );
    return problems.length > told.length
      ? [...told, `${fileName}: ${problems.length} problems in all`]
      : told;
  };

  const parsed = planSchema.safeParse(data);
  if (!parsed.success) {
    throw new InputError(
      problemLines(withoutEchoes(parsed.error.issues.flatMap((issue) => describeIssue(issue, data)))),
    );
  }
  const filled = fillPlan(parsed.data, lookUp);
  if ("problems" in filled) throw new InputError(problemLines(filled.problems));
  const locate = (key: string) => at(offsetOf(document, { path: key.split("."), atKey: false, message: "" }));
  return { plan: filled.plan, locate };
}

/** A key written wrong is also missing under its right name: that echo is not told. */
function withoutEchoes(problems: readonly Problem[]): readonly Problem[] {
  const parent = (problem: Problem) => showPath(problem.path.slice(0, -1));
  const strayIn = new Set(problems.filter((problem) => problem.atKey).map(parent));
  return problems.filter(
    (problem) => !(problem.message.startsWith("missing; ") && strayIn.has(parent(problem))),
  );
}

function parsedOrRefused(
  text: string,
  fileName: string,
  options: Parameters<typeof parseDocument>[1],
): Document {
  try {
    return parseDocument(text, options) as Document;
  } catch (cause) {
    if (!(cause instanceof RangeError)) throw cause;
    throw new InputError(`${fileName}: not a plan: groups within groups beyond all measure`, { cause });
  }
}

/** The library's sentence, in words that need no knowledge of the library. */
export const yamlSentence = (message: string): string =>
  /multiple documents/i.test(message)
    ? "several documents in one file; keep one"
    : /call stack/i.test(message)
      ? "groups within groups beyond all measure"
      : message.split("\n")[0]!.replace(/:$/, "");

/** How a key that JavaScript keeps for itself got into the text; null when none did. */
function protoKey(document: Document): number | null {
  let offset: number | null = null;
  visit(document, {
    Pair(_, pair) {
      if (!isScalar(pair.key) || pair.key.value !== "__proto__") return undefined;
      offset = startOf(pair.key) ?? 0;
      return visit.BREAK;
    },
  });
  return offset;
}

/** Where in the text a problem stands: its value, its key, or the nearest parent that exists. */
function offsetOf(document: Document, problem: Problem): number {
  let node: unknown = document.contents;
  let offset = startOf(node) ?? 0;
  for (const [depth, key] of problem.path.entries()) {
    const last = depth === problem.path.length - 1;
    if (isMap(node)) {
      const pair = node.items.find(
        (item) => isPair(item) && String(isScalar(item.key) ? item.key.value : item.key) === String(key),
      );
      if (!pair) return offset;
      offset = (last && problem.atKey ? undefined : startOf(pair.value)) ?? startOf(pair.key) ?? offset;
      node = pair.value;
    } else {
      node = document.getIn(problem.path.slice(0, depth + 1), true);
      offset = startOf(node) ?? offset;
    }
  }
  return offset;
}

const startOf = (node: unknown): number | undefined => (node as Node | null | undefined)?.range?.[0];
