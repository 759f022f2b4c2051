import type { FramePlan } from "../plan/plan.ts";
import { common, without } from "./clip.ts";
import { cutLine, fromSideMm, sideLines } from "./edgeLines.ts";
import { type Fixings, fixingsOf } from "./fixings.ts";
import { inset, mitred } from "./mitre.ts";
import type { Panel } from "./panels.ts";
import { boxOf, pieceInside, type Ring, rectangleRing, signedAreaMm2 } from "./rings.ts";
import { CORNER_SLACK_MM, isWhole, ringSlackMm, ringsSlackMm } from "./written.ts";

type Point = readonly [number, number];

export interface Batten {
  readonly kind: "edge" | "cross" | "extra";
  /** Face frame of the panel; a batten cut in two by a notch of the outline is two. */
  readonly ring: Ring;
  /** What a hole keeps from it beyond its clearance (written.ts). */
  readonly slackMm: number;
  /** Its centre line, for screws. */
  readonly from: Point;
  readonly to: Point;
  /** Where its wood ends, side to side: at mitres, at the outline, and where it meets the edge battens. */
  readonly ends: readonly (readonly [Point, Point])[];
}

/** What is glued behind one board, in its face frame. */
export interface Frame extends Fixings {
  readonly battens: readonly Batten[];
  /** Inside the edge battens: a hole must lie in one of these. */
  readonly within: readonly Ring[];
  readonly withinSlackMm: number;
}

/** True when cross battens divide the width of a board. */
export const crossDividesWidth = ({ board }: Panel): boolean => board.widthMm >= board.lengthMm - 1e-6;

/**
 * Battens of a panel: edge battens cover every point from inset to inset + width inside the board's outline, mitred; cross
 * batten k of n has its centre at k/(n+1) of the longer side of the board's box (the width if both are equal), runs along
 * the shorter one and is clipped to the outline.
 */
export function frameOf(panel: Panel, plan: FramePlan): Frame {
  const { exactRing } = panel;
  const { width } = plan.batten;
  const outer = insetOf(panel, plan.inset);
  const within = insetOf(panel, plan.inset + width);
  const withinSlackMm = Math.max(
    ringSlackMm(exactRing),
    ringsSlackMm(within),
    isWhole(plan.inset + width) ? 0 : CORNER_SLACK_MM,
  );
  const battens: Batten[] = edgeBattens(exactRing, outer, within, plan.inset, width);
  const box = boxOf(exactRing);
  const acrossX = crossDividesWidth(panel);
  /** A bar where it lies on the board. @param itsEnds those of the bar itself */
  const bars = (kind: Batten["kind"], bar: Ring, itsEnds: Batten["ends"]) => {
    const stops = [exactRing, ...within].flatMap((ring) =>
      ring.flatMap((a, i): (readonly [Point, Point])[] => {
        const piece = pieceInside(bar, a, ring[(i + 1) % ring.length]!);
        return piece === null ? [] : [piece];
      }),
    );
    return onBoard(panel, bar).map((ring) => ({
      kind,
      ring,
      slackMm: Math.max(ringSlackMm(bar), ringSlackMm(exactRing), ringSlackMm(ring)),
      ends: [...itsEnds, ...stops],
    }));
  };
  for (let k = 1; k <= plan.crossBattens; k++) {
    const at = (k / (plan.crossBattens + 1)) * (acrossX ? panel.board.widthMm : panel.board.lengthMm);
    const strip = acrossX
      ? { xMm: at - width / 2, yMm: box.yMm, widthMm: width, lengthMm: box.lengthMm }
      : { xMm: box.xMm, yMm: at - width / 2, widthMm: box.widthMm, lengthMm: width };
    for (const bar of bars("cross", rectangleRing(strip), [])) {
      const its = boxOf(bar.ring);
      battens.push({
        ...bar,
        from: acrossX ? [at, its.yMm] : [its.xMm, at],
        to: acrossX ? [at, its.yMm + its.lengthMm] : [its.xMm + its.widthMm, at],
      });
    }
  }
  for (const { from, to } of plan.battens.filter((one) => one.panel === panel.id)) {
    const bar = barRing(from, to, width);
    for (const one of bars("extra", bar, [
      [bar[0]!, bar[3]!],
      [bar[1]!, bar[2]!],
    ]))
      battens.push({ ...one, from, to });
  }
  const mitredEdges = battens.filter(({ kind, from, to }) => kind === "edge" && from !== to);
  const edges =
    mitredEdges.length > 0
      ? mitredEdges.map((edge) => cutLine(edge, width))
      : sideLines(insetOf(panel, plan.inset + width / 2, panel.boardRing));
  // Cross battens stop at the edge battens; where those leave nothing free, at the board's edge.
  const zone = insetOf(panel, fromSideMm(width) + (within.length > 0 ? plan.inset + width : 0));
  return { battens, within, withinSlackMm, ...fixingsOf(battens, edges, zone, plan) };
}

/** The outline drawn in; none where a rectangle is too narrow. */
function insetOf({ exactRing, isRectangle }: Panel, byMm: number, ring = exactRing): Ring[] {
  const { widthMm, lengthMm } = boxOf(exactRing);
  if (isRectangle && Math.min(widthMm, lengthMm) <= 2 * byMm) return [];
  return inset(ring, byMm);
}

/** What of a bar lies on the board. */
function onBoard({ exactRing, isRectangle }: Panel, bar: Ring): Ring[] {
  const { widthMm, lengthMm } = boxOf(exactRing);
  const inside = bar.every(([x, y]) => x >= 0 && x <= widthMm && y >= 0 && y <= lengthMm);
  return isRectangle && inside ? [bar] : common(exactRing, bar);
}

/** A bar of some width about a centre line, ends square. */
function barRing([ax, ay]: Point, [bx, by]: Point, width: number): Ring {
  const span = Math.hypot(bx - ax, by - ay) || 1;
  const nx = (-(by - ay) / span) * (width / 2);
  const ny = ((bx - ax) / span) * (width / 2);
  return [
    [ax - nx, ay - ny],
    [bx - nx, by - ny],
    [bx + nx, by + ny],
    [ax + nx, ay + ny],
  ];
}

/**
 * One mitred piece a side, where every side keeps a length inside; else (an outline with sides shorter than the batten is wide)
 * the whole band, cut in two through each hole.
 * @param outline counter-clockwise
 */
function edgeBattens(
  outline: Ring,
  outer: readonly Ring[],
  inner: readonly Ring[],
  insetMm: number,
  widthMm: number,
): Batten[] {
  const a = mitred(outline, insetMm);
  const b = mitred(outline, insetMm + widthMm);
  if (a === null || b === null) {
    // No saying where such pieces are joined; most likely from each outer corner to the inner one nearest to it.
    const ends = outer.flat().map((corner) => [corner, nearestOf(corner, inner.flat())] as const);
    return bandInPieces(outer, inner).map((ring, i) => ({
      kind: "edge",
      ring,
      slackMm: ringSlackMm(ring),
      from: ring[0]!,
      to: ring[0]!,
      ends: i === 0 ? ends : [],
    }));
  }
  return outline.map((_, i): Batten => {
    const j = (i + 1) % outline.length;
    const middle = (p: Point, q: Point): Point => [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2];
    const ring: Ring = [a[i]!, a[j]!, b[j]!, b[i]!];
    return {
      kind: "edge",
      ring,
      slackMm: ringSlackMm(ring),
      from: middle(a[i]!, b[i]!),
      to: middle(a[j]!, b[j]!),
      ends: [
        [a[i]!, b[i]!],
        [a[j]!, b[j]!],
      ],
    };
  });
}

const nearestOf = ([x, y]: Point, others: readonly Point[]): Point =>
  others.reduce<Point>(
    (best, other) =>
      Math.hypot(other[0] - x, other[1] - y) < Math.hypot(best[0] - x, best[1] - y) ? other : best,
    others[0] ?? [x, y],
  );

function bandInPieces(outer: readonly Ring[], inner: readonly Ring[]): Ring[] {
  if (outer.length === 0) return [];
  const band = without(outer, inner);
  const holes = band.filter((ring) => signedAreaMm2(ring) < 0);
  const all = boxOf(outer.flat());
  // Cut by upright lines through the middle of each hole, so that no piece has a hole.
  const cuts = [
    all.xMm - 1,
    ...holes.map((hole) => boxOf(hole).xMm + boxOf(hole).widthMm / 2).sort((p, q) => p - q),
    all.xMm + all.widthMm + 1,
  ];
  return cuts.slice(1).flatMap((right, i) => {
    const left = cuts[i]!;
    if (right - left < 0.01) return [];
    const slab = rectangleRing({
      xMm: left,
      yMm: all.yMm - 1,
      widthMm: right - left,
      lengthMm: all.lengthMm + 2,
    });
    return outer.flatMap((ring) => common(ring, slab)).flatMap((piece) => without([piece], inner));
  });
}
