import type { Finding } from "../plan/errors.ts";
import { upToHundredths as mm } from "../plan/mmWords.ts";
import type { Plan } from "../plan/plan.ts";
import { common, without } from "./clip.ts";
import { type BoxMm, boxOf, type Ring, selfCrossing, signedAreaMm2 } from "./rings.ts";
import { roomRing } from "./walls.ts";

/** Less than this is a rounding of the plan's own figures, not an overlap. */
const TOUCHING_MM = 1e-6;
const TOUCHING_MM2 = 0.01;

interface Outline {
  readonly id: string;
  readonly ring: Ring;
}

/** A panel as it is laid out: what this needs to know of it. */
interface LaidOut {
  readonly id: string;
  readonly finished: BoxMm;
  readonly finishedRing: Ring;
  readonly isRectangle: boolean;
}

/** An outline that is none: it crosses itself or has no area. */
export function unsound({ id, ring }: Outline): Finding | null {
  const crossing = crossingSides(ring);
  if (crossing !== null) return { code: "outline-crosses-itself", message: `panel ${id}: ${crossing}` };
  return Math.abs(signedAreaMm2(ring)) < TOUCHING_MM2
    ? { code: "panel-without-board", message: `panel ${id}: its outline has no area` }
    : null;
}

/** A corner that an outline repeats, or which of its sides cross or touch, and what to do; null for a sound one. */
export function crossingSides(ring: Ring): string | null {
  const corner = (k: number) => `[${mm(ring[k % ring.length]![0])}, ${mm(ring[k % ring.length]![1])}]`;
  const doubled = ring.findIndex(([x, y], i) => {
    const [nextX, nextY] = ring[(i + 1) % ring.length]!;
    return x === nextX && y === nextY;
  });
  if (doubled >= 0) {
    const where = doubled === ring.length - 1 ? "first and last, and closes by itself" : "twice in a row";
    return `its outline lists the corner ${corner(doubled)} ${where}: leave out the repeated corner`;
  }
  const crossing = selfCrossing(ring);
  if (crossing === null) return null;
  const [i, j] = crossing;
  return `its outline crosses or touches itself: the side from ${corner(i)} to ${corner(i + 1)} meets the side from ${corner(j)} to ${corner(j + 1)}; list the corners in order, once round`;
}

/** An outline of the ceiling that is none. */
export function roomFaults({ ceiling: { outline } }: Plan): Finding[] {
  if (outline === undefined) return [];
  const crossing = crossingSides(outline);
  if (crossing !== null) {
    return [{ code: "outline-crosses-itself", message: `ceiling: ${crossing}` }];
  }
  if (Math.abs(signedAreaMm2(outline)) >= TOUCHING_MM2) return [];
  return [
    {
      code: "no-ceiling",
      message: "ceiling: its outline has no area; list the corners of the walls, once round",
    },
  ];
}

/** Thinner than this is what clipping leaves of a side that touches the wall. */
const SLIVER_MM = 2e-3;

/** What of a ring lies past the walls, in words; null when it keeps inside. @param room the outline of the room */
export function pastWalls(ring: Ring, room: Ring): string | null {
  const parts = without([ring], [room])
    .filter((part) => (2 * Math.abs(signedAreaMm2(part))) / lengthRound(part) > SLIVER_MM)
    .map(boxOf)
    .map(
      ({ xMm, yMm, widthMm, lengthMm }) =>
        `${mm(widthMm)} x ${mm(lengthMm)} mm about [${mm(xMm + widthMm / 2)}, ${mm(yMm + lengthMm / 2)}]`,
    );
  return parts.length === 0 ? null : parts.join(" and ");
}

const lengthRound = (ring: Ring): number =>
  ring.reduce((sum, [x, y], i) => {
    const [nextX, nextY] = ring[(i + 1) % ring.length]!;
    return sum + Math.hypot(nextX - x, nextY - y);
  }, 0);

/** A sound outline that leaves the ceiling. */
export function outside({ id, ring }: Outline, plan: Plan): Finding[] {
  const { ceiling } = plan;
  if (ceiling.outline !== undefined) {
    const past = pastWalls(ring, roomRing(plan));
    if (past === null) return [];
    return [
      {
        code: "panel-outside-ceiling",
        message: `panel ${id} leaves the room: past the walls lie ${past}; move it or make it smaller`,
      },
    ];
  }
  const box = boxOf(ring);
  const beyond: [string, number][] = [
    ["left", -box.xMm],
    ["bottom", -box.yMm],
    ["right", box.xMm + box.widthMm - ceiling.width],
    ["top", box.yMm + box.lengthMm - ceiling.length],
  ];
  const sides = beyond
    .filter(([, over]) => over > TOUCHING_MM)
    .map(([side, over]) => `${mm(over)} mm past the ${side} edge`);
  if (sides.length === 0) return [];
  return [
    {
      code: "panel-outside-ceiling",
      message: `panel ${id} leaves the ceiling of ${ceiling.width} x ${ceiling.length} mm: it reaches ${sides.join(" and ")}; move it or make it smaller`,
    },
  ];
}

/** Who put hundreds of panels in one place needs no list of every pair. */
const MOST_OVERLAPS = 100;

export function overlapping(panels: readonly LaidOut[]): Finding[] {
  const findings: Finding[] = [];
  // Sweep from left to right: only panels that share some x are compared.
  const byLeft = [...panels].sort((a, b) => a.finished.xMm - b.finished.xMm);
  for (const [i, a] of byLeft.entries()) {
    for (let j = i + 1; j < byLeft.length; j++) {
      const b = byLeft[j]!;
      const across =
        Math.min(a.finished.xMm + a.finished.widthMm, b.finished.xMm + b.finished.widthMm) - b.finished.xMm;
      if (b.finished.xMm >= a.finished.xMm + a.finished.widthMm - TOUCHING_MM) break;
      const along =
        Math.min(a.finished.yMm + a.finished.lengthMm, b.finished.yMm + b.finished.lengthMm) -
        Math.max(a.finished.yMm, b.finished.yMm);
      if (findings.length >= MOST_OVERLAPS) return findings;
      if (along <= TOUCHING_MM) continue;
      const shared = sharedBox(a, b, across, along);
      if (shared !== null) {
        findings.push({
          code: "panels-overlap",
          message: `panels ${a.id} and ${b.id} overlap by ${shared}; move or shrink one of them`,
        });
      }
    }
  }
  return findings;
}

/** How much two panels whose boxes overlap have in common, in words; null when they have nothing. */
function sharedBox(a: LaidOut, b: LaidOut, acrossMm: number, alongMm: number): string | null {
  if (a.isRectangle && b.isRectangle) return `${mm(acrossMm)} x ${mm(alongMm)} mm`;
  const rings = common(a.finishedRing, b.finishedRing);
  if (rings.reduce((sum, ring) => sum + signedAreaMm2(ring), 0) < TOUCHING_MM2) return null;
  const { xMm, yMm, widthMm, lengthMm } = boxOf(rings.flat());
  return `${mm(widthMm)} x ${mm(lengthMm)} mm about [${mm(xMm + widthMm / 2)}, ${mm(yMm + lengthMm / 2)}]`;
}
