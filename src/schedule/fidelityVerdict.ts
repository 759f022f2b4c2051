import type { Plan } from "../plan/plan.ts";
import { called, type GradedHole, WATCHED_MAG } from "./fidelityShifts.ts";
import type { Truth } from "./fidelityTypes.ts";
import type { LeftRecord } from "./types.ts";

/** Shapes that are off by less than this part of their size look right; by more than that, bent. Our choice. */
const SHAPE_HOLDS = 1 / 20;
const SHAPE_BENT = 1 / 5;

/** The verdict in a plain sentence or two: a word for the whole, then what it rests on. */
export function verdictOf(
  holes: readonly GradedHole[],
  { tooFar, constellations, groups, parity, slide }: Omit<Truth, "verdict">,
  { limitingMag, missing }: { readonly limitingMag: number | null; readonly missing: readonly LeftRecord[] },
  plan: Plan,
): string {
  if (holes.length === 0 || limitingMag === null) return "Nothing is shown.";
  if (parity?.asSeenFromBelow === false)
    return "MIRRORED: do not drill; the ceiling would be the sky seen from outside.";
  const watched = holes.filter(({ mag }) => mag <= WATCHED_MAG).length;
  const off = (shape: (typeof constellations)[number]) => shape.shapeRmsMm / shape.sizeMm;
  const held = constellations.filter((shape) => off(shape) <= SHAPE_HOLDS).length;
  const bent = constellations.filter((shape) => off(shape) > SHAPE_BENT);
  const brightMissing = missing.filter(({ mag }) => mag <= WATCHED_MAG);
  const share = watched === 0 ? 0 : tooFar.length / watched;

  const headline =
    share === 0 && bent.length === 0 && missing.length === 0
      ? "True to the sky"
      : share <= 0.1 && brightMissing.length === 0
        ? "Close to the sky"
        : share <= 1 / 3
          ? "The sky, with compromises that a careful eye will see"
          : "A bent sky";
  const facts = [
    watched === 0
      ? `no star brighter than magnitude ${WATCHED_MAG} is shown`
      : `${watched - tooFar.length} of ${watched} objects to magnitude ${WATCHED_MAG} stand where the eye looks for them`,
    ...(constellations.length === 0
      ? []
      : [
          `${held} of ${constellations.length} constellations keep their shape to a twentieth of their size${bent.length === 0 ? "" : `, ${bent.map(({ name }) => name).join(", ")} ${bent.length === 1 ? "is" : "are"} off by over a fifth`}`,
        ]),
    missing.length === 0
      ? `nothing brighter than magnitude ${limitingMag.toFixed(2)} is missing`
      : `${missing.length} brighter than magnitude ${limitingMag.toFixed(2)} ${missing.length === 1 ? "is" : "are"} missing, the brightest of them ${called(missing[0]!)} (${missing[0]!.mag.toFixed(1)})`,
    ...splitGroups(groups),
  ];
  const mayHelp =
    tooFar.length > 0 && slide === null && plan.placement.shift === 0
      ? " Sliding the sky a little may help: placement: {shift: 40mm, turn: 1}, or lacunar check PLAN --free 15min."
      : "";
  return `${headline}: ${facts.join("; ")}.${mayHelp}`;
}

function splitGroups(groups: Truth["groups"]): string[] {
  const split = groups.filter(({ panels }) => panels.length > 1).map(({ name }) => name);
  return split.length === 0 ? [] : [`a seam runs through ${split.join(" and ")}`];
}
