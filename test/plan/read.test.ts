import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { planYaml } from "../../src/outputs/planYaml.ts";
import { InputError } from "../../src/plan/errors.ts";
import { planJsonSchema } from "../../src/plan/jsonSchema.ts";
import { readPlan } from "../../src/plan/read.ts";
import { STARTER_PLAN } from "../../src/plan/starter.ts";
import { BASE_PLAN, planWith } from "./testPlan.ts";

const problemsOf = (text: string): readonly string[] => {
  try {
    readPlan(text, "plan.yaml");
  } catch (error) {
    if (error instanceof InputError) return error.problems;
    throw error;
  }
  return [];
};

/** The starter with one line replaced. */
const starterWith = (from: string | RegExp, to: string): string => {
  const text = STARTER_PLAN.replace(from, to);
  expect(text).not.toBe(STARTER_PLAN);
  return text;
};

describe("a plan file", () => {
  it("as the starter writes it reads without a word", () => {
    expect(problemsOf(STARTER_PLAN)).toEqual([]);
  });

  it("may be JSON", () => {
    expect(planWith().ceiling).toEqual({ width: 2400, length: 1800 });
  });

  it("gets every default of the design", () => {
    const plan = planWith();
    expect(plan.show).toEqual({
      planets: true,
      moon: false,
      refraction: false,
      belowHorizon: false,
      extinction: 0,
    });
    expect(plan.holes).toEqual({ edge: 12, batten: 5, spacing: 3, merge: 1, maxShift: 60 });
    expect(plan.panels).toEqual({ columns: 1, rows: 1, gap: 3, perimeter: 10 });
    expect(plan.view).toMatchObject({
      aim: "zenith",
      topBearing: 0,
      up: "zenith",
      roll: 0,
      projection: "stereographic",
    });
    expect(plan.board).toEqual({ material: "mdf", thickness: 6 });
    expect(plan.fabric).toEqual({ thickness: 0 });
    expect(plan).toMatchObject({
      frame: "none",
      drawnAs: "fromBelow",
      walls: {},
      keepOut: [],
      placement: { spread: true, shift: 0, turn: 0 },
    });
    expect(plan.place.elevation).toBe(0);
    expect(plan.fibre.reserve).toBe("0%");
    expect(plan.fibre.milkyWay).toBe("0%");
    // Common practice; each passes the widest fibre of its size (see fill.ts).
    expect(plan.fibre.sizes.map(({ diameter, bit }) => [diameter, bit])).toEqual([
      [0.5, 0.6],
      [0.75, 0.85],
      [1, 1.1],
      [1.5, 1.65],
    ]);
  });

  it("with its defaults written out is the same plan", () => {
    for (const plan of [planWith(), readPlan(STARTER_PLAN, "starter")]) {
      expect(readPlan(planYaml(plan), "again")).toEqual(plan);
    }
  });

  it("takes an eye above the floor when the room's height is given", () => {
    const plan = planWith({ view: { kind: "eye", eye: { aboveFloor: "1.2m" } }, room: { height: "2.5m" } });
    expect(plan.view).toMatchObject({ eye: { below: 1300, x: 1200, y: 900 } });
  });

  it("may let the whole sky slide by a length and turn by degrees", () => {
    expect(planWith({ placement: { shift: "4cm", turn: 1 } }).placement).toEqual({
      spread: true,
      shift: 40,
      turn: 1,
    });
    for (const [placement, words] of [
      [{ shift: "0.6m" }, "placement.shift: more than 500 mm is another view"],
      [{ shift: -1 }, "placement.shift: -1 must not be negative"],
      [{ turn: 11 }, "placement.turn: 11 is out of range; write by how many degrees"],
      [{ turn: -1 }, "placement.turn: -1 is out of range"],
      [{ turn: "1deg" }, "placement.turn"],
    ] as const)
      expect(problemsOf(JSON.stringify({ ...BASE_PLAN, placement })).join()).toContain(words);
  });

  it("reads diameters written as lengths or as bare millimetres", () => {
    const strands = (keys: Record<string, number>) =>
      planWith({ fibre: { bundles: { count: 1, strands: keys } } }).fibre.bundles.strands;
    expect(strands({ "0.50 mm": 3, "1": 2 })).toEqual({ "0.5mm": 3, "1mm": 2 });
  });
});

describe("a plan file that is wrong", () => {
  // Each row: what was done to the starter, and what the one sentence must hold: place, key, what would be right.
  it.each([
    [
      "an unknown key",
      "elevation:",
      "elevatoin:",
      "plan.yaml:14:3: place.elevatoin: unknown key; did you mean `elevation`?",
    ],
    [
      "a height for the ceiling",
      "{width: 3.66m, length: 2.44m}",
      "{width: 3.66m, height: 2.44m}",
      "room.height",
    ],
    [
      "a latitude over 90",
      "latitude: -33.0458",
      "latitude: -93",
      "plan.yaml:11:13: place.latitude: -93 is out of range; write degrees from -90",
    ],
    [
      "a longitude counted to 360",
      "longitude: -71.6197",
      "longitude: 288.3803",
      "place.longitude: 288.3803 is out of range; write degrees from -180 to 180, east positive; 288.3803 counted eastward is -71.6197",
    ],
    [
      "a longitude of no place",
      "longitude: -71.6197",
      "longitude: -200",
      "place.longitude: -200 is out of range; write degrees from -180 to 180, east positive",
    ],
    [
      "a latitude that is no number",
      "latitude: -33.0458",
      "latitude: .nan",
      "place.latitude: not-a-number is not degrees from -90",
    ],
    [
      "a latitude in degrees and minutes",
      "latitude: -33.0458",
      "latitude: 33°02'45\"S",
      "is not degrees from -90 (south pole) to 90",
    ],
    [
      "an elevation above all mountains",
      "elevation: 10 ",
      "elevation: 12000 ",
      "place.elevation: 12000 is out of range; write metres above sea level, from -500 to 10000",
    ],
    [
      "an elevation below all shores",
      "elevation: 10 ",
      "elevation: -501 ",
      "place.elevation: -501 is out of range; write metres above sea level",
    ],
    [
      "an elevation with its unit",
      "elevation: 10 ",
      "elevation: 10m ",
      'place.elevation: "10m" is not metres above sea level, from -500 to 10000',
    ],
    ["half a place", / {2}longitude: .*\n/, "", "place: longitude is missing; write degrees, east positive"],
    [
      "a word for a number",
      "latitude: -33.0458",
      "latitude: south",
      'place.latitude: "south" is not degrees from -90',
    ],
    ["a length without unit", "gap: 3mm", 'gap: "3"', 'panels.gap: "3" has no unit'],
    [
      "a unit nobody knows",
      "gap: 3mm",
      "gap: 3 yards",
      'panels.gap: "3 yards" is not a length; write millimetres',
    ],
    ["a negative length", "gap: 3mm", "gap: -3mm", "panels.gap: -3mm must not be negative"],
    ["a NaN", "width: 3.66m", "width: .nan", "ceiling.width: not-a-number"],
    ["an infinite length", "width: 3.66m", "width: .inf", "ceiling.width: infinity"],
    [
      "a length of another planet",
      "width: 3.66m",
      "width: 3660m",
      "ceiling.width: 3660m is over 200 m; check the unit",
    ],
    [
      "a yes for a length",
      "width: 3.66m",
      "width: true",
      "ceiling.width: true does not fit; write millimetres as a number",
    ],
    ["a wrong view", "kind: eye", "kind: dome", "view.kind"],
    ["a chart's key in an eye view", "roll: 0", "span: 140", "`span` belongs to `view.kind: chart`"],
    [
      "a wrong aim",
      "aim: zenith",
      "aim: {altitude: 100, azimuth: 3}",
      "view.aim.altitude: 100 is out of range",
    ],
    ["an aim of no form", "aim: zenith", "aim: up", "write zenith, {altitude, azimuth}"],
    [
      "several panels without sharing",
      "  sharing: ceiling",
      "  #",
      "a plan with several panels must choose `sharing`",
    ],
    ["an unknown sharing", "sharing: ceiling", "sharing: both", 'fibre.sharing: "both" is not ceiling'],
    [
      "a bit thinner than its fibre",
      "bit: 0.6mm",
      "bit: 0.4mm",
      "a 0.4 mm bit makes no room for a 0.5 mm fibre",
    ],
    ["a diameter without a bit", "1.5mm: 2", "2mm: 2", "no bit is given for 2 mm fibre"],
    [
      "a fractional strand",
      "0.5mm: 70",
      "0.5mm: 70.5",
      'fibre.bundles.strands["0.5mm"]: 70.5 is not a whole number',
    ],
    ["a bare reserve", "reserve: 3%", "reserve: 3", "fibre.reserve"],
    [
      "a Milky Way without a unit",
      "milkyWay: 0%",
      "milkyWay: 15",
      "fibre.milkyWay: 15 is not a percentage such as 15%",
    ],
    ["more Milky Way than all", "milkyWay: 0%", "milkyWay: 120%", "write a percentage under 100%"],
    [
      "a ring too small",
      "moon: false",
      "moon: {ring: 5mm}",
      "show.moon.ring: 5 mm leaves no room for 6 holes 3 mm apart",
    ],
    [
      "a ring of fibre not owned",
      "moon: false",
      "moon: {ring: 45mm, fibre: 0.4mm}",
      "show.moon.fibre: there are no strands of 0.4 mm; write one of 0.5mm, 0.75mm",
    ],
    [
      "a Moon of no form",
      "moon: false",
      "moon: 45mm",
      'show.moon: "45mm" does not fit; write true (one hole), false, or {ring: 45mm}',
    ],
    [
      "a ring without its size",
      "moon: false",
      "moon: {fibre: 0.5mm}",
      "show.moon.ring: missing; write the diameter of the Moon's disk",
    ],
    ["no moment", "moment: 1998-07-11T21:15", "# ", "moment: missing; write the civil time"],
    [
      "a place by name alone",
      / {2}latitude: .*\n {2}longitude: .*\n/,
      "",
      "places are not looked up by name here",
    ],
    ["an empty value", "kind: eye", "kind:", "view.kind"],
    [
      "a frame of no form",
      "board: {",
      "frame: wood\nboard: {",
      'frame: "wood" does not fit; write none, or {batten',
    ],
    [
      "a batten without depth",
      "board: {",
      "frame: {batten: {width: 19mm}}\nboard: {",
      "frame.batten.depth: missing; write millimetres",
    ],
    [
      "screws as a number",
      "board: {",
      "frame: {batten: {width: 19mm, depth: 38mm}, screws: 200}\nboard: {",
      "frame.screws: 200 is not {pitch: 200mm}",
    ],
    [
      "a drill's slip",
      "board: {",
      "drill: {chuck: 22}\nboard: {",
      "drill.chuck: unknown key; known here: chuckRadius, projection",
    ],
    [
      "a keep-out of an unknown kind",
      "board: {",
      "keepOut: [{id: a, kind: vent, at: [1, 2], radius: 5}]\nboard: {",
      'keepOut[0].kind: "vent" is not grille, hatch, luminaire',
    ],
    [
      "a keep-out without its radius",
      "board: {",
      "keepOut: [{id: a, kind: grille, at: [1, 2]}]\nboard: {",
      "keepOut[0].radius: missing",
    ],
    [
      "a keep-out twice",
      "board: {",
      "keepOut: [{id: a, kind: grille, at: [1, 2], radius: 3}, {id: A, kind: grille, at: [1, 2], radius: 3}]\nboard: {",
      'keepOut[1].id: "A" is taken by an earlier keep-out',
    ],
    [
      "a keep-out measured from who knows where",
      "drawnAs: fromBelow",
      "keepOut: [{id: a, kind: grille, at: [1, 2], radius: 3}]",
      "a plan with keep-outs must say from which side they were measured",
    ],
    ["a ceiling with one measure", ", length: 2.44m", "", "ceiling.length: missing; write {width: 4.8m"],
    [
      "sides without diagonals",
      "{width: 3.66m, length: 2.44m}",
      "{sides: {top: 3660, right: 2440, bottom: 3660, left: 2440}}",
      "ceiling.diagonals: missing; four sides alone fix no shape",
    ],
    [
      "three sides",
      "{width: 3.66m, length: 2.44m}",
      "{sides: {top: 3660, right: 2440, bottom: 3660}, diagonals: {risingRight: 4399, fallingRight: 4399}}",
      "ceiling.sides.left: missing; write a length as the tape gives it",
    ],
    [
      "a wall to be square to in a room without measures",
      "{width: 3.66m, length: 2.44m}",
      "{width: 3.66m, length: 2.44m, squareTo: top}",
      "ceiling.squareTo: belongs to `sides` and `diagonals`",
    ],
    [
      "a width beside measures that give another",
      "{width: 3.66m, length: 2.44m}",
      "{width: 3.7m, sides: {top: 3660, right: 2440, bottom: 3660, left: 2440}, diagonals: {risingRight: 4398.73, fallingRight: 4398.73}}",
      "ceiling.width: 3700 mm is not the 3659.98 mm that `sides`",
    ],
    [
      "an outline of two corners",
      "{width: 3.66m, length: 2.44m}",
      "{outline: [[0, 0], [3660, 0]]}",
      "ceiling.outline: a list of 2 is too short; write the room's corners",
    ],
    [
      "an outline that starts off the origin",
      "{width: 3.66m, length: 2.44m}",
      "{outline: [[-12, 0], [3660, 0], [3660, 2440]]}",
      "ceiling.outline: its least x is -12, but positions count from the lower-left corner of its bounding rectangle; add 12 to every x",
    ],
    [
      "a side to draw from that nobody knows",
      "drawnAs: fromBelow",
      "drawnAs: above",
      'drawnAs: "above" is not fromBelow (as seen lying on the floor) or reflectedPlan',
    ],
    [
      "a key twice",
      "fabric: {thickness: 1mm}",
      "fabric: {thickness: 1mm}\nfabric: {thickness: 2mm}",
      "Map keys must be unique",
    ],
  ])("%s is one clear sentence", (_, from, to, sentence) => {
    const problems = problemsOf(starterWith(from, to));
    expect(problems.join("\n")).toContain(sentence);
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatch(/^plan\.yaml:\d+:\d+: /);
  });

  it("gives the Moon's ring the thinnest fibre that it owns, and can be written out and read again", () => {
    const plan = readPlan(
      starterWith("moon: false", "moon: {ring: 2in}").replace("milkyWay: 0%", "milkyWay: 15%"),
      "plan.yaml",
    );
    expect(plan.show.moon).toEqual({ ring: 50.8, fibre: 0.5 });
    expect(plan.fibre.milkyWay).toBe("15%");
    expect(readPlan(planYaml(plan), "again.yaml")).toEqual(plan);
    const thick = planWith({
      show: { moon: { ring: 45 } },
      fibre: { bundles: { count: 1, strands: { "0.5mm": 0, "1mm": 50 } } },
    });
    expect(thick.show.moon).toEqual({ ring: 45, fibre: 1 });
  });

  it("says line and column where it is not YAML", () => {
    expect(problemsOf("lacunar: 1\nview: {kind: eye\nplace: [1, 2")[0]).toMatch(
      /^plan\.yaml:\d+:\d+: not readable as YAML: /,
    );
    expect(problemsOf("just words")[0]).toMatch(/^plan\.yaml:1:1: not a plan/);
    expect(problemsOf("")[0]).toMatch(/^plan\.yaml:1:1: not a plan/);
    expect(problemsOf("[1, 2]")[0]).toMatch(/not a plan/);
  });

  it.each([
    ["a prototype for a key", "__proto__: 1\nlacunar: 1", "__proto__: unknown key"],
    [
      "a constructor for a key",
      STARTER_PLAN.replace("title:", "constructor:"),
      "constructor: unknown key; known here: lacunar, title",
    ],
    ["an unknown tag", STARTER_PLAN.replace("moment: ", "moment: !when "), "not readable as YAML"],
    ["two documents", "lacunar: 1\n---\nlacunar: 1", "several documents in one file; keep one"],
    ["a bottomless pit", "[".repeat(20_000), "plan.yaml"],
    [
      "a sign that steers the terminal",
      STARTER_PLAN.replace("title: Bookshop", 'title: "\\e[31mBookshop"').replace(", upstairs room", ""),
      "without control characters",
    ],
    [
      "two ids that differ in case alone",
      JSON.stringify({
        ...BASE_PLAN,
        fibre: { ...BASE_PLAN.fibre, sharing: "ceiling" },
        panels: [
          { id: "a", x: 0, y: 0, width: 500, length: 500 },
          { id: "A", x: 600, y: 0, width: 500, length: 500 },
        ],
      }),
      "large and small letters",
    ],
  ])("%s is refused in words", (_, text, sentence) => {
    expect(problemsOf(text).join("\n")).toContain(sentence);
  });

  it("with ten thousand unknown keys is answered", () => {
    const text = `${STARTER_PLAN}\n${Array.from({ length: 10_000 }, (_, i) => `stray${i}: 1`).join("\n")}`;
    const problems = problemsOf(text);
    expect(problems.length).toBeGreaterThan(100);
    expect(problems.at(-1)).toBe("plan.yaml: 10000 problems in all");
  });

  it("lists every problem, in the order of the lines", () => {
    const text = starterWith("latitude: -33.0458", "latitude: 95")
      .replace("gap: 3mm", "gap: -1")
      .replace("merge: 1mm", "merg: 1mm");
    const problems = problemsOf(text);
    expect(problems).toHaveLength(3);
    const lines = problems.map((problem) => Number(/:(\d+):/.exec(problem)![1]));
    expect(lines).toEqual([...lines].sort((a, b) => a - b));
  });

  it("refuses a span that the projection cannot show", () => {
    for (const [projection, limit] of [
      ["stereographic", 300],
      ["equalArea", 360],
      ["equidistant", 360],
      ["orthographic", 180],
    ] as const) {
      expect(() => planWith({ view: { kind: "chart", projection, span: limit } })).not.toThrow();
      expect(() => planWith({ view: { kind: "chart", projection, span: limit + 0.1 } })).toThrow(
        `view.span: ${limit + 0.1} is more than the ${limit} degrees`,
      );
    }
  });

  it("refuses two panels of one id", () => {
    const panel = { id: "A1", x: 0, y: 0, width: 500, length: 500 };
    expect(() =>
      planWith({ panels: [panel, { ...panel, x: 600 }], fibre: { ...BASE_PLAN.fibre, sharing: "ceiling" } }),
    ).toThrow('panels[1].id: "A1" is taken');
  });
});

describe("the reader under fire", () => {
  const known = [
    "lacunar",
    "moment",
    "place",
    "view",
    "ceiling",
    "panels",
    "fibre",
    "holes",
    "show",
    "kind",
    "eye",
    "x",
    "constructor",
    "__proto__",
    "toString",
  ];
  const value = fc.letrec((tie) => ({
    any: fc.oneof(
      { depthSize: "small" },
      fc.constantFrom(null, true, 0, -1, 1e308, "", "3mm", "1998-07-11T21:15", "eye", "zenith", Number.NaN),
      fc.string(),
      fc.array(tie("any"), { maxLength: 3 }),
      fc.dictionary(fc.oneof(fc.constantFrom(...known), fc.string()), tie("any"), { maxKeys: 4 }),
    ),
  })).any;

  it("answers any text with a plan or with an InputError, never with another error", () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.string({ unit: "binary" }),
          fc.constantFrom(
            "&a [*a]",
            "? {a: 1}\n: 2",
            "!!binary x",
            "--- 1\n--- 2",
            "a: &x {b: *x}",
            "%YAML 9.9\n---\na: 1",
            "<<: {lacunar: 1}",
          ),
        ),
        (text) => {
          problemsOf(text);
        },
      ),
      { seed: 11, numRuns: 2000 },
    );
  });

  it("answers any tree of keys and values the same way, over the whole schema", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...Object.keys(BASE_PLAN), "show", "holes", "walls", "fabric"),
        value,
        (key, replaced) => {
          problemsOf(JSON.stringify({ ...BASE_PLAN, [key]: replaced }));
        },
      ),
      { seed: 12, numRuns: 2000 },
    );
  });

  it("answers a starter with any piece cut out or doubled the same way", () => {
    fc.assert(
      fc.property(fc.nat(STARTER_PLAN.length), fc.nat(60), fc.boolean(), (at, size, cut) => {
        const piece = STARTER_PLAN.slice(at, at + size);
        problemsOf(STARTER_PLAN.slice(0, at) + (cut ? "" : piece + piece) + STARTER_PLAN.slice(at + size));
      }),
      { seed: 13, numRuns: 500 },
    );
  });
});

describe("the JSON Schema", () => {
  it("describes a plan as it is written: lengths as numbers or text, unknown keys refused", () => {
    const schema = planJsonSchema() as {
      properties: Record<string, unknown>;
      additionalProperties: boolean;
      required: string[];
    };
    expect(schema.additionalProperties).toBe(false);
    expect(schema.required).toEqual(
      expect.arrayContaining(["lacunar", "moment", "place", "view", "ceiling", "panels", "fibre"]),
    );
    expect(schema.required).not.toContain("holes");
    expect(schema.properties.ceiling).toMatchObject({
      properties: {
        width: {
          anyOf: [
            { type: "number", exclusiveMinimum: 0 },
            { type: "string", pattern: expect.any(String) },
          ],
        },
      },
    });
    expect(schema.properties.ceiling).toMatchObject({
      anyOf: [
        { required: ["width", "length"] },
        { required: ["outline"] },
        { required: ["sides", "diagonals"] },
      ],
    });
    expect(Object.keys(schema.properties)).toEqual(expect.arrayContaining(["frame", "drill", "keepOut"]));
    const { pattern } = (schema.properties.cavity as { anyOf: { pattern?: string }[] }).anyOf[1]!;
    for (const text of ["38mm", "2.4m", "48in", "8ft", "1/8in", "4 1/2in", "8' 4-1/2\""])
      expect(text).toMatch(new RegExp(pattern!));
    for (const text of ["38", "2 bananas", "", "mm"]) expect(text).not.toMatch(new RegExp(pattern!));
  });
});
