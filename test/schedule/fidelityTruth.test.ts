import { describe, expect, it } from "vitest";
import { checkReport } from "../../src/outputs/checkReport.ts";
import { aimAtHorizontal, makeView } from "../../src/projection/view.ts";
import { KNOWN_GROUPS } from "../../src/schedule/fidelityGroups.ts";
import { movedTooFar, shiftDeg, shiftRecord, tooFarWarnings } from "../../src/schedule/fidelityShifts.ts";
import { measureTruth } from "../../src/schedule/fidelityTruth.ts";
import { makeSchedule, planAndSchedule } from "../../src/schedule/makeSchedule.ts";
import type { Hole, Schedule } from "../../src/schedule/types.ts";
import { planWith } from "../plan/testPlan.ts";
import { testSky } from "../sky/testSky.ts";

const ROOMY = { fibre: { bundles: { count: 4, strands: { "0.5mm": 80, "1mm": 20 } } } };
const FRAME = { batten: { width: 38, depth: 19 }, crossBattens: 1 };
const towards = (star: string, span: number, changes: Record<string, unknown> = {}) =>
  planAndSchedule(
    planWith({
      ...ROOMY,
      view: { kind: "chart", projection: "equidistant", span, aim: { star } },
      show: { belowHorizon: true, planets: false },
      ...changes,
    }),
    testSky(),
  );

/** The truth of a schedule whose holes someone has changed. */
function truthOf(
  { schedule, planned }: { schedule: Schedule; planned: { field: Parameters<typeof measureTruth>[1] } },
  change: (hole: Hole) => Hole = (hole) => hole,
) {
  return measureTruth(schedule.holes.map(change), planned.field, schedule.plan, null, schedule.fidelity);
}

const hole = (changes: Partial<Hole>): Hole & { readonly mag: number } =>
  ({
    hole: "A1-1",
    panel: "A1",
    kind: "star",
    hip: 1,
    name: "",
    mag: 1,
    merged: [],
    altDeg: 90,
    azDeg: 0,
    skyXMm: 1200,
    skyYMm: 900,
    ceilingXMm: 1200,
    ceilingYMm: 900,
    shiftMm: 0,
    ...changes,
  }) as Hole & { readonly mag: number };

describe("a shift in degrees of sky", () => {
  const view = makeView(
    planWith({ view: { kind: "eye", eye: { below: 1000 } }, ceiling: { width: 4000, length: 3000 } }).view,
    { width: 4000, length: 3000 },
    { ...aimAtHorizontal(90, 0), northEnu: [0, 1, 0] },
  );
  it("is the arc tangent of what the eye sees, by hand", () => {
    // Overhead, 10 mm aside at 1000 mm: atan 0.01.
    const overhead = hole({ ceilingXMm: 2010, ceilingYMm: 1500, shiftMm: 10 });
    expect(shiftDeg(overhead, view)).toBeCloseTo(0.572939, 5);
    // At 45 degrees toward the west, on the right: from 1000 to 1010 mm, atan 1.01 less 45 degrees.
    const west = hole({ altDeg: 45, azDeg: 270, ceilingXMm: 3010, ceilingYMm: 1500, shiftMm: 10 });
    expect(shiftDeg(west, view)).toBeCloseTo((Math.atan(1.01) * 180) / Math.PI - 45, 5);
    // The same 10 mm along the parallel: the eye is sqrt 2 times as far.
    const along = hole({ altDeg: 45, azDeg: 270, ceilingXMm: 3000, ceilingYMm: 1510, shiftMm: 10 });
    expect(shiftDeg(along, view)).toBeCloseTo((Math.atan(10 / Math.hypot(1000, 1000)) * 180) / Math.PI, 5);
    expect(shiftDeg(hole({}), view)).toBe(0);
  });

  it("is warned of over 0.3 degrees to magnitude 2 and over 0.7 to magnitude 3.5, and not of fainter stars", () => {
    const moved = (mag: number, deg: number) => shiftRecord(hole({ mag, shiftMm: 9, name: `m${mag}` }), deg);
    expect([moved(2, 0.3), moved(3.5, 0.7), moved(2.01, 0.69), moved(3.51, 5)].map(movedTooFar)).toEqual([
      false,
      false,
      false,
      false,
    ]);
    const far = [moved(2, 0.301), moved(2.01, 0.71), moved(3.5, 0.701)];
    expect(far.map(movedTooFar)).toEqual([true, true, true]);
    const warnings = tooFarWarnings(far);
    expect(warnings).toHaveLength(2);
    expect(warnings[0]).toContain("over 0.3 degrees");
    expect(warnings[0]).toContain("m2 (2.0) at A1-1 by 9 mm, 0.30 degrees");
    expect(warnings[1]).toContain("m2.01 (2.0)");
    expect(warnings[1]).toContain("m3.5 (3.5)");
  });

  it("stands in a schedule's warnings and among the ten worst, and agrees with the chart's scale", () => {
    // An equidistant chart of 60 degrees over 2400 mm: 40 mm a degree at the aim, and across it never fewer.
    const { schedule } = towards("Antares", 60, { frame: FRAME });
    const { worst, tooFar, shiftRmsDeg, shiftRmsMm } = schedule.fidelity;
    expect(worst).toHaveLength(10);
    expect(worst.map(({ shiftMm }) => shiftMm)).toEqual(
      schedule.holes
        .map(({ shiftMm }) => shiftMm)
        .sort((a, b) => b - a)
        .slice(0, 10),
    );
    for (const one of worst) {
      expect(one.shiftDeg!).toBeLessThan((one.shiftMm + 0.02) / 40);
      expect(one.shiftDeg!).toBeGreaterThan(((one.shiftMm - 0.02) / 40) * 0.9);
    }
    expect(shiftRmsDeg!).toBeGreaterThan((shiftRmsMm / 40) * 0.9);
    expect(shiftRmsDeg!).toBeLessThan(shiftRmsMm / 40 + 0.001);
    expect(tooFar.length).toBeGreaterThan(0);
    for (const one of tooFar) expect(schedule.warnings.join("\n")).toContain(`at ${one.hole} by`);
  });
});

describe("the shape of a constellation", () => {
  it("does not mind a slide, a turn or a larger sky, but does mind one star alone", () => {
    const made = towards("Antares", 60);
    const turned = truthOf(made, (one) =>
      // All drilled 90 degrees round the middle, 2 % larger and 30 mm to the right.
      ({
        ...one,
        ceilingXMm: 1230 - 1.02 * (one.skyYMm - 900),
        ceilingYMm: 900 + 1.02 * (one.skyXMm - 1200),
      }),
    );
    expect(turned.constellations.length).toBeGreaterThan(3);
    for (const { shapeRmsMm, scale, turnDeg } of turned.constellations) {
      expect(shapeRmsMm).toBe(0);
      expect(scale).toBeCloseTo(1.02, 4);
      expect(turnDeg).toBeCloseTo(90, 2);
    }
    const bent = truthOf(made, (one) => ({
      ...one,
      ceilingXMm: one.skyXMm + (one.name === "Antares" ? 100 : 0),
      ceilingYMm: one.skyYMm,
    }));
    const off = bent.constellations.filter(({ shapeRmsMm }) => shapeRmsMm > 0);
    expect(off.map(({ name }) => name)).toEqual(["Scorpius"]);
    // One of n moved by 100 mm: the fit takes up the mean and some turn and scale; never more than 100 sqrt((n - 1) / n^2) is left.
    const n = off[0]!.stars;
    expect(off[0]!.shapeRmsMm).toBeLessThan((100 * Math.sqrt(n - 1)) / n);
    expect(off[0]!.shapeRmsMm).toBeGreaterThan((100 * Math.sqrt(n - 1)) / n / 2);
  });

  it("is told from four lit stars on, dots of the Milky Way and holes without magnitude left aside", () => {
    const made = towards("Antares", 60);
    const counts = new Map<string, number>();
    for (const { constellation } of made.schedule.holes)
      counts.set(constellation, (counts.get(constellation) ?? 0) + 1);
    const told = made.schedule.fidelity.constellations;
    expect(told.map((one) => one.constellation).sort()).toEqual(
      [...counts]
        .filter(([, n]) => n >= 4)
        .map(([code]) => code)
        .sort(),
    );
    const extra = made.schedule.holes.slice(0, 5).map((one) => ({
      ...one,
      kind: "milkyWay" as const,
      hip: null,
      mag: null as unknown as number,
      ceilingXMm: one.ceilingXMm + 500,
      shiftMm: 500,
    }));
    const moon = extra.map((one) => ({ ...one, kind: "moon" as const }));
    expect(
      measureTruth(
        [...extra, ...made.schedule.holes, ...moon],
        made.planned.field,
        made.schedule.plan,
        null,
        made.schedule.fidelity,
      ),
    ).toEqual(truthOf(made));
  });
});

describe("groups that people know by eye", () => {
  it("hold the stars that their lists name, by the catalogue's own designations", () => {
    // Names and letters from memory of any star atlas; the numbers come out of the table of designations.
    const BY_NAME: Record<string, string[]> = {
      Pleiades: "Alcyone Atlas Electra Maia Merope Taygeta Pleione Celaeno Asterope".split(" "),
      Hyades: ["α Tau", "γ Tau", "δ Tau", "ε Tau", "θ1 Tau", "θ2 Tau"],
      "Orion's belt": ["ζ Ori", "ε Ori", "δ Ori"],
      Plough: ["α UMa", "β UMa", "γ UMa", "δ UMa", "ε UMa", "ζ UMa", "η UMa"],
      "Southern Cross": ["α1 Cru", "β Cru", "γ Cru", "δ Cru", "ε Cru"],
      "Mizar and Alcor": ["Mizar", "80 UMa"],
    };
    const { designations } = testSky();
    expect(KNOWN_GROUPS.map(({ name }) => name)).toEqual(Object.keys(BY_NAME));
    for (const { name, hips } of KNOWN_GROUPS)
      expect(hips.map(Number)).toEqual(BY_NAME[name]!.map((text) => designations.find(text)[0]!.hip));
    expect(designations.displayName(65477)).toBe("Alcor");
  });

  it("lie as far apart as the sky has them: Mizar and Alcor 11.8 arcminutes, the belt's ends 2.7 degrees", () => {
    // Separations: Washington Double Star Catalog (708 arcsec, from memory); δ to ζ Orionis 2.736 degrees, worked from their J2000 places
    // (5h32m00.4s -0d17'57", 5h40m45.5s -1d56'34").
    const mizar = towards("Mizar", 20);
    const [pair] = mizar.schedule.fidelity.groups.filter(({ name }) => name === "Mizar and Alcor");
    expect(pair).toMatchObject({ overCeiling: 2, lit: 2, holes: 2, shapeRmsMm: null, panels: ["A1"] });
    expect(pair!.separation!.worst.trueMm / 120).toBeCloseTo(708 / 3600, 2); // 120 mm a degree
    const orion = towards("Alnilam", 20).schedule;
    const at = (name: string) => orion.holes.find((one) => one.name === name)!;
    const [mintaka, alnitak] = [at("Mintaka"), at("Alnitak")];
    expect(Math.hypot(mintaka.skyXMm - alnitak.skyXMm, mintaka.skyYMm - alnitak.skyYMm) / 120).toBeCloseTo(
      2.736,
      2,
    );
    const belt = orion.fidelity.groups.find(({ name }) => name === "Orion's belt")!;
    expect(belt).toMatchObject({ overCeiling: 3, lit: 3, separation: { rmsMm: 0 }, shapeRmsMm: 0 });
  });

  it("tell what a seam and a shift do to them", () => {
    const made = towards("Alnilam", 20);
    const split = truthOf(made, (one) =>
      one.name === "Mintaka" ? { ...one, panel: "A2", ceilingXMm: one.skyXMm + 30 } : one,
    );
    const belt = split.groups.find(({ name }) => name === "Orion's belt")!;
    expect(belt.panels).toEqual(["A1", "A2"]);
    expect(split.verdict).toContain("a seam runs through Orion's belt");
    const at = (name: string) => made.schedule.holes.find((one) => one.name === name)!;
    const apart = (a: Hole, b: Hole, by: number) => Math.hypot(a.skyXMm + by - b.skyXMm, a.skyYMm - b.skyYMm);
    const errors = [
      apart(at("Mintaka"), at("Alnilam"), 30) - apart(at("Mintaka"), at("Alnilam"), 0),
      apart(at("Mintaka"), at("Alnitak"), 30) - apart(at("Mintaka"), at("Alnitak"), 0),
      0,
    ];
    expect(belt.separation!.rmsMm).toBeCloseTo(Math.hypot(...errors) / Math.sqrt(3), 1);
    expect(belt.shapeRmsMm).toBeGreaterThan(0);
  });

  it("share a hole where the chart is small, and are not told where too little of them is lit", () => {
    // 400 mm for 60 degrees: 0.2 degrees are 1.3 mm; merged within 2 mm.
    const small = towards("Mizar", 60, {
      ceiling: { width: 400, length: 300 },
      holes: { merge: 2, edge: 2 },
    }).schedule.fidelity.groups;
    expect(small.find(({ name }) => name === "Mizar and Alcor")).toMatchObject({
      lit: 2,
      holes: 1,
      separation: null,
    });
    expect(towards("Antares", 20).schedule.fidelity.groups).toEqual([]);
  });
});

describe("parity", () => {
  it("is found from the finished holes: the chart's scale squared as it is, negative when mirrored", () => {
    // An equidistant chart of 60 degrees over 2400 mm without a frame: 40 mm a degree both ways, 1600 mm2 for a square degree.
    const made = towards("Antares", 60);
    const still = (one: Hole): Hole => ({ ...one, ceilingXMm: one.skyXMm, ceilingYMm: one.skyYMm });
    expect(truthOf(made, still).parity!.determinantMm2PerDeg2).toBeCloseTo(1600, 1);
    const mirrored = truthOf(made, (one) => ({ ...still(one), ceilingXMm: 2400 - one.skyXMm }));
    expect(mirrored.parity!.determinantMm2PerDeg2).toBeCloseTo(-1600, 1);
    expect(mirrored.parity!.asSeenFromBelow).toBe(false);
    expect(mirrored.verdict).toMatch(/^MIRRORED/);
    expect(made.schedule.fidelity.parity!.asSeenFromBelow).toBe(true);
  });

  it("holds for every view, the whole sky included, and however the room was drawn", () => {
    const views = [
      { kind: "eye", eye: { below: 1350 }, topBearing: 200, roll: 33 },
      { kind: "chart", span: 290 },
      { kind: "chart", projection: "equalArea", span: 359, aim: { altitude: 20, azimuth: 100 }, up: "north" },
      { kind: "chart", projection: "orthographic", span: 170, topBearing: 77 },
    ];
    for (const view of views)
      for (const drawnAs of ["fromBelow", "reflectedPlan"])
        expect(
          makeSchedule(planWith({ view, drawnAs, show: { belowHorizon: true } }), testSky()).fidelity.parity,
        ).toMatchObject({ asSeenFromBelow: true });
  });
});

describe("the verdict", () => {
  it("follows from the figures beside it", () => {
    const made = towards("Antares", 60);
    const still = (one: Hole): Hole => ({
      ...one,
      shiftMm: 0,
      ceilingXMm: one.skyXMm,
      ceilingYMm: one.skyYMm,
    });
    const whole = { ...made.schedule.fidelity, missing: [] };
    const judge = (change: (one: Hole) => Hole, reached = whole) =>
      measureTruth(made.schedule.holes.map(change), made.planned.field, made.schedule.plan, null, reached);
    expect(judge(still).verdict).toMatch(/^True to the sky: (\d+) of \1 objects to magnitude 3.5 stand/);
    const lost = [{ hip: 1, name: "Shaula", mag: 1.6, why: "over no panel" }];
    expect(judge(still, { ...whole, missing: lost as never }).verdict).toMatch(
      /^The sky, with compromises.*1 brighter .* is missing, the brightest of them Shaula \(1\.6\)/,
    );
    const everyOther = judge((one) =>
      one.hip !== null && one.hip % 2 === 0
        ? { ...still(one), shiftMm: 60, ceilingXMm: one.skyXMm + 60 }
        : still(one),
    );
    expect(everyOther.verdict).toMatch(/^A bent sky/);
    expect(everyOther.verdict).toContain("placement: {shift: 40mm, turn: 1}");
  });

  it("and the rest of the page stand in the words of check", () => {
    const { schedule } = towards("Alnilam", 40, { frame: FRAME });
    const words = checkReport(schedule, null);
    expect(words).toContain(`Verdict   ${schedule.fidelity.verdict}`);
    expect(words).toContain("Orion's belt: 3 of 3 lit");
    expect(words).toContain("Parity    as in the sky");
    expect(words).toContain(`at ${schedule.fidelity.worst[9]!.hole}: `);
    expect(words).not.toContain("Slide ");
  });
});
