import type { Plan } from "../plan/plan.ts";

/**
 * Cautions of drilling, in short sentences. Sources: HSE, wood dust; EN 166 and 29 CFR 1910.133, eye protection (from memory); the rest is
 * common practice.
 */
export const drillingCautions = (): string[] => [
  "CAUTIONS: MDF and wood dust harm lungs: extract at the tool, wear a fitted fine-dust mask.",
  "Wear eye protection; no gloves or loose sleeves near a turning chuck.",
  "Clamp the board flat on a bench; never drill overhead. Keep hands off until the spindle stands still.",
  "Local codes and your machine's own manual come first.",
];

/** How the second pass opens the holes; from the back, the face down on soft sacrificial board. */
const OPENING: Readonly<Record<Plan["work"]["opening"], string>> = {
  pierce:
    "open each hole to its bit from the back, stop at the cloth, then pierce the cloth with a needle of the fibre's size",
  hotNeedle:
    "open each hole to its bit from the back, stop at the cloth, then melt through it with a hot needle: only after a sample, in fresh air, nothing that burns nearby",
  drill:
    "drill board and cloth to size from the back in one go: only after the sample board showed that your cloth neither winds round the bit nor frays",
};

/** Work in two passes, in words for any output. */
export const workWords = ({ work }: Pick<Plan, "work">): readonly [string, string] => [
  `Pass 1, pilot: on the bare FACE, every hole with the ${work.pilot} mm bit, thinner holes with their own.`,
  `Pass 2, opening: after paint, glue and fabric have hidden the pilot holes, with the face down on soft sacrificial board, ${OPENING[work.opening]}.`,
];
