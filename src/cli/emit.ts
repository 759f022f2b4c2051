import type { Command } from "commander";
import { writeStdout } from "./terminal.ts";
import { writeFileWhole } from "./writeFile.ts";

export interface EmitOptions {
  readonly output?: string;
  readonly force?: boolean;
}

/** The two options of a command that emits data. */
export const withOutput = (command: Command): Command =>
  command.option("-o, --output <file>", "write to a file").option("--force", "replace a file that is there");

/** Data goes to stdout, or with `-o` to a file, whole or not at all. */
export async function emit(data: string, options: EmitOptions): Promise<void> {
  if (options.output === undefined) await writeStdout(data);
  else writeFileWhole(options.output, data, options.force === true);
}
