import type { Dialect } from "../outputs/machine/gcode.ts";
import { machineFiles } from "../outputs/machine/machineFiles.ts";
import { sampleDxf } from "../outputs/machine/sampleDxf.ts";
import { preflightMachine } from "../outputs/preflight.ts";
import { UnbuildableError } from "../plan/errors.ts";
import type { Hole, Schedule } from "../schedule/types.ts";

/**
 * What a drilling machine reads of all panels, by path, read back before it is handed on.
 * @throws UnbuildableError with every panel that the bed cannot take; Error, a fault of ours, where an output and the schedule differ
 */
export function machineContent(schedule: Schedule, dialect: Dialect): Map<string, string> {
  const { plan, panels } = schedule;
  const byPanel = new Map<string, Hole[]>(panels.map(({ id }) => [id, []]));
  for (const hole of schedule.holes) byPanel.get(hole.panel)!.push(hole);
  const content = new Map([["sample.dxf", sampleDxf(plan)]]);
  const refused: UnbuildableError[] = [];
  for (const panel of panels) {
    const holes = byPanel.get(panel.id)!;
    try {
      const files = machineFiles(panel, holes, plan, dialect);
      const faults = preflightMachine(panel, holes, plan, files);
      if (faults.length > 0)
        throw new Error(`what was to be written breaks the schedule: ${faults.slice(0, 5).join("; ")}`);
      for (const [name, text] of files) content.set(`panels/${panel.id}/${name}`, text);
    } catch (error) {
      if (!(error instanceof UnbuildableError)) throw error;
      refused.push(error);
    }
  }
  if (refused.length > 0) throw new UnbuildableError(refused.flatMap(({ findings }) => findings));
  return content;
}
