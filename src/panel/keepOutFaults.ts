import type { Finding } from "../plan/errors.ts";
import { pointText } from "../plan/mmWords.ts";
import type { Plan } from "../plan/plan.ts";
import { commonAreaMm2 } from "./clip.ts";
import { type KeepOut, keepOutsOf, type Shape } from "./keepOuts.ts";
import { crossingSides, pastWalls } from "./panelFaults.ts";
import type { Ring } from "./rings.ts";
import { roomRing } from "./walls.ts";

/** Corners of the polygon that stands for a circle: 0.1 % of its radius off at most. */
const CORNERS = 72;

export const ringOf = (shape: Shape): Ring =>
  "ring" in shape
    ? shape.ring
    : Array.from({ length: CORNERS }, (_, i) => {
        const angle = (2 * Math.PI * i) / CORNERS;
        return [
          shape.at[0] + shape.radiusMm * Math.cos(angle),
          shape.at[1] + shape.radiusMm * Math.sin(angle),
        ] as const;
      });

/**
 * Keep-outs that cannot be: their outline crosses itself, or they lie off the ceiling altogether.
 * @param plan positions in the ceiling frame
 */
export function keepOutFaults(plan: Plan): Finding[] {
  const room = roomRing(plan);
  return keepOutsOf(plan.keepOut).flatMap(({ id, kind, shape }): Finding[] => {
    const ring = ringOf(shape);
    const crossing = crossingSides(ring);
    if (crossing !== null) {
      return [
        {
          code: "outline-crosses-itself",
          message: `keep-out ${id} (${kind}): ${crossing}`,
        },
      ];
    }
    if (commonAreaMm2(ring, room) > 0) return [];
    return [
      {
        code: "keep-out-outside-ceiling",
        message: `keep-out ${id} (${kind}) lies off the ceiling of ${plan.ceiling.width} x ${plan.ceiling.length} mm, at ${whereabouts(shape)}; check its position, and drawnAs: from which side it was measured`,
      },
    ];
  });
}

const whereabouts = (shape: Shape): string =>
  `${pointText("at" in shape ? shape.at : shape.ring[0]!)} in the ceiling frame`;

/** What of a keep-out lies past the walls: a slip of the tape, or a margin drawn round a thing by the wall. */
export const keepOutPastWalls = ({ shape }: KeepOut, room: Ring): string | null =>
  pastWalls(ringOf(shape), room);
