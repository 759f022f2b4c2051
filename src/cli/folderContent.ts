import { holesCsv } from "../outputs/holesCsv.ts";
import { planYaml } from "../outputs/planYaml.ts";
import { scheduleCsv } from "../outputs/scheduleCsv.ts";
import { scheduleJson } from "../outputs/scheduleJson.ts";
import type { View } from "../projection/view.ts";
import { boardAsCut } from "../schedule/asCut.ts";
import type { Schedule } from "../schedule/types.ts";
import { drawPreview, drawWorkingDrawing } from "./drawPreview.ts";
import type { Terminal } from "./terminal.ts";
import type { FolderContent } from "./writeFolder.ts";

/** All files that `make` writes, by path. */
export async function folderContent(
  schedule: Schedule,
  view: View,
  previewWidthPx: number,
  terminal: Terminal,
): Promise<FolderContent> {
  const content = new Map<string, string | Uint8Array>();
  content.set("schedule.csv", scheduleCsv(schedule.holes));
  content.set("schedule.json", scheduleJson(schedule));
  content.set("plan.yaml", planYaml(schedule.plan));
  for (const labels of [false, true]) {
    content.set(
      labels ? "preview-labelled.png" : "preview.png",
      await drawPreview(schedule, view, "png", { widthPx: previewWidthPx, labels, tint: false }, terminal),
    );
  }
  content.set("ceiling.svg", await drawWorkingDrawing(schedule, view, "svg", 0, terminal));
  for (const panel of schedule.panels) {
    const holes = schedule.holes.filter((hole) => hole.panel === panel.id);
    const board = boardAsCut(panel, schedule.plan);
    content.set(`panels/${panel.id}/holes-face.csv`, holesCsv("face", board, holes));
    content.set(`panels/${panel.id}/holes-back.csv`, holesCsv("back", board, holes));
  }
  return content;
}
