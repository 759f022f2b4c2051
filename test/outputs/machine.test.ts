import { describe, expect, it } from "vitest";
import { type Dialect, number } from "../../src/outputs/machine/gcode.ts";
import { machineFiles } from "../../src/outputs/machine/machineFiles.ts";
import { commentText } from "../../src/outputs/machine/plainText.ts";
import { preflightMachine } from "../../src/outputs/preflight.ts";
import { UnbuildableError } from "../../src/plan/errors.ts";
import { makeSchedule } from "../../src/schedule/makeSchedule.ts";
import { passCounts } from "../../src/schedule/passes.ts";
import { planWith } from "../plan/testPlan.ts";
import { testSky } from "../sky/testSky.ts";

function made(changes: Record<string, unknown> = {}, dialect: Dialect = "rs274") {
  const schedule = makeSchedule(planWith(changes), testSky());
  const { plan, holes } = schedule;
  const panel = schedule.panels[0]!;
  const files = machineFiles(panel, holes, plan, dialect);
  return { plan, holes, panel, files, faults: (its = files) => preflightMachine(panel, holes, plan, its) };
}

describe("pre-flight of the machine's files", () => {
  const whole = made({}, "plain");
  const { files, faults } = whole;
  const changed = (name: string, change: (text: string) => string) => {
    const text = change(files.get(name)!);
    expect(text).not.toBe(files.get(name));
    return faults(new Map([...files, [name, text]])).join("; ");
  };

  it("finds nothing wrong with what is written, in any mode", () => {
    expect(faults()).toEqual([]);
    for (const cnc of [
      { mode: "spot" },
      { frame: "BACK" },
      { bed: [900, 900] },
      { bed: [900, 900], mode: "spot" },
      { peck: "always" },
      { peck: "never", overdrill: 0 },
    ])
      expect(made({ cnc }, "plain").faults()).toEqual([]);
  });

  it("finds a hole that is missing, moved, doubled, of another bit or too deep", () => {
    const line = files
      .get("drill.nc")!
      .split("\n")
      .find((one) => /^X/.test(one))!;
    expect(changed("drill.nc", (text) => text.replace(`${line}\n`, ""))).toMatch(
      /drill\.nc: A1-\d+ is missing/,
    );
    expect(changed("drill.nc", (text) => text.replace(`${line}\n`, `${line}\n${line}\n`))).toMatch(
      /there 2 times/,
    );
    expect(changed("drill.nc", (text) => text.replace(/Z-6\.\d+/, "Z-9.0"))).toMatch(/ends 9 mm deep/);
    expect(changed("drill.nc", (text) => text.replace("T2 M6", "T1 M6"))).toMatch(
      /ends 6\.755 mm deep, not 6\.68/,
    );
    expect(changed("drill.nc", (text) => text.replace("M30", "M2"))).toContain('"M2" is not expected');
    expect(changed("drill-0.60mm.nc", (text) => text.replace("M3\n", "M5\n"))).toContain("spindle off");
    expect(changed("drill.xnc", (text) => text.replace(/C0\.600/, "C0.650"))).toContain("is missing");
    expect(changed("drill.xnc", (text) => text.replace("METRIC", "INCH"))).toMatch(/drill\.xnc/);
    expect(changed("panel.dxf", (text) => text.replace(/(\n40\n)0\.3\n/, "$10.4\n"))).toMatch(
      /is missing.*not in the schedule/,
    );
    expect(changed("panel.dxf", (text) => text.replace(/(INSUNITS\n70\n)4/, "$11"))).toContain(
      "does not say mm",
    );
  });

  it("finds a hole on a batten, off the board, or of a bit that is not in the plan", () => {
    const { panel, holes, plan } = whole;
    const { xMm, yMm } = holes[0]!;
    const under = [
      [
        [xMm - 5, yMm - 5],
        [xMm + 5, yMm - 5],
        [xMm + 5, yMm + 5],
        [xMm - 5, yMm + 5],
      ],
    ] as const;
    expect(preflightMachine({ ...panel, battensMm: under }, holes, plan, files).join()).toContain(
      "A1-1: is on a batten",
    );
    const narrow = [
      [0, 0],
      [xMm - 1, 0],
      [xMm - 1, 5000],
      [0, 5000],
    ] as const;
    expect(preflightMachine({ ...panel, outlineMm: narrow }, holes, plan, files).join()).toContain(
      "A1-1: is not inside",
    );
    expect(
      preflightMachine(panel, [{ ...holes[0]!, bitMm: 0.7 }, ...holes.slice(1)], plan, files).join(),
    ).toContain("A1-1: no 0.7 mm bit");
  });
});

describe("a drilling program", () => {
  it("pecks what is deeper than five bits or than the flute, and says so", () => {
    // A board of 3 mm: 0.6 mm bit goes 3 + 0.18 + 0.5 = 3.68 mm, over five bits; the 0.85 mm one 3.755, under 4.25.
    const text = (flute?: number) =>
      made({
        board: { thickness: 3 },
        fibre: {
          sizes: [{ diameter: 0.75, bit: 0.85, ...(flute && { flute }) }],
          bundles: { count: 2, strands: { "0.5mm": 80, "0.75mm": 14 } },
        },
      }).files.get("drill.nc")!;
    expect(text()).toMatch(/G98 G83 \S+ \S+ Z-3\.68 R1\.0 Q1\.2/);
    expect(text()).toMatch(/G98 G81 \S+ \S+ Z-3\.755 R1\.0 F/);
    expect(text(3.5)).toMatch(/G98 G83 \S+ \S+ Z-3\.755 R1\.0 Q1\.7/);
  });

  it("keeps its comments in printable ASCII without inner parentheses, and lines short", () => {
    expect(commentText("η Ser (ρ¹) 3 % ; done!")).toBe("eta Ser rho1 3, done");
    for (const [name, text] of made({ title: "Ñandú (x)" }, "plain").files) {
      if (!name.endsWith(".nc")) continue;
      expect(text).toMatch(/^[\n -~]*$/);
      for (const line of text.split("\n")) {
        expect(line.length).toBeLessThanOrEqual(80);
        expect(line).toMatch(/^(\([^()]*\)|[^()]*)$/);
      }
      expect(text).toContain("STARTING VALUES");
      expect(text).toContain("eye protection");
    }
  });

  it("writes numbers that every controller reads", () => {
    expect([number(-0.0001), number(12), number(3.68), number(-1.2346)]).toEqual([
      "0.0",
      "12.0",
      "3.68",
      "-1.235",
    ]);
  });

  it("is the same for the same plan", () => {
    expect([...made().files]).toEqual([...made().files]);
  });
});

describe("two passes", () => {
  it("count each hole in both, with the pilot's bit or a thinner one of its own first", () => {
    const bits = [0.6, 0.85, 0.85, 1.65].map((bitMm) => ({ bitMm }));
    const { work } = planWith();
    expect(work).toEqual({ pilot: 0.8, opening: "pierce" });
    expect(passCounts(bits, { work })).toEqual({
      pilot: [
        { bitMm: 0.6, holes: 1 },
        { bitMm: 0.8, holes: 3 },
      ],
      opening: [
        { bitMm: 0.6, holes: 1 },
        { bitMm: 0.85, holes: 2 },
        { bitMm: 1.65, holes: 1 },
      ],
    });
    expect(() => planWith({ work: { opening: "burn" } })).toThrow(
      /work\.opening: "burn" is not pierce, hotNeedle or drill/,
    );
  });
});

describe("a machine is refused what it cannot do", () => {
  it("a depth that would hit the bed", () => {
    expect(() => planWith({ cnc: { overdrill: 12 } })).toThrow(
      /cnc\.overdrill: .*12 mm below the board would hit the bed/,
    );
    expect(() => planWith({ cnc: { sacrificial: 1 } })).toThrow(/cnc\.sacrificial: .*would hit the bed/);
    expect(() => planWith({ cnc: { sacrificial: 1, mode: "spot" } })).not.toThrow();
  });

  it("a flute shorter than the hole without pecking", () => {
    const fibre = {
      sizes: [{ diameter: 0.5, bit: 0.6, flute: 5 }],
      bundles: { count: 1, strands: { "0.5mm": 80 } },
    };
    expect(() => planWith({ fibre, cnc: { peck: "never" } })).toThrow(
      /cnc\.peck: a flute of 5 mm on the 0\.6 mm bit is shorter than the hole of 6\.68 mm/,
    );
    expect(() => planWith({ fibre })).not.toThrow();
  });

  it("a bit missing for a diameter, and words that mean nothing", () => {
    expect(() => planWith({ fibre: { bundles: { count: 1, strands: { "2mm": 80 } } } })).toThrow(
      /no bit is given for 2 mm/,
    );
    expect(() => planWith({ cnc: { mode: "thru" } })).toThrow(/cnc\.mode: "thru" is not through/);
    expect(() => planWith({ cnc: { bed: [100] } })).toThrow(/cnc\.bed/);
    expect(() => planWith({ cnc: { frames: "BACK" } })).toThrow(/did you mean `frame`/);
  });

  it("no bed that reaches the holes: where stars lie too far apart, dowel holes on legal spots carry the board", () => {
    const schedule = makeSchedule(
      planWith({
        panels: [
          {
            id: "X1",
            outline: [
              [10, 1790],
              [600, 10],
              [1190, 1790],
            ],
          },
          { id: "T2", x: 1205, y: 1415, width: 1185, length: 25 },
        ],
        fibre: { bundles: { count: 1, strands: { "0.5mm": 12 } }, sharing: "ceiling" },
        cnc: { bed: [700, 800] },
      }),
      testSky(),
    );
    for (const panel of schedule.panels) {
      const holes = schedule.holes.filter((hole) => hole.panel === panel.id);
      const files = machineFiles(panel, holes, schedule.plan, "rs274");
      expect(preflightMachine(panel, holes, schedule.plan, files)).toEqual([]);
      if (panel.id === "X1") expect(files.get("drill-1.nc")).toContain("dowel 2a");
      // Without holes there is nothing to carry from one set-up to the next.
      else expect([...files.keys()]).toEqual(["panel.dxf", "drill.xnc", "drill.nc", "drill-pilot.nc"]);
    }
  });

  it("a bed that would take dozens of set-ups", () => {
    expect(() => made({ cnc: { bed: [300, 300] } })).toThrow(UnbuildableError);
    expect(() => made({ cnc: { bed: [300, 300] } })).toThrow(/panel A1: .* would take \d+ set-ups/);
    expect(() => made({ cnc: { bed: [1e-6, 1e-6] } })).toThrow(/set-ups/);
  });
});
