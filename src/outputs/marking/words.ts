import type { Plan } from "../../plan/plan.ts";
import type { SizeSymbol } from "../../render/sizeSymbols.ts";
import type { CheckMark, MarkingPicture } from "../../schedule/markingTypes.ts";
import { proofsOf } from "../../schedule/proofs.ts";
import type { Hole } from "../../schedule/types.ts";
import { FRAME_WORDS, proofWords } from "../proofWords.ts";

/** A line or a paragraph of the legend. */
export interface LegendItem {
  readonly text: string;
  readonly style: "title" | "strong" | "plain" | "faint";
  /** The symbol that it explains. */
  readonly diameterMm?: number;
}

/** Larger groups would fill the picture with their proofs. */
const MOST_TAPED_PANELS = 2;

const item = (text: string, style: LegendItem["style"] = "plain"): LegendItem => ({ text, style });

/** What a picture says, in the order in which it is needed at the board. @param holes those of the schedule */
export function legendWords(
  picture: MarkingPicture,
  plan: Plan,
  holes: readonly Hole[],
  symbols: ReadonlyMap<number, SizeSymbol>,
): LegendItem[] {
  return [
    item(`${picture.id} ${FRAME_WORDS.FACE}`, "title"),
    ...(plan.title === "" ? [] : [item(plan.title)]),
    item(scaleWords(picture), "strong"),
    item(
      `Picture of ${picture.widthPx} x ${picture.heightPx} pixels: show it full screen, unscaled. Grid ${plan.marking.grid} mm, labelled in mm of each board's FACE, every fifth line strong.`,
    ),
    ...sizeItems(picture, symbols),
    item("Before the first hole", "strong"),
    item(
      picture.warped
        ? "Targets on the board's corners, outline on its edges: the picture is squared for them as measured. Nothing may move since."
        : "Set the targets on the board's corners and the outline on its edges: projector square to the board, no keystone correction.",
    ),
    ...checkItems(picture.checks),
    ...proofItems(picture, holes),
    item("Work", "strong"),
    item(workWords(plan)),
    item(
      "Drill boards flat on a bench and clamped, never overhead. Eye protection; dust taken off at the tool and a fine-dust mask. Do not look into the projector. Local codes and licensed practice decide.",
    ),
  ];
}

const mmPerPx = (value: number) => (Math.ceil(value * 1000 - 1e-9) / 1000).toFixed(3);

function scaleWords({ finestMmPerPx, coarsestMmPerPx }: MarkingPicture): string {
  const [finest, coarsest] = [mmPerPx(finestMmPerPx), mmPerPx(coarsestMmPerPx)];
  return finest === coarsest ? `${coarsest} mm per pixel` : `${finest} to ${coarsest} mm per pixel`;
}

function sizeItems(
  { panels, onlyMm }: MarkingPicture,
  symbols: ReadonlyMap<number, SizeSymbol>,
): LegendItem[] {
  const shown = panels.flatMap(({ holes }) => holes);
  const all = panels.reduce((sum, { allHoles }) => sum + allHoles.length, 0);
  const rows = [...symbols.keys()].flatMap((diameterMm): LegendItem[] => {
    const those = shown.filter((hole) => hole.diameterMm === diameterMm);
    if (those.length === 0) return [];
    return [
      {
        text: `${diameterMm} mm fibre, bit ${those[0]!.bitMm} mm: ${those.length} ${those.length === 1 ? "hole" : "holes"}`,
        style: "plain",
        diameterMm,
      },
    ];
  });
  const total =
    onlyMm === null
      ? `${all} ${all === 1 ? "hole" : "holes"} in all`
      : `ONLY ${onlyMm} mm fibre: ${shown.length} of ${all} holes`;
  return [...rows, item(total, onlyMm === null ? "plain" : "strong")];
}

const rounded = (mm: number) => mm.toFixed(1).replace(/\.0$/, "");

function checkItems(checks: readonly CheckMark[]): LegendItem[] {
  if (checks.length === 0) return [];
  const places = checks
    .map(({ panel, faceMm: [x, y] }, k) => `${k + 1} on ${panel} at ${x}, ${y}`)
    .join("; ");
  const measured = checks.flatMap(({ measured: found }, k) =>
    found === null ? [] : [`${k + 1} is off by ${rounded(found.offMm)} mm (${rounded(found.offPx)} px)`],
  );
  return [
    item(
      `Check marks, mm from the left and from the bottom edge: ${places}. With the corners right, one that is off by more than 1 mm shows a lens that no squaring mends.`,
    ),
    ...(measured.length === 0 ? [] : [item(`As measured: check ${measured.join(", ")}.`, "strong")]),
  ];
}

function proofItems({ panels }: MarkingPicture, holes: readonly Hole[]): LegendItem[] {
  const brief = panels.length > MOST_TAPED_PANELS;
  const words = panels.flatMap(({ board }) => {
    const proofs = proofsOf(board, holes);
    return proofWords(brief ? { ...proofs, taped: [] } : proofs, "FACE").map((text) => item(text));
  });
  return brief ? [...words, item("Holes by tape: five a board, on each panel's own picture.")] : words;
}

const OPENING: Readonly<Record<Plan["work"]["opening"], string>> = {
  pierce: "pierced",
  hotNeedle: "opened with a hot needle",
  drill: "drilled (through cloth only after a sample)",
};

const workWords = ({ work }: Plan): string =>
  `First pass, on the bare FACE: prick every cross with an awl, then pilot holes of ${work.pilot} mm, or of the hole's own bit where that is thinner. Second pass, after paint, glue and fabric: face down on soft sacrificial board, each hole ${OPENING[work.opening]} to its size from the back.`;
