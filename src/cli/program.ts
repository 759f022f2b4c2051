import { Command } from "commander";
import { addCheck } from "./check.ts";
import { addCompletion } from "./completion.ts";
import { addHoles } from "./holes.ts";
import { addInit } from "./init.ts";
import { addMake } from "./make.ts";
import { addNights } from "./nights.ts";
import { addPlaces } from "./places.ts";
import { addPreview } from "./preview.ts";
import { addSchema } from "./schema.ts";
import { addSet } from "./set.ts";
import { addStars } from "./stars.ts";
import { VERSION } from "./version.ts";

/** The command line, one verb a command. Heavy modules are loaded by the action that needs them. */
export function makeProgram(): Command {
  const program = new Command("lacunar")
    .description(
      "Plans fibre-optic star ceilings: from the sky of a night that matters to every hole of every panel.",
    )
    .version(VERSION)
    .option("--quiet", "no words on stderr but errors")
    .option("--debug", "show the trace of a fault")
    .showSuggestionAfterError(true)
    .configureOutput({ outputError: (text, write) => write(text.replace(/^error: /, "lacunar: ")) })
    .exitOverride();
  for (const add of [
    addInit,
    addCheck,
    addStars,
    addHoles,
    addPreview,
    addMake,
    addPlaces,
    addNights,
    addSet,
    addSchema,
    addCompletion,
  ])
    add(program);
  for (const command of program.commands) {
    command.copyInheritedSettings(program).allowExcessArguments(false);
  }
  return program;
}
