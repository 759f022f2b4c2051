import type { Plan } from "../../plan/plan.ts";
import { type PassCount, passCounts } from "../../schedule/passes.ts";
import { workWords } from "../workWords.ts";
import type { TemplateScene } from "./templateScene.ts";
import type { Tiling } from "./tiles.ts";

const mm = (value: number, decimals = 2) => String(Number(value.toFixed(decimals)));

const counts = (passes: readonly PassCount[]) =>
  passes.map(({ bitMm, holes }) => `${holes} at ${mm(bitMm)} mm`).join(", ") || "no hole on this panel";

/** How a template is used, step by step. */
export function howToSteps(
  { frame, holes: marked, squareness }: TemplateScene,
  plan: Plan,
  { scale, tiles }: Tiling,
): string[] {
  const holes = marked.map(({ mark }) => mark);
  const { measured100 } = plan.paper;
  const [pilotPass, openingPass] = workWords(plan);
  const passes = passCounts(holes, plan);
  const side = frame === "FACE" ? "left" : "right";
  const ownEdges =
    squareness === null
      ? "the board's own edges"
      : "the REFERENCE EDGE and its lower end (this board is out of square: never by its other edges)";
  return [
    measured100 === 100
      ? "Print at 100 %, no scaling (actual size). Lay a steel rule on both rulers of a sheet: 100 mm each. If one is over 0.5 mm off, do not use the sheet: write what it measures as paper: {measured100: …} in the plan and make the templates again."
      : `Print at 100 %, no scaling (actual size). Your paper makes 100 mm into ${mm(measured100)} mm, so the board is drawn at ${mm(100 * scale, 3)} % and comes out right. The rulers are 100 mm in the file and measure ${mm(measured100)} mm again; the bar above the lower one measures 100 mm.`,
    `Check the board by its size and diagonals below. Draw lines on it every 200 mm, from the REFERENCE EDGE (the thick one, at the ${side} here)${squareness === null ? " and from the lower edge" : ": from it and, square to it, from its lower end"}.`,
    ...(frame === "BACK"
      ? [
          "This sheet is for the BACK: the board turned over about its upright axis, so everything is mirrored. If the frame is on, cut the paper out along the grey battens.",
        ]
      : []),
    ...(tiles.length > 1
      ? [
          "Lay the tiles row by row from the upper left, as on the map. Cut each along the dashed lines at its left and its top; it covers the marked strips of those before it. Tiles in brackets hold no hole and may be left out.",
          `Put every tile by ${ownEdges} and by the 200 mm lines (blue, with their distances), NEVER by its neighbour alone: paper grows with damp, and small errors add up. Match marks (two black points that meet) only show how well it lies: over 1 mm off, find out why.`,
        ]
      : [`Put the sheet by ${ownEdges} and by the 200 mm lines (blue, with their distances).`]),
    "Tape it down flat all round, then do the proofs below before the first hole.",
    `${pilotPass} Prick every cross with an awl first, then drill upright, on a board that may be drilled into (${counts(passes.pilot)}).`,
    `${openingPass} Rings show the size (${counts(passes.opening)}).`,
    ...(frame === "BACK"
      ? [
          "It can stay on for threading: under each number stands the diameter of its fibre in mm, and its bundle where bundles are known.",
        ]
      : []),
  ];
}
