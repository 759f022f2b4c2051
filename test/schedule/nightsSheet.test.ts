import { describe, expect, it } from "vitest";
import { planYaml } from "../../src/outputs/planYaml.ts";
import { readPlan } from "../../src/plan/read.ts";
import { makeSchedule } from "../../src/schedule/makeSchedule.ts";
import { type ProofSheet, proofSheet } from "../../src/schedule/nightsSheet.ts";
import { directionOf } from "../../src/sky/apparent.ts";
import { planWith } from "../plan/testPlan.ts";
import { testSky } from "../sky/testSky.ts";

const valparaiso = { latitude: -33.0458, longitude: -71.6197, timeZone: "America/Santiago" };
const tromso = { latitude: 69.6492, longitude: 18.9553, timeZone: "Europe/Oslo" };
const night = planWith({ moment: "1998-07-11T21:15", place: valparaiso });
const sheetOf = (over: ProofSheet["over"], changes: Record<string, unknown>) =>
  proofSheet(planWith(changes), testSky(), over);
const minutes = ({ choices }: ProofSheet) => choices.map(({ time }) => Date.parse(time.utc) / 60_000);

describe("a sheet over the times of a night", () => {
  const sheet = proofSheet(night, testSky(), "times");
  const at = minutes(sheet);

  it("has twelve dark times in order, the plan's own among them", () => {
    expect(sheet.choices.map(({ number }) => number)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]);
    expect(at).toEqual([...new Set(at)].sort((a, b) => a - b));
    expect(sheet.choices.filter(({ own }) => own).map(({ plan }) => plan)).toEqual([night]);
    // Dark: the end of nautical dusk, the Sun 12 degrees down (USNO).
    for (const { sunAltDeg } of sheet.choices) expect(sunAltDeg).toBeLessThan(-12);
  });

  it("spaces all but the plan's own evenly, at round minutes of the clock, over nearly the whole night", () => {
    const others = at.filter((_, i) => !sheet.choices[i]!.own);
    const steps = others.slice(1).map((minute, i) => minute - others[i]!);
    const least = Math.min(...steps);
    // The own moment stands in for one: there the step is twice as long.
    expect(steps.map((step) => step / least).sort()).toEqual([1, 1, 1, 1, 1, 1, 1, 1, 1, 2]);
    for (const { plan, own } of sheet.choices) if (!own) expect(plan.moment).toMatch(/:[0-5][05]$/);
    // Almanac: nautical twilight of that date at 33 S ends about 18:53 and starts about 06:51; 718 minutes.
    expect(others.at(-1)! - others[0]!).toBeGreaterThan(0.85 * 718);
  });

  it("puts a moment of the day before them, and keeps eleven of the night", () => {
    const daylight = sheetOf("times", { moment: "1998-07-11T13:07", place: valparaiso });
    expect(daylight.choices[0]!.own).toBe(true);
    expect(daylight.choices.map(({ sunAltDeg }) => sunAltDeg < -12)).toEqual([
      false,
      ...Array(11).fill(true),
    ]);
    expect(daylight.words.join(" ")).toContain("the plan's own moment lies outside");
  });

  it("takes the hours of the lowest Sun where there is no night, and says so", () => {
    const polarDay = sheetOf("times", { moment: "2019-06-21T23:30", place: tromso });
    expect(polarDay.words[0]).toContain("There is no night: the Sun does not set");
    expect(polarDay.choices).toHaveLength(12);
    const lowest = polarDay.choices.map(({ sunAltDeg }) => sunAltDeg);
    const middle = lowest.indexOf(Math.min(...lowest));
    expect(middle).toBeGreaterThan(3);
    expect(middle).toBeLessThan(8);
  });

  it("goes round the clock in a night without dusk or dawn", () => {
    // North Pole in December: the Sun stays below -12 degrees (its declination is -23.4).
    const polarNight = sheetOf("times", {
      moment: "2019-12-21T23:30Z",
      place: { latitude: 89.9, longitude: 0 },
    });
    const at = minutes(polarNight);
    expect(at.at(-1)! - at[0]!).toBeGreaterThan(20 * 60);
    for (const { sunAltDeg } of polarNight.choices) expect(sunAltDeg).toBeLessThan(-12);
  });

  it("stays in twilight where it gets dark for less than an hour", () => {
    // At 54.4 N the June Sun sinks to 90 - 54.4 - 23.44 = 12.16 degrees below the horizon.
    const short = sheetOf("times", { moment: "2019-06-21T00:00Z", place: { latitude: 54.4, longitude: 0 } });
    expect(short.words.join(" ")).toContain("The darkest hours (the Sun below -6 degrees)");
    for (const { sunAltDeg } of short.choices) expect(sunAltDeg).toBeLessThan(-6);
  });

  it("writes times of a night in which clocks change so that each is one instant", () => {
    // Chile's clocks went from 24:00 back to 23:00 on 2023-04-01 (IANA: America/Santiago).
    const folded = sheetOf("times", { moment: "2023-04-01T21:15", place: valparaiso });
    const at = minutes(folded);
    expect(at).toEqual([...new Set(at)].sort((a, b) => a - b));
    for (const { plan, time } of folded.choices)
      expect(makeSchedule(plan, testSky()).instantUtc).toBe(time.utc);
  });
});

describe("a sheet over kinds of view", () => {
  const sheet = proofSheet(night, testSky(), "kinds");
  const views = sheet.choices.map(({ plan }) => plan.view);

  it("has twelve different views of one moment, the plan's own first, eyes and charts and four sides", () => {
    expect(new Set(views.map((view) => JSON.stringify(view))).size).toBe(12);
    expect(views[0]).toEqual(night.view);
    expect(new Set(sheet.choices.map(({ plan }) => plan.moment))).toEqual(new Set([night.moment]));
    expect(new Set(views.map(({ kind }) => kind))).toEqual(new Set(["eye", "chart"]));
    const sides = views.map(({ aim }) => (typeof aim === "object" && "azimuth" in aim ? aim.azimuth : null));
    expect(sides.filter((side) => side !== null)).toEqual([0, 90, 180, 270]);
  });

  const rooms: [what: string, changes: Record<string, unknown>][] = [
    ["an eye in a low room", { view: { kind: "eye", eye: { below: 700 } }, room: { height: 2100 } }],
    ["a square ceiling", { ceiling: { width: 2400, length: 2400 } }],
    ["a hallway", { ceiling: { width: 9000, length: 1100 } }],
    ["a hall", { ceiling: { width: 30_000, length: 18_000 }, view: { kind: "chart", span: 180 } }],
    ["an aim", { view: { kind: "chart", span: 100, aim: { star: "Antares" }, roll: 10 } }],
    [
      "a view seen on a floor plan",
      { view: { kind: "eye", eye: { below: 1300, x: 300 } }, drawnAs: "reflectedPlan" },
    ],
  ];
  it.each(rooms)("proposes twelve that can be, for %s", (_, changes) => {
    const plan = planWith({ moment: "1998-07-11T21:15", place: valparaiso, ...changes });
    const { choices } = proofSheet(plan, testSky(), "kinds");
    expect(choices).toHaveLength(12);
    for (const choice of choices) {
      expect(choice.made).toHaveProperty("schedule");
      expect(readPlan(planYaml(choice.plan), "choice.yaml")).toEqual(choice.plan);
    }
  });

  it("shows the whole horizon on the chart that is called the whole sky", () => {
    const whole = sheet.choices.find(
      ({ made }) => "sky" in made && Math.min(made.sky.widthDeg, made.sky.lengthDeg) >= 180,
    )!;
    if (!("view" in whole.made)) throw new Error("no view");
    const { width, length } = night.ceiling;
    const edgeMm: number[] = [];
    for (let azimuthDeg = 0; azimuthDeg < 360; azimuthDeg += 5) {
      const { xMm, yMm } = whole.made.view.projectOne(directionOf(0, azimuthDeg))!;
      edgeMm.push(Math.min(xMm, width - xMm, yMm, length - yMm));
    }
    expect(Math.min(...edgeMm)).toBeGreaterThanOrEqual(0);
    expect(Math.min(...edgeMm)).toBeLessThan(20); // and is no smaller than need be
  });

  it("tells the degrees from edge to edge", () => {
    // By hand: twice atan(1200/1350) and twice atan(900/1350).
    const eye = sheetOf("kinds", { view: { kind: "eye", eye: { below: 1350 } } }).choices[0]!;
    expect(eye.made).toMatchObject({ sky: { widthDeg: 83.3, lengthDeg: 67.4 } });
    const chart = sheet.choices.find(({ plan: { view } }) => view.kind === "chart" && view.span === 140)!;
    expect(chart.made).toMatchObject({ sky: { widthDeg: 140 } });
  });
});

describe("each box", () => {
  it("tells what a schedule of its plan tells", () => {
    for (const over of ["times", "kinds"] as const)
      for (const { plan, made } of proofSheet(night, testSky(), over).choices.slice(0, 6)) {
        const { fidelity, holes } = makeSchedule(plan, testSky());
        expect(made).toMatchObject({ sky: { limitingMag: fidelity.limitingMag, holes: holes.length } });
        expect("schedule" in made && made.schedule.holes).toEqual(holes);
      }
  });

  it("names the bright stars that Valparaíso had overhead that night", () => {
    // From any star map of July evenings at 33 S: Scorpius overhead, Centaurus high in the south.
    const own = proofSheet(night, testSky(), "times").choices.find((choice) => choice.own)!;
    expect("sky" in own.made && own.made.sky.stars).toEqual(
      expect.arrayContaining(["Rigil Kentaurus", "Hadar", "Antares", "Spica"]),
    );
  });

  it("says why where a variant cannot be, and leaves the others", () => {
    // Deneb (declination +45) stands at most 12 degrees high at 33 S, and is below the horizon for most of the night.
    const sheet = sheetOf("times", {
      moment: "1998-07-11T21:15",
      place: valparaiso,
      view: { kind: "eye", eye: { below: 30_000 }, aim: { star: "Deneb" } },
    });
    const whys = sheet.choices.map(({ made }) => ("why" in made ? made.why : ""));
    expect(sheet.choices).toHaveLength(12);
    expect(whys.filter((why) => why !== "").length).toBeGreaterThan(0);
    expect(whys.filter((why) => why === "").length).toBeGreaterThan(0);
    for (const why of whys) expect(why === "" || /horizon/.test(why)).toBe(true);
  });

  it("gives the plan's own reason when no variant can be", () => {
    expect(() => sheetOf("times", { view: { kind: "chart", aim: { star: "Vgea" } } })).toThrow(/Vega/);
    expect(() =>
      sheetOf("kinds", { fibre: { bundles: { count: 1, strands: { "0.5mm": 1 } }, reserve: "50%" } }),
    ).toThrow(/holds back every strand/);
  });
});
