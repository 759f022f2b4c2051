import type { HoleRulesPlan } from "../plan/plan.ts";
import { LegalRegion } from "./legal.ts";
import { distanceToRing, ringHolds } from "./rings.ts";
import { keepOutConstraints, legalCells, type WorkPanel } from "./work.ts";

/*
 * Moved to the nearest legal point, the stars behind a batten would line up along it. Instead a dead strip of depth D and the legal
 * strip of depth W beside it are pressed together into the legal one, order kept: at u, counted from the edge of the legal
 * area (-D at the bottom of the dead strip, W where nothing moves any more), a star moves by D ((W - u) / (W + D))^m.
 * With W = 2D and m = 2 the sky is pressed to a third at the edge and not at all at W, and the mean square
 * of the shifts is 1.8 times that of moving each to the edge (3 (W + D) / 5D).
 */
const DEPTHS = 2;

function pressed(u: number, deadMm: number, liveMm: number): number {
  if (deadMm <= 0 || u >= liveMm) return u;
  const from = Math.max(u, -deadMm);
  const power = Math.min(2, 1 + (0.6 * liveMm) / deadMm);
  return from + deadMm * ((liveMm - from) / (liveMm + deadMm)) ** power;
}

/** Where a star would go on its panel before rules are asked, in the panel's face frame. */
export type Press = (x: number, y: number) => readonly [number, number];

/** @param whole where the bit may go on the panel */
export function makePress(panel: WorkPanel, bitMm: number, rules: HoleRulesPlan, whole: LegalRegion): Press {
  if (!panel.isRectangle) return alongRays(whole, rules.maxShift, isItsOwn(panel));
  const byAxes = alongAxes(panel, bitMm, rules);
  // Battens of the person's own and keep-outs are pressed away from after the frame.
  const extra = (panel.frame?.battens ?? [])
    .filter((batten) => batten.kind === "extra")
    .map(({ ring, slackMm }) => ({ shape: { ring }, clearanceMm: rules.batten + bitMm / 2 + slackMm }));
  const off = [...extra, ...keepOutConstraints(panel, bitMm, rules)];
  if (off.length === 0) return byAxes;
  const around = alongRays(new LegalRegion({ within: [], off }), rules.maxShift, () => true);
  return (x, y) => around(...byAxes(x, y));
}

/** A rectangle whose frame cuts it into rectangles: each axis for itself. */
function alongAxes(panel: WorkPanel, bitMm: number, rules: HoleRulesPlan): Press {
  const battens = panel.frame?.battens.filter((batten) => batten.kind !== "extra");
  const bare = { ...panel, keepOuts: [], frame: panel.frame && { ...panel.frame, battens: battens ?? [] } };
  const cells = legalCells(bare, bitMm, rules) ?? [];
  if (cells.length === 0) return (x, y) => [x, y];
  const { finished, board, beyond } = panel;
  const low = { x: finished.xMm - board.xMm, y: finished.yMm - board.yMm };
  const distinct = (spans: readonly Interval[]) =>
    spans.filter(([from], i) => spans.findIndex(([other]) => other === from) === i);
  const alongX = axisPress(
    low.x - beyond.leftMm,
    low.x + finished.widthMm + beyond.rightMm,
    distinct(cells.map(([left, , right]) => [left, right])),
    rules.maxShift,
  );
  const alongY = axisPress(
    low.y - beyond.bottomMm,
    low.y + finished.lengthMm + beyond.topMm,
    distinct(cells.map(([, bottom, , top]) => [bottom, top])),
    rules.maxShift,
  );
  return (x, y) => [alongX(x), alongY(y)];
}

type Interval = readonly [number, number];

/**
 * @param first, last  where another panel's stars begin on this axis, or the ceiling ends
 * @param deepestMm    no star comes from deeper in a dead strip
 */
function axisPress(
  first: number,
  last: number,
  live: readonly Interval[],
  deepestMm: number,
): (u: number) => number {
  const parts = live.map(([low, high], i) => {
    const dead = (mm: number) => Math.min(deepestMm, mm);
    const before = dead(i === 0 ? low - first : (low - live[i - 1]![1]) / 2);
    const after = dead(i === live.length - 1 ? last - high : (live[i + 1]![0] - high) / 2);
    const span = high - low;
    return {
      low,
      high,
      until: i === live.length - 1 ? last : (high + live[i + 1]![0]) / 2,
      before,
      after,
      liveBefore: Math.min(DEPTHS * before, (span * before) / (before + after || 1)),
      liveAfter: Math.min(DEPTHS * after, (span * after) / (before + after || 1)),
    };
  });
  return (u) => {
    const part = parts.find(({ until }) => u <= until) ?? parts.at(-1);
    if (part === undefined) return u;
    const middle = part.low + part.liveBefore;
    if (u < middle) return part.low + pressed(u - part.low, part.before, part.liveBefore);
    return part.high - pressed(part.high - u, part.after, part.liveAfter);
  };
}

/** Tells of a point in the panel's face frame whether its stars are this panel's to take. */
function isItsOwn({ finishedRing, board, beyond }: WorkPanel): (x: number, y: number) => boolean {
  const { others, ceiling } = beyond;
  return (xFace, yFace) => {
    const [x, y] = [xFace + board.xMm, yFace + board.yMm];
    if (ringHolds(finishedRing, x, y)) return true;
    if (x < 0 || y < 0 || x > ceiling.width || y > ceiling.length) return false;
    const its = distanceToRing(finishedRing, x, y);
    return others.every((ring) => !ringHolds(ring, x, y) && distanceToRing(ring, x, y) >= its);
  };
}

/** Any other region: along the ray from the star to the nearest point of the region's edge. */
function alongRays(region: LegalRegion, deepestMm: number, isOwn: (x: number, y: number) => boolean): Press {
  return (x, y) => {
    const legal = region.allows(x, y);
    const edge = region.nearestBoundary(x, y, DEPTHS * deepestMm);
    if (edge === null || edge.distance < 1e-6) return [x, y];
    const sign = legal ? 1 : -1;
    const nx = (sign * (x - edge.x)) / edge.distance;
    const ny = (sign * (y - edge.y)) / edge.distance;
    /** True while the edge's point stays the nearest one of the edge. */
    const isFoot = (px: number, py: number, depth: number) =>
      region.nearestBoundary(px, py, depth - FOOT_MM) === null;
    const dead = farthest(legal ? 0 : edge.distance, deepestMm, (depth) => {
      const [px, py] = [edge.x - nx * depth, edge.y - ny * depth];
      return !region.allows(px, py) && isOwn(px, py) && isFoot(px, py, depth);
    });
    if (legal && edge.distance >= DEPTHS * dead) return [x, y];
    const live = farthest(legal ? edge.distance : 0, DEPTHS * dead, (depth) => {
      const [px, py] = [edge.x + nx * depth, edge.y + ny * depth];
      return region.allows(px, py) && isFoot(px, py, depth);
    });
    const to = pressed(sign * edge.distance, dead, live);
    return [edge.x + nx * to, edge.y + ny * to];
  };
}

const FOOT_MM = 0.05;

/** The largest value between two for which something holds that holds for all smaller ones, to half a millimetre. */
function farthest(least: number, most: number, holds: (value: number) => boolean): number {
  if (most <= least || holds(most)) return Math.max(least, most);
  let [low, high] = [least, most];
  while (high - low > 0.5) {
    const middle = (low + high) / 2;
    if (holds(middle)) low = middle;
    else high = middle;
  }
  return low;
}
