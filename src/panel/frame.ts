import type { FramePlan } from "../plan/plan.ts";
import { common, drawnIn, without } from "./clip.ts";
import type { Panel } from "./panels.ts";
import { boxOf, type Ring, rectangleRing, signedAreaMm2 } from "./rings.ts";

export interface Batten {
  readonly kind: "edge" | "cross" | "extra";
  /** Face frame of the panel; a batten cut in two by a notch of the outline is two. */
  readonly ring: Ring;
  /** Its centre line, for screws. */
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
}

/** What is glued behind one board, in its face frame. */
export interface Frame {
  readonly battens: readonly Batten[];
  /** Inside the edge battens: a hole must lie in one of these. */
  readonly within: readonly Ring[];
  readonly screws: readonly (readonly [number, number])[];
  readonly hangers: readonly (readonly [number, number])[];
}

/**
 * Battens of a panel: edge battens cover every point from inset to inset + width inside the board's outline, mitred; cross
 * batten k of n has its centre at k/(n+1) of the longer side of the board's box (the width if both are equal), runs along
 * the shorter one and is clipped to the outline.
 */
export function frameOf(panel: Panel, plan: FramePlan): Frame {
  const { boardRing } = panel;
  const { width } = plan.batten;
  const outer = inset(panel, plan.inset);
  const within = inset(panel, plan.inset + width);
  const battens: Batten[] = [...edgeBattens(boardRing, outer, within, plan.inset, width)];
  const box = boxOf(boardRing);
  const acrossX = box.widthMm >= box.lengthMm;
  for (let k = 1; k <= plan.crossBattens; k++) {
    const at = hundredth((k / (plan.crossBattens + 1)) * (acrossX ? box.widthMm : box.lengthMm));
    const strip = acrossX
      ? { xMm: at - width / 2, yMm: box.yMm, widthMm: width, lengthMm: box.lengthMm }
      : { xMm: box.xMm, yMm: at - width / 2, widthMm: box.widthMm, lengthMm: width };
    for (const ring of clipped(panel, rectangleRing(strip))) {
      const its = boxOf(ring);
      battens.push({
        kind: "cross",
        ring,
        from: acrossX ? [at, its.yMm] : [its.xMm, at],
        to: acrossX ? [at, its.yMm + its.lengthMm] : [its.xMm + its.widthMm, at],
      });
    }
  }
  for (const { from, to } of plan.battens.filter((one) => one.panel === panel.id)) {
    for (const ring of common(boardRing, barRing(from, to, width)))
      battens.push({ kind: "extra", ring, from, to });
  }
  const mitredEdges = battens.filter(({ kind, from, to }) => kind === "edge" && from !== to);
  const edges = mitredEdges.length > 0 ? mitredEdges : sidesOf(inset(panel, plan.inset + width / 2));
  const lines = [
    ...edges.map(({ from, to }) => ({ kind: "edge" as const, from, to })),
    ...battens.filter(({ kind }) => kind !== "edge"),
  ];
  const screws = screwsAlong(lines, plan, within);
  return { battens, within, screws, hangers: evenlyRound(edges, plan.hangers, screws) };
}

const hundredth = (mm: number) => Math.round(mm * 100) / 100;

/** The outline drawn in; a rectangle without the detour through whole steps. */
function inset(panel: Panel, byMm: number): Ring[] {
  if (!panel.isRectangle) return drawnIn(panel.boardRing, byMm);
  const { widthMm, lengthMm } = boxOf(panel.boardRing);
  if (widthMm <= 2 * byMm || lengthMm <= 2 * byMm) return [];
  return [
    rectangleRing({ xMm: byMm, yMm: byMm, widthMm: widthMm - 2 * byMm, lengthMm: lengthMm - 2 * byMm }),
  ];
}

const clipped = (panel: Panel, ring: Ring): Ring[] =>
  panel.isRectangle ? [ring] : common(panel.boardRing, ring);

/** A bar of some width about a centre line, ends square. */
function barRing(
  [ax, ay]: readonly [number, number],
  [bx, by]: readonly [number, number],
  width: number,
): Ring {
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
  const areaOf = (rings: readonly Ring[]) => rings.reduce((sum, ring) => sum + signedAreaMm2(ring), 0);
  const sound =
    a !== null &&
    b !== null &&
    Math.abs(areaOf(outer) - signedAreaMm2(a)) < 1 &&
    Math.abs(areaOf(inner) - signedAreaMm2(b)) < 1;
  if (!sound) {
    return bandInPieces(outer, inner).map((ring) => ({ kind: "edge", ring, from: ring[0]!, to: ring[0]! }));
  }
  return outline.map((_, i): Batten => {
    const j = (i + 1) % outline.length;
    const middle = (p: readonly [number, number], q: readonly [number, number]) =>
      [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2] as const;
    return {
      kind: "edge",
      ring: [a[i]!, a[j]!, b[j]!, b[i]!],
      from: middle(a[i]!, b[i]!),
      to: middle(a[j]!, b[j]!),
    };
  });
}

/** Corner by corner along the bisectors; null when a side would turn round. */
function mitred(ring: Ring, byMm: number): Ring | null {
  const n = ring.length;
  const normal = (i: number) => {
    const [ax, ay] = ring[i]!;
    const [bx, by] = ring[(i + 1) % n]!;
    const span = Math.hypot(bx - ax, by - ay);
    return [-(by - ay) / span, (bx - ax) / span] as const;
  };
  const moved = ring.map(([x, y], i) => {
    const [px, py] = normal((i + n - 1) % n);
    const [qx, qy] = normal(i);
    const scale = byMm / (1 + px * qx + py * qy);
    return [x + (px + qx) * scale, y + (py + qy) * scale] as const;
  });
  for (let i = 0; i < n; i++) {
    const j = (i + 1) % n;
    const along =
      (moved[j]![0] - moved[i]![0]) * (ring[j]![0] - ring[i]![0]) +
      (moved[j]![1] - moved[i]![1]) * (ring[j]![1] - ring[i]![1]);
    if (!(along > 0)) return null;
  }
  return moved;
}

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
