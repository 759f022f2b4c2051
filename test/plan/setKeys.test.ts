import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { InputError } from "../../src/plan/errors.ts";
import { readPlan } from "../../src/plan/read.ts";
import { type SetRequest, setKeys } from "../../src/plan/setKeys.ts";
import { STARTER_PLAN } from "../../src/plan/starter.ts";

/** A plan of our own, with the lines under test in its middle. */
const planAround = (lines: string): string => `# a plan
lacunar: 1
moment: 2004-02-29T23:30Z   # the birthday
place: {latitude: 41.15, longitude: -8.61}
${lines}
ceiling: {width: 2400, length: 1800}
panels: {columns: 1, rows: 1}

fibre: {bundles: {count: 2, strands: {0.5mm: 80}}}
# the end
`;
const CHART = "view: {kind: chart}";
const JSON_PLAN = {
  lacunar: 1,
  moment: "2004-02-29T23:30Z",
  place: { latitude: 41.15, longitude: -8.61 },
  view: { kind: "chart", span: 120 },
  ceiling: { width: 2400, length: 1800 },
  panels: { columns: 1, rows: 1 },
  fibre: { bundles: { count: 2, strands: { "0.5mm": 80 } } },
};

type Pairs = SetRequest["pairs"];
const set = (text: string, pairs: Pairs, unset: readonly string[] = []) =>
  setKeys(text, "plan.yaml", { pairs, unset });
const refusal = (text: string, pairs: Pairs, unset: readonly string[] = []): string => {
  try {
    set(text, pairs, unset);
  } catch (error) {
    expect(error).toBeInstanceOf(InputError);
    return (error as InputError).message;
  }
  throw new Error("was not refused");
};

describe("one key changes, and no character beside it", () => {
  // Each text to come was worked out by hand from the one before it.
  const cases: [what: string, before: string, pairs: Pairs, after: string][] = [
    [
      "a plain word",
      "view: {kind: chart, aim: zenith} # up",
      [["view.aim", "{star: Vega}"]],
      "view: {kind: chart, aim: {star: Vega}} # up",
    ],
    [
      "a line with a comment",
      "view:\n  kind: chart\n  span: 140   # wide",
      [["view.span", "90"]],
      "view:\n  kind: chart\n  span: 90   # wide",
    ],
    [
      "a word in quotes",
      `${CHART}\ntitle: 'old' # t`,
      [["title", '"new # one"']],
      `${CHART}\ntitle: "new # one" # t`,
    ],
    [
      "words beyond ASCII",
      `${CHART}\ntitle: Porto`,
      [["title", "Größe 夜 ★"]],
      `${CHART}\ntitle: Größe 夜 ★`,
    ],
    [
      "a value on a line of its own",
      "view:\n  kind: chart\n  aim:\n    # up\n    zenith",
      [["view.aim", "{star: Vega}"]],
      "view:\n  kind: chart\n  aim:\n    # up\n    {star: Vega}",
    ],
    [
      "a block of text",
      `title: >- # words\n  one\n  two\n\n\n${CHART}`,
      [["title", "new"]],
      `title: new # words\n\n\n${CHART}`,
    ],
    [
      "a key without a value",
      `title: # none yet\n${CHART}`,
      [["title", "new"]],
      `title: new # none yet\n${CHART}`,
    ],
    [
      "a key without so much as a colon",
      `${CHART}\nshow: {planets}`,
      [["show.planets", "false"]],
      `${CHART}\nshow: {planets: false}`,
    ],
    ["a tag goes with its value", `title: !!str 1984\n${CHART}`, [["title", "new"]], `title: new\n${CHART}`],
    [
      "an alias",
      `title: &t one\nwalls: {top: *t}\n${CHART}`,
      [["walls.top", "door"]],
      `title: &t one\nwalls: {top: door}\n${CHART}`,
    ],
    [
      "a key in quotes",
      `"view": {"kind": 'chart', "span": 30}`,
      [["view.span", "4e1"]],
      `"view": {"kind": 'chart', "span": 4e1}`,
    ],
    [
      "a key that is new in a group of lines",
      "view:   # sky\n  kind: chart # map\n\n  # after",
      [["view.aim.star", "Vega"]],
      "view:   # sky\n  kind: chart # map\n  aim: {star: Vega}\n\n  # after",
    ],
    ["a key that is new in brackets", CHART, [["view.roll", "-5"]], "view: {kind: chart, roll: -5}"],
    [
      "a key that is new in brackets over lines",
      "view: {\n    kind: chart, # k\n    span: 140   # s\n  }",
      [
        ["view.roll", "3"],
        ["view.up", "north"],
      ],
      "view: {\n    kind: chart, # k\n    span: 140,   # s\n    roll: 3,\n    up: north\n  }",
    ],
    ["a comma that trails", "view: {kind: chart,}", [["view.roll", "3"]], "view: {kind: chart, roll: 3,}"],
    [
      "words that would end a group in brackets",
      `${CHART}\nwalls: {top: a}`,
      [["walls.top", "by the [door], left"]],
      `${CHART}\nwalls: {top: "by the [door], left"}`,
    ],
    [
      "a group of lines keeps the lines of the keys that stay",
      "view:\n  kind: chart # map\n  roll: 3\n  span: 140 # s",
      [["view", "{kind: chart, span: 90, up: north}"]],
      "view:\n  kind: chart # map\n  span: 90 # s\n  up: north",
    ],
    [
      "another form of the aim",
      "view: {kind: chart, aim: {altitude: 30, azimuth: 2}}",
      [["view.aim.star", "Vega"]],
      "view: {kind: chart, aim: {star: Vega}}",
    ],
    [
      "another form of the eye",
      "room: {height: 2.5m}\nview: {kind: eye, eye: {below: 1m, x: 1m}}",
      [["view.eye.aboveFloor", "1.2m"]],
      "room: {height: 2.5m}\nview: {kind: eye, eye: {x: 1m, aboveFloor: 1.2m}}",
    ],
    [
      "another kind of view",
      "view:\n  kind: eye # k\n  eye: {below: 1m} # e\n  roll: 3",
      [
        ["view.kind", "chart"],
        ["view.span", "90"],
      ],
      "view:\n  kind: chart # k\n  roll: 3\n  span: 90",
    ],
    [
      "and back again",
      "view:\n  kind: chart # k\n  span: 90",
      [
        ["view.eye.below", "1m"],
        ["view.kind", "eye"],
      ],
      "view:\n  kind: eye # k\n  eye: {below: 1m}",
    ],
    ["what a plan already says", CHART, [["view.kind", "chart"]], CHART],
  ];
  it.each(cases)("%s", (_, before, pairs, after) => {
    expect(set(planAround(before), pairs).text).toBe(planAround(after));
    // With the line ends of the other world all the same.
    expect(set(planAround(before).replaceAll("\n", "\r\n"), pairs).text).toBe(
      planAround(after).replaceAll("\n", "\r\n"),
    );
  });

  const removals: [what: string, before: string, unset: string[], after: string][] = [
    [
      "a line with its comment",
      "view:\n  kind: chart # k\n  span: 90 # s\n  roll: 2",
      ["view.span"],
      "view:\n  kind: chart # k\n  roll: 2",
    ],
    ["the last in brackets", "view: {kind: chart, span: 90}", ["view.span"], CHART],
    ["the first in brackets", "view: {span: 90, kind: chart}", ["view.span"], CHART],
    [
      "the last in brackets over lines",
      "view: {\n    kind: chart, # k\n    span: 140   # s\n  }",
      ["view.span"],
      "view: {\n    kind: chart # k\n  }",
    ],
    [
      "one between in brackets over lines",
      "view: {\n    kind: chart, # k\n    span: 140, # s\n    roll: 3 }",
      ["view.span"],
      "view: {\n    kind: chart, # k\n    roll: 3 }",
    ],
    ["a block of text", `title: |+\n  a\n  b\n${CHART}`, ["title"], CHART],
    [
      "the only key of a group takes the group along",
      `${CHART}\nshow:\n  moon: true # m`,
      ["show.moon"],
      CHART,
    ],
    ["a key nobody knows", "view: {kind: chart, spam: 3}", ["view.spam"], CHART],
  ];
  it.each(removals)("taken out: %s", (_, before, unset, after) => {
    expect(set(planAround(before), [], unset).text).toBe(planAround(after));
    expect(set(planAround(before).replaceAll("\n", "\r\n"), [], unset).text).toBe(
      planAround(after).replaceAll("\n", "\r\n"),
    );
  });

  it("lists: entries are counted from 0, changed, added, and taken out by the numbers they had", () => {
    const list = `panels:
- id: A # first
  x: 0
  y: 0
  width: 800
  length: 1m
# two
-   id: B
    x: 900
    y: 0
    width: 800
    length: 1m # end
- {id: C, x: 1800, y: 0, width: 100, length: 1m}`;
    const text = planAround(`${CHART}\nshow: {moon: true}`)
      .replace("panels: {columns: 1, rows: 1}", list)
      .replace("fibre: {", "fibre: {sharing: ceiling, ");
    expect(
      set(text, [
        ["panels.0.width", "700"],
        ["panels[1].id", "D"],
      ]).text,
    ).toBe(
      text
        .replace("  width: 800\n  length: 1m\n#", "  width: 700\n  length: 1m\n#")
        .replace("id: B", "id: D"),
    );
    const last = "- {id: C, x: 1800, y: 0, width: 100, length: 1m}\n";
    const next = last.replace("C", "E").replace("1800", "2000");
    expect(set(text, [["panels[3]", next.slice(2, -1)]]).text).toBe(text.replace(last, last + next));
    const { text: less } = set(text, [], ["panels[0]", "panels[2]"]);
    expect(parse(less).panels.map(({ id }: { id: string }) => id)).toEqual(["B"]);
    expect(less).toContain("# two\n-   id: B\n");
    expect(refusal(text, [["panels[5].id", "F"]])).toBe(
      "panels[5]: the list has 3 entries, counted from 0; panels[3] adds one",
    );
  });

  it("a text without a line end at its end gets none", () => {
    const text = planAround(CHART).replace("# the end\n", "title: a");
    expect(set(text, [["show.moon", "true"]]).text).toBe(`${text}\nshow: {moon: true}`);
    expect(set(text, [], ["title"]).text).toBe(text.replace("\ntitle: a", ""));
  });

  it("a text of nothing but comments becomes a plan", () => {
    const pairs: Pairs = [
      ["lacunar", "1"],
      ["moment", "2004-02-29T23:30Z"],
      ["place", "{latitude: 41.15, longitude: -8.61}"],
      ["view.kind", "chart"],
      ["ceiling", "{width: 2.4m, length: 1.8m}"],
      ["panels", "{columns: 1, rows: 1}"],
      ["fibre.bundles", "{count: 1, strands: {0.5mm: 9}}"],
    ];
    const { text } = set("# ours\n", pairs);
    expect(text.startsWith("# ours\nlacunar: 1\nmoment: 2004-02-29T23:30Z\n")).toBe(true);
    expect(text.endsWith("fibre: {bundles: {count: 1, strands: {0.5mm: 9}}}\n")).toBe(true);
  });

  it("strands are found by their diameter, however it is written", () => {
    const text = planAround(CHART);
    for (const key of [
      "fibre.bundles.strands.0.5mm",
      'fibre.bundles.strands["0.50 mm"]',
      "fibre.bundles.strands[0.5]",
    ])
      expect(set(text, [[key, "75"]]).text).toBe(text.replace("0.5mm: 80", "0.5mm: 75"));
    expect(set(text, [["fibre.bundles.strands.1mm", "8"]]).text).toBe(
      text.replace("{0.5mm: 80}", "{0.5mm: 80, 1mm: 8}"),
    );
  });

  it("every key of the starter plan: the line of the key alone differs, and the plan holds the value", () => {
    // Second method: the whole text read again by the YAML library, and lines compared one by one.
    const values: Record<string, string> = {
      "place.elevation": "11",
      "view.roll": "-7.5",
      "view.topBearing": "200",
      "show.moon": "true",
      "walls.left": "north wall",
      "fibre.reserve": "4%",
      "fibre.bundles.count": "7",
      "fibre.sizes[2].bit": "1.2mm",
      "holes.merge": "1.5mm",
      "ceiling.width": "3.7m",
      "board.thickness": "1/4in",
    };
    const oneOf = fc.constantFrom(...Object.keys(values));
    fc.assert(
      fc.property(fc.uniqueArray(oneOf, { minLength: 1 }), (keys) => {
        const { text } = set(
          STARTER_PLAN,
          keys.map((key) => [key, values[key]!] as const),
        );
        const [before, after] = [STARTER_PLAN.split("\n"), text.split("\n")];
        expect(after).toHaveLength(before.length);
        expect(after.filter((line, i) => line !== before[i])).toHaveLength(keys.length); // each has its line
        for (const key of keys) {
          const value = key.split(/[.[\]]+/).reduce<never>((at, step) => at[step]!, parse(text) as never);
          expect(String(value)).toBe(values[key]);
        }
      }),
      { seed: 20040229, numRuns: 40 },
    );
  });
});

describe("JSON stays JSON", () => {
  const pairs: Pairs = [
    ["view.aim", "{star: Vega}"],
    ["show.moon", "true"],
    ["title", "it's 夜"],
    ["view.span", "1e2"],
    ["fibre.bundles.strands.1mm", "4"],
  ];
  const wanted = {
    ...JSON_PLAN,
    view: { kind: "chart", span: 100, aim: { star: "Vega" } },
    fibre: { bundles: { count: 2, strands: { "0.5mm": 80, "1mm": 4 } } },
    show: { moon: true },
    title: "it's 夜",
  };

  it.each([
    ["in one line", JSON.stringify(JSON_PLAN)],
    ["laid out with two spaces", `${JSON.stringify(JSON_PLAN, null, 2)}\n`],
    ["with tabs and CRLF", JSON.stringify(JSON_PLAN, null, "\t").replaceAll("\n", "\r\n")],
  ])("%s", (_, text) => {
    const { text: after } = set(text, pairs);
    expect(JSON.parse(after)).toEqual(wanted);
    expect(JSON.parse(set(after, [], ["view.span", "show.moon", "title"]).text)).toEqual({
      ...JSON_PLAN,
      view: { kind: "chart", aim: { star: "Vega" } },
      fibre: wanted.fibre,
    });
    // Taken back, the text is what it was, byte for byte.
    const { text: back } = set(set(text, pairs.slice(0, 3)).text, [], ["title", "show", "view.aim"]);
    expect(back).toBe(text);
  });

  it("keeps the layout around a new key", () => {
    const text = JSON.stringify(JSON_PLAN, null, 2);
    expect(set(text, [["view.aim", "zenith"]]).text).toBe(
      text.replace('"span": 120', '"span": 120,\n    "aim": "zenith"'),
    );
    expect(refusal(text, [["view.span", ".inf"]])).toBe("view.span: JSON has no way to write .inf");
  });
});

describe("what cannot be set is refused in a sentence", () => {
  const cases: [what: string, lines: string, pairs: Pairs, sentence: string][] = [
    ["no key", CHART, [["", "1"]], "the key is empty"],
    ["a step without a name", CHART, [["view..aim", "1"]], '"view..aim" is not a key'],
    ["a dot at the end", CHART, [["view.", "1"]], '"view." is not a key'],
    ["a bracket left open", CHART, [["panels[0", "1"]], '"panels[0" is not a key'],
    [
      "a key that is JavaScript's",
      CHART,
      [["__proto__", "1"]],
      "__proto__: unknown key; known here: lacunar",
    ],
    ["another", CHART, [["view.constructor", "1"]], "view.constructor: unknown key; known in view"],
    ["a value with such a key", CHART, [["view", "{__proto__: 1}"]], "holds the key __proto__"],
    ["a slip", CHART, [["view.aimm", "1"]], "view.aimm: unknown key; did you mean `view.aim`?"],
    ["a slip in a group", CHART, [["veiw.aim", "1"]], "did you mean `view.aim`?"],
    ["a group left out", CHART, [["latitude", "1"]], "did you mean `place.latitude`?"],
    [
      "two that may be meant",
      CHART,
      [["width", "1"]],
      "did you mean `ceiling.width`, `panels[0].width` or `keepOut[0].width`?",
    ],
    [
      "a key that belongs elsewhere",
      CHART,
      [["ceiling.height", "1"]],
      "how high it hangs above the floor is `room.height`",
    ],
    [
      "a list that is none",
      CHART,
      [["panels[0].width", "1"]],
      "panels is a group of keys in this plan, no list",
    ],
    [
      "a value out of range",
      CHART,
      [["view.span", "400"]],
      "plan.yaml:5:27: view.span: 400 is more than the 300 degrees",
    ],
    [
      "the span of an eye",
      "view: {kind: eye, eye: {below: 1m}}",
      [["view.span", "90"]],
      "`span` belongs to `view.kind: chart`",
    ],
    ["half an aim", CHART, [["view.aim.altitude", "30"]], "view.aim.azimuth: missing"],
    [
      "words that read as a number",
      CHART,
      [["title", "1984"]],
      'put them in double quotes of their own: "1984"',
    ],
    [
      "words with a comment",
      CHART,
      [["title", "Room # 3"]],
      'holds a comment from its # on; if the # is part of the words, put them in double quotes of their own: "Room # 3"',
    ],
    ["nothing", CHART, [["view.roll", ""]], "view.roll: an empty value is not degrees"],
    ["no YAML", CHART, [["view.aim", "{star: Vega"]], "is not readable as YAML"],
    ["an alias", CHART, [["title", "*t"]], "is an alias"],
    ["a tag nobody knows", CHART, [["title", "!x y"]], "Unresolved tag"],
    ["several documents", CHART, [["title", "a\n---\nb"]], "several documents"],
    ["groups beyond measure", CHART, [["title", "[".repeat(9000)]], "nested beyond all measure"],
    [
      "a key set twice",
      CHART,
      [
        ["view.roll", "1"],
        ["view.roll", "2"],
      ],
      "view.roll: is set twice",
    ],
    [
      "a key overwritten",
      CHART,
      [
        ["view.roll", "1"],
        ["view", "{kind: chart}"],
      ],
      "overwritten with view as a whole",
    ],
    [
      "what is repeated elsewhere",
      `title: &t one\nwalls: {top: *t}\n${CHART}`,
      [["title", "x"]],
      "title cannot be changed alone: the plan repeats a part of itself (anchor &t)",
    ],
    [
      "a way through an alias",
      `walls: &w {top: a}\n${CHART}\nroom: *w`,
      [["room.height", "2m"]],
      "room.height cannot be changed alone",
    ],
    [
      "a tab for indentation",
      "view:\n\tkind: chart",
      [["title", "x"]],
      "plan.yaml:6:1: not readable as YAML: Tabs",
    ],
    [
      "several documents in the file",
      `${CHART}\n---`,
      [["title", "x"]],
      "several documents in one file; keep one",
    ],
  ];
  it.each(cases)("%s", (_, lines, pairs, sentence) => {
    expect(refusal(planAround(lines), pairs)).toContain(sentence);
  });

  it("the sentences are those that the changed plan would be told by itself", () => {
    const changed = planAround("view: {kind: chart, span: 400}");
    let sentence = "";
    try {
      readPlan(changed, "plan.yaml");
    } catch (error) {
      sentence = (error as Error).message;
    }
    expect(refusal(planAround("view: {kind: chart, span: 40}"), [["view.span", "400"]])).toBe(sentence);
  });

  it("a list, or a word, is no plan", () => {
    expect(refusal("- a\n", [["title", "x"]])).toContain("plan.yaml:1:1: not a plan");
    expect(refusal("hello\n", [["title", "x"]])).toContain("plan.yaml:1:1: not a plan");
  });

  it("set and taken out at once", () => {
    expect(refusal(planAround(CHART), [["view.roll", "1"]], ["view"])).toContain("--unset view takes it out");
    expect(refusal(planAround(CHART), [], ["view.rolll"])).toContain("did you mean `view.roll`?");
  });
});

describe("what changed is told", () => {
  it("from what to what, with what could not stay", () => {
    const { changed } = set(planAround("view: {kind: eye, eye: {below: 1m}}"), [
      ["view.kind", "chart"],
      ["title", "x"],
    ]);
    expect(changed).toEqual([
      { key: "view.kind", from: "eye", to: "chart" },
      { key: "view.eye", from: { below: "1m" }, to: undefined },
      { key: "title", from: undefined, to: "x" },
    ]);
  });

  it("a wrong plan is mended, and one key that is still wrong is told", () => {
    const wrong = planAround("view: {kind: chart, span: 999}");
    expect(set(wrong, [["view.span", "120"]]).plan.view).toMatchObject({ span: 120 });
    expect(refusal(wrong, [["title", "x"]])).toContain("view.span: 999 is more than");
  });

  it("a new name leaves the place where it was, and says so", () => {
    const text = planAround(CHART);
    expect(set(text, [["place.name", "Lisbon"]]).notices[0]).toContain("stays where it was");
    expect(
      set(text, [
        ["place.name", "Lisbon"],
        ["place.latitude", "38.72"],
        ["place.longitude", "-9.14"],
      ]).notices,
    ).toEqual([]);
  });

  it("a text that cannot be changed in place is written anew, its comments kept, and that is told", () => {
    const { text, notices } = set(planAround(`? title\n${CHART} # c`), [["title", "x"]]);
    expect(notices[0]).toContain("written out again");
    expect(parse(text)).toMatchObject({ title: "x", view: { kind: "chart" } });
    for (const comment of ["# a plan", "# the birthday", "# c", "# the end"]) expect(text).toContain(comment);
  });
});
