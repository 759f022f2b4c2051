import { type EdgeLine, pointOn } from "./edgeLines.ts";

type Point = readonly [number, number];

/** The tip of a board's screw must not meet what hangs the panel. */
export const HANGER_OFF_SCREW_MM = 20;
/** Two points, each half a hundredth off on both axes. */
const ROUNDING_MM = 0.015;

interface Edge extends EdgeLine {
  readonly spanMm: number;
  /** Where it begins on the way round. */
  readonly atMm: number;
  /** Where on it a hanging point may be; null on one too short. */
  readonly open: readonly [number, number] | null;
}

/**
 * So many points on the centre lines of the edge battens, evenly round the panel: the first half a step from its first corner. One
 * that would sit on a screw goes to the middle between that screw and the next; where it still has not 20 mm to every screw
 * and every other hanging point, or sits at the end of a batten, to the nearest place that has.
 * @returns how many found no such place: they stay
 */
export function hangersRound(
  lines: readonly EdgeLine[],
  count: number,
  screws: readonly Point[],
): { readonly hangers: [number, number][]; readonly crowded: number } {
  const edges: Edge[] = [];
  let round = 0;
  for (const line of lines) {
    const spanMm = Math.hypot(line.to[0] - line.from[0], line.to[1] - line.from[1]);
    edges.push({ ...line, spanMm, atMm: round, open: openOf(line, spanMm) });
    round += spanMm;
  }
  const hangers: [number, number][] = [];
  if (round === 0) return { hangers, crowded: 0 };
  const taken: Point[] = [...screws];
  const screwsOn = edges.map((edge) => alongLine(edge, screws));
  const isFree = ([x, y]: Point) =>
    taken.every((other) => Math.hypot(other[0] - x, other[1] - y) >= HANGER_OFF_SCREW_MM);
  let crowded = 0;
  for (let k = 0; k < count; k++) {
    const wanted = ((k + 0.5) / count) * round;
    const i = Math.max(
      0,
      edges.findLastIndex(({ atMm }, j) => j === 0 || wanted > atMm),
    );
    const edge = edges[i]!;
    const usual = within(edge, offScrews(wanted - edge.atMm, screwsOn[i]!));
    let point = pointOn(edge.from, edge.to, usual / edge.spanMm);
    if (edge.open === null || !isFree(point)) {
      const other = nearestFree(edges, round, wanted, taken, isFree);
      if (other === null) crowded++;
      else point = other;
    }
    hangers.push(point);
    taken.push(point);
  }
  return { hangers, crowded };
}

function openOf({ startMm, endMm, leastMm }: EdgeLine, spanMm: number): readonly [number, number] | null {
  if (spanMm < leastMm) return null;
  return spanMm > startMm + endMm ? [startMm, spanMm - endMm] : [spanMm / 2, spanMm / 2];
}

const within = ({ open }: Edge, at: number) =>
  open === null ? at : Math.min(open[1], Math.max(open[0], at));

function nearestFree(
  edges: readonly Edge[],
  round: number,
  wanted: number,
  taken: readonly Point[],
  isFree: (point: Point) => boolean,
): [number, number] | null {
  const places = edges.flatMap((edge) => {
    if (edge.open === null) return [];
    return [...edge.open, within(edge, wanted - edge.atMm), ...besides(edge, taken)]
      .filter((at) => at >= edge.open![0] && at <= edge.open![1])
      .map((at) => {
        const apart = Math.abs(edge.atMm + at - wanted);
        return { edge, at, way: Math.min(apart, round - apart) };
      });
  });
  for (const { edge, at } of places.sort((a, b) => a.way - b.way)) {
    const point = pointOn(edge.from, edge.to, at / edge.spanMm);
    if (isFree(point)) return point;
  }
  return null;
}

/** Just out of the way of each fixing that reaches a line, on either side of it. */
function besides({ from, to, spanMm }: Edge, taken: readonly Point[]): number[] {
  const [ux, uy] = [(to[0] - from[0]) / spanMm, (to[1] - from[1]) / spanMm];
  return taken.flatMap(([x, y]) => {
    const [dx, dy] = [x - from[0], y - from[1]];
    const reach = (HANGER_OFF_SCREW_MM + ROUNDING_MM) ** 2 - (dx * uy - dy * ux) ** 2;
    if (reach < 0) return [];
    const at = dx * ux + dy * uy;
    return [at - Math.sqrt(reach), at + Math.sqrt(reach)];
  });
}

/** Where on a line its screws sit, in mm from its start, sorted. */
function alongLine({ from, to, spanMm }: Edge, screws: readonly Point[]): number[] {
  const [ux, uy] = [(to[0] - from[0]) / spanMm, (to[1] - from[1]) / spanMm];
  return screws
    .filter(([x, y]) => Math.abs((x - from[0]) * uy - (y - from[1]) * ux) < 0.02)
    .map(([x, y]) => (x - from[0]) * ux + (y - from[1]) * uy)
    .filter((at) => at > -0.02 && at < spanMm + 0.02)
    .sort((a, b) => a - b);
}

function offScrews(at: number, screws: readonly number[]): number {
  const close = screws.findIndex((screw) => Math.abs(screw - at) < HANGER_OFF_SCREW_MM);
  if (close < 0) return at;
  const other =
    screws[at >= screws[close]! ? close + 1 : close - 1] ?? screws[close + 1] ?? screws[close - 1];
  return other === undefined ? at : (screws[close]! + other) / 2;
}
