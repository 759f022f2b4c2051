import type { Plan } from "../../plan/plan.ts";
import type { Frame } from "../proofWords.ts";
import type { Tiling } from "./tiles.ts";

const OPENING: Readonly<Record<Plan["work"]["opening"], string>> = {
  pierce: "pierce each to the size of its ring",
  hotNeedle: "open each with a hot needle to the size of its ring, away from dust and fumes, in moving air",
  drill: "drill each to the size of its ring, through cloth only if a sample frayed little",
};

const mm = (value: number, decimals = 2) => String(Number(value.toFixed(decimals)));

/** How a template is used, step by step. */
export function howToSteps(frame: Frame, plan: Plan, { scale, tiles }: Tiling): string[] {
  const { measured100 } = plan.paper;
  const { pilot, opening } = plan.work;
  const side = frame === "FACE" ? "left" : "right";
  return [
    measured100 === 100
      ? "Print at 100 %, no scaling (actual size). Lay a steel rule on both rulers of a sheet: 100 mm each. If one is over 0.5 mm off, do not use the sheet: write what it measures as paper: {measured100: …} in the plan and make the templates again."
      : `Print at 100 %, no scaling (actual size). Your paper makes 100 mm into ${mm(measured100)} mm, so the board is drawn at ${mm(100 * scale, 3)} % and comes out right. The rulers are 100 mm in the file and measure ${mm(measured100)} mm again; the bar above the lower one measures 100 mm.`,
    `Check the board by its size and diagonals below. Draw lines on it every 200 mm, from the REFERENCE EDGE (the thick one, at the ${side} here) and from the lower edge.`,
    ...(frame === "BACK"
      ? [
          "This sheet is for the BACK: the board turned over about its upright axis, so everything is mirrored. If the frame is on, cut the paper out along the grey battens.",
        ]
      : []),
    ...(tiles.length > 1
      ? [
          "Lay the tiles row by row from the upper left, as on the map. Cut each along the dashed lines at its left and its top; it covers the marked strips of those before it. Tiles in brackets hold no hole and may be left out.",
          "Put every tile by the board's own edges and by the 200 mm lines (blue, with their distances), NEVER by its neighbour alone: paper grows with damp, and small errors add up. Match marks (two black points that meet) only show how well it lies: over 1 mm off, find out why.",
        ]
      : ["Put the sheet by the board's own edges and by the 200 mm lines (blue, with their distances)."]),
    "Tape it down flat all round, then do the proofs below before the first hole.",
    `First pass, on the bare face before paint, glue and fabric: prick every cross with an awl, then drill pilot holes of ${mm(pilot)} mm (those with a smaller ring with their own bit), upright, on a board that may be drilled into.`,
    `Second pass, when they are hidden: from the back, face down on soft sacrificial board, ${OPENING[opening]}.`,
    ...(frame === "BACK"
      ? [
          "It can stay on for threading: under each number stands the diameter of its fibre in mm, and its bundle where bundles are known.",
        ]
      : []),
  ];
}
