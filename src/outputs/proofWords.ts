import { faceToBack } from "../projection/frames.ts";
import type { CornerName, ProofCorner } from "../schedule/proofCorners.ts";
import type { Proofs } from "../schedule/proofs.ts";

/** As every output names its frame. */
export type Frame = "FACE" | "BACK";

export const FRAME_WORDS: Readonly<Record<Frame, string>> = {
  FACE: "FACE: as seen from the room",
  BACK: "BACK: mirrored",
};

/** A tape is read to half a millimetre; a tenth tells which half. */
const mm = (value: number) => value.toFixed(1).replace(/\.0$/, "");

const turnedOver: Readonly<Record<CornerName, CornerName>> = {
  "lower left": "lower right",
  "lower right": "lower left",
  "upper left": "upper right",
  "upper right": "upper left",
};

/** How to call a corner on the side that lies up. */
function cornerWords({ name, xMm, yMm }: ProofCorner, frame: Frame, widthMm: number): string {
  if (name !== null) return `${frame === "FACE" ? name : turnedOver[name]} corner`;
  const at = frame === "FACE" ? { xMm, yMm } : faceToBack({ xMm, yMm }, widthMm);
  return `corner at ${mm(at.xMm)}, ${mm(at.yMm)}`;
}

/**
 * What to measure before the first hole, in short sentences for any output: size and diagonals, holes by tape, turning sense.
 * Signs are ASCII but for names of stars; no parentheses, so that they may stand in a comment of a drilling program.
 * @param frame the side that lies up: corners and senses swap on the BACK
 */
export function proofWords(proofs: Proofs, frame: Frame): string[] {
  return [sizeWords(proofs, frame), ...tapeWords(proofs, frame), ...turningWords(proofs, frame)];
}

function sizeWords({ panel, widthMm, lengthMm, isRectangle, diagonalsMm }: Proofs, frame: Frame): string {
  const { risingRight, fallingRight } =
    frame === "FACE"
      ? diagonalsMm
      : { risingRight: diagonalsMm.fallingRight, fallingRight: diagonalsMm.risingRight };
  const size = `Board ${panel} is ${mm(widthMm)} mm wide and ${mm(lengthMm)} mm long${isRectangle ? "" : " over all"}`;
  const diagonals =
    risingRight !== null && fallingRight !== null && mm(risingRight) === mm(fallingRight)
      ? [`both diagonals are ${mm(risingRight)} mm`]
      : [
          ...(risingRight === null ? [] : [`lower left to upper right is ${mm(risingRight)} mm`]),
          ...(fallingRight === null ? [] : [`upper left to lower right is ${mm(fallingRight)} mm`]),
        ];
  return `${[size, ...diagonals].join("; ")}.`;
}

function tapeWords({ tapeCorners, taped, widthMm }: Proofs, frame: Frame): string[] {
  if (taped.length === 0) return [];
  // Left before right on either side, as they are read.
  const order = frame === "FACE" ? ([0, 1] as const) : ([1, 0] as const);
  const [first, second] = order.map((i) => cornerWords(tapeCorners[i]!, frame, widthMm));
  return [
    `By tape on the ${frame}, from the ${first} and from the ${second}:`,
    ...taped.map(
      ({ hole, name, diameterMm, fromCornersMm }) =>
        `${hole}${name === "" ? "" : `, ${name}`}, ${diameterMm} mm fibre: ${mm(fromCornersMm[order[0]])} and ${mm(fromCornersMm[order[1]])} mm.`,
    ),
  ];
}

function turningWords({ turning }: Proofs, frame: Frame): string[] {
  if (turning === null) return [];
  const [a, b, c] = turning.holes;
  const other = turning.sense === "clockwise" ? "anticlockwise" : "clockwise";
  const sense = frame === "FACE" ? turning.sense : other;
  return [
    `${a}, ${b}, ${c} run ${sense} on the ${frame}: if they run the other way, the board lies wrong side up.`,
  ];
}
