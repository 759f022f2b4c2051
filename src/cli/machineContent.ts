import type { Dialect } from "../outputs/machine/gcode.ts";
import { machineFiles } from "../outputs/machine/machineFiles.ts";
import { sampleDxf } from "../outputs/machine/sampleDxf.ts";
import { preflightMachine } from "../outputs/preflight.ts";
import type { Hole, Schedule } from "../schedule/types.ts";

/**
 * What a drilling machine reads of all panels, by path, read back before it is handed on.
 * @param schedule one that `validScheduled` let pass: the bed takes every panel
 * @throws Error, a fault of ours, where an output and the schedule differ
 */
export function machineContent(schedule: Schedule, dialect: Dialect): Map<string, string> {
  const { plan, panels } = schedule;
  const byPanel = new Map<string, Hole[]>(panels.map(({ id }) => [id, []]));
  for (const hole of schedule.holes) byPanel.get(hole.panel)!.push(hole);
  const content = new Map([["sample.dxf", sampleDxf(plan)]]);
  for (const panel of panels) {
    const holes = byPanel.get(panel.id)!;
    const files = machineFiles(panel, holes, plan, dialect);
    const faults = preflightMachine(panel, holes, plan, files);
    if (faults.length > 0)
      throw new Error(`what was to be written breaks the schedule: ${faults.slice(0, 5).join("; ")}`);
    for (const [name, text] of files) content.set(`panels/${panel.id}/${name}`, text);
  }
  return content;
}
