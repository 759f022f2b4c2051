import type { Command } from "commander";
import { type EmitOptions, emit } from "./emit.ts";

export function addSchema(program: Command): void {
  program
    .command("schema")
    .description("print the JSON Schema of a plan file")
    .option("-o, --output <file>", "write to a file")
    .option("--force", "replace a file that is there")
    .action(async (_options: unknown, command: Command) => {
      const { planJsonSchema } = await import("../plan/jsonSchema.ts");
      await emit(`${JSON.stringify(planJsonSchema(), null, 2)}\n`, command.optsWithGlobals<EmitOptions>());
    });
}
