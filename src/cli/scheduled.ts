import { setUpsOf } from "../outputs/machine/setUps.ts";
import { UnbuildableError } from "../plan/errors.ts";
import { boardAsCut } from "../schedule/asCut.ts";
import { type PlannedSchedule, planAndSchedule } from "../schedule/makeSchedule.ts";
import type { Schedule } from "../schedule/types.ts";
import { validateSchedule } from "../schedule/validate.ts";
import type { SkyData } from "../sky/skyData.ts";
import { loadSkyData } from "./dataFiles.ts";
import { locating, readPlanFile } from "./planFile.ts";

export interface Scheduled extends PlannedSchedule {
  /** The data that all was computed from. */
  readonly sky: SkyData;
}

/** From a plan file to its schedule. */
export function scheduled(path: string): Scheduled {
  const { plan, locate } = readPlanFile(path);
  const sky = loadSkyData();
  return { ...locating(locate, () => planAndSchedule(plan, sky)), sky };
}

/** As `scheduled`, checked against the rules that every schedule keeps: a fault is ours, and nothing is written. */
export function validScheduled(path: string): Scheduled {
  const result = scheduled(path);
  const faults = validateSchedule(result.schedule);
  if (faults.length > 0)
    throw new Error(`the schedule breaks its own rules: ${faults.slice(0, 5).join("; ")}`);
  refuseSmallBeds(result.schedule);
  return result;
}

/** @throws UnbuildableError with every panel that the plan's machine cannot take */
function refuseSmallBeds({ plan, panels, holes }: Schedule): void {
  if (plan.cnc.bed === undefined) return;
  const findings = panels.flatMap((panel) => {
    try {
      setUpsOf(
        boardAsCut(panel, plan),
        holes.filter((hole) => hole.panel === panel.id),
        plan,
      );
      return [];
    } catch (error) {
      if (!(error instanceof UnbuildableError)) throw error;
      return error.findings;
    }
  });
  if (findings.length > 0) throw new UnbuildableError(findings);
}
