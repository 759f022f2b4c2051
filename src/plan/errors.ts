/** Unusable input: a file, an option or a word that cannot be what was meant. The command line exits with 2. */
export class InputError extends Error {
  override readonly name = "InputError";
  /** One sentence a problem; the message is all of them, a line each. */
  readonly problems: readonly string[];
  /** The plan's key that a later stage found wanting, such as `view.aim.star`: whoever read the file knows its line. */
  readonly key: string | undefined;

  constructor(problems: string | readonly string[], options?: ErrorOptions & { key?: string }) {
    const list = typeof problems === "string" ? [problems] : problems;
    super(list.join("\n"), options);
    this.problems = list;
    this.key = options?.key;
  }
}

/** A plan's value that only a later stage can judge. */
export const keyError = (key: string, message: string, cause?: unknown): InputError =>
  new InputError(`${key}: ${message}`, cause === undefined ? { key } : { key, cause });

/** A reason why a well-formed plan cannot be built, with a stable code to filter and test on. */
export interface Finding {
  readonly code: string;
  readonly message: string;
}

/** A valid plan that geometry or stock cannot meet: every reason is listed. The command line exits with 1. */
export class UnbuildableError extends Error {
  override readonly name = "UnbuildableError";
  readonly findings: readonly Finding[];

  constructor(findings: readonly Finding[]) {
    super(findings.map((finding) => finding.message).join("\n"));
    this.findings = findings;
  }
}
