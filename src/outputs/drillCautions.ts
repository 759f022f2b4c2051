/**
 * What may hurt at the drill, for every output that is drilled from. Sources: HSE on wood dust and on MDF (dust, extraction, mask);
 * EN 166, ANSI Z87.1 (eye protection; from memory); the rest is common practice.
 */
export const DRILL_CAUTIONS: readonly string[] = [
  "Dust of MDF and wood harms lungs and airways: extract at the tool, wear a fitted fine-dust mask, vacuum instead of sweeping.",
  "Wear eye protection: thin bits snap, and ends of fibre fly.",
  "Drill panels flat on a bench, clamped, never overhead; no gloves and nothing loose near the chuck.",
  "Fine dust and fumes of adhesive can ignite: no flame, spark or hot needle near them.",
  "These are the usual cautions, not all of them: local codes and licensed trades decide.",
];
