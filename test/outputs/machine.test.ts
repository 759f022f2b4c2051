import { describe, expect, it } from "vitest";
import { type Dialect, number } from "../../src/outputs/machine/gcode.ts";
import { machineFiles } from "../../src/outputs/machine/machineFiles.ts";
import { bitWords, commentText } from "../../src/outputs/machine/plainText.ts";
import { readGcode } from "../../src/outputs/machine/readGcode.ts";
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

const FRAME = { batten: { width: 38, depth: 19 }, crossBattens: 1 };

/** What a program says, in one line. */
const comments = (text: string) => [...text.matchAll(/^\((.*)\)$/gm)].map(([, words]) => words).join(" ");

describe("a board that is carried from set-up to set-up", () => {
  // Thin bits alone: no star's hole holds a pin, so dowels carry the board, and one of them serves two moves.
  const thin = { fibre: { bundles: { count: 1, strands: { "0.5mm": 90 } } } };
  const cases = {
    dowels: { ...thin, cnc: { bed: [700, 700] } },
    "dowels as spots": { ...thin, cnc: { bed: [700, 700], mode: "spot" } },
    stars: { cnc: { bed: [600, 600], frame: "BACK" } },
    "stars as spots": { cnc: { bed: [600, 600], mode: "spot", frame: "BACK" } },
  };

  it.each(Object.entries(cases))(
    "has no hole drilled again in which a pin stands or stood: %s",
    (_, changes) => {
      const { files, faults } = made(changes, "plain");
      expect(faults()).toEqual([]);
      // Invariant, read from the moves alone: what goes through the board is drilled once, whichever program does it.
      const through = [...files]
        .filter(([name]) => /^(drill|datum)(-\d+)?\.nc$/.test(name))
        .flatMap(([, text]) => readGcode(text))
        .filter(({ depthMm }) => depthMm > 6)
        .map(({ xMm, yMm }) => `${xMm} ${yMm}`);
      expect(through.length).toBeGreaterThan(3);
      expect(new Set(through).size).toBe(through.length);
      const pins = [...files]
        .filter(([name]) => /^pins-\d+\.nc$/.test(name))
        .flatMap(([, text]) => readGcode(text))
        .map(({ xMm, yMm }) => `${xMm} ${yMm}`);
      for (const pin of pins) expect(through).toContain(pin);
      // The case is worth its name only where a hole serves twice.
      expect(new Set(pins).size).toBeLessThan(pins.length);
      expect([...files.values()].map(comments).join(" ")).toMatch(/there already from set-up \d/);
    },
  );

  it("is refused by pre-flight when a program drills at a pin, or a pin has no hole", () => {
    const { files, faults } = made(cases.dowels, "plain");
    const pin = readGcode(files.get("pins-2.nc")!)[0]!;
    const at = `X${number(pin.xMm)} Y${number(pin.yMm)}`;
    const again = files.get("drill-2.nc")!.replace("G80\nG0", `${at}\nG80\nG0`);
    expect(faults(new Map([...files, ["drill-2.nc", again]])).join()).toMatch(
      /drill-2\.nc: drills at .* where a pin of set-up 2 stands/,
    );
    const moved = files.get("pins-2.nc")!.replaceAll(at, `X${number(pin.xMm + 1)} Y${number(pin.yMm)}`);
    expect(faults(new Map([...files, ["pins-2.nc", moved]])).join()).toMatch(
      /has no hole of an earlier set-up/,
    );
    const plain = [...files.keys()].find((name) => /^drill-2-.*mm\.nc$/.test(name))!;
    const plainAgain = files
      .get(plain)!
      .replace("M5\nG0 Z15.0\nM5", `G0 ${at}\nG1 Z-6.68 F100.0\nG0 Z15.0\nM5\nG0 Z15.0\nM5`);
    expect(plainAgain).not.toBe(files.get(plain));
    expect(faults(new Map([...files, [plain, plainAgain]])).join()).toMatch(
      /mm\.nc: drills at .* where a pin/,
    );
  });

  it("has pin files that speak of the sacrificial board alone, and datum files that say they go through", () => {
    const { files } = made(cases["stars as spots"]);
    const pins = comments(files.get("pins-2.nc")!);
    expect(pins).toContain("Z0 is the upper side of the sacrificial board");
    expect(pins).toMatch(/then set Z0 anew on the SACRIFICIAL board/);
    expect(pins).not.toMatch(/By tape|Through holes|Z0 is the upper side of the board|lies up/);
    const datum = comments(files.get("datum-2.nc")!);
    expect(datum).toMatch(/Through holes in 6\.0 mm of mdf: lay it on a sacrificial board of 12\.0 mm/);
    expect(datum).not.toContain("dimples");
    expect(comments(files.get("drill-1.nc")!)).toMatch(/dimples 1 mm deep.*sacrificial board.*datum-2\.nc/);
  });
});

describe("a board out of square", () => {
  const { panel } = made({ frame: FRAME });
  const skew = made({
    asCut: {
      A1: {
        width: panel.widthMm,
        length: panel.lengthMm,
        diagonals: {
          risingRight: Math.hypot(panel.widthMm, panel.lengthMm) + 1.5,
          fallingRight: Math.hypot(panel.widthMm, panel.lengthMm) - 1.5,
        },
      },
    },
    frame: FRAME,
    cnc: { frame: "BACK", scribeBattens: true },
  });

  it("is set on the BACK at the lower end of its reference edge, on the FACE at its lower left corner", () => {
    const width = skew.panel.widthMm.toFixed(2);
    for (const name of ["drill.nc", "scribe.nc"])
      expect(comments(skew.files.get(name)!)).toContain(
        `lower end of the REFERENCE EDGE, at the right on the BACK: set X${width} Y0.00 there.`,
      );
    const pilot = comments(skew.files.get("drill-pilot.nc")!);
    expect(pilot).toContain(
      "X0 Y0 is the lower left corner of the board, FACE. Lay the REFERENCE EDGE along Y: the left edge",
    );
    // Diagonals differ by 3 mm: d² differ by 6 d, so the corner rises by 6 d / (4 l) = 1.5 d / l.
    const rise = (1.5 * Math.hypot(skew.panel.widthMm, skew.panel.lengthMm)) / skew.panel.lengthMm;
    expect(pilot).toContain(`the lower right corner lies ${rise.toFixed(2)} mm too high`);
    expect(comments(skew.files.get("drill.nc")!)).toContain(
      `the lower left corner lies ${rise.toFixed(2)} mm too high`,
    );
    for (const name of ["drill.xnc", "panel.dxf"]) {
      const text = skew.files.get(name)!.replace(/\s+/g, " ");
      expect(text).toContain("REFERENCE EDGE");
      expect(text).toContain("OUT OF SQUARE");
    }
    expect(skew.files.get("panel.dxf")).toContain(`\n20\n${Number(rise.toFixed(2))}\n`);
  });

  it("says nothing of squares where it is square", () => {
    const square = comments(made({ cnc: { frame: "BACK" } }).files.get("drill.nc")!);
    expect(square).toContain(
      "X0 Y0 is the lower left corner of the board, BACK. Lay the REFERENCE EDGE along Y: the right edge as it lies",
    );
    expect(square).not.toContain("OUT OF SQUARE");
  });
});

describe("what a program says of its pass", () => {
  it("is true of its moves: through holes are for the bare board, whatever opens them after", () => {
    for (const opening of ["pierce", "hotNeedle", "drill"]) {
      const { files } = made({ frame: FRAME, work: { opening }, cnc: { frame: "BACK" } });
      const words = comments(files.get("drill.nc")!);
      expect(words).toMatch(
        /run it on the BARE board, before paint and cloth and before the frame is glued on, or not at all/,
      );
      expect(words).toContain("By hand, not with this program: Pass 2");
      expect(words).not.toContain("Pass 1");
      expect(words.includes("Over cloth it is run on a sample only")).toBe(opening === "drill");
      expect(comments(files.get("drill-pilot.nc")!)).not.toContain("Pass 2");
    }
    const bare = comments(made().files.get("drill.nc")!);
    expect(bare).toContain("before paint and cloth, or not at all");
    expect(bare).not.toContain("frame is glued");
    expect(bare).not.toMatch(/above every clamp/);
    expect(bare).toContain("travel at Z15.0, clear of the board");
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
    expect(commentText("pins (hard wire), then on")).toBe("pins hard wire, then on");
    expect(bitWords(25.4 / 32)).toBe("0.79 mm");
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

  it("a safe height at the board, a pilot wider than the holes, a sacrificial board too thin for pins, a feed in words", () => {
    expect(() => planWith({ cnc: { safeHeight: 2.9 } })).toThrow(/cnc\.safeHeight: .*write 3mm or more/);
    expect(() => planWith({ cnc: { safeHeight: 3 } })).not.toThrow();
    // The widest bit with strands, and a millimetre.
    expect(() => planWith({ work: { pilot: 4 } })).toThrow(
      /work\.pilot: a pilot bit of 4 mm is wider than the widest bit/,
    );
    expect(() => planWith({ cnc: { sacrificial: 1, mode: "spot", bed: [900, 900] } })).toThrow(
      /cnc\.sacrificial: .* holds no pins/,
    );
    expect(() => planWith({ cnc: { feed: "200 mm/min" } })).toThrow(
      /cnc\.feed: "200 mm\/min" is not a feed; write millimetres a minute/,
    );
  });

  it("a bed that would take dozens of set-ups", () => {
    expect(() => made({ cnc: { bed: [300, 300] } })).toThrow(UnbuildableError);
    expect(() => made({ cnc: { bed: [300, 300] } })).toThrow(/panel A1: .* would take \d+ set-ups/);
    expect(() => made({ cnc: { bed: [1e-6, 1e-6] } })).toThrow(/set-ups/);
  });
});
