import { type Command, InvalidArgumentError } from "commander";
import { emit, withOutput } from "./emit.ts";
import type { SheetOptions } from "./nightsSheet.ts";
import { wholeBetween } from "./options.ts";
import { makeTerminal } from "./terminal.ts";

type Wall = "top" | "right" | "bottom" | "left";

interface NightsOptions extends SheetOptions {
  readonly around?: number;
  readonly wall?: Wall;
  readonly date?: string;
}

export function addNights(program: Command): void {
  withOutput(program.command("nights"))
    .description("darkness, Moon and planets around the moment; better moments near it")
    .argument("<plan>", "plan file, or - for standard input")
    .option(
      "--around <days>",
      "rank the nights so many days before and after, at the same clock time",
      wholeBetween(1, 400, "days"),
    )
    .option(
      "--wall <side>",
      "when a plumb line's shadow runs along the top, right, bottom or left wall, to check the bearing",
      (text): Wall => {
        if (text === "top" || text === "right" || text === "bottom" || text === "left") return text;
        throw new InvalidArgumentError(
          "Write top, right, bottom or left: the wall's side as seen from below.",
        );
      },
    )
    .option("--date <date>", "day for --wall, as 2024-06-20 (the plan's when not given)")
    .option(
      "--sheet <file>",
      "draw a proof sheet: twelve times of the night to choose from (PNG, WebP or AVIF)",
    )
    .option("--kinds", "the sheet is over eye and charts, spans and directions in place of times")
    .option("--json", "JSON in place of words")
    .action(async (path: string, _options: unknown, command: Command) => {
      const options = command.optsWithGlobals<NightsOptions>();
      if (options.sheet !== undefined || options.kinds) {
        const { nightsSheet } = await import("./nightsSheet.ts");
        await nightsSheet(path, options);
        return;
      }
      const [{ loadSkyData, locating, readPlanFile }, { planNights }, { nightsJson, nightsReport }] =
        await Promise.all([
          import("./core.ts"),
          import("../schedule/nights.ts"),
          import("../outputs/nightsReport.ts"),
        ]);
      const terminal = makeTerminal(options.quiet === true);
      const { plan, locate } = readPlanFile(path);
      const question = {
        ...(options.around === undefined ? {} : { aroundDays: options.around }),
        ...(options.wall === undefined ? {} : { wall: options.wall }),
        ...(options.date === undefined ? {} : { wallDate: options.date }),
      };
      const nights = locating(locate, () => planNights(plan, loadSkyData(), question));
      for (const notice of nights.notices) terminal.warn(notice);
      await emit(options.json ? nightsJson(nights) : nightsReport(nights), options);
    });
}
