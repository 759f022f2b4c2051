import type { Plan } from "../../plan/plan.ts";
import { sampleBoard } from "../../schedule/sampleBoard.ts";
import { DXF_COLOUR, dxfSheet } from "./dxfSheet.ts";
import { drawHoles } from "./panelDxf.ts";

/** sample.dxf: the off-cut to try everything on first. FACE, mm; circles are holes at bit diameter. */
export function sampleDxf(plan: Plan): string {
  const sample = sampleBoard(plan);
  const sheet = dxfSheet();
  sheet.layer("BOARD", DXF_COLOUR.black).ring(sample.outlineMm);
  drawHoles(sheet, sample.holes);
  const marks = sheet.layer("BEND", DXF_COLOUR.red);
  for (const { fromMm, toMm } of sample.lines) marks.line(fromMm, toMm);
  const words = sheet.layer("TEXT", DXF_COLOUR.black);
  for (const { text, xMm, yMm, heightMm } of sample.words) words.words(xMm, yMm, heightMm, text);
  return sheet.text();
}
