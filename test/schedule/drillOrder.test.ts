import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readPlan } from "../../src/plan/read.ts";
import { STARTER_PLAN } from "../../src/plan/starter.ts";
import { drillOrder } from "../../src/schedule/drillOrder.ts";
import { makeSchedule } from "../../src/schedule/makeSchedule.ts";
import { shortRoundTrip, shortRoute } from "../../src/schedule/shortRoute.ts";
import { testSky } from "../sky/testSky.ts";
import { heldKarpBound } from "./heldKarp.ts";

/** G. Reinelt, TSPLIB, ORSA J. Computing 3 (1991), berlin52.tsp; points 1 to 52. */
const BERLIN52 =
  "565,575 25,185 345,750 945,685 845,655 880,660 25,230 525,1000 580,1175 650,1130 1605,620 1220,580 1465,200 1530,5 845,680 725,370 145,665 415,635 510,875 560,365 300,465 520,585 480,415 835,625 975,580 1215,245 1320,315 1250,400 660,180 410,250 420,555 575,665 1150,1160 700,580 685,595 685,610 770,610 795,645 720,635 760,650 475,960 95,260 875,920 700,500 555,815 830,485 1170,65 830,610 605,625 595,360 1340,725 1740,245"
    .split(" ")
    .map((point) => point.split(",").map(Number) as [number, number]);

const lengthOf = (order: readonly number[], xs: readonly number[], ys: readonly number[]): number => {
  let [length, x, y] = [0, 0, 0];
  for (const i of order) {
    length += Math.hypot(xs[i]! - x, ys[i]! - y);
    [x, y] = [xs[i]!, ys[i]!];
  }
  return length;
};

describe("the way of the drill", () => {
  it("is the optimum of TSPLIB's berlin52 as a round trip: 7542, each edge rounded", () => {
    const distance = (i: number, j: number) =>
      Math.floor(Math.hypot(BERLIN52[i]![0] - BERLIN52[j]![0], BERLIN52[i]![1] - BERLIN52[j]![1]) + 0.5);
    const tour = shortRoundTrip(
      BERLIN52.map(([x]) => x),
      BERLIN52.map(([, y]) => y),
      distance,
    );
    expect(new Set(tour).size).toBe(52);
    expect(tour.reduce((sum, point, k) => sum + distance(point, tour[(k + 1) % 52]!), 0)).toBe(7542);
  });

  it("takes every point once, and is the shortest of all ways where those can be tried", () => {
    const coordinate = fc.integer({ min: 0, max: 60 }).map((cm) => cm * 10);
    const shortest = (left: readonly number[], x: number, y: number, xs: number[], ys: number[]): number =>
      left.length === 0
        ? 0
        : Math.min(
            ...left.map(
              (i) =>
                Math.hypot(xs[i]! - x, ys[i]! - y) +
                shortest(
                  left.filter((j) => j !== i),
                  xs[i]!,
                  ys[i]!,
                  xs,
                  ys,
                ),
            ),
          );
    fc.assert(
      fc.property(fc.array(fc.tuple(coordinate, coordinate), { maxLength: 6 }), (points) => {
        const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
        const order = shortRoute(xs, ys);
        expect([...order].sort((a, b) => a - b)).toEqual(points.map((_, i) => i));
        const all = points.map((_, i) => i);
        expect(lengthOf(order, xs, ys)).toBeLessThanOrEqual(shortest(all, 0, 0, xs, ys) * 1.03 + 1e-6);
      }),
      { numRuns: 150, seed: 52 },
    );
    fc.assert(
      fc.property(
        fc.array(fc.tuple(coordinate, fc.constantFrom(0, 70)), { minLength: 7, maxLength: 80 }),
        (points) => {
          const order = shortRoute(
            points.map(([x]) => x),
            points.map(([, y]) => y),
          );
          expect([...order].sort((a, b) => a - b)).toEqual(points.map((_, i) => i));
        },
      ),
      { numRuns: 100, seed: 52 },
    );
  });

  it("is within 3 % of Held and Karp's bound for each bit of each panel of the starter plan", () => {
    const { holes, panels } = makeSchedule(readPlan(STARTER_PLAN, "starter"), testSky());
    let [checked, worst] = [0, 0];
    for (const { id } of panels) {
      for (const bitMm of new Set(holes.map((hole) => hole.bitMm))) {
        const some = holes.filter((hole) => hole.panel === id && hole.bitMm === bitMm);
        // With a handful of holes the bound itself may lie farther below the optimum.
        if (some.length < 20) continue;
        const [xs, ys] = [some.map((hole) => hole.xMm), some.map((hole) => hole.yMm)];
        const length = lengthOf(
          some.map((_, i) => i),
          xs,
          ys,
        );
        const ratio = length / heldKarpBound(xs, ys, length);
        expect(ratio).toBeGreaterThanOrEqual(1 - 1e-9);
        worst = Math.max(worst, ratio);
        checked++;
      }
    }
    expect(checked).toBeGreaterThan(3);
    expect(worst).toBeLessThan(1.03);
  });

  it("goes from thin to thick, and does not depend on how the holes are listed", () => {
    let seed = 3;
    const random = () => {
      seed = (seed * 16807) % 2147483647;
      return seed / 2147483647;
    };
    const holes = Array.from({ length: 150 }, (_, i) => ({
      id: i,
      bitMm: [1.7, 0.6, 0.9][i % 3]!,
      xFaceMm: Math.round(random() * 60000) / 100,
      yFaceMm: Math.round(random() * 60000) / 100,
    }));
    const order = drillOrder(holes);
    expect(order.map(({ bitMm }) => bitMm)).toEqual(order.map(({ bitMm }) => bitMm).sort((a, b) => a - b));
    expect(drillOrder([...holes].reverse())).toEqual(order);
  });
});
