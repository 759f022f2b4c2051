import type { Schedule } from "../schedule/types.ts";

/** schedule.json: one line for each hole, panel and object left out, so that two versions can be compared line by line. */
export function scheduleJson(schedule: Schedule): string {
  const lines = (items: readonly unknown[]) =>
    items.length === 0 ? "[]" : `[\n${items.map((item) => JSON.stringify(item)).join(",\n")}\n]`;
  const { lacunar, plan, civil, instantUtc, panels, holes, left, fidelity, warnings } = schedule;
  const parts: [string, string][] = [
    ["lacunar", JSON.stringify(lacunar)],
    ["plan", JSON.stringify(plan)],
    ["civil", JSON.stringify(civil)],
    ["instantUtc", JSON.stringify(instantUtc)],
    ["panels", lines(panels)],
    ["holes", lines(holes)],
    ["left", lines(left)],
    ["fidelity", JSON.stringify(fidelity)],
    ["warnings", lines(warnings)],
  ];
  return `{\n${parts.map(([key, value]) => `${JSON.stringify(key)}: ${value}`).join(",\n")}\n}\n`;
}
