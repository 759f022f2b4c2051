import type { Command } from "commander";
import { type EmitOptions, emit, withOutput } from "./emit.ts";

export function addSchema(program: Command): void {
  withOutput(program.command("schema"))
    .description("print the JSON Schema of a plan file")
    .action(async (_options: unknown, command: Command) => {
      const { planJsonSchema } = await import("../plan/jsonSchema.ts");
      await emit(`${JSON.stringify(planJsonSchema(), null, 2)}\n`, command.optsWithGlobals<EmitOptions>());
    });
}
