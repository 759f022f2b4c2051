/*
 * The rules of placement told a second time, straight from the plan: no code, frame or polygon is shared with src/panel. Slow
 * and plain on purpose. Everything is reckoned in the ceiling frame with the board where it exactly lies; a hole stands where its
 * written face coordinates put it.
 */
import type { Plan } from "../../src/plan/plan.ts";
import type { Schedule } from "../../src/schedule/types.ts";

export type Point = readonly [number, number];
type Loop = readonly Point[];

/** Nothing is forgiven but floating point. */
const EXACT = 1e-6;
/** Two decimals: half a hundredth on each of two axes, twice. */
const WRITTEN = 0.0143;

const minus = (a: Point, b: Point): Point => [a[0] - b[0], a[1] - b[1]];
const dot = (a: Point, b: Point) => a[0] * b[0] + a[1] * b[1];
const cross = (a: Point, b: Point) => a[0] * b[1] - a[1] * b[0];
const apart = (a: Point, b: Point) => Math.hypot(a[0] - b[0], a[1] - b[1]);

export const sidesOf = (loop: Loop): [Point, Point][] =>
  loop.map((a, i) => [a, loop[(i + 1) % loop.length]!]);

const twiceArea = (loop: Loop) => sidesOf(loop).reduce((sum, [a, b]) => sum + cross(a, b), 0);

export function toPiece(p: Point, a: Point, b: Point): number {
  const along = minus(b, a);
  const length = Math.hypot(...along);
  if (length === 0) return apart(p, a);
  const t = dot(minus(p, a), along) / length;
  if (t <= 0) return apart(p, a);
  if (t >= length) return apart(p, b);
  return Math.abs(cross(along, minus(p, a))) / length;
}

export const toLoop = (p: Point, loop: Loop) => Math.min(...sidesOf(loop).map(([a, b]) => toPiece(p, a, b)));

/** By the angle that the loop turns about the point. */
export function isIn(p: Point, loop: Loop): boolean {
  let turned = 0;
  for (const [a, b] of sidesOf(loop)) {
    const [u, v] = [minus(a, p), minus(b, p)];
    turned += Math.atan2(cross(u, v), dot(u, v));
  }
  return Math.abs(turned) > Math.PI;
}

/** Where the lines p + s u and q + t v meet. */
function meet(p: Point, u: Point, q: Point, v: Point): Point {
  const s = cross(minus(q, p), v) / cross(u, v);
  return [p[0] + s * u[0], p[1] + s * u[1]];
}

interface Side {
  readonly a: Point;
  readonly b: Point;
  readonly u: Point;
  /** Into the board. */
  readonly n: Point;
}

function sidesWithNormals(loop: Loop): Side[] {
  const around = twiceArea(loop) > 0 ? loop : [...loop].reverse();
  return sidesOf(around).map(([a, b]) => {
    const [x, y] = minus(b, a);
    const length = Math.hypot(x, y);
    return { a, b, u: [x / length, y / length], n: [-y / length, x / length] };
  });
}

/** Corners where the lines beside the sides, so far inside, meet. Only for loops whose sides all keep a length. */
export function drawnInBy(loop: Loop, mm: number): Point[] {
  const sides = sidesWithNormals(loop);
  const beside = ({ a, n }: Side): Point => [a[0] + n[0] * mm, a[1] + n[1] * mm];
  return sides.map((side, i) => {
    const before = sides[(i + sides.length - 1) % sides.length]!;
    return Math.abs(cross(before.u, side.u)) < 1e-12
      ? beside(side)
      : meet(beside(before), before.u, beside(side), side.u);
  });
}

/** Pieces, each convex, that cover every point within so far of the outline on its inside, reflex corners mitred; with the side each belongs to. */
function bandOf(board: Loop, mm: number): { piece: Point[]; of: Side }[] {
  const sides = sidesWithNormals(board);
  return sides.flatMap((side, i) => {
    const { a, b, n } = side;
    const before = sides[(i + sides.length - 1) % sides.length]!;
    const inner = (p: Point, along: Point): Point => [p[0] + along[0] * mm, p[1] + along[1] * mm];
    const pieces = [{ piece: [a, b, inner(b, n), inner(a, n)], of: side }];
    if (cross(before.u, side.u) < -1e-12) {
      const tip = meet(inner(a, before.n), before.u, inner(a, n), side.u);
      pieces.push({ piece: [a, inner(a, n), tip, inner(a, before.n)], of: side });
    }
    return pieces;
  });
}

const crosses = (p: Point, q: Point, a: Point, b: Point) =>
  cross(minus(q, p), minus(a, p)) * cross(minus(q, p), minus(b, p)) < 0 &&
  cross(minus(b, a), minus(p, a)) * cross(minus(b, a), minus(q, a)) < 0;

function nearestOn(p: Point, a: Point, b: Point): Point {
  const along = minus(b, a);
  const t = Math.min(1, Math.max(0, dot(minus(p, a), along) / dot(along, along)));
  return [a[0] + t * along[0], a[1] + t * along[1]];
}

/** Nothing of the outline stands between the point and the side. */
const sees = (p: Point, { a, b }: Side, board: Loop) => {
  const q = nearestOn(p, a, b);
  const short: Point = [q[0] + (p[0] - q[0]) * 1e-7, q[1] + (p[1] - q[1]) * 1e-7];
  return !sidesOf(board).some(([c, d]) => crosses(p, short, c, d));
};

/** Parts of the piece from a to b that lie in a loop, as shares. */
function spansIn(a: Point, b: Point, loop: Loop): [number, number][] {
  const cuts = [0, 1];
  const along = minus(b, a);
  for (const [c, d] of sidesOf(loop)) {
    const w = minus(d, c);
    const bent = cross(along, w);
    if (bent === 0) continue;
    const t = cross(minus(c, a), w) / bent;
    const s = cross(minus(c, a), along) / bent;
    if (t > 0 && t < 1 && s > -1e-9 && s < 1 + 1e-9) cuts.push(t);
  }
  cuts.sort((x, y) => x - y);
  return cuts.slice(1).flatMap((to, i): [number, number][] => {
    const from = cuts[i]!;
    const t = (from + to) / 2;
    return isIn([a[0] + along[0] * t, a[1] + along[1] * t], loop) ? [[from, to]] : [];
  });
}

/** To what a convex bar and the board have in common; 0 inside both. */
export function toBarOnBoard(p: Point, bar: Loop, board: Loop): number {
  if (isIn(p, bar) && isIn(p, board)) return 0;
  let least = Number.POSITIVE_INFINITY;
  for (const [from, into] of [
    [bar, board],
    [board, bar],
  ] as const) {
    for (const [a, b] of sidesOf(from)) {
      const at = (t: number): Point => [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
      for (const [s, t] of spansIn(a, b, into)) least = Math.min(least, toPiece(p, at(s), at(t)));
    }
  }
  return least;
}

export const barAbout = ([ax, ay]: Point, [bx, by]: Point, width: number): Point[] => {
  const length = Math.hypot(bx - ax, by - ay);
  const [nx, ny] = [((ay - by) / length) * (width / 2), ((bx - ax) / length) * (width / 2)];
  return [
    [ax + nx, ay + ny],
    [ax - nx, ay - ny],
    [bx - nx, by - ny],
    [bx + nx, by + ny],
  ];
};

export interface BrutePanel {
  readonly id: string;
  readonly finished: Loop;
  readonly board: Loop;
  /** Lower-left corner of the board's box. */
  readonly origin: Point;
  readonly bars: readonly Loop[];
  /** Where the person's own battens end. */
  readonly barEnds: readonly (readonly [Point, Point])[];
  readonly bandMm: number;
}

type KeptOut = { readonly loop: Loop } | { readonly at: Point; readonly radius: number };

export interface BruteCeiling {
  readonly panels: readonly BrutePanel[];
  readonly keptOut: readonly {
    readonly id: string;
    readonly shape: KeptOut;
    readonly drop: boolean;
    readonly upTo: number;
  }[];
}

const boxOf = (loop: Loop) => {
  const [xs, ys] = [loop.map(([x]) => x), loop.map(([, y]) => y)];
  return { left: Math.min(...xs), right: Math.max(...xs), low: Math.min(...ys), high: Math.max(...ys) };
};

/** From the plan as it was written: mirrored here, if it was drawn as a reflected plan. */
export function bruteCeiling(plan: Plan): BruteCeiling {
  const mirror = plan.drawnAs === "reflectedPlan";
  const turn = ([x, y]: Point): Point => (mirror ? [plan.ceiling.width - x, y] : [x, y]);
  const rectangle = (x: number, y: number, w: number, h: number): Point[] =>
    (
      [
        [x, y],
        [x + w, y],
        [x + w, y + h],
        [x, y + h],
      ] as const
    ).map(turn);
  if (!Array.isArray(plan.panels)) throw new Error("written for lists of panels");
  const { frame } = plan;
  const panels = plan.panels.map((panel): BrutePanel => {
    const finished =
      "outline" in panel
        ? (panel.outline as readonly Point[]).map(turn)
        : rectangle(panel.x, panel.y, panel.width, panel.length);
    const board = drawnInBy(finished, plan.fabric.thickness);
    const box = boxOf(board);
    const origin: Point = [box.left, box.low];
    if (frame === "none") return { id: panel.id, finished, board, origin, bars: [], barEnds: [], bandMm: 0 };
    const across = box.right - box.left >= box.high - box.low - 1e-6;
    const half = frame.batten.width / 2;
    const bars: Loop[] = Array.from({ length: frame.crossBattens }, (_, k) => {
      const share = (k + 1) / (frame.crossBattens + 1);
      const at = across ? box.left + share * (box.right - box.left) : box.low + share * (box.high - box.low);
      return across
        ? [
            [at - half, box.low - 1],
            [at + half, box.low - 1],
            [at + half, box.high + 1],
            [at - half, box.high + 1],
          ]
        : [
            [box.left - 1, at - half],
            [box.right + 1, at - half],
            [box.right + 1, at + half],
            [box.left - 1, at + half],
          ];
    });
    const moved = ([x, y]: Point): Point => [x + origin[0], y + origin[1]];
    const barEnds: [Point, Point][] = [];
    for (const one of frame.battens) {
      if (one.panel !== panel.id) continue;
      const bar = barAbout(moved(one.from), moved(one.to), frame.batten.width);
      bars.push(bar);
      barEnds.push([bar[0]!, bar[1]!], [bar[2]!, bar[3]!]);
    }
    return { id: panel.id, finished, board, origin, bars, barEnds, bandMm: frame.inset + frame.batten.width };
  });
  return {
    panels,
    keptOut: plan.keepOut.map((one) => ({
      id: one.id,
      drop: one.stars === "drop",
      upTo: one.upTo ?? plan.holes.maxShift,
      shape:
        "at" in one
          ? { at: turn(one.at), radius: one.radius }
          : {
              loop: "outline" in one ? one.outline.map(turn) : rectangle(one.x, one.y, one.width, one.length),
            },
    })),
  };
}

const offShape = (p: Point, shape: KeptOut) =>
  "at" in shape ? apart(p, shape.at) - shape.radius : (isIn(p, shape.loop) ? -1 : 1) * toLoop(p, shape.loop);

/** How much a hole's centre has to spare of each rule (negative: broken), in the ceiling frame. */
export function spareMm(
  p: Point,
  panel: BrutePanel,
  { keptOut }: BruteCeiling,
  bitMm: number,
  rules: Plan["holes"],
  onBattens = false,
): { rule: string; mm: number }[] {
  const r = bitMm / 2;
  const spare = [
    { rule: "outline", mm: (isIn(p, panel.board) ? 1 : -1) * toLoop(p, panel.board) - r - rules.edge },
    ...keptOut.map(({ id, shape }) => ({ rule: `keep-out ${id}`, mm: offShape(p, shape) - r - rules.edge })),
  ];
  if (onBattens) return spare;
  for (const [i, bar] of panel.bars.entries())
    spare.push({ rule: `bar ${i}`, mm: toBarOnBoard(p, bar, panel.board) - r - rules.batten });
  if (panel.bandMm > 0) {
    for (const { piece, of } of bandOf(panel.board, panel.bandMm)) {
      const mm = (isIn(p, piece) ? 0 : toLoop(p, piece)) - r - rules.batten;
      if (mm < 0 && sees(p, of, panel.board)) spare.push({ rule: "edge batten", mm });
    }
  }
  return spare;
}

/** True within so far of the outline on its inside, reflex corners mitred. */
export const isInBand = (p: Point, board: Loop, mm: number) =>
  isIn(p, board) && bandOf(board, mm).some(({ piece, of }) => isIn(p, piece) && sees(p, of, board));

/** True when no two sides of a loop cross. */
export const isSimple = (loop: Loop) =>
  sidesOf(loop).every(([a, b], i) => !sidesOf(loop).some(([c, d], j) => j > i && crosses(a, b, c, d)));

/** Every rule of the design that a schedule breaks. */
export function bruteFaults(schedule: Schedule): string[] {
  const { plan, holes, left } = schedule;
  const rules = plan.holes;
  const ceiling = bruteCeiling(plan);
  const faults: string[] = [];
  const bored = new Set(schedule.panels.flatMap((panel) => panel.boredHoles));
  const places = holes.map((hole) => {
    const panel = ceiling.panels.find(({ id }) => id === hole.panel)!;
    const p: Point = [panel.origin[0] + hole.xMm, panel.origin[1] + hole.yMm];
    for (const { rule, mm } of spareMm(p, panel, ceiling, hole.bitMm, rules, bored.has(hole.hole)))
      if (mm < -EXACT) faults.push(`${hole.hole}: ${rule} by ${-mm} mm`);
    const sky: Point = [hole.skyXMm, hole.skyYMm];
    if (apart(p, [hole.ceilingXMm, hole.ceilingYMm]) > WRITTEN)
      faults.push(`${hole.hole}: face and ceiling places differ`);
    const shift = apart(sky, [hole.ceilingXMm, hole.ceilingYMm]);
    if (Math.abs(shift - hole.shiftMm) > WRITTEN + 0.005)
      faults.push(`${hole.hole}: shift is not the distance`);
    if (hole.shiftMm > rules.maxShift + EXACT) faults.push(`${hole.hole}: moved ${hole.shiftMm} mm`);
    for (const { id, shape, drop, upTo } of ceiling.keptOut) {
      if (offShape(sky, shape) > -0.01) continue;
      if (drop) faults.push(`${hole.hole}: ${id} drops what is under it`);
      if (hole.shiftMm > upTo + EXACT) faults.push(`${hole.hole}: moved ${hole.shiftMm} mm from under ${id}`);
    }
    for (const other of ceiling.panels) {
      if (other.id === hole.panel || !isIn(sky, other.finished) || toLoop(sky, other.finished) < 0.01)
        continue;
      faults.push(`${hole.hole}: belongs on ${other.id}`);
    }
    return p;
  });
  for (let i = 0; i < holes.length; i++) {
    for (let j = i + 1; j < holes.length; j++) {
      const [a, b] = [holes[i]!, holes[j]!];
      const wanted = Math.max(rules.spacing, 3 * Math.max(a.bitMm, b.bitMm));
      if (apart(places[i]!, places[j]!) < wanted - EXACT)
        faults.push(`${a.hole} and ${b.hole}: ${apart(places[i]!, places[j]!)} mm, not ${wanted}`);
      const ceilingApart = Math.hypot(a.ceilingXMm - b.ceilingXMm, a.ceilingYMm - b.ceilingYMm);
      if (ceilingApart < wanted - EXACT)
        faults.push(`${a.hole} and ${b.hole}: ${ceilingApart} mm on the ceiling, not ${wanted}`);
      if (a.mag! < b.mag! && a.diameterMm < b.diameterMm) faults.push(`${a.hole} is brighter than ${b.hole}`);
      if (b.mag! < a.mag! && b.diameterMm < a.diameterMm) faults.push(`${b.hole} is brighter than ${a.hole}`);
    }
  }
  const told = new Set<number | null>();
  for (const hip of [...holes.flatMap((hole) => [hole.hip, ...hole.merged]), ...left.map(({ hip }) => hip)]) {
    if (told.has(hip)) faults.push(`HIP ${hip} is there twice`);
    told.add(hip);
  }
  if (told.size !== schedule.fidelity.objectsInField)
    faults.push(`${told.size} objects told of ${schedule.fidelity.objectsInField}`);
  for (const { hip, why } of left) if (why === "") faults.push(`HIP ${hip} is left without a word`);
  faults.push(...boredFaults(schedule, ceiling, bored, places));
  return faults;
}

function boredFaults(
  { plan, holes, panels }: Schedule,
  ceiling: BruteCeiling,
  bored: ReadonlySet<string>,
  places: readonly Point[],
): string[] {
  if (bored.size === 0) return [];
  if (plan.frame === "none" || plan.frame.bored === undefined)
    return ["bored holes without a word of boring"];
  const { brightest, diameter } = plan.frame.bored;
  const faults: string[] = [];
  for (const [i, hole] of holes.entries()) {
    if (!bored.has(hole.hole)) continue;
    if (holes.filter((other) => other.mag! < hole.mag!).length >= brightest)
      faults.push(`${hole.hole}: bored, but not among the brightest`);
    const record = panels.find(({ id }) => id === hole.panel)!;
    for (const [x, y] of [...record.screwsMm, ...record.hangersMm])
      if (Math.hypot(hole.xMm - x, hole.yMm - y) < 20 + diameter / 2 - EXACT)
        faults.push(`${hole.hole}: bored beside a screw or hanging point`);
    const panel = ceiling.panels.find(({ id }) => id === hole.panel)!;
    if (!liesOnOne(panel, places[i]!, diameter / 2, plan.frame.inset))
      faults.push(`${hole.hole}: its relief hole is not wholly on a batten`);
    for (const [a, b] of endsOf(panel, plan.frame.inset)) {
      const mm = toPiece(places[i]!, a, b) - diameter / 2;
      if (mm < 20 - EXACT) faults.push(`${hole.hole}: bored ${mm} mm from the end of a batten`);
    }
  }
  return faults;
}

const RIM = 24;

/** A round hole whose rim lies, all about, on the edge battens or on one and the same bar. */
function liesOnOne({ board, bars, bandMm }: BrutePanel, [x, y]: Point, radius: number, insetMm: number) {
  const rim = Array.from({ length: RIM }, (_, k): Point => {
    const angle = (2 * Math.PI * k) / RIM;
    return [x + (radius - EXACT) * Math.cos(angle), y + (radius - EXACT) * Math.sin(angle)];
  });
  const onEdge = (p: Point) => isInBand(p, board, bandMm) && !(insetMm > 0 && isInBand(p, board, insetMm));
  return (
    [[x, y] as Point, ...rim].every(onEdge) ||
    bars.some((bar) => [[x, y] as Point, ...rim].every((p) => isIn(p, bar) && isIn(p, board)))
  );
}

/** Screws and hanging points that are not on the board and on a batten. */
export const looseFixings = (schedule: Schedule): string[] => {
  const { plan, panels } = schedule;
  if (plan.frame === "none") return [];
  const { inset } = plan.frame;
  const ceiling = bruteCeiling(plan);
  return panels.flatMap(({ id, screwsMm, hangersMm }) => {
    const panel = ceiling.panels.find((one) => one.id === id)!;
    const { origin, board, bars, bandMm } = panel;
    return [
      ...screwsMm.map((at) => ["screw", at] as const),
      ...hangersMm.map((at) => ["hanger", at] as const),
    ]
      .map(([what, [x, y]]) => [what, [x + origin[0], y + origin[1]] as Point] as const)
      .filter(([, p]) => {
        if (!isIn(p, board)) return true;
        // Beside its border rounding decides; where an outline's short sides vanish pieces are cut, not mitred.
        const onEdge =
          isInBand(p, board, bandMm + WRITTEN) && !(inset > WRITTEN && isInBand(p, board, inset - WRITTEN));
        return !onEdge && !bars.some((bar) => isIn(p, bar));
      })
      .map(([what, p]) => `${id}: a ${what} at ${p} is loose`);
  });
};

/** The ends of the battens of a panel: mitres (where all sides keep a length), and where bars stop. */
function endsOf({ board, bars, barEnds, bandMm }: BrutePanel, insetMm: number): (readonly [Point, Point])[] {
  const [outer, inner] = [drawnInBy(board, insetMm), drawnInBy(board, bandMm)];
  const kept = (loop: Loop) =>
    sidesOf(loop).every(
      ([a, b], i) =>
        dot(minus(b, a), sidesWithNormals(board)[i]!.u) > 0 &&
        !sidesOf(loop).some(([c, d]) => crosses(a, b, c, d)),
    );
  const mitres = kept(inner) ? outer.map((a, i): [Point, Point] => [a, inner[i]!]) : [];
  const stops = bars.flatMap((bar) =>
    sidesOf(board).flatMap(([a, b]) =>
      spansIn(a, b, bar).map(([s, t]): [Point, Point] => [
        [a[0] + (b[0] - a[0]) * s, a[1] + (b[1] - a[1]) * s],
        [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t],
      ]),
    ),
  );
  return [...mitres, ...stops, ...barEnds];
}
