import type { FramePlan } from "../plan/plan.ts";
import { common, without } from "./clip.ts";
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
export interface Frame {
  readonly battens: readonly Batten[];
  /** Inside the edge battens: a hole must lie in one of these. */
  readonly within: readonly Ring[];
  readonly withinSlackMm: number;
  /** Inside the inset, where there is one: nothing is legal outside. */
  readonly inInset: readonly Ring[];
  readonly screws: readonly Point[];
  readonly hangers: readonly Point[];
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
    mitredEdges.length > 0 ? mitredEdges : sidesOf(inset(panel.boardRing, plan.inset + width / 2));
  const lines = [
    ...edges.map(({ from, to }) => ({ kind: "edge" as const, from, to })),
    ...battens.filter(({ kind }) => kind !== "edge"),
  ];
  const screws = screwsAlong(lines, plan, within);
  return {
    battens,
    within,
    withinSlackMm,
    inInset: plan.inset > 0 ? outer : [],
    screws,
    hangers: evenlyRound(edges, plan.hangers, screws),
  };
}

const hundredth = (mm: number) => Math.round(mm * 100) / 100;

/** The outline drawn in; none where a rectangle is too narrow. */
function insetOf({ exactRing, isRectangle }: Panel, byMm: number): Ring[] {
  const { widthMm, lengthMm } = boxOf(exactRing);
  if (isRectangle && Math.min(widthMm, lengthMm) <= 2 * byMm) return [];
  return inset(exactRing, byMm);
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

type Line = Pick<Batten, "from" | "to">;

/** The centre lines of a band that is not one mitred piece a side. */
const sidesOf = (rings: readonly Ring[]): Line[] =>
  rings.flatMap((ring) => ring.map((from, i) => ({ from, to: ring[(i + 1) % ring.length]! })));

/** From the ends of a batten to its first screw: 25 mm from a corner (mdf-info.eu), and the head's half. */
const FROM_END_MM = 30;

/**
 * Along each centre line, evenly, no farther apart than the pitch; cross battens stop at the edge battens. A line too short for two
 * gets one in its middle, unless there is one close by (an outline of many short sides).
 */
function screwsAlong(
  lines: readonly (Line & Pick<Batten, "kind">)[],
  plan: FramePlan,
  within: readonly Ring[],
): [number, number][] {
  const screws: [number, number][] = [];
  const { pitch } = plan.screws;
  const hold = within.length > 0;
  for (const { kind, from, to } of lines) {
    const start = FROM_END_MM + (kind === "edge" || !hold ? 0 : plan.inset + plan.batten.width);
    const span = Math.hypot(to[0] - from[0], to[1] - from[1]);
    const run = span - 2 * start;
    if (run <= 0) {
      const [x, y] = pointOn({ from, to }, 0.5);
      if (
        screws.every((screw) => Math.hypot(screw[0] - x, screw[1] - y) > Math.min(pitch / 2, 2 * FROM_END_MM))
      )
        screws.push([x, y]);
      continue;
    }
    const pieces = Math.max(1, Math.ceil(run / pitch - 1e-9));
    for (let i = 0; i <= pieces; i++) screws.push(pointOn({ from, to }, (start + (run * i) / pieces) / span));
  }
  return screws;
}

const pointOn = ({ from, to }: Line, t: number): [number, number] => [
  hundredth(from[0] + t * (to[0] - from[0])),
  hundredth(from[1] + t * (to[1] - from[1])),
];

/** The tip of a board's screw must not meet what hangs the panel. */
const HANGER_OFF_SCREW_MM = 20;

/**
 * So many points on the centre lines of the edge battens, evenly round the panel: the first half a step from its first corner. One
 * that would sit on a screw goes to the middle between that screw and the next.
 */
function evenlyRound(
  edges: readonly Line[],
  count: number,
  screws: readonly (readonly [number, number])[],
): [number, number][] {
  const spans = edges.map(({ from, to }) => Math.hypot(to[0] - from[0], to[1] - from[1]));
  const round = spans.reduce((sum, span) => sum + span, 0);
  if (round === 0) return [];
  return Array.from({ length: count }, (_, k) => {
    let rest = ((k + 0.5) / count) * round;
    let i = 0;
    while (i < edges.length - 1 && rest > spans[i]!) rest -= spans[i++]!;
    const edge = edges[i]!;
    return pointOn(edge, offScrews(rest, alongLine(edge, spans[i]!, screws)) / spans[i]!);
  });
}

/** Where on a line its screws sit, in mm from its start, sorted. */
function alongLine(
  { from, to }: Line,
  span: number,
  screws: readonly (readonly [number, number])[],
): number[] {
  const [ux, uy] = [(to[0] - from[0]) / span, (to[1] - from[1]) / span];
  return screws
    .filter(([x, y]) => Math.abs((x - from[0]) * uy - (y - from[1]) * ux) < 0.02)
    .map(([x, y]) => (x - from[0]) * ux + (y - from[1]) * uy)
    .filter((at) => at > -0.02 && at < span + 0.02)
    .sort((a, b) => a - b);
}

function offScrews(at: number, screws: readonly number[]): number {
  const close = screws.findIndex((screw) => Math.abs(screw - at) < HANGER_OFF_SCREW_MM);
  if (close < 0) return at;
  const other =
    screws[at >= screws[close]! ? close + 1 : close - 1] ?? screws[close + 1] ?? screws[close - 1];
  return other === undefined ? at : (screws[close]! + other) / 2;
}
