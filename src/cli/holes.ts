import type { Command } from "commander";
import { type EmitOptions, emit, withOutput } from "./emit.ts";
import { makeTerminal } from "./terminal.ts";

interface HolesOptions extends EmitOptions {
  readonly json?: boolean;
  readonly quiet?: boolean;
}

export function addHoles(program: Command): void {
  withOutput(program.command("holes"))
    .description("list every hole of every panel (CSV)")
    .argument("<plan>", "plan file, or - for standard input")
    .option("--json", "JSON in place of CSV, with panels, fidelity and what was left out")
    .action(async (path: string, _options: unknown, command: Command) => {
      const options = command.optsWithGlobals<HolesOptions>();
      const { scheduleCsv, scheduled, scheduleJson } = await import("./core.ts");
      const { schedule } = scheduled(path);
      const terminal = makeTerminal(options.quiet === true);
      for (const warning of schedule.warnings) terminal.warn(warning);
      await emit(options.json ? scheduleJson(schedule) : scheduleCsv(schedule.holes), options);
    });
}
