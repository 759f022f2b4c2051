import { describe, expect, it } from "vitest";
import type { Plan } from "../../src/plan/plan.ts";
import { findField } from "../../src/projection/field.ts";
import { inCeilingFrame } from "../../src/projection/frames.ts";
import { apparentDirections } from "../../src/sky/apparent.ts";
import { resolveMoment } from "../../src/sky/civilTime.ts";
import { observerAt } from "../../src/sky/observer.ts";
import { refract } from "../../src/sky/refraction.ts";
import { planWith } from "../plan/testPlan.ts";
import { testSky } from "../sky/testSky.ts";

const observerOf = (plan: Plan) =>
  observerAt(resolveMoment(plan.moment, plan.place.timeZone).instantUtcMs, {
    latitudeDeg: plan.place.latitude,
    longitudeDeg: plan.place.longitude,
    elevationM: plan.place.elevation,
  });

const VIEWS = [
  { kind: "eye", eye: { below: 1500 } },
  { kind: "eye", eye: { below: 1500, x: 300, y: 1700 }, aim: { altitude: 35, azimuth: 100 }, roll: 30 },
  { kind: "chart", span: 175 },
  { kind: "chart", span: 40, aim: { altitude: 12, azimuth: 300 } },
  { kind: "chart", projection: "orthographic", span: 180, aim: { altitude: 20, azimuth: 45 } },
  { kind: "chart", projection: "equidistant", span: 360 },
  { kind: "chart", projection: "equalArea", span: 359, aim: { altitude: -30, azimuth: 10 } },
];

describe("the field", () => {
  it.each(
    VIEWS.flatMap((view) => [
      { view, show: { planets: false } },
      { view, show: { planets: false, belowHorizon: true } },
      { view, show: { planets: false, refraction: true } },
    ]),
  )("is what following every star of the catalogue gives: $view $show", (changes) => {
    // Second method: all 118,216 stars through the same view, none left out beforehand.
    const plan = planWith({ ...changes, moment: "2140-05-05T20:00Z" });
    const observer = observerOf(plan);
    const { stars, catalogue } = testSky();
    const field = findField(plan, testSky(), observer);
    const enu = apparentDirections(stars, observer);
    if (plan.show.refraction) refract(enu);
    const xy = new Float64Array(catalogue.count * 2);
    const inside = new Set<number>();
    const notShown = { belowHorizon: 0, beyondProjection: 0, offCeiling: 0 };
    for (let row = 0; row < catalogue.count; row++) {
      if (!plan.show.belowHorizon && enu[row * 3 + 2]! <= 0) notShown.belowHorizon++;
      else if (!field.view.projectAt(enu, row, xy)) notShown.beyondProjection++;
      else if (xy[row * 2]! < 0 || xy[row * 2]! > 2400 || xy[row * 2 + 1]! < 0 || xy[row * 2 + 1]! > 1800)
        notShown.offCeiling++;
      else inside.add(row);
    }
    expect(new Set(field.source)).toEqual(inside);
    expect(field.notShown).toEqual(notShown);
  });

  it("spans the LONGER side, on a ceiling that is longer than wide too", () => {
    // By hand: equidistant, 120 degrees across 3000 mm is 25 mm a degree; a direction 30 degrees south of the zenith lies
    // 750 mm below the middle.
    const plan = planWith({
      ceiling: { width: 1000, length: 3000 },
      view: { kind: "chart", projection: "equidistant", span: 120 },
    });
    const { view } = findField(plan, testSky(), observerOf(plan));
    const at = view.projectOne([0, -Math.sin(Math.PI / 6), Math.cos(Math.PI / 6)])!;
    expect(at.xMm).toBeCloseTo(500, 9);
    expect(at.yMm).toBeCloseTo(750, 9);
  });

  it("puts a planet before a star of the same light", () => {
    const plan = planWith({ show: { moon: true } });
    const field = findField(plan, testSky(), observerOf(plan));
    const bodies = [...field.source].flatMap((source, j) => (source < 0 ? [field.rank[j]!] : []));
    expect(bodies.length).toBeGreaterThan(1);
    for (const rank of bodies) expect(rank).toBeLessThan(0);
  });

  it("mirrors every light source of a reflected plan", () => {
    const sources = [
      { id: "a", x: 100, y: 50, above: 30 },
      { id: "b", x: 2000, y: 60, above: 30 },
    ];
    const plan = inCeilingFrame(planWith({ drawnAs: "reflectedPlan", lightSource: sources }));
    expect(plan.lightSource).toMatchObject([
      { id: "a", x: 2300, y: 50 },
      { id: "b", x: 400, y: 60 },
    ]);
  });
});
