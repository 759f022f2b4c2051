import { describe, expect, it } from "vitest";
import { loadBoundaries } from "../../src/cli/dataFiles.ts";
import { findField } from "../../src/projection/field.ts";
import type { PointMm } from "../../src/projection/frames.ts";
import { boundaryLines, figureLines, type LinesOver } from "../../src/projection/skyLines.ts";
import { makeCanvas, traceOnCeiling } from "../../src/projection/trace.ts";
import { apparentDirection, apparentDirections } from "../../src/sky/apparent.ts";
import { boundaryPoint } from "../../src/sky/boundaries.ts";
import { resolveMoment } from "../../src/sky/civilTime.ts";
import { constellationFigures } from "../../src/sky/figures.ts";
import { normalise, type Vector3 } from "../../src/sky/matrix.ts";
import { observerAt } from "../../src/sky/observer.ts";
import { refract } from "../../src/sky/refraction.ts";
import { planWith } from "../plan/testPlan.ts";
import { testSky } from "../sky/testSky.ts";

const sky = testSky();
const figures = constellationFigures(sky.catalogue);
const arcs = loadBoundaries();

function linesOver(changes: Record<string, unknown>): LinesOver {
  const plan = planWith({ moment: "1998-07-12T01:15Z", ...changes });
  const observer = observerAt(resolveMoment(plan.moment, plan.place.timeZone).instantUtcMs, {
    latitudeDeg: plan.place.latitude,
    longitudeDeg: plan.place.longitude,
    elevationM: plan.place.elevation,
  });
  const { view } = findField(plan, sky, observer);
  const canvas = makeCanvas(view, plan.ceiling, plan.show.belowHorizon);
  return { canvas, observer, refraction: plan.show.refraction };
}

const SKIES = [
  { view: { kind: "eye", eye: { below: 1500 } } },
  {
    view: {
      kind: "eye",
      eye: { below: 1500, x: 300, y: 1700 },
      aim: { altitude: 35, azimuth: 100 },
      roll: 30,
    },
  },
  { view: { kind: "eye", eye: { below: 3000 }, aim: { altitude: 4, azimuth: 0 } } },
  { view: { kind: "chart", span: 175 }, show: { refraction: true } },
  { view: { kind: "chart", span: 290 }, show: { belowHorizon: true } },
  { view: { kind: "chart", projection: "orthographic", span: 180, aim: { altitude: 20, azimuth: 45 } } },
  { view: { kind: "chart", projection: "equidistant", span: 360 }, show: { belowHorizon: true } },
  {
    view: { kind: "chart", projection: "equalArea", span: 360, aim: { altitude: -30, azimuth: 10 } },
    show: { belowHorizon: true, refraction: true },
    ceiling: { width: 2400, length: 2400 },
  },
];

/** Distance from a point to the nearest chord of some chains. */
function distanceMm({ xMm, yMm }: PointMm, chains: readonly (readonly PointMm[])[]): number {
  let best = Number.POSITIVE_INFINITY;
  for (const chain of chains)
    for (let i = 1; i < chain.length; i++) {
      const [a, b] = [chain[i - 1]!, chain[i]!];
      const [dx, dy] = [b.xMm - a.xMm, b.yMm - a.yMm];
      const along = ((xMm - a.xMm) * dx + (yMm - a.yMm) * dy) / (dx * dx + dy * dy || 1);
      const t = Math.min(1, Math.max(0, along));
      best = Math.min(best, Math.hypot(xMm - a.xMm - t * dx, yMm - a.yMm - t * dy));
    }
  return best;
}

/** Longer steps of the second method are no chords: there the curve leaps from rim to rim. */
const LEAP_MM = 60;

/**
 * Second method, without refining: the curve at many places one by one, in chains that break where nothing is seen; the place
 * where it begins or ceases to be seen is found by halving.
 */
function sampled(directionAt: (t: number) => Vector3, count: number, over: LinesOver): PointMm[][] {
  const pointAt = (t: number): PointMm | null => {
    const one = Float64Array.from(directionAt(t));
    if (over.refraction) refract(one);
    const direction = [one[0]!, one[1]!, one[2]!] as const;
    return direction[2] > over.canvas.lowestUp ? over.canvas.view.projectOne(direction) : null;
  };
  const lastSeen = (seen: number, unseen: number): PointMm => {
    let [from, to] = [seen, unseen];
    for (let halving = 0; halving < 40; halving++) {
      const middle = (from + to) / 2;
      if (pointAt(middle)) from = middle;
      else to = middle;
    }
    return pointAt(from)!;
  };
  const chains: PointMm[][] = [[]];
  let before: PointMm | null = null;
  for (let k = 0; k <= count; k++) {
    const at = pointAt(k / count);
    if (k > 0 && before && !at) chains.at(-1)!.push(lastSeen((k - 1) / count, k / count));
    const leaps = at && before && Math.hypot(before.xMm - at.xMm, before.yMm - at.yMm) > LEAP_MM;
    if (!at || leaps) chains.push([]);
    if (k > 0 && !before && at) chains.at(-1)!.push(lastSeen(k / count, (k - 1) / count));
    if (at) chains.at(-1)!.push(at);
    before = at;
  }
  return chains;
}

/** @returns how many places were compared */
function expectSame(
  name: string,
  chains: readonly (readonly PointMm[])[],
  directionAt: (t: number) => Vector3,
  count: number,
  over: LinesOver,
): number {
  const { view, widthMm, lengthMm, lowestUp } = over.canvas;
  const inside = ({ xMm, yMm }: PointMm) => xMm >= 0 && xMm <= widthMm && yMm >= 0 && yMm <= lengthMm;
  const curve = sampled(directionAt, count, over);
  const seen = curve.flat().filter(inside);
  // What is seen is drawn. (Chords may lie 0.2 mm from the curve in their middle; a little more where it bends both ways.)
  const worstMm = seen.reduce((worst, point) => Math.max(worst, distanceMm(point, chains)), 0);
  expect(worstMm, `${name}: seen and not drawn`).toBeLessThan(0.5);
  // What is drawn is seen: no point outside the rectangle or below the horizon, no middle of a chord off the curve.
  const drawn = chains.flat();
  expect(drawn.every(inside), name).toBe(true);
  const lowest = drawn.reduce((low, point) => Math.min(low, view.unproject(point)?.[2] ?? 0), 1);
  expect(lowest, name).toBeGreaterThan(lowestUp - 1e-9);
  const middles = chains.flatMap((chain) =>
    chain.slice(1).map(({ xMm, yMm }, i) => ({
      xMm: (xMm + chain[i]!.xMm) / 2,
      yMm: (yMm + chain[i]!.yMm) / 2,
    })),
  );
  if (curve.filter((chain) => chain.length > 0).length === 1) {
    const offMm = middles.reduce((worst, point) => Math.max(worst, distanceMm(point, curve)), 0);
    expect(offMm, `${name}: drawn and not seen`).toBeLessThan(0.5);
  }
  return seen.length;
}

describe.each(SKIES)("lines of the sky on $view $show", (changes) => {
  const over = linesOver(changes);

  it("show all that is seen of every figure, and nothing else", () => {
    const lines = figureLines(figures, sky, over, () => undefined);
    expect(lines.length).toBe(figures.reduce((sum, { edges }) => sum + edges.length, 0));
    const rowOf = new Map([...sky.catalogue.hip].map((hip, row) => [hip, row]));
    const constellationOf = (hip: number) => sky.catalogue.constellation[rowOf.get(hip)!];
    let seen = 0;
    const enu = apparentDirections(sky.stars, over.observer);
    const place = (hip: number) => enu.subarray(3 * rowOf.get(hip)!) as unknown as [number, number, number];
    for (const { code, hips, chains } of lines) {
      expect(constellationOf(hips[0])).toBe(constellationOf(hips[1]));
      const [a, b] = [place(hips[0]), place(hips[1])];
      const directionAt = (t: number): Vector3 =>
        normalise([a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]), a[2] + t * (b[2] - a[2])]);
      seen += expectSame(`${code} ${hips}`, chains, directionAt, 100, over);
    }
    expect(seen).toBeGreaterThan(500);
  });

  it("show all that is seen of every boundary", () => {
    let seen = 0;
    for (const arc of arcs) {
      const chains = boundaryLines([arc], over);
      const directionAt = (t: number) => apparentDirection(boundaryPoint(arc, t), over.observer);
      seen += expectSame(JSON.stringify(arc), chains, directionAt, 60, over);
    }
    expect(seen).toBeGreaterThan(500);
  });

  it("never leap across a map: a chord on the ceiling is short on the sky", () => {
    const { view } = over.canvas;
    const chains = [
      ...boundaryLines(arcs, over),
      ...figureLines(figures, sky, over, () => undefined).flatMap((line) => line.chains),
    ];
    let worst = 0;
    for (const chain of chains)
      for (let i = 1; i < chain.length; i++) {
        const [a, b] = [view.unproject(chain[i - 1]!)!, view.unproject(chain[i]!)!];
        const middle = view.unproject({
          xMm: (chain[i - 1]!.xMm + chain[i]!.xMm) / 2,
          yMm: (chain[i - 1]!.yMm + chain[i]!.yMm) / 2,
        })!;
        const deg = (p: Vector3, q: Vector3) =>
          (Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]) * 180) / Math.PI;
        // A step is 2 degrees on the sky; a chord across the map would pass through directions far from both ends.
        worst = Math.max(worst, deg(a, middle), deg(middle, b));
      }
    expect(worst).toBeLessThan(2.1);
  });
});

describe("a line that passes close by the point opposite the aim", () => {
  const { canvas } = linesOver({
    view: { kind: "chart", projection: "equalArea", span: 360 },
    show: { belowHorizon: true },
    ceiling: { width: 2400, length: 2400 },
  });

  it("runs around the rim or ends there, and never leaps across the map", () => {
    // 600 great circles past the nadir at 0 to 1 degrees, the nadir at any part of their length. Seeded.
    let state = 11;
    const random = () => {
      state = (Math.imul(state, 1_103_515_245) + 12_345) & 0x7fffffff;
      return state / 0x7fffffff;
    };
    let longest = 0;
    for (let k = 0; k < 600; k++) {
      const missRad = k % 10 === 0 ? 0 : (10 ** (-8 * random()) * Math.PI) / 180;
      const [lengthRad, part, turn] = [0.02 + 0.3 * random(), random(), 2 * Math.PI * random()];
      const directionAt = (t: number): Vector3 => {
        const along = (t - part) * lengthRad;
        const [x, y] = [Math.sin(along), Math.cos(along) * Math.sin(missRad)];
        return [
          x * Math.cos(turn) - y * Math.sin(turn),
          x * Math.sin(turn) + y * Math.cos(turn),
          -Math.cos(along) * Math.cos(missRad),
        ];
      };
      const chains = traceOnCeiling({ directionAt, angleDeg: (lengthRad * 180) / Math.PI }, canvas);
      expect(chains.length).toBeGreaterThan(0);
      for (const chain of chains)
        for (let i = 1; i < chain.length; i++)
          longest = Math.max(
            longest,
            Math.hypot(chain[i]!.xMm - chain[i - 1]!.xMm, chain[i]!.yMm - chain[i - 1]!.yMm),
          );
    }
    // The rim has a radius of 1200 mm: a chord whose middle lies 0.2 mm inside it is 44 mm long. Leaps would be 2400.
    expect(longest).toBeLessThan(90);
    expect(longest).toBeGreaterThan(20);
  });
});
