import { stringify } from "yaml";
import type { Plan } from "../plan/plan.ts";

/** The plan with every default written out; reading it again gives the same plan. */
export const planYaml = (plan: Plan): string =>
  `# Every default is written out. Lengths are millimetres, angles degrees, right ascension hours, elevation metres.\n${stringify(plan, { lineWidth: 0 })}`;
