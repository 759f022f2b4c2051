import type { Plan } from "../../plan/plan.ts";
import { FRAME_WORDS, proofWords } from "../proofWords.ts";
import { drillingCautions, workWords } from "../workWords.ts";
import { datumCorner, datumWords, trueRing } from "./datumCorner.ts";
import type { ProgramOf } from "./drillPrograms.ts";
import { DXF_COLOUR, type DxfSheet, dxfSheet } from "./dxfSheet.ts";
import { bareWords } from "./passWords.ts";
import { wrapped } from "./plainText.ts";
import type { SetUp } from "./setUps.ts";
import type { MachineHole } from "./tools.ts";

/** Words are outside the board, below it; numbers stand beside their holes. */
const WORDS_MM = 8;
const NUMBER_MM = 2.5;
const LINE_STEP = 1.7;
/** A circular keep-out is drawn with so many sides: circles are holes and nothing else. */
const KEEP_OUT_SIDES = 72;

export const holesLayer = (bitMm: number): string => `HOLES_${bitMm.toFixed(2)}MM`;

const HOLE_COLOURS = [DXF_COLOUR.blue, DXF_COLOUR.red, DXF_COLOUR.green, DXF_COLOUR.magenta, DXF_COLOUR.cyan];

/**
 * panel.dxf: FACE, mm, X0 Y0 the lower-left corner of the board's bounding box, or the lower end of the
 * reference edge of a board as cut. Exactly one circle a hole, at bit diameter, on a layer
 * for each bit; outline, battens, screws, hanging points, keep-outs, datums, numbers and words on layers of their own, without circles.
 */
export function panelDxf(of: ProgramOf, holes: readonly MachineHole[], setUps: readonly SetUp[]): string {
  const { panel, plan } = of;
  const sheet = dxfSheet();
  sheet
    .layer("BOARD", DXF_COLOUR.black)
    .ring(trueRing(panel).map(([x, y]) => [hundredth(x), hundredth(y)] as const));
  drawHoles(sheet, holes);
  drawNumbers(sheet, holes);
  const battens = sheet.layer("BATTENS", DXF_COLOUR.grey);
  for (const batten of panel.battensMm) battens.ring(batten);
  const screws = sheet.layer("SCREWS", DXF_COLOUR.yellow);
  for (const [x, y] of panel.screwsMm) screws.cross(x, y, 3);
  const hangers = sheet.layer("HANGERS", DXF_COLOUR.cyan);
  for (const [x, y] of panel.hangersMm) hangers.cross(x, y, 8);
  const keepOuts = sheet.layer("KEEPOUTS", DXF_COLOUR.red);
  for (const one of panel.keepOutMm) {
    keepOuts.ring(
      "atMm" in one
        ? Array.from({ length: KEEP_OUT_SIDES }, (_, k): [number, number] => {
            const angle = (2 * Math.PI * k) / KEEP_OUT_SIDES;
            return [
              hundredth(one.atMm[0] + one.radiusMm * Math.cos(angle)),
              hundredth(one.atMm[1] + one.radiusMm * Math.sin(angle)),
            ];
          })
        : one.outlineMm,
    );
  }
  drawDatums(sheet, of, setUps);
  const words = sheet.layer("TEXT", DXF_COLOUR.black);
  const most = Math.max(40, Math.floor(panel.widthMm / (0.7 * WORDS_MM)));
  const lines = wordsOf(of, setUps).flatMap((line) => wrapped(line, most));
  for (const [i, line] of lines.entries()) words.words(0, -(i + 2) * LINE_STEP * WORDS_MM, WORDS_MM, line);
  if (plan.walls.top) words.words(0, panel.lengthMm + WORDS_MM, WORDS_MM, `toward the ${plan.walls.top}`);
  return sheet.text();
}

const hundredth = (mm: number) => Math.round(mm * 100) / 100;

/** Circles, on a layer for each bit. */
export function drawHoles(sheet: DxfSheet, holes: readonly MachineHole[]): void {
  const bits = [...new Set(holes.map(({ bitMm }) => bitMm))].sort((a, b) => a - b);
  for (const [i, bitMm] of bits.entries()) {
    const pen = sheet.layer(holesLayer(bitMm), HOLE_COLOURS[i % HOLE_COLOURS.length]!);
    for (const hole of holes) if (hole.bitMm === bitMm) pen.circle(hole.xMm, hole.yMm, bitMm);
  }
}

function drawNumbers(sheet: DxfSheet, holes: readonly MachineHole[]): void {
  const numbers = sheet.layer("NUMBERS", DXF_COLOUR.grey);
  for (const { hole, xMm, yMm, bitMm } of holes)
    numbers.words(xMm + bitMm / 2 + 0.8, yMm + bitMm / 2 + 0.8, NUMBER_MM, hole.slice(hole.indexOf("-") + 1));
}

function drawDatums(sheet: DxfSheet, { panel }: ProgramOf, setUps: readonly SetUp[]): void {
  const datum = sheet.layer("DATUM", DXF_COLOUR.green);
  const corner = datumCorner(panel, "FACE");
  datum.cross(corner.xMm, corner.yMm, 15);
  if (setUps.length === 1) return;
  const reach = sheet.layer("SETUPS", DXF_COLOUR.grey);
  for (const { number, window, datums } of setUps) {
    const [right, top] = [window.xMm + window.widthMm, window.yMm + window.lengthMm];
    reach.ring([
      [window.xMm, window.yMm],
      [right, window.yMm],
      [right, top],
      [window.xMm, top],
    ]);
    reach.words(window.xMm + 20, window.yMm + 20 * number, WORDS_MM, `set-up ${number}`);
    for (const { hole, xMm, yMm } of datums?.holes ?? []) {
      datum.cross(xMm, yMm, 10);
      datum.words(
        xMm + 4,
        yMm - (number % 2 === 0 ? 9 : 16),
        5,
        `${hole}: pin of set-ups ${datums!.from} and ${number}`,
      );
    }
  }
}

function wordsOf({ panel, proofs, plan }: ProgramOf, setUps: readonly SetUp[]): string[] {
  return [
    `Panel ${panel.id}. ${FRAME_WORDS.FACE}. Millimetres, 1:1.`,
    ...datumWords(panel, "FACE"),
    "One circle a hole, at the diameter of its bit; a layer for each bit.",
    `Put it on a machine ${bareWords(panel)}.`,
    ...workWords(plan),
    ...setUpWords(setUps, plan),
    "Before the first hole:",
    ...proofWords(proofs, "FACE"),
    ...drillingCautions(),
  ];
}

function setUpWords(setUps: readonly SetUp[], { cnc }: Plan): string[] {
  if (setUps.length === 1) return [];
  return [
    `Larger than the bed of ${cnc.bed!.join(" x ")} mm: ${setUps.length} set-ups, drill-1.nc to drill-${setUps.length}.nc. Each after the first is laid on two pins in holes that an earlier one drilled (layer DATUM).`,
  ];
}
