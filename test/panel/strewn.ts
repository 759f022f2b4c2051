import { scheduleFrom } from "../../src/schedule/makeSchedule.ts";
import type { Schedule } from "../../src/schedule/types.ts";
import { BASE_PLAN, planWith } from "../plan/testPlan.ts";
import { testSky } from "../sky/testSky.ts";
import { strewnSky } from "./randomLayouts.ts";

const CEILING = { width: 2400, length: 1800 };
const shared = { ceiling: CEILING, fibre: { ...BASE_PLAN.fibre, sharing: "ceiling" }, drawnAs: "fromBelow" };

/** The base plan with keys replaced, under 300 stars strewn over it. */
export const scheduled = (changes: Record<string, unknown>): Schedule =>
  scheduleFrom(planWith({ ...shared, ...changes }), testSky(), strewnSky(5, 300, CEILING));

/** What is said of such a plan that cannot be, the kind of error first; nothing for one that can. */
export const refused = (changes: Record<string, unknown>): string => {
  try {
    scheduled(changes);
  } catch (error) {
    if (error instanceof Error) return `${error.name} ${error.message}`;
  }
  return "";
};
