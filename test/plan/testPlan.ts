import type { Plan } from "../../src/plan/plan.ts";
import { readPlan } from "../../src/plan/read.ts";

/** A small chapel ceiling of our own, by default: one panel, a chart, a moment that needs no zone. */
export const BASE_PLAN = {
  lacunar: 1,
  moment: "2004-02-29T23:30Z",
  place: { latitude: 41.15, longitude: -8.61 },
  view: { kind: "chart", span: 120 },
  ceiling: { width: 2400, length: 1800 },
  panels: { columns: 1, rows: 1 },
  fibre: { bundles: { count: 2, strands: { "0.5mm": 80, "0.75mm": 14, "1mm": 5, "1.5mm": 1 } } },
} as const;

/** A plan from the base with keys replaced, read the way a file is. */
export const planWith = (changes: Record<string, unknown> = {}): Plan =>
  readPlan(JSON.stringify({ ...BASE_PLAN, ...changes }), "test.json");
