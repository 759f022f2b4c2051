import { writeStdout } from "./terminal.ts";
import { writeFileWhole } from "./writeFile.ts";

export interface EmitOptions {
  readonly output?: string;
  readonly force?: boolean;
}

/** Data goes to stdout, or with `-o` to a file, whole or not at all. */
export async function emit(data: string, options: EmitOptions): Promise<void> {
  if (options.output === undefined) await writeStdout(data);
  else writeFileWhole(options.output, data, options.force === true);
}
