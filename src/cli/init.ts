import { existsSync } from "node:fs";
import type { Command } from "commander";
import { InputError } from "../plan/errors.ts";
import { makeTerminal, writeStdout } from "./terminal.ts";
import { writeFileWhole } from "./writeFile.ts";

export function addInit(program: Command): void {
  program
    .command("init")
    .description("write a commented starter plan")
    .argument("<file>", "the plan file to write, or - for standard output")
    .option("--force", "replace a file that is there")
    .action(async (file: string, _options: unknown, command: Command) => {
      const { force, quiet } = command.optsWithGlobals<{ force?: boolean; quiet?: boolean }>();
      // A plan is somebody's work: unlike a result, it is never replaced unasked.
      if (file !== "-" && !force && existsSync(file))
        throw new InputError(`${file}: is there already; choose another name, or --force to replace it`);
      const { STARTER_PLAN } = await import("../plan/starter.ts");
      if (file === "-") return writeStdout(STARTER_PLAN);
      writeFileWhole(file, STARTER_PLAN, true);
      makeTerminal(quiet === true).say(`Wrote ${file}. Change what is yours, then: lacunar check ${file}`);
    });
}
