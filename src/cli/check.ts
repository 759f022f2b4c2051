import type { Command } from "commander";
import { UnbuildableError } from "../plan/errors.ts";
import { type EmitOptions, emit, withOutput } from "./emit.ts";
import { minutesUpTo, numberBetween } from "./options.ts";
import { makeTerminal } from "./terminal.ts";

interface CheckOptions extends EmitOptions {
  readonly faintest?: number;
  readonly free?: number;
  readonly json?: boolean;
  readonly quiet?: boolean;
}

/** An hour turns the sky by 15 degrees: beyond that it is another sky. */
const MOST_FREE_MIN = 60;

export function addCheck(program: Command): void {
  withOutput(program.command("check"))
    .description("is it buildable: counts, how true it is to the sky, warnings")
    .argument("<plan>", "plan file, or - for standard input")
    .option(
      "--faintest <magnitude>",
      "the strands and whole bundles that this sky asks for down to it",
      numberBetween(-30, 30, "a magnitude"),
    )
    .option(
      "--free <minutes>",
      "what each minute buys the brightest stars, if the moment may slip by so many, such as 15min",
      minutesUpTo(MOST_FREE_MIN),
    )
    .option("--json", "JSON in place of words")
    .action(async (path: string, _options: unknown, command: Command) => {
      const options = command.optsWithGlobals<CheckOptions>();
      const {
        askForStrands,
        buildJson,
        buildReport,
        checkReport,
        freeMoments,
        freeReport,
        markingFindings,
        validScheduled,
      } = await import("./core.ts");
      const { schedule, planned, setAside, sky } = await orReasonsAsJson(options, () => validScheduled(path));
      const { plan, civil, instantUtc, panels, fidelity } = schedule;
      // The plan can be built; it is the pictures that make would not draw.
      const refused = markingFindings(schedule).map(
        ({ code, message }) =>
          `${code === "marking-too-coarse" ? "marking.coarsest: " : ""}make would refuse a picture: ${message}`,
      );
      const warnings = [...schedule.warnings, ...refused];
      const order =
        options.faintest === undefined
          ? null
          : {
              faintestMag: options.faintest,
              order: askForStrands(plan, planned.field, options.faintest, setAside),
            };
      const free = options.free === undefined ? null : freeMoments(plan, sky, options.free);
      const built = buildReport(schedule);
      if (options.json) {
        const report = {
          buildable: true,
          civil,
          instantUtc,
          panels: panels.map(({ id, holeCount }) => ({ id, holes: holeCount })),
          ...buildJson(built),
          fidelity,
          ...(free ? { free } : {}),
          ...(order ? { asks: { faintestMag: order.faintestMag, ...order.order } } : {}),
          warnings,
        };
        await emit(`${JSON.stringify(report, null, 2)}\n`, options);
      } else {
        const report = checkReport(schedule, order, built);
        await emit(free ? `${report}\n${freeReport(free, plan)}` : report, options);
        const terminal = makeTerminal(options.quiet === true);
        for (const warning of warnings) terminal.warn(warning);
        terminal.say("Buildable.");
      }
    });
}

/** With --json the reasons against building are data too; they are told on stderr as well, by the exit. */
async function orReasonsAsJson<T>(options: CheckOptions, act: () => T): Promise<T> {
  try {
    return act();
  } catch (error) {
    if (options.json && error instanceof UnbuildableError) {
      await emit(`${JSON.stringify({ buildable: false, findings: error.findings }, null, 2)}\n`, options);
    }
    throw error;
  }
}
