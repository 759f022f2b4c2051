import type { Field } from "../projection/field.ts";
import { drilledPoint, shapeFit, truePoint } from "./fidelityShapes.ts";
import { called, type GradedHole } from "./fidelityShifts.ts";
import type { GroupRecord } from "./fidelityTypes.ts";
import { hundredths } from "./rounding.ts";
import type { PlanePoint } from "./similarityFit.ts";

/**
 * Groups by Hipparcos number. Their stars are common knowledge, from memory; numbers against names by the catalogue's table of
 * designations. The Hyades are the V that the eye sees: Aldebaran, which only stands before them, is in it.
 */
export const KNOWN_GROUPS: readonly { readonly name: string; readonly hips: readonly number[] }[] = [
  // η, 27, 17, 20, 23, 19, 28, 16 and 21 Tau: Alcyone, Atlas, Electra, Maia, Merope, Taygeta, Pleione, Celaeno, Asterope.
  { name: "Pleiades", hips: [17702, 17847, 17499, 17573, 17608, 17531, 17851, 17489, 17579] },
  // α, γ, δ1, ε, θ1 and θ2 Tau.
  { name: "Hyades", hips: [21421, 20205, 20455, 20889, 20885, 20894] },
  // ζ, ε and δ Ori: Alnitak, Alnilam, Mintaka.
  { name: "Orion's belt", hips: [26727, 26311, 25930] },
  // α, β, γ, δ, ε, ζ and η UMa.
  { name: "Plough", hips: [54061, 53910, 58001, 59774, 62956, 65378, 67301] },
  // α1, β, γ, δ and ε Cru.
  { name: "Southern Cross", hips: [60718, 62434, 61084, 59747, 60260] },
  // ζ and 80 UMa.
  { name: "Mizar and Alcor", hips: [65378, 65477] },
];

/** Those of which two stars or more have light. @param holes graded ones */
export function groupRecords(holes: readonly GradedHole[], field: Field): GroupRecord[] {
  const holeOf = new Map<number, GradedHole>();
  for (const hole of holes) {
    if (hole.hip !== null) holeOf.set(hole.hip, hole);
    for (const hip of hole.merged) holeOf.set(hip, hole);
  }
  return KNOWN_GROUPS.flatMap(({ name, hips }): GroupRecord[] => {
    const lit = hips.filter((hip) => holeOf.has(hip));
    if (lit.length < 2) return [];
    const its = [...new Set(lit.map((hip) => holeOf.get(hip)!))];
    return [
      {
        name,
        overCeiling: hips.filter((hip) => field.rank.includes(hip)).length,
        lit: lit.length,
        holes: its.length,
        separation: separationOf(its),
        shapeRmsMm: its.length < 3 ? null : hundredths(shapeFit(its)?.rms ?? 0),
        panels: [...new Set(its.map(({ panel }) => panel))].sort(),
      },
    ];
  });
}

function separationOf(holes: readonly GradedHole[]): GroupRecord["separation"] {
  let [squares, pairs] = [0, 0];
  let worst: NonNullable<GroupRecord["separation"]>["worst"] | null = null;
  let worstBy = -1;
  for (const [i, a] of holes.entries()) {
    for (const b of holes.slice(i + 1)) {
      const trueMm = distance(truePoint(a), truePoint(b));
      const drilledMm = distance(drilledPoint(a), drilledPoint(b));
      squares += (drilledMm - trueMm) ** 2;
      pairs++;
      if (Math.abs(drilledMm - trueMm) <= worstBy) continue;
      worstBy = Math.abs(drilledMm - trueMm);
      worst = {
        between: [called(a), called(b)],
        trueMm: hundredths(trueMm),
        drilledMm: hundredths(drilledMm),
      };
    }
  }
  return worst && { rmsMm: hundredths(Math.sqrt(squares / pairs)), worst };
}

const distance = (a: PlanePoint, b: PlanePoint): number => Math.hypot(a[0] - b[0], a[1] - b[1]);
