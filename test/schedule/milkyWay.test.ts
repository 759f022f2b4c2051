import { describe, expect, it } from "vitest";
import { scheduleCsv } from "../../src/outputs/scheduleCsv.ts";
import { scheduleJson } from "../../src/outputs/scheduleJson.ts";
import type { Plan } from "../../src/plan/plan.ts";
import { readPlan } from "../../src/plan/read.ts";
import { STARTER_PLAN } from "../../src/plan/starter.ts";
import { inCeilingFrame } from "../../src/projection/frames.ts";
import { sceneOf } from "../../src/render/index.ts";
import { askForStrands } from "../../src/schedule/ask.ts";
import { makeSchedule, planAndSchedule, planSky } from "../../src/schedule/makeSchedule.ts";
import type { Hole, Schedule } from "../../src/schedule/types.ts";
import { validateSchedule } from "../../src/schedule/validate.ts";
import { directionOf } from "../../src/sky/apparent.ts";
import { galacticOf } from "../../src/sky/galactic.ts";
import { applyInverse, type Vector3 } from "../../src/sky/matrix.ts";
import { starDensity } from "../../src/sky/milkyWay.ts";
import { planWith } from "../plan/testPlan.ts";
import { testSky } from "../sky/testSky.ts";

const RAD = Math.PI / 180;
const make = (plan: Plan) => makeSchedule(plan, testSky());
const starter = (milkyWay: string) =>
  readPlan(STARTER_PLAN.replace("milkyWay: 0%", `milkyWay: ${milkyWay}`), "starter");
const dotsOf = ({ holes }: Schedule) => holes.filter((hole) => hole.kind === "milkyWay");
const fibre = (milkyWay: string, count = 20) => ({
  bundles: { count, strands: { "0.5mm": 100, "0.75mm": 20 } },
  milkyWay,
});

/** The whole sky on one panel that leaves none of it out. */
const wholeSky = (changes: Record<string, unknown> = {}) =>
  planWith({
    view: { kind: "chart", projection: "equalArea", span: 360 },
    show: { planets: false, belowHorizon: true },
    ceiling: { width: 4000, length: 4000 },
    panels: { columns: 1, rows: 1, perimeter: 0 },
    holes: { edge: 0 },
    fibre: fibre("50%"),
    ...changes,
  });

/** Galactic place of a hole from its altitude and azimuth alone. */
const galacticOfHole = (plan: Plan) => {
  const { observer } = planSky(plan, testSky());
  return (hole: Hole) => galacticOf(applyInverse(observer.icrsToEnu, directionOf(hole.altDeg, hole.azDeg)));
};
const steradians = (fromDeg: number, toDeg: number) =>
  4 * Math.PI * (Math.sin(toDeg * RAD) - Math.sin(fromDeg * RAD));

describe("the Milky Way on a ceiling", () => {
  it("stands out truly: far more dots a steradian within 5 degrees of its middle line than beyond 60", () => {
    const plan = wholeSky();
    const dots = dotsOf(make(plan));
    expect(dots).toHaveLength(1000);
    const place = galacticOfHole(plan);
    const away = dots.map((dot) => Math.abs(place(dot).latitudeDeg));
    const near = away.filter((deg) => deg < 5).length / steradians(0, 5);
    const far = away.filter((deg) => deg > 60).length / steradians(60, 90);
    expect(near).toBeGreaterThan(200);
    // The plain counts have 2.4; dots are of what stands out above the sky beside the band, which is next to nothing there.
    expect(near).toBeGreaterThan(20 * far);
  });

  it("is sown as the density has it, by latitude and by longitude", () => {
    const plan = wholeSky();
    const dots = dotsOf(make(plan));
    const place = galacticOfHole(plan);
    const density = starDensity(testSky().catalogue);
    const cells = [5, 10, 15, 20, 90].flatMap((toDeg, i, ends) =>
      [0, 90, 180, 270].map((l) => ({ fromDeg: ends[i - 1] ?? 0, toDeg, l })),
    );
    const cellOf = (at: { latitudeDeg: number; longitudeDeg: number }) =>
      cells.findIndex(
        ({ fromDeg, toDeg, l }) =>
          Math.abs(at.latitudeDeg) >= fromDeg &&
          Math.abs(at.latitudeDeg) < toDeg &&
          at.longitudeDeg >= l &&
          at.longitudeDeg < l + 90,
      );
    // Expected: the density summed over an even spiral, which shares nothing with how the dots were sown.
    const expected = new Array<number>(cells.length).fill(0);
    const points = 40_000;
    for (let i = 0; i < points; i++) {
      const z = 1 - (2 * i + 1) / points;
      const [r, angle] = [Math.sqrt(1 - z * z), i * Math.PI * (3 - Math.sqrt(5))];
      const icrs: Vector3 = [r * Math.cos(angle), r * Math.sin(angle), z];
      expected[cellOf(galacticOf(icrs))]! += density.excessAt(icrs);
    }
    const whole = expected.reduce((sum, value) => sum + value, 0);
    const seen = new Array<number>(cells.length).fill(0);
    for (const dot of dots) seen[cellOf(place(dot))]!++;
    const chiSquare = expected.reduce((sum, value, i) => {
      const wanted = (value / whole) * dots.length;
      return sum + (seen[i]! - wanted) ** 2 / wanted;
    }, 0);
    // 20 cells, 19 degrees of freedom: plain chance exceeds 43.8 once in a thousand (standard tables); an even sequence
    // stays well below, and dots sown evenly over the sky give thousands.
    expect(chiSquare).toBeLessThan(43.8);
  });

  it("is neither gridded nor clumped: neighbours lie less evenly than a grid's and more evenly than chance", () => {
    const dots = dotsOf(make(wholeSky()));
    // Dots in the densest part, where the density changes little over the distance of neighbours.
    const nearest = dots.map((dot) =>
      Math.min(
        ...dots
          .filter((other) => other !== dot)
          .map((other) => Math.hypot(dot.skyXMm - other.skyXMm, dot.skyYMm - other.skyYMm)),
      ),
    );
    const mean = nearest.reduce((sum, mm) => sum + mm, 0) / nearest.length;
    const spread = Math.sqrt(nearest.reduce((sum, mm) => sum + (mm - mean) ** 2, 0) / nearest.length) / mean;
    // Nearest neighbours of a grid do not vary at all; those of points thrown by chance by 0.52 (Rayleigh), more where
    // the density varies.
    expect(spread).toBeGreaterThan(0.25);
    expect(spread).toBeLessThan(0.75);
  });

  it("is the same each time, to the byte", () => {
    const plan = starter("40%");
    expect(scheduleJson(make(plan))).toBe(scheduleJson(make(plan)));
  });

  it.each(["15%", "40%", "90%"])("with %s of the strands of the starter plan keeps every rule", (share) => {
    const plan = starter(share);
    const schedule = make(plan);
    expect(validateSchedule(schedule)).toEqual([]);
    const dots = dotsOf(schedule);
    // By hand: 420 strands of 0.5 mm, 13 held back.
    expect(dots).toHaveLength(Math.round((407 * Number.parseInt(share, 10)) / 100));
    expect(schedule.holes).toHaveLength(580);
    expect(schedule.fidelity.milkyWay).toBe(dots.length);
    expect(schedule.fidelity.holes).toBe(580);
    const { field } = planSky(plan, testSky());
    for (const dot of dots) {
      expect(dot).toMatchObject({ hip: null, name: "", mag: null, bv: null, merged: [], diameterMm: 0.5 });
      expect([dot.skyXMm, dot.skyYMm, 0]).toEqual([dot.ceilingXMm, dot.ceilingYMm, dot.shiftMm]);
      expect(dot.altDeg).toBeGreaterThan(0);
      const shown = field.view.projectOne(directionOf(dot.altDeg, dot.azDeg))!;
      // Half a ten-thousandth of a degree is 0.003 mm there at most, rounding 0.005.
      expect(Math.hypot(shown.xMm - dot.skyXMm, shown.yMm - dot.skyYMm)).toBeLessThan(0.02);
      for (const other of schedule.holes) {
        if (other === dot) continue;
        const apart = Math.hypot(other.ceilingXMm - dot.ceilingXMm, other.ceilingYMm - dot.ceilingYMm);
        if (apart < 10) expect(apart).toBeGreaterThanOrEqual(Math.max(3, 3 * Math.max(other.bitMm, 0.6)));
      }
    }
  });

  it("takes nothing from the brightest: what it costs is the faintest stars, and they say so", () => {
    const [without, withIt] = [make(starter("0%")), make(starter("40%"))];
    expect(withIt.fidelity.limitingMag!).toBeLessThan(without.fidelity.limitingMag!);
    const names = (schedule: Schedule) => new Set(schedule.holes.map((hole) => hole.hip));
    const has = names(withIt);
    for (const hole of without.holes) {
      if (hole.mag !== null && hole.mag < withIt.fidelity.limitingMag!) expect(has.has(hole.hip)).toBe(true);
    }
    expect(withIt.left.length).toBeGreaterThan(without.left.length);
  });

  it("stands in the constellations that the Milky Way runs through", () => {
    const dots = dotsOf(make(starter("40%")));
    const codes = new Map<string, number>();
    for (const dot of dots) codes.set(dot.constellation, (codes.get(dot.constellation) ?? 0) + 1);
    const of = (...names: string[]) => names.reduce((sum, name) => sum + (codes.get(name) ?? 0), 0);
    // Textbook: from Carina through the Cross, Centaurus, Norma and Scorpius to Sagittarius, in a Chilean winter evening.
    expect(of("Sco", "Cen", "Lup", "Nor", "Ara", "Cir", "Sgr", "Cru", "Mus", "TrA")).toBeGreaterThan(
      0.6 * dots.length,
    );
    expect(of("Boo", "Com", "Vir")).toBeLessThan(0.05 * dots.length);
  });

  it("that is not over the ceiling gives its strands back, and says so", () => {
    // The north galactic pole overhead: RA 12h51, Dec +27; 30 degrees about it hold no Milky Way.
    const plan = planWith({
      view: { kind: "chart", span: 40, aim: { rightAscension: 12.857, declination: 27.13 } },
      moment: "2004-04-15T23:30Z",
      fibre: fibre("15%", 2),
    });
    const schedule = make(plan);
    expect(dotsOf(schedule)).toHaveLength(0);
    expect(validateSchedule(schedule)).toEqual([]);
    expect(schedule.fidelity.strands.reduce((sum, size) => sum + size.dark, 0)).toBe(0);
    expect(schedule.holes).toHaveLength(240);
    expect(schedule.warnings.join()).toContain("its 30 strands go to stars");
  });

  it("that has no room gives back what it cannot place, and keeps what it has", () => {
    // A slip of a ceiling under Scorpius: circles of 3 mm on the 96 mm square within its edges are full up at some 800.
    const plan = planWith({
      moment: "1998-07-12T01:15Z",
      place: { latitude: -33, longitude: -71.6 },
      view: { kind: "chart", span: 60 },
      ceiling: { width: 120, length: 120 },
      panels: { columns: 1, rows: 1, perimeter: 0 },
      holes: { merge: 0 },
      fibre: { bundles: { count: 1, strands: { "0.5mm": 900 } }, milkyWay: "90%" },
    });
    const schedule = make(plan);
    const dots = dotsOf(schedule);
    expect(dots.length).toBeGreaterThan(20);
    expect(dots.length).toBeLessThan(810);
    expect(validateSchedule(schedule)).toEqual([]);
    expect(schedule.holes.length).toBeGreaterThan(780);
    expect(schedule.warnings.join()).toContain(
      `${900 - schedule.holes.length} strands stay dark: no other object of the field finds a place`,
    );
    expect(schedule.warnings.join()).toContain(
      `room for ${dots.length} of the 810 dots that fibre.milkyWay of 90% asks for; the other ${810 - dots.length} strands go`,
    );
  });

  it("of a share under half a strand is none, and that is said", () => {
    const schedule = make(
      planWith({ fibre: { bundles: { count: 1, strands: { "0.5mm": 9 } }, milkyWay: "5%" } }),
    );
    expect(dotsOf(schedule)).toHaveLength(0);
    expect(schedule.warnings.join()).toContain("less than half a strand");
  });

  it("pales toward the horizon with extinction, as stars do", () => {
    const show = (extinction: number) => ({ planets: false, extinction });
    const plan = (extinction: number) =>
      planWith({
        moment: "1998-07-12T01:15Z",
        place: { latitude: -33, longitude: -71.6 },
        view: { kind: "chart", projection: "equalArea", span: 170 },
        show: show(extinction),
        ceiling: { width: 2400, length: 2400 },
        fibre: fibre("40%", 6),
      });
    const low = (schedule: Schedule) => dotsOf(schedule).filter((dot) => dot.altDeg < 20).length;
    const [plain, dimmed] = [make(plan(0)), make(plan(0.3))];
    expect(low(plain)).toBeGreaterThan(10);
    expect(low(dimmed)).toBeLessThan(0.7 * low(plain));
    expect(dotsOf(dimmed)).toHaveLength(dotsOf(plain).length);
  });

  it("keeps above the horizon, and is seen through refraction like all else", () => {
    const plan = planWith({
      moment: "1998-07-12T01:15Z",
      place: { latitude: -33, longitude: -71.6 },
      view: { kind: "chart", projection: "equidistant", span: 200 },
      show: { refraction: true },
      ceiling: { width: 2400, length: 2400 },
      fibre: fibre("60%", 6),
    });
    const schedule = make(plan);
    expect(validateSchedule(schedule)).toEqual([]);
    expect(dotsOf(schedule)).toHaveLength(360);
    for (const dot of dotsOf(schedule)) expect(dot.altDeg).toBeGreaterThan(0);
  });

  it("is the same sky on a reflected plan", () => {
    const plan = starter("30%");
    const mirrored = make({ ...plan, drawnAs: "reflectedPlan" });
    // One grid, symmetrical: mirroring what was measured moves nothing.
    expect(dotsOf(mirrored).map((dot) => [dot.ceilingXMm, dot.ceilingYMm])).toEqual(
      dotsOf(make(inCeilingFrame(plan))).map((dot) => [dot.ceilingXMm, dot.ceilingYMm]),
    );
  });

  it("is drawn at its strands' diameter and named nowhere; its rows have empty cells", () => {
    const plan = starter("15%");
    const schedule = make(plan);
    const scene = sceneOf(schedule, planSky(plan, testSky()).field.view);
    expect(scene.dots).toHaveLength(580);
    expect(scene.names.every((name) => name.text !== "")).toBe(true);
    const dot = dotsOf(schedule)[0]!;
    const row = scheduleCsv([dot]).split("\r\n")[1]!.split(",");
    expect(row.slice(6, 12)).toEqual(["milkyWay", "", "", dot.constellation, "", ""]);
  });

  it("broken is found: a moved dot, one too near, one on thick fibre, one too many", () => {
    const good = make(starter("15%"));
    const faults = (change: (dot: { -readonly [K in keyof Hole]: Hole[K] }, others: Hole[]) => void) => {
      const holes = good.holes.map((hole) => ({ ...hole }));
      const dot = holes.find((hole) => hole.kind === "milkyWay")!;
      change(dot, holes);
      return validateSchedule({ ...good, left: good.left, holes }).join();
    };
    expect(faults((dot) => (dot.skyXMm += 5))).toContain("was moved");
    expect(
      faults((dot, [first]) =>
        Object.assign(first!, { ceilingXMm: dot.ceilingXMm + 1, ceilingYMm: dot.ceilingYMm }),
      ),
    ).toContain("closer to another hole");
    expect(faults((dot) => (dot.diameterMm = 0.75))).toContain("on 0.75 mm fibre");
    expect(
      faults((_, holes) => {
        const star = holes.findIndex((hole) => hole.kind === "star" && hole.diameterMm === 0.5);
        holes[star] = { ...holes[star]!, kind: "milkyWay", mag: null, hip: null };
      }),
    ).toContain("62 dots of the Milky Way, but 61 strands");
  });

  it("is counted in when strands are asked for", () => {
    const plan = starter("40%");
    const { planned, setAside } = planAndSchedule(plan, testSky());
    const order = askForStrands(plan, planned.field, 4.5, setAside);
    const thin = order.strands.at(-1)!;
    expect(thin.setAside).toBe(Math.round(0.4 * (thin.bought - thin.heldBack)));
    expect(thin.bought).toBe(thin.heldBack + thin.setAside + thin.needed + thin.spare);
    expect(order.strands.reduce((sum, size) => sum + size.needed, 0)).toBe(order.objects);
  });
});
