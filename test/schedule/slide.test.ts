import { createHash } from "node:crypto";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { strandStock } from "../../src/fibre/stock.ts";
import { checkReport } from "../../src/outputs/checkReport.ts";
import { planYaml } from "../../src/outputs/planYaml.ts";
import { scheduleJson } from "../../src/outputs/scheduleJson.ts";
import { makePlacer } from "../../src/panel/placement.ts";
import { workPanels } from "../../src/panel/work.ts";
import type { Plan } from "../../src/plan/plan.ts";
import { readPlan } from "../../src/plan/read.ts";
import { NO_SLIDE, slidPoint } from "../../src/projection/slide.ts";
import { aimAtHorizontal, makeView } from "../../src/projection/view.ts";
import { type BrightObject, brightObjects } from "../../src/schedule/brightObjects.ts";
import { brightShifts, lightWeight } from "../../src/schedule/brightPlaces.ts";
import { makeSchedule, planSky } from "../../src/schedule/makeSchedule.ts";
import { bestSlide } from "../../src/schedule/slide.ts";
import { listStars } from "../../src/schedule/stars.ts";
import { validateSchedule } from "../../src/schedule/validate.ts";
import { directionOf } from "../../src/sky/apparent.ts";
import { planWith } from "../plan/testPlan.ts";
import { testSky } from "../sky/testSky.ts";

/** A ceiling of 1000 by 800, one board from 10 to 990, a batten of 40 mm down its middle: from 480 to 520. */
const ONE_BATTEN = {
  ceiling: { width: 1000, length: 800 },
  frame: { batten: { width: 40, depth: 19 }, crossBattens: 1 },
};
const FRAMED = { frame: { batten: { width: 38, depth: 19 }, crossBattens: 1 }, holes: { merge: 0 } };

/** The best slide for stars that stand where the test says. */
function slideFor(plan: Plan, stars: readonly { xMm: number; yMm: number; mag: number }[]) {
  const stock = strandStock(plan.fibre);
  const objects = stars.map(
    (star, i): BrightObject => ({ hip: i + 1, name: "", inside: true, expected: true, ...star }),
  );
  const view = makeView(plan.view, plan.ceiling, { ...aimAtHorizontal(90, 0), northEnu: [0, 1, 0] });
  const measure = brightShifts(plan, makePlacer(workPanels(plan), plan.holes, plan.frame), stock, {
    objects,
    faintestMag: 0,
    view,
  });
  return { measure, still: measure(NO_SLIDE), ...bestSlide(plan, measure) };
}

describe("sliding the sky", () => {
  it("by 10 mm puts a star off a batten, by hand", () => {
    // The thickest bit is 1.65 mm: its centre keeps 5 + 0.825 mm from the batten's edge at 520, 525.825, written 525.83.
    const star = { xMm: 515.83, yMm: 400, mag: 1 };
    const plan = planWith({ ...ONE_BATTEN, placement: { shift: 40 } });
    const { slide, shifts, still } = slideFor(plan, [star]);
    expect(still.shiftMm[0]).toBeCloseTo(10, 6);
    expect(Math.abs(slide.xMm - 10)).toBeLessThanOrEqual(0.05);
    expect([slide.yMm, slide.turnDeg]).toEqual([0, 0]);
    expect(shifts.shiftMm[0]).toBeLessThanOrEqual(0.05);

    // With 4 mm to slide, 6 are left.
    const short = slideFor(planWith({ ...ONE_BATTEN, placement: { shift: 4 } }), [star]);
    expect(short.slide).toEqual({ xMm: 4, yMm: 0, turnDeg: 0 });
    expect(short.shifts.shiftMm[0]).toBeCloseTo(6, 6);
  });

  it("turns a star 300 mm from the aim off a batten, by hand", () => {
    // Below the middle by 300 mm on the batten's line: 10 mm more to the right is 1.91 degrees counter-clockwise.
    const star = { xMm: 515.83, yMm: 100, mag: 1 };
    const plan = planWith({ ...ONE_BATTEN, placement: { turn: 3 } });
    const { slide, shifts } = slideFor(plan, [star]);
    // From (15.83, -300) to x = 25.83: the angle whose cosine and sine bring it there.
    const far = Math.hypot(15.83, 300);
    const byHand = ((Math.asin(25.83 / far) - Math.asin(15.83 / far)) * 180) / Math.PI;
    expect([slide.xMm, slide.yMm]).toEqual([0, 0]);
    expect(slide.turnDeg).toBeCloseTo(byHand, 1);
    expect(shifts.shiftMm[0]).toBeLessThan(0.2);
  });

  it("serves the brighter of two stars that pull against each other, in proportion to their light", () => {
    // One 10 mm inside the batten's right edge, one as deep inside its left: what one gains the other loses, a mm for a mm, so the
    // best is where w1 (10 - d) = w2 (10 + d): with light 2.512 to 1 (one magnitude), d = 10 (w1 - w2) / (w1 + w2) = 4.305.
    const plan = planWith({ ...ONE_BATTEN, placement: { shift: 8 } });
    const pair = [
      { xMm: 515.83, yMm: 500, mag: 1 },
      { xMm: 484.17, yMm: 300, mag: 2 },
    ];
    const { slide } = slideFor(plan, pair);
    const [w1, w2] = [lightWeight(1), lightWeight(2)];
    expect(slide.xMm).toBeCloseTo((10 * (w1 - w2)) / (w1 + w2), 1);
    expect(lightWeight(-4.5)).toBe(lightWeight(0));
    expect(lightWeight(0) / lightWeight(5)).toBeCloseTo(100, 9);
  });

  it("never goes beyond its limits, never makes it worse, and misses no better place of a dense grid", () => {
    const seed = 20_240_401;
    const star = fc.record({
      xMm: fc.double({ min: 0, max: 1000, noNaN: true }),
      yMm: fc.double({ min: 0, max: 800, noNaN: true }),
      mag: fc.double({ min: -1, max: 4, noNaN: true }),
    });
    let gained = 0;
    fc.assert(
      fc.property(
        fc.array(star, { minLength: 1, maxLength: 12 }),
        fc.double({ min: 0, max: 50, noNaN: true }),
        fc.double({ min: 0, max: 2, noNaN: true }),
        (stars, shift, turn) => {
          const plan = planWith({ ...ONE_BATTEN, placement: { shift, turn } });
          const { slide, shifts, still, measure } = slideFor(plan, stars);
          expect(Math.hypot(slide.xMm, slide.yMm)).toBeLessThanOrEqual(shift);
          expect(Math.abs(slide.turnDeg)).toBeLessThanOrEqual(turn);
          expect(shifts.meanSquare).toBeLessThanOrEqual(still.meanSquare + 1e-6);
          expect(measure(slide)).toEqual(shifts);
          if (shifts.meanSquare < still.meanSquare - 1) gained++;
        },
      ),
      { numRuns: 60, seed },
    );
    expect(gained).toBeGreaterThan(8);

    // The dense grid, of slides alone.
    const plan = planWith({ ...ONE_BATTEN, placement: { shift: 30 } });
    for (const stars of fc.sample(fc.array(star, { minLength: 4, maxLength: 10 }), { numRuns: 6, seed })) {
      const { shifts, measure } = slideFor(plan, stars);
      let least = Number.POSITIVE_INFINITY;
      for (let x = -30; x <= 30; x += 1)
        for (let y = -30; y <= 30; y += 1)
          if (Math.hypot(x, y) <= 30)
            least = Math.min(least, measure({ xMm: x, yMm: y, turnDeg: 0 }, least).meanSquare);
      expect(Math.sqrt(shifts.meanSquare)).toBeLessThanOrEqual(Math.sqrt(least) * 1.02 + 0.05);
    }
  });

  it("does not happen where nothing is in the way: without frame, or with the stars clear of it", () => {
    const clear = [
      { xMm: 300, yMm: 300, mag: 0 },
      { xMm: 700, yMm: 500, mag: 1 },
    ];
    const bare = { ...ONE_BATTEN, frame: "none", placement: { shift: 40, turn: 1 } };
    expect(slideFor(planWith(bare), [...clear, { xMm: 500, yMm: 400, mag: 0 }]).slide).toEqual(NO_SLIDE);
    expect(slideFor(planWith({ ...bare, frame: ONE_BATTEN.frame }), clear).slide).toEqual(NO_SLIDE);
  });

  it("would rather move a bright star than push it over the rim, and is not lured by one that nobody missed", () => {
    const plan = planWith({ ...ONE_BATTEN, placement: { shift: 60 } });
    // 5 mm from the left rim: the frame lets it be at 10 + 40 + 5.825 mm. It slides in, not out.
    expect(slideFor(plan, [{ xMm: 5, yMm: 300, mag: 0 }]).slide.xMm).toBeCloseTo(50.83, 1);
  });
});

describe("a slid view", () => {
  it("shows every direction where the slide takes its unslid point, and back", () => {
    const seed = 7;
    fc.assert(
      fc.property(
        fc.double({ min: 25, max: 90, noNaN: true }),
        fc.double({ min: 0, max: 360, noNaN: true }),
        fc.record({
          xMm: fc.double({ min: -500, max: 500, noNaN: true }),
          yMm: fc.double({ min: -500, max: 500, noNaN: true }),
          turnDeg: fc.double({ min: -10, max: 10, noNaN: true }),
        }),
        fc.constantFrom("eye", "chart"),
        (altDeg, azDeg, slide, kind) => {
          const { view, ceiling } = planWith({
            view:
              kind === "eye"
                ? { kind, eye: { below: 1350, x: 900 }, roll: 20 }
                : { kind, span: 120, roll: 20 },
          });
          const aim = { ...aimAtHorizontal(70, 40), northEnu: [0, 1, 0] as const };
          const direction = directionOf(altDeg, azDeg);
          const plain = makeView(view, ceiling, aim);
          const slid = makeView(view, ceiling, aim, slide);
          const point = slid.projectOne(direction);
          if (point === null) return;
          const expected = slidPoint(plain.projectOne(direction)!, plain.centre, slide);
          expect(Math.hypot(point.xMm - expected.xMm, point.yMm - expected.yMm)).toBeLessThan(1e-6);
          for (const [i, value] of slid.unproject(point)!.entries())
            expect(value).toBeCloseTo(direction[i]!, 9);
        },
      ),
      { seed, numRuns: 200 },
    );
  });
});

describe("a plan that lets its sky slide", () => {
  const plan = planWith({ ...FRAMED, drawnAs: "fromBelow", placement: { shift: 40, turn: 1 } });
  const still = makeSchedule(planWith(FRAMED), testSky());
  const slid = makeSchedule(plan, testSky());
  const record = slid.fidelity.slide!;

  it("keeps every rule and its limits, gains, and says what it did", () => {
    expect(validateSchedule(slid)).toEqual([]);
    expect(Math.hypot(record.xMm, record.yMm)).toBeGreaterThan(0);
    expect(Math.hypot(record.xMm, record.yMm)).toBeLessThanOrEqual(40);
    expect(Math.abs(record.turnDeg)).toBeLessThanOrEqual(1);
    expect(record.rmsAfterMm).toBeLessThan(record.rmsBeforeMm);
    // The two thickest of four diameters have 2 + 10 strands: more are watched, all to magnitude 3.5.
    expect(record.bright).toBe(listStars(planSky(planWith(FRAMED), testSky()).field, testSky(), 3.5).length);
    const words = checkReport(slid, null);
    expect(words).toContain(`RMS weighted by light ${record.rmsBeforeMm.toFixed(2)} mm before`);
    expect(words).toMatch(/Slide {5}the whole sky is (slid|turned)/);
    expect(still.fidelity.slide).toBeNull();
  });

  it("has as true points those of the still plan, slid; the plan itself stays as given", () => {
    const centre = { xMm: 1200, yMm: 900 };
    const before = new Map(still.holes.map((hole) => [hole.hip, hole]));
    let both = 0;
    for (const hole of slid.holes) {
      const its = before.get(hole.hip);
      if (hole.hip === null || its === undefined) continue;
      const expected = slidPoint({ xMm: its.skyXMm, yMm: its.skyYMm }, centre, record);
      expect(Math.hypot(hole.skyXMm - expected.xMm, hole.skyYMm - expected.yMm)).toBeLessThan(0.02);
      both++;
    }
    expect(both).toBeGreaterThan(150);
    expect(slid.plan).toEqual(plan);
  });

  it("gives the same bytes when its written plan is made again, and the same true points in the list of stars", () => {
    const again = makeSchedule(readPlan(planYaml(slid.plan), "plan.yaml"), testSky());
    expect(createHash("sha256").update(scheduleJson(again)).digest("hex")).toBe(
      createHash("sha256").update(scheduleJson(slid)).digest("hex"),
    );
    const stars = new Map(
      listStars(planSky(plan, testSky()).field, testSky(), 4).map((star) => [star.hip, star]),
    );
    for (const hole of slid.holes.filter(({ hip, mag }) => hip !== null && mag! < 3.5)) {
      expect(stars.get(hole.hip)!.xMm).toBeCloseTo(hole.skyXMm, 1);
      expect(stars.get(hole.hip)!.yMm).toBeCloseTo(hole.skyYMm, 1);
    }
  });

  it("follows the brightest of the whole field, found without it", () => {
    for (const changes of [
      {},
      { show: { extinction: 0.4, moon: true, refraction: true } },
      { view: { kind: "chart", span: 3, aim: { altitude: 60, azimuth: 200 } } },
      { view: { kind: "eye", eye: { below: 1350 } } },
    ]) {
      const one = planWith({ holes: { merge: 0 }, ...changes });
      const { field, observer } = planSky(one, testSky());
      const { objects } = brightObjects(one, testSky(), observer, { count: 40 }, 0);
      const count = objects.length;
      expect(count).toBeGreaterThanOrEqual(Math.min(40, field.count));
      expect(objects.at(-1)!.mag).toBe(objects[Math.min(40, count) - 1]!.mag);
      expect(objects.map(({ hip }) => hip ?? -1)).toEqual(
        Array.from(field.rank.slice(0, count), (rank) => Math.max(-1, rank)),
      );
      for (const [j, object] of objects.entries()) {
        expect(object.mag).toBeCloseTo(field.mag[j]!, 9);
        expect(object.xMm).toBeCloseTo(field.xMm[j]!, 6);
        expect(object.yMm).toBeCloseTo(field.yMm[j]!, 6);
      }
    }
  });

  it("takes those that share a hole as one, with their light together", () => {
    // The two of Alpha Centauri, of -0.01 and 1.35, together by Pogson's ratio.
    const changes = { moment: "1998-07-12T01:15Z", place: { latitude: -33, longitude: -71.6 } };
    const { observer } = planSky(planWith(changes), testSky());
    const names = (merge: number) =>
      brightObjects(planWith({ ...changes, holes: { merge } }), testSky(), observer, { faintestMag: 2 }, 0)
        .objects;
    expect(names(0).map(({ name }) => name)).toContain("Toliman");
    expect(names(1).map(({ name }) => name)).not.toContain("Toliman");
    expect(names(1).find(({ name }) => name === "Rigil Kentaurus")!.mag).toBeCloseTo(
      -2.5 * Math.log10(10 ** 0.004 + 10 ** -0.54),
      9,
    );
  });

  it("counts those kept from their place by a keep-out", () => {
    const grille = (stars: string) => [{ id: "g", kind: "grille", at: [300, 300], radius: 50, stars }];
    const shiftsUnder = (stars: string) =>
      slideFor(
        planWith({ ...ONE_BATTEN, drawnAs: "fromBelow", keepOut: grille(stars), placement: { shift: 1 } }),
        [{ xMm: 310, yMm: 300, mag: 1 }],
      ).still.shiftMm[0]!;
    expect(shiftsUnder("drop")).toBe(Number.POSITIVE_INFINITY);
    // By hand: rim 12 mm off a circle of 50, from a place 10 mm off its middle: 50 + 12 + 0.825 - 10.
    expect(shiftsUnder("move")).toBeCloseTo(52.83, 1);
  });
});
