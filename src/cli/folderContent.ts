import { holesCsv } from "../outputs/holesCsv.ts";
import type { Dialect } from "../outputs/machine/gcode.ts";
import { panelSvg } from "../outputs/panelSvg.ts";
import { planYaml } from "../outputs/planYaml.ts";
import { preflightLists } from "../outputs/preflightLists.ts";
import { scheduleCsv } from "../outputs/scheduleCsv.ts";
import { scheduleJson } from "../outputs/scheduleJson.ts";
import type { View } from "../projection/view.ts";
import { boardAsCut } from "../schedule/asCut.ts";
import type { Schedule } from "../schedule/types.ts";
import { drawPreview, drawWorkingDrawing, shippedFont, warnOfMissing } from "./drawPreview.ts";
import { markingFiles, refusedOrPictures } from "./markingFiles.ts";
import type { Terminal } from "./terminal.ts";
import type { FolderContent } from "./writeFolder.ts";

export interface FolderOptions {
  /** The one fibre that pictures for a projector show; null for all. */
  readonly onlyMm: number | null;
  /** Of drilling programs. */
  readonly dialect: Dialect;
}

/** All files that `make` writes, by path. */
export async function folderContent(
  schedule: Schedule,
  view: View,
  previewWidthPx: number,
  terminal: Terminal,
  { onlyMm, dialect }: FolderOptions,
): Promise<FolderContent> {
  const pictures = refusedOrPictures(schedule, onlyMm, terminal);
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
  for (const [path, picture] of await markingFiles(pictures, schedule, shippedFont(), terminal))
    content.set(path, picture);
  const diametersMm = schedule.plan.fibre.sizes.map(({ diameter }) => diameter);
  for (const panel of schedule.panels) {
    const holes = schedule.holes.filter((hole) => hole.panel === panel.id);
    const board = boardAsCut(panel, schedule.plan);
    content.set(`panels/${panel.id}/holes-face.csv`, holesCsv("face", board, holes));
    content.set(`panels/${panel.id}/holes-back.csv`, holesCsv("back", board, holes));
    for (const frame of ["FACE", "BACK"] as const) {
      const { svg, missingCharacters } = panelSvg(frame, board, holes, diametersMm, shippedFont());
      warnOfMissing(missingCharacters, terminal);
      content.set(`panels/${panel.id}/${frame.toLowerCase()}.svg`, svg);
    }
    const text = (name: string) => [name, content.get(`panels/${panel.id}/${name}`) as string] as const;
    const lists = ["holes-face.csv", "holes-back.csv", "face.svg", "back.svg"].map(text);
    const faults = preflightLists(board, holes, new Map(lists));
    if (faults.length > 0)
      throw new Error(`what was to be written breaks the schedule: ${faults.slice(0, 5).join("; ")}`);
  }
  const { machineContent } = await import("./machineContent.ts");
  for (const [path, text] of machineContent(schedule, dialect)) content.set(path, text);
  const { paperContent } = await import("./paperContent.ts");
  for (const [path, bytes] of await paperContent(schedule)) content.set(path, bytes);
  return content;
}
