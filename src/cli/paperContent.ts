import { labelsPdf } from "../outputs/paper/labels.ts";
import { samplePdf } from "../outputs/paper/sample.ts";
import { templatePdf } from "../outputs/paper/template.ts";
import { loadPdfFont } from "../outputs/pdf/font.ts";
import { boardAsCut } from "../schedule/asCut.ts";
import type { Hole, Schedule } from "../schedule/types.ts";
import { fontBytes } from "./dataFiles.ts";

/** What is printed: templates of both sides of every panel, labels, the sample sheet. */
export async function paperContent({ plan, panels, holes }: Schedule): Promise<Map<string, Uint8Array>> {
  const font = loadPdfFont(new Uint8Array(fontBytes()));
  const byPanel = new Map<string, Hole[]>(panels.map(({ id }) => [id, []]));
  for (const hole of holes) byPanel.get(hole.panel)!.push(hole);
  const content = new Map([
    [
      "labels.pdf",
      await labelsPdf(
        panels.map((panel) => boardAsCut(panel, plan)),
        plan,
        font,
      ),
    ],
    ["sample.pdf", await samplePdf(plan, font)],
  ]);
  for (const panel of panels) {
    const board = boardAsCut(panel, plan);
    for (const frame of ["FACE", "BACK"] as const)
      content.set(
        `panels/${panel.id}/template-${frame.toLowerCase()}.pdf`,
        await templatePdf(frame, board, panels, byPanel.get(panel.id)!, plan, font),
      );
  }
  return content;
}
