import { CommanderError } from "commander";
import { InputError, UnbuildableError } from "../plan/errors.ts";
import { makeProgram } from "./program.ts";

const EXIT = { done: 0, unbuildable: 1, input: 2, ourFault: 70 } as const;

/** Runs one command line. @returns the exit code */
export async function run(args: readonly string[]): Promise<number> {
  const debug = args.includes("--debug");
  try {
    await makeProgram().parseAsync([...args], { from: "user" });
    return EXIT.done;
  } catch (error) {
    if (debug && !(error instanceof CommanderError))
      process.stderr.write(`${(error as Error)?.stack ?? String(error)}\n`);
    return explain(error);
  }
}

function explain(error: unknown): number {
  const write = (text: string) => void process.stderr.write(`${text}\n`);
  // commander has said its own words already; help and version are no faults.
  if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.done : EXIT.input;
  if (error instanceof InputError) {
    for (const problem of error.problems) write(`lacunar: ${problem}`);
    return EXIT.input;
  }
  if (error instanceof UnbuildableError) {
    for (const finding of error.findings) write(`lacunar: not buildable: ${finding.message}`);
    return EXIT.unbuildable;
  }
  write(`lacunar: a fault of Lacunar's own: ${(error as Error)?.message ?? String(error)}`);
  write("Run again with --debug for the trace, and report it with the plan file, please.");
  return EXIT.ourFault;
}
