import type { Command } from "commander";
import { type EmitOptions, emit, withOutput } from "./emit.ts";
import { numberBetween } from "./options.ts";
import { makeTerminal } from "./terminal.ts";

interface StarsOptions extends EmitOptions {
  readonly faintest?: number;
  readonly json?: boolean;
  readonly quiet?: boolean;
}

export function addStars(program: Command): void {
  withOutput(program.command("stars"))
    .description("list every object over the ceiling, brightest first (CSV)")
    .argument("<plan>", "plan file, or - for standard input")
    .option(
      "--faintest <magnitude>",
      "only objects of V at or brighter than this",
      numberBetween(-30, 30, "a magnitude"),
    )
    .option("--json", "JSON in place of CSV")
    .action(async (path: string, _options: unknown, command: Command) => {
      const options = command.optsWithGlobals<StarsOptions>();
      const { listStars, loadSkyData, locating, planSky, readPlanFile, starsCsv } = await import("./core.ts");
      const { plan, locate } = readPlanFile(path);
      const sky = loadSkyData();
      const { field, moment } = locating(locate, () => planSky(plan, sky));
      for (const notice of moment.notices) makeTerminal(options.quiet === true).warn(notice);
      const stars = listStars(field, sky, options.faintest);
      await emit(options.json ? `${JSON.stringify({ stars })}\n` : starsCsv(stars), options);
    });
}
