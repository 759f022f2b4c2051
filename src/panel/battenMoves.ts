import type { HoleRulesPlan } from "../plan/plan.ts";
import { shapeKeepsOff } from "./flat.ts";
import { crossDividesWidth } from "./frame.ts";
import { LegalRegion } from "./legal.ts";
import { boxOf, type Ring } from "./rings.ts";
import { constraintsOf, type WorkPanel } from "./work.ts";

/** A star's true point in the face frame of its panel, and the bit that it gets. */
export interface StarPoint {
  readonly xMm: number;
  readonly yMm: number;
  readonly bitMm: number;
}

/** A cross batten that would stand in fewer stars' way a little to one side. */
export interface BattenMove {
  readonly panel: string;
  /** 1 is the leftmost or lowest, seen from the room. */
  readonly batten: number;
  readonly of: number;
  /** Upright battens move left and right, the others up and down, all seen from the room. */
  readonly upright: boolean;
  /** Where its centre line is, from the left or the lower edge of the board. */
  readonly atMm: number;
  /** Positive to the right or upward. */
  readonly byMm: number;
  /** Indices of stars that could then take their true place, and of those that no longer could. */
  readonly frees: readonly number[];
  readonly takes: readonly number[];
}

/** No farther than this, nor than a quarter of the way to the next batten: the board is to stay held. */
const FARTHEST_MM = 60;

/**
 * For each cross batten the move by whole millimetres after which most stars more than now can take their true
 * place; the shortest of those. Battens that cannot be bettered are left out; most gained first.
 */
export function battenMoves(
  panels: readonly WorkPanel[],
  stars: readonly (readonly StarPoint[])[],
  rules: HoleRulesPlan,
): BattenMove[] {
  const moves = panels.flatMap((panel, i): BattenMove[] => {
    const cross = (panel.frame?.battens ?? []).filter(({ kind }) => kind === "cross");
    const { widthMm, lengthMm } = boxOf(panel.boardRing);
    const upright = crossDividesWidth(panel);
    // A notch may cut one batten in two: they share their centre line and move together.
    const centres = [...new Set(cross.map(({ from }) => (upright ? from[0] : from[1])))].sort(
      (a, b) => a - b,
    );
    const reach = Math.floor(Math.min(FARTHEST_MM, Math.max(widthMm, lengthMm) / (centres.length + 1) / 4));
    return centres.flatMap((atMm, k): BattenMove[] => {
      const rings = cross
        .filter(({ from }) => (upright ? from[0] : from[1]) === atMm)
        .map(({ ring }) => ring);
      const found = bestMove(panel, rings, upright, stars[i] ?? [], rules, reach);
      if (found === null) return [];
      return [{ panel: panel.id, batten: k + 1, of: centres.length, upright, atMm, ...found }];
    });
  });
  const gain = ({ frees, takes }: BattenMove) => frees.length - takes.length;
  return moves.sort((a, b) => gain(b) - gain(a) || Math.abs(a.byMm) - Math.abs(b.byMm));
}

function bestMove(
  panel: WorkPanel,
  rings: readonly Ring[],
  upright: boolean,
  stars: readonly StarPoint[],
  rules: HoleRulesPlan,
  reachMm: number,
): Pick<BattenMove, "byMm" | "frees" | "takes"> | null {
  const near = stars.map(({ xMm, yMm, bitMm }) => {
    const keepsOff = rings.map((ring) => shapeKeepsOff({ ring }, rules.batten + bitMm / 2));
    return (byMm: number) => {
      const [x, y] = upright ? [xMm - byMm, yMm] : [xMm, yMm - byMm];
      return keepsOff.some((keeps) => !keeps(x, y));
    };
  });
  if (!near.some((isNear) => isNear(0))) return null;
  const others = new Map<number, LegalRegion>();
  const elsewhereFree = stars.map(({ xMm, yMm, bitMm }) => {
    let region = others.get(bitMm);
    if (region === undefined) {
      region = new LegalRegion(withoutBattens(panel, rings, bitMm, rules));
      others.set(bitMm, region);
    }
    return region.allows(xMm, yMm);
  });
  const indices = stars.map((_, i) => i).filter((i) => elsewhereFree[i]);
  const blocked = indices.filter((i) => near[i]!(0));
  let best: { byMm: number; gain: number } | null = null;
  for (let step = 1; step <= 2 * reachMm; step++) {
    const byMm = step % 2 === 1 ? (step + 1) / 2 : -step / 2;
    const gain = blocked.length - indices.filter((i) => near[i]!(byMm)).length;
    if (gain > (best?.gain ?? 0)) best = { byMm, gain };
  }
  if (best === null) return null;
  const { byMm } = best;
  return {
    byMm,
    frees: blocked.filter((i) => !near[i]!(byMm)),
    takes: indices.filter((i) => !near[i]!(0) && near[i]!(byMm)),
  };
}

const withoutBattens = (panel: WorkPanel, rings: readonly Ring[], bitMm: number, rules: HoleRulesPlan) => {
  const frame = panel.frame!;
  const bare = {
    ...panel,
    frame: { ...frame, battens: frame.battens.filter(({ ring }) => !rings.includes(ring)) },
  };
  return constraintsOf(bare, bitMm, rules);
};
