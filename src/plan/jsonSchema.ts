import { toJSONSchema } from "zod";
import { planSchema } from "./schema.ts";

/** JSON Schema (draft 2020-12) of the plan file, as a person writes it. */
export const planJsonSchema = (): unknown =>
  toJSONSchema(planSchema, { io: "input", unrepresentable: "any" });
