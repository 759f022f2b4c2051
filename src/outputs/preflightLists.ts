import { faceToBack } from "../projection/frames.ts";
import type { Hole, PanelRecord } from "../schedule/types.ts";
import type { DrawnHole } from "./machine/readDrawn.ts";
import { sameHoles } from "./sameHoles.ts";

/**
 * Reads back one panel's lists and drawings for people, against the schedule: every hole once in each, at its place, with its bit.
 * @param board as it is cut
 * @param files holes-face.csv, holes-back.csv, face.svg and back.svg, by name
 * @returns a sentence a fault; none when all holds. A fault found here is ours.
 */
export function preflightLists(
  board: PanelRecord,
  holes: readonly Hole[],
  files: ReadonlyMap<string, string>,
): string[] {
  const wanted = {
    face: holes,
    back: holes.map((hole) => ({ ...hole, ...faceToBack(hole, board.widthMm) })),
  };
  return (["face", "back"] as const).flatMap((side) =>
    [
      { name: `holes-${side}.csv`, drawn: fromCsv(files.get(`holes-${side}.csv`)!) },
      { name: `${side}.svg`, drawn: fromSvg(files.get(`${side}.svg`)!, board.lengthMm) },
    ].flatMap(({ name, drawn }) =>
      sameHoles(wanted[side], drawn).map((fault) => `${board.id} ${name}: ${fault}`),
    ),
  );
}

const fromCsv = (text: string): DrawnHole[] =>
  text
    .trim()
    .split("\r\n")
    .slice(1)
    .map((line) => {
      // Names, the only cells that may hold commas, come last.
      const [, x, y, , bit] = line.split(",");
      return { xMm: Number(x), yMm: Number(y), bitMm: Number(bit) };
    });

/** y runs down in a picture. */
const fromSvg = (text: string, lengthMm: number): DrawnHole[] =>
  [...text.matchAll(/<circle [^>]*cx="([\d.-]+)" cy="([\d.-]+)" r="([\d.]+)"/g)].map(([, x, y, r]) => ({
    xMm: Number(x),
    yMm: lengthMm - Number(y),
    bitMm: 2 * Number(r),
  }));
