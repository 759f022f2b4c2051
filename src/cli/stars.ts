import type { Command } from "commander";
import { InputError } from "../plan/errors.ts";
import { type EmitOptions, emit, withOutput } from "./emit.ts";
import { numberBetween } from "./options.ts";
import { makeTerminal } from "./terminal.ts";

interface StarsOptions extends EmitOptions {
  readonly faintest?: number;
  readonly find?: string;
  readonly json?: boolean;
  readonly quiet?: boolean;
}

export function addStars(program: Command): void {
  withOutput(program.command("stars"))
    .description("list every object over the ceiling, brightest first (CSV); or look a name up")
    .argument("[plan]", "plan file, or - for standard input; --find does without one")
    .option(
      "--faintest <magnitude>",
      "only objects of V at or brighter than this",
      numberBetween(-30, 30, "a magnitude"),
    )
    .option(
      "--find <text>",
      "look up a star, constellation or planet: name, designation, HIP number, code; with a plan, where it stands",
    )
    .option("--json", "JSON in place of CSV")
    .action(async (path: string | undefined, _options: unknown, command: Command) => {
      const options = command.optsWithGlobals<StarsOptions>();
      if (options.find !== undefined) return find(options.find, path, options);
      if (path === undefined)
        throw new InputError("name a plan file, or look a name up: lacunar stars --find Vega");
      const { listStars, loadSkyData, locating, planSky, readPlanFile, starsCsv } = await import("./core.ts");
      const { plan, locate } = readPlanFile(path);
      const sky = loadSkyData();
      const { field, moment } = locating(locate, () => planSky(plan, sky));
      for (const notice of moment.notices) makeTerminal(options.quiet === true).warn(notice);
      const stars = listStars(field, sky, options.faintest);
      await emit(options.json ? `${JSON.stringify({ stars })}\n` : starsCsv(stars), options);
    });
}

async function find(text: string, path: string | undefined, options: StarsOptions): Promise<void> {
  if (options.faintest !== undefined)
    throw new InputError("--find looks one name up, --faintest thins a list out: use one of them");
  if (text.trim() === "") throw new InputError("--find: the name is empty; write one such as Vega or Cru");
  const [{ loadSkyData, locating, readPlanFile }, { findInSky }, { foundJson, foundReport }] =
    await Promise.all([
      import("./core.ts"),
      import("../schedule/find.ts"),
      import("../outputs/foundReport.ts"),
    ]);
  const sky = loadSkyData();
  const read = path === undefined ? null : readPlanFile(path);
  const found =
    read === null ? findInSky(text, sky) : locating(read.locate, () => findInSky(text, sky, read.plan));
  const terminal = makeTerminal(options.quiet === true);
  for (const notice of found.notices) terminal.warn(notice);
  if (found.beginsSo)
    terminal.say(`Nothing is called ${JSON.stringify(text)}; what follows has a word that begins so.`);
  await emit(options.json ? foundJson(found) : foundReport(found), options);
}
