import { distanceToRing, ringHolds } from "../panel/rings.ts";
import type { Finding } from "../plan/errors.ts";
import { upToHundredths as mm } from "../plan/mmWords.ts";
import type { Plan } from "../plan/plan.ts";
import { boardAsCut, type CutPanelRecord, ringAsCut } from "./asCut.ts";
import { outOfSquareWords } from "./outOfSquare.ts";
import type { Hole, PanelRecord } from "./types.ts";

/** A saw is not that far out: two figures were swapped, or another panel was measured. */
const NOT_THIS_BOARD_MM = 10;
const FLOAT = 1e-6;
/** More names than this are a number. */
const MOST_NAMES = 6;

const some = (holes: readonly string[]) =>
  holes.length <= MOST_NAMES
    ? holes.join(", ")
    : `${holes.slice(0, MOST_NAMES).join(", ")} and ${holes.length - MOST_NAMES} more`;

interface Told {
  readonly findings: readonly Finding[];
  readonly warnings: readonly string[];
}

/**
 * What becomes of the holes on boards as they were cut.
 * @param panels as planned
 * @returns findings for holes that run off a board or into a batten; warnings for lost margins and boards out of square
 */
export function checkAsCut(panels: readonly PanelRecord[], holes: readonly Hole[], plan: Plan): Told {
  const told = panels
    .filter(({ id }) => Object.hasOwn(plan.asCut, id))
    .map((panel) =>
      checkBoard(
        panel,
        boardAsCut(panel, plan),
        holes.filter((hole) => hole.panel === panel.id),
        plan,
      ),
    );
  return {
    findings: told.flatMap(({ findings }) => findings),
    warnings: told.flatMap(({ warnings }) => warnings),
  };
}

function checkBoard(planned: PanelRecord, cut: CutPanelRecord, holes: readonly Hole[], plan: Plan): Told {
  const asCut = cut.asCut!;
  const ring = ringAsCut(asCut);
  const bored = new Set(cut.boredHoles);
  const [off, onBatten, nearEdge, nearBatten]: string[][] = [[], [], [], []];
  let [leastEdge, leastBatten] = [plan.holes.edge, plan.holes.batten];
  for (const { hole, xMm, yMm, bitMm } of holes) {
    const r = bitMm / 2;
    const depth = distanceToRing(ring, xMm, yMm) * (ringHolds(ring, xMm, yMm) ? 1 : -1) - r;
    if (depth < 0) off!.push(hole);
    else if (depth < plan.holes.edge - FLOAT) {
      nearEdge!.push(hole);
      leastEdge = Math.min(leastEdge, depth);
    }
    if (bored.has(hole)) continue;
    const clear = cut.battensMm.reduce(
      (least, batten) =>
        Math.min(least, distanceToRing(batten, xMm, yMm) * (ringHolds(batten, xMm, yMm) ? -1 : 1) - r),
      Number.POSITIVE_INFINITY,
    );
    if (clear < 0) onBatten!.push(hole);
    else if (clear < plan.holes.batten - FLOAT) {
      nearBatten!.push(hole);
      leastBatten = Math.min(leastBatten, clear);
    }
  }
  const at = `panel ${cut.id} as cut (${mm(asCut.width)} x ${mm(asCut.length)} mm)`;
  const finding = (code: string, which: readonly string[], words: string): Finding[] =>
    which.length === 0
      ? []
      : [
          {
            code,
            message: `${at}: ${some(which)} ${words}; ${isFarOff(planned, cut) ? "was another board measured, or width and length swapped? Else " : ""}cut the board again, or write the panel's size as it is and make the plan again`,
          },
        ];
  return {
    findings: [
      ...finding("hole-off-cut-board", off!, "would run off the board"),
      ...finding(
        "hole-on-batten-as-cut",
        onBatten!,
        "would run into a batten of a frame built to that board",
      ),
    ],
    warnings: [
      ...otherBoard(planned, cut),
      ...(nearEdge!.length === 0
        ? []
        : [
            `${at}: ${some(nearEdge!)} ${nearEdge!.length === 1 ? "leaves its" : "leave their"} margin: down to ${mm(leastEdge)} mm from rim to edge, not holes.edge of ${mm(plan.holes.edge)} mm`,
          ]),
      ...(nearBatten!.length === 0
        ? []
        : [
            `${at}: ${some(nearBatten!)} ${nearBatten!.length === 1 ? "leaves its" : "leave their"} margin: down to ${mm(leastBatten)} mm from rim to batten, not holes.batten of ${mm(plan.holes.batten)} mm; shift the batten, not the hole`,
          ]),
      ...squareness(outOfSquareWords(cut, "FACE")),
    ],
  };
}

const isFarOff = (planned: PanelRecord, cut: CutPanelRecord): boolean =>
  Math.max(Math.abs(cut.widthMm - planned.widthMm), Math.abs(cut.lengthMm - planned.lengthMm)) >
  NOT_THIS_BOARD_MM;

function otherBoard(planned: PanelRecord, cut: CutPanelRecord): string[] {
  const wide = cut.widthMm - planned.widthMm;
  const long = cut.lengthMm - planned.lengthMm;
  const more = (by: number, word: string) =>
    by > FLOAT ? [`${mm(by)} mm ${word} than planned, which the seam or the perimeter must give`] : [];
  const words = isFarOff(planned, cut)
    ? [
        `planned were ${mm(planned.widthMm)} x ${mm(planned.lengthMm)} mm, width first: was another board measured, or width and length swapped?`,
      ]
    : [...more(wide, "wider"), ...more(long, "longer")];
  return words.map((one) => `panel ${cut.id} as cut (${mm(cut.widthMm)} x ${mm(cut.lengthMm)} mm): ${one}`);
}

const squareness = (words: string | null): string[] => (words === null ? [] : [words]);
