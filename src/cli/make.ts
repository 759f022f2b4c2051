import { type Command, Option } from "commander";
import type { Dialect } from "../outputs/machine/gcode.ts";
import { fibreDiameter } from "./options.ts";
import { makeTerminal } from "./terminal.ts";
import { VERSION } from "./version.ts";
import { refuseForeign, writeFolderWhole } from "./writeFolder.ts";

interface MakeOptions {
  readonly output: string;
  readonly force?: boolean;
  readonly quiet?: boolean;
  readonly only?: number;
  readonly dialect: Dialect;
}

/** Those of `DIALECTS`, which loads with the writers. */
const DIALECT_NAMES: readonly Dialect[] = ["rs274", "plain"];

const PREVIEW_WIDTH_PX = 1600;

export function addMake(program: Command): void {
  program
    .command("make")
    .description("write everything the workshop needs into a folder, all at once or not at all")
    .argument("<plan>", "plan file, or - for standard input")
    .requiredOption("-o, --output <folder>", "folder to write; one that Lacunar made is replaced")
    .option("--force", "replace a folder that Lacunar did not make, or that was changed since")
    .option(
      "--only <diameter>",
      "in the pictures for a projector show the holes of this fibre alone, such as 0.75mm",
      fibreDiameter,
    )
    .addOption(
      new Option(
        "--dialect <name>",
        "drilling programs: rs274 (canned cycles, tool changes); plain adds plain moves, one file a bit",
      )
        .choices(DIALECT_NAMES)
        .default("rs274"),
    )
    .action(async (path: string, _options: unknown, command: Command) => {
      const options = command.optsWithGlobals<MakeOptions>();
      const terminal = makeTerminal(options.quiet === true);
      const force = options.force === true;
      refuseForeign(options.output, force, path);
      const [{ dataVersion, validScheduled }, { folderContent }] = await Promise.all([
        import("./core.ts"),
        import("./folderContent.ts"),
      ]);
      const { schedule, planned } = validScheduled(path);
      for (const warning of schedule.warnings) terminal.warn(warning);
      const content = await terminal.progress("drawing", () =>
        folderContent(schedule, planned.field.view, PREVIEW_WIDTH_PX, terminal, {
          onlyMm: options.only ?? null,
          dialect: options.dialect,
        }),
      );
      writeFolderWhole(options.output, content, { lacunar: VERSION, data: dataVersion() }, force, path);
      const { holes, panels } = schedule;
      terminal.say(
        `Wrote ${options.output}: ${holes.length} holes on ${panels.length} ${panels.length === 1 ? "panel" : "panels"}.`,
      );
    });
}
