import type { Plan } from "../../plan/plan.ts";
import { boardAsCut } from "../../schedule/asCut.ts";
import { proofsOf } from "../../schedule/proofs.ts";
import type { Hole, PanelRecord } from "../../schedule/types.ts";
import { drillPrograms, type ProgramOf } from "./drillPrograms.ts";
import type { Dialect } from "./gcode.ts";
import { panelDxf } from "./panelDxf.ts";
import { scribePrograms } from "./scribeProgram.ts";
import { setUpsOf } from "./setUps.ts";
import { drillXnc } from "./xnc.ts";

/**
 * All that a machine reads of one panel, by file name within its folder.
 * @param panel as planned
 * @param holes those of this panel, in their order
 * @throws UnbuildableError for a panel that a bed cannot take
 */
export function machineFiles(
  panel: PanelRecord,
  holes: readonly Hole[],
  plan: Plan,
  dialect: Dialect,
): Map<string, string> {
  const board = boardAsCut(panel, plan);
  const of: ProgramOf = { panel: board, proofs: proofsOf(board, holes), plan };
  const setUps = setUpsOf(board, holes, plan);
  return new Map([
    ["panel.dxf", panelDxf(of, holes, setUps)],
    ["drill.xnc", drillXnc(of, holes)],
    ...drillPrograms(of, setUps, "final", dialect),
    // Dimples serve both passes.
    ...(plan.cnc.mode === "spot" ? [] : drillPrograms(of, setUps, "pilot", dialect)),
    ...(plan.cnc.scribeBattens && board.battensMm.length > 0 ? scribePrograms(of, setUps, dialect) : []),
  ]);
}
