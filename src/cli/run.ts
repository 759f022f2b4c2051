import { CommanderError } from "commander";
import { InputError, UnbuildableError } from "../plan/errors.ts";
import { makeProgram } from "./program.ts";
import { asInputError } from "./writeFile.ts";

const EXIT = { done: 0, unbuildable: 1, input: 2, ourFault: 70 } as const;

/** Runs one command line. @returns the exit code */
export async function run(args: readonly string[]): Promise<number> {
  const debug = args.includes("--debug");
  process.stderr.on("error", () => {}); // nobody reads the words: no reason to stop the work
  try {
    await makeProgram().parseAsync([...args], { from: "user" });
    return EXIT.done;
  } catch (error) {
    if (debug && !(error instanceof CommanderError))
      process.stderr.write(`${(error as Error)?.stack ?? String(error)}\n`);
    return explain(error);
  }
}

/** More lines than this help nobody. */
const MOST_LINES = 20;

function explain(thrown: unknown): number {
  const write = (text: string) => void process.stderr.write(`${text}\n`);
  const writeSome = (lines: readonly string[]) => {
    for (const line of lines.slice(0, MOST_LINES)) write(line);
    if (lines.length > MOST_LINES) write(`lacunar: and ${lines.length - MOST_LINES} more`);
  };
  const fault = thrown as NodeJS.ErrnoException | undefined;
  // A system's no that nobody caught on the way is still the system's.
  const error = asInputError(thrown, fault?.path ?? fault?.syscall ?? "the system");
  // commander has said its own words already; help and version are no faults.
  if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.done : EXIT.input;
  if (error instanceof InputError) {
    writeSome(error.problems.map((problem) => `lacunar: ${problem}`));
    return EXIT.input;
  }
  if (error instanceof UnbuildableError) {
    writeSome(error.findings.map((finding) => `lacunar: not buildable: ${finding.message}`));
    return EXIT.unbuildable;
  }
  write(`lacunar: a fault of Lacunar's own: ${(error as Error)?.message ?? String(error)}`);
  write("Run again with --debug for the trace, and report it with the plan file, please.");
  return EXIT.ourFault;
}
