import { describe, expect, it } from "vitest";
import { UnbuildableError } from "../../src/plan/errors.ts";
import type { Plan } from "../../src/plan/plan.ts";
import { sceneOf } from "../../src/render/index.ts";
import { askForStrands } from "../../src/schedule/ask.ts";
import { makeSchedule, planAndSchedule, planSky } from "../../src/schedule/makeSchedule.ts";
import type { Hole, Schedule } from "../../src/schedule/types.ts";
import { validateSchedule } from "../../src/schedule/validate.ts";
import { directionOf } from "../../src/sky/apparent.ts";
import { observerAt } from "../../src/sky/observer.ts";
import { bodyAt, moonAt } from "../../src/sky/solarSystem.ts";
import { planWith } from "../plan/testPlan.ts";
import { moonPhases } from "../reference/moonPhases.ts";
import { testSky } from "../sky/testSky.ts";

const RAD = Math.PI / 180;
const make = (plan: Plan) => makeSchedule(plan, testSky());
const ringOf = ({ holes }: Schedule) => holes.filter((hole) => hole.kind === "moon");
const fibre = (count: number) => ({ bundles: { count, strands: { "0.5mm": 80, "0.75mm": 20, "1mm": 4 } } });

/** A great dome of one panel with the Moon on it, for a row of the reference table. */
const domeWith = (
  { utc, latitudeDeg, longitudeDeg }: { utc: string; latitudeDeg: number; longitudeDeg: number },
  changes: Record<string, unknown> = {},
) =>
  planWith({
    moment: utc.replace(":00Z", "Z"),
    place: { latitude: latitudeDeg, longitude: longitudeDeg },
    view: { kind: "chart", span: 200 },
    show: { belowHorizon: true, moon: { ring: 150 } },
    ceiling: { width: 4000, length: 4000 },
    panels: { columns: 1, rows: 1 },
    fibre: fibre(20),
    ...changes,
  });

const moonPoint = (plan: Plan) => {
  const { observer, field } = planSky(plan, testSky());
  return { ...field.view.projectOne(moonAt(observer).enu)!, field, observer };
};
/** Middle of the lit part's outline, seen from the Moon's centre: it lies on the side of the Sun. */
const towardLight = (ring: readonly Hole[], centre: { xMm: number; yMm: number }) => {
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  return [
    mean(ring.map((hole) => hole.skyXMm)) - centre.xMm,
    mean(ring.map((hole) => hole.skyYMm)) - centre.yMm,
  ] as const;
};

describe("the Moon's ring under a keep-out", () => {
  const [phase] = moonPhases();
  const over = (more: Record<string, unknown>, side: number, off = 0, at = phase!) => {
    const bare = domeWith(at);
    const { xMm, yMm } = moonPoint(bare);
    const square = { x: xMm - side / 2 + off, y: yMm - side / 2, width: side, length: side };
    const keepOut = [{ id: "G", kind: "luminaire", ...square, ...more }];
    return { bare, plan: domeWith(at, { drawnAs: "fromBelow", keepOut }) };
  };
  it.each([
    ["that drops stars", { stars: "drop" }],
    ["that moves them a little", { upTo: 2 }],
  ])("%s keeps its rule, and loses the holes that it covers", (_, more) => {
    for (const off of [-75, 0, 75]) {
      const { bare, plan } = over(more, 60, off);
      const schedule = make(plan);
      expect(validateSchedule(schedule)).toEqual([]);
      const ring = ringOf(schedule).length;
      if (off !== 0) expect(ring).toBeLessThanOrEqual(ringOf(make(bare)).length);
      expect(ring).toBeGreaterThan(0);
    }
    const lost = [-75, 75].map((off) => ringOf(make(over(more, 60, off).plan)).length);
    expect(Math.min(...lost)).toBeLessThan(ringOf(make(domeWith(phase!))).length);
  });
  it("over its middle alone takes nothing from it, and the Moon is told of once", () => {
    // A Moon whose terminator keeps well off its middle.
    const clear = moonPhases().find((each) => {
      const bare = domeWith(each);
      const { xMm, yMm } = moonPoint(bare);
      return ringOf(make(bare)).every(
        ({ ceilingXMm, ceilingYMm }) => Math.hypot(ceilingXMm - xMm, ceilingYMm - yMm) > 25,
      );
    });
    const { bare, plan } = over({ stars: "drop" }, 7, 0, clear!);
    const schedule = make(plan);
    expect(validateSchedule(schedule)).toEqual([]);
    expect(ringOf(schedule)).toHaveLength(ringOf(make(bare)).length);
    expect(schedule.left.filter(({ name }) => name === "Moon")).toEqual([]);
  });
});

describe("the Moon's ring", () => {
  it.each(moonPhases())("at $utc is lit on the side and to the part that astropy has", (reference) => {
    const plan = domeWith(reference);
    const schedule = make(plan);
    expect(validateSchedule(schedule)).toEqual([]);
    const ring = ringOf(schedule);
    const centre = moonPoint(plan);
    const [dx, dy] = towardLight(ring, centre);
    // The chart is true to angles. Its aim is the zenith: up is toward the ceiling's middle. Seen from below, clockwise is
    // clockwise: up (0, 1) goes to the right (1, 0).
    const [ux, uy] = [2000 - centre.xMm, 2000 - centre.yMm];
    const clockwiseFromUp = Math.atan2(dx * uy - dy * ux, dx * ux + dy * uy) / RAD;
    const off = Math.abs(((clockwiseFromUp - reference.limbFromUpDeg + 540) % 360) - 180);
    // Places are written to 0.01 mm, the means of a hundred of them at least 3 mm from the centre: 0.2 degrees.
    expect(off).toBeLessThan(0.2);
    // Lit part of the diameter, by the holes near the middle of limb and terminator: one lies within half a step, 1.6 mm,
    // of each middle, where the lines stray by 1.6^2 / 2 / 75 = 0.02 mm at most from where they cross the axis.
    const length = Math.hypot(dx, dy);
    const along = ring
      .map((hole) => [hole.skyXMm - centre.xMm, hole.skyYMm - centre.yMm] as const)
      .filter(([x, y]) => Math.abs(x * dy - y * dx) / length < 3.2)
      .map(([x, y]) => (x * dx + y * dy) / length);
    expect((Math.max(...along) - Math.min(...along)) / 150).toBeCloseTo(reference.litFraction, 2);
    for (const hole of ring)
      expect(Math.hypot(hole.skyXMm - centre.xMm, hole.skyYMm - centre.yMm)).toBeLessThan(75.02);
  });

  it.each([
    [{ kind: "chart", projection: "equidistant", span: 359 }],
    [{ kind: "chart", projection: "equalArea", span: 359, roll: 77 }],
    [{ kind: "chart", projection: "stereographic", span: 290, up: "north" }],
  ])("faces the Sun on a chart about the Moon, where great circles through it are straight: %j", (view) => {
    for (const reference of moonPhases()) {
      const observer = observerAt(Date.parse(reference.utc), {
        latitudeDeg: reference.latitudeDeg,
        longitudeDeg: reference.longitudeDeg,
        elevationM: 0,
      });
      const [e, n, u] = moonAt(observer).enu;
      const aim = {
        altitude: Math.asin(u) / RAD,
        azimuth: Math.atan2(e, n) / RAD,
      };
      const plan = domeWith(reference, { view: { ...view, aim } });
      const { field, ...centre } = moonPoint(plan);
      const sun = field.view.projectOne(bodyAt("Sun", observer).enu)!;
      const [dx, dy] = towardLight(ringOf(make(plan)), centre);
      const [sx, sy] = [sun.xMm - centre.xMm, sun.yMm - centre.yMm];
      const angle = Math.atan2(dx * sy - dy * sx, dx * sx + dy * sy) / RAD;
      expect(Math.abs(angle), reference.utc).toBeLessThan(0.3);
    }
  });

  const evening = moonPhases()[0]!;
  const chapel = (show: Record<string, unknown>, changes: Record<string, unknown> = {}) =>
    domeWith(evening, {
      view: { kind: "chart", span: 120 },
      show,
      ceiling: { width: 2400, length: 1800 },
      fibre: fibre(4),
      ...changes,
    });

  it("takes its strands before the stars, and each object once", () => {
    const plan = chapel({ moon: { ring: 45, fibre: "0.75mm" } });
    const schedule = make(plan);
    expect(validateSchedule(schedule)).toEqual([]);
    const ring = ringOf(schedule);
    expect(schedule.fidelity.moonRing).toBe(ring.length);
    expect(schedule.holes).toHaveLength(4 * 104);
    for (const hole of ring) {
      expect(hole).toMatchObject({ name: "Moon", mag: null, hip: null, diameterMm: 0.75, bitMm: 0.85 });
      const point = planSky(plan, testSky()).field.view.projectOne(directionOf(hole.altDeg, hole.azDeg))!;
      expect(Math.hypot(point.xMm - hole.skyXMm, point.yMm - hole.skyYMm)).toBeLessThan(0.02);
    }
    // By hand: half a circle of 22.5 mm in steps of 3 mm and its diameter take 24 + 14 or so.
    expect(ring.length).toBeGreaterThan(33);
    expect(ring.length).toBeLessThan(40);
    const told =
      schedule.holes.length -
      ring.length +
      1 +
      schedule.holes.flatMap((hole) => hole.merged).length +
      schedule.left.length;
    expect(told).toBe(schedule.fidelity.objectsInField);
  });

  it("hides what lies behind it, and says how much larger than life it is", () => {
    const plan = chapel({ moon: { ring: 200 } });
    const schedule = make(plan);
    const centre = moonPoint(plan);
    const behind = schedule.left.filter((one) => one.why === "behind the Moon's ring");
    expect(behind.length).toBeGreaterThan(10);
    for (const hole of schedule.holes) {
      const away = Math.hypot(hole.skyXMm - centre.xMm, hole.skyYMm - centre.yMm);
      if (hole.kind !== "moon") expect(away).toBeGreaterThan(103);
    }
    expect(behind.some((one) => one.name === "Moon")).toBe(false);
    // By hand: 2400 mm for 120 degrees of a stereographic chart, k = 1200 / (2 tan 30) = 1039 mm a radian at the zenith,
    // more by 1 / cos^2(z / 2) toward the horizon; the table has the Moon 38.3 degrees from it, 0.499 degrees wide: 10.1 mm.
    const factor = 200 / ((1039.2 * 2 * evening.semidiameterDeg * RAD) / Math.cos(19.17 * RAD) ** 2);
    expect(schedule.warnings.join()).toContain(`${factor.toFixed(1)} times larger than life`);
    // Measured toward the Sun, down the sky, where the map is a little larger.
    expect(schedule.warnings.join()).toMatch(
      new RegExp(`the Moon is 10\\.[12] mm wide \\(${behind.length} objects lie behind it`),
    );
  });

  it("that asks for more strands than there are is no plan to build, and the figures are told", () => {
    const plan = chapel({ moon: { ring: 150, fibre: "1mm" } });
    expect(() => make(plan)).toThrow(UnbuildableError);
    // 16 strands of 1 mm: four bundles of four.
    expect(() => make(plan)).toThrow(/ring of 150 mm takes 1?\d\d strands of 1 mm, .* there are 16/);
  });

  it("over a seam is moved to the edges with a warning, keeps its spacing, and says what it lost", () => {
    const centre = moonPoint(chapel({ moon: true }));
    const panels = [
      { id: "L", x: 0, y: 0, width: centre.xMm - 1, length: 1800 },
      { id: "R", x: centre.xMm + 1, y: 0, width: 2399 - centre.xMm, length: 1800 },
    ];
    const schedule = make(
      chapel({ moon: { ring: 60 } }, { panels, fibre: { ...fibre(4), sharing: "ceiling" } }),
    );
    expect(validateSchedule(schedule)).toEqual([]);
    expect(schedule.warnings.join()).toMatch(/runs over a seam or margin: \d+ of its \d+ holes/);
    expect(schedule.warnings.join()).toMatch(/\d+ of the \d+ holes of the Moon's ring are left out/);
  });

  it("of a Moon that is not there is not drawn, and that is said", () => {
    const noon = { moment: "1998-07-02T15:00Z" };
    const schedule = make(chapel({ moon: { ring: 45 } }, noon));
    expect(ringOf(schedule)).toHaveLength(0);
    expect(schedule.warnings.join()).toMatch(
      /the Moon is not over the ceiling: it stood [\d.]+ degrees below/,
    );
    expect(schedule.holes).toHaveLength(4 * 104);
  });

  it("of a Moon all but new is its bright limb alone", () => {
    // New Moon 2015-03-20 09:36 UT; the day before at noon, where the Sun is up (from memory, the eclipse of that day).
    const plan = domeWith(
      { utc: "2015-03-19T13:00:00Z", latitudeDeg: 10, longitudeDeg: 0 },
      { show: { moon: { ring: 45 } } },
    );
    const schedule = make(plan);
    const centre = moonPoint(plan);
    expect(ringOf(schedule)).toHaveLength(24);
    for (const hole of ringOf(schedule))
      expect(Math.hypot(hole.skyXMm - centre.xMm, hole.skyYMm - centre.yMm)).toBeCloseTo(22.5, 1);
    expect(schedule.warnings.join()).toContain("only the bright limb is drawn");
  });

  it("has one name, outside it", () => {
    const plan = chapel({ moon: { ring: 45 } });
    const schedule = make(plan);
    const { names } = sceneOf(schedule, planSky(plan, testSky()).field.view);
    const moons = names.filter((name) => name.text === "Moon");
    expect(moons).toHaveLength(1);
    expect(moons[0]!.xMm).toBe(Math.max(...ringOf(schedule).map((hole) => hole.ceilingXMm)));
  });

  it("goes with the Milky Way: both get their strands, neither runs into the other", () => {
    const plan = chapel({ moon: { ring: 120 } }, { fibre: { ...fibre(4), milkyWay: "30%" } });
    const schedule = make(plan);
    expect(validateSchedule(schedule)).toEqual([]);
    expect(schedule.fidelity.milkyWay).toBe(96);
    expect(schedule.fidelity.moonRing).toBeGreaterThan(80);
    expect(schedule.holes).toHaveLength(4 * 104);
    const order = askForStrands(
      plan,
      planSky(plan, testSky()).field,
      4,
      planAndSchedule(plan, testSky()).setAside,
    );
    expect(order.strands.at(-1)!.setAside).toBeGreaterThanOrEqual(schedule.fidelity.moonRing);
  });

  it("is no part of a plan that shows the Moon as one hole", () => {
    const schedule = make(chapel({ moon: true }));
    expect(ringOf(schedule)).toHaveLength(1);
    expect(ringOf(schedule)[0]!.mag).toBeLessThan(-8);
    expect(schedule.fidelity.moonRing).toBe(0);
  });
});
