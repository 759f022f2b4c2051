import { execFileSync, spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { readPlan } from "../../src/plan/read.ts";
import { BASE_PLAN } from "../plan/testPlan.ts";
import { BIN, lacunar, scratch, writePlan } from "./lacunar.ts";

const folder = scratch();
const plan = writePlan(folder, "chapel.json");
const rows = (csv: string) =>
  csv
    .trimEnd()
    .split("\r\n")
    .map((line) => line.split(","));

describe("data goes to stdout, words to stderr", () => {
  it("holes: the columns of the design, CRLF, one row a hole", () => {
    const { code, out, err } = lacunar(["holes", plan]);
    expect(code).toBe(0);
    // These columns are a contract with whoever reads the file.
    expect(out.split("\r\n")[0]).toBe(
      "hole,panel,x_mm,y_mm,diameter_mm,bit_mm,kind,hip,name,constellation,mag,bv,alt_deg,az_deg,sky_x_mm,sky_y_mm,ceiling_x_mm,ceiling_y_mm,shift_mm,merged,bundle,length_mm",
    );
    expect(out.endsWith("\r\n")).toBe(true);
    const [, ...holes] = rows(out);
    expect(holes).toHaveLength(200);
    for (const hole of holes) expect(hole).toHaveLength(22);
    expect(holes[0]![2]).toMatch(/^\d+\.\d\d$/);
    expect(err).not.toContain(",A1,");
  });

  it("holes --json: numbers as numbers, empty as null, merged a list, panels and what was left out", () => {
    const { out } = lacunar(["holes", plan, "--json"]);
    const schedule = JSON.parse(out);
    expect(Object.keys(schedule)).toEqual(
      expect.arrayContaining([
        "lacunar",
        "plan",
        "instantUtc",
        "panels",
        "holes",
        "left",
        "fidelity",
        "warnings",
      ]),
    );
    expect(schedule.holes[0]).toMatchObject({
      hole: "A1-1",
      panel: "A1",
      bundle: null,
      lengthMm: null,
      merged: expect.any(Array),
      xMm: expect.any(Number),
    });
    expect(schedule.panels[0].outlineMm).toHaveLength(4);
    expect(schedule.left[0]).toEqual({
      hip: expect.any(Number),
      name: expect.any(String),
      mag: expect.any(Number),
      why: expect.any(String),
    });
    expect(readPlan(JSON.stringify(schedule.plan), "replay")).toEqual(schedule.plan);
  });

  it("stars: every object of the field, or those to a magnitude", () => {
    const { stars } = JSON.parse(lacunar(["stars", plan, "--json", "--faintest", "2.5"]).out);
    expect(stars.length).toBeGreaterThan(10);
    for (const star of stars) expect(star.mag).toBeLessThanOrEqual(2.5);
    expect(Object.keys(stars[0]).sort()).toEqual(
      [
        "altDeg",
        "azDeg",
        "bv",
        "constellation",
        "decDeg",
        "hip",
        "mag",
        "name",
        "raDeg",
        "xMm",
        "yMm",
      ].sort(),
    );
    const csv = rows(lacunar(["stars", plan, "--faintest", "2.5"]).out);
    expect(csv).toHaveLength(stars.length + 1);
  });

  it("check: words on stdout, warnings on stderr, and JSON with the strands a magnitude asks for", () => {
    const words = lacunar(["check", plan, "--faintest", "5"]);
    expect(words.out).toContain("200 holes on 1 panel: A1 200");
    expect(words.out).toContain("To 5.0");
    expect(words.err).toContain("Buildable.");
    const report = JSON.parse(lacunar(["check", plan, "--json", "--faintest", "5"]).out);
    expect(report).toMatchObject({ buildable: true, asks: { faintestMag: 5, bundles: expect.any(Number) } });
  });

  it("check --free: what each minute buys, in words or as data", () => {
    const framed = writePlan(folder, "framed.json", { frame: { batten: { width: 38, depth: 19 } } });
    const words = lacunar(["check", framed, "--free", "3min"]).out;
    expect(words).toContain("Verdict ");
    expect(words).toMatch(/\n +-3 {2}2004-02-29T23:27/);
    expect(words).toContain("the plan's moment");
    const { free, fidelity } = JSON.parse(lacunar(["check", framed, "--free", "3min", "--json"]).out);
    expect(free.moments).toHaveLength(7);
    expect(fidelity).toMatchObject({
      slide: null,
      parity: { asSeenFromBelow: true },
      verdict: expect.any(String),
    });
    for (const wrong of ["15", "0min", "61min", "15h", "1.5min", "-3min"])
      expect(lacunar(["check", framed, `--free=${wrong}`]).code).toBe(2);
  });

  it("schema: a JSON Schema", () => {
    expect(JSON.parse(lacunar(["schema"]).out)).toMatchObject({
      type: "object",
      $schema: expect.stringContaining("2020-12"),
    });
  });

  it("takes a plan from standard input, and is silent with --quiet", () => {
    const { code, out, err } = lacunar(["holes", "-", "--quiet"], { input: readFileSync(plan, "utf8") });
    expect([code, err]).toEqual([0, ""]);
    expect(out).toBe(lacunar(["holes", plan]).out);
  });

  it("does not mind a reader that stops early", () => {
    const shell = spawnSync(
      "sh",
      ["-c", `"${process.execPath}" "${BIN}" stars "${plan}" | head -n 1; true`],
      { encoding: "utf8" },
    );
    expect(shell.stdout).toContain("hip,name");
    expect(shell.stderr).toBe("");
  });

  it("tells its version and its commands", () => {
    const { version } = JSON.parse(readFileSync(new URL("../../package.json", import.meta.url), "utf8"));
    expect(lacunar(["--version"])).toEqual({ code: 0, out: `${version}\n`, err: "" });
    for (const name of ["init", "check", "stars", "holes", "preview", "make", "schema", "completion"])
      expect(lacunar(["--help"]).out).toContain(`  ${name}`);
  });

  it("completes commands and options in each shell", () => {
    for (const shell of ["bash", "zsh", "fish"]) {
      const { code, out } = lacunar(["completion", shell]);
      expect(code).toBe(0);
      expect(out).toContain("preview");
      expect(out).toContain("faintest");
    }
    execFileSync("bash", ["-n"], { input: lacunar(["completion", "bash"]).out });
    const offered = spawnSync(
      "bash",
      [
        "-c",
        `${lacunar(["completion", "bash"]).out}\nCOMP_WORDS=(lacunar pr); COMP_CWORD=1; _lacunar; echo "\${COMPREPLY[@]}"`,
      ],
      { encoding: "utf8" },
    );
    expect(offered.stdout.trim()).toBe("preview");
  });
});

describe("bad input: one clear sentence, the right exit code, nothing written", () => {
  const cases: [what: string, args: string[], code: number, sentence: string][] = [
    ["no file", ["holes", join(folder, "none.yaml")], 2, "no such file"],
    ["a folder", ["holes", folder], 2, "it is a folder"],
    ["an unknown command", ["hole", plan], 2, "unknown command"],
    ["no command", [], 2, "Usage"],
    ["an unknown option", ["holes", plan, "--wide"], 2, "unknown option"],
    ["an option without value", ["stars", plan, "--faintest"], 2, "argument missing"],
    ["a number with trailing text", ["stars", plan, "--faintest", "5mag"], 2, "Write a magnitude"],
    ["a second plan", ["holes", plan, plan], 2, "too many arguments"],
    ["an unknown extension", ["preview", plan, "-o", join(folder, "sky.bmp")], 2, "not a picture format"],
    [
      "a working drawing with labels of the night",
      ["preview", plan, "-o", join(folder, "sky.png"), "--drawing", "--labels"],
      2,
      "--drawing and --labels",
    ],
    ["no extension", ["preview", plan, "-o", join(folder, "sky")], 2, "not a picture format"],
    [
      "a picture too wide",
      ["preview", plan, "-o", join(folder, "sky.png"), "--width", "9000"],
      2,
      "from 16 to 8192",
    ],
    ["an unknown shell", ["completion", "csh"], 2, "Allowed choices are bash, zsh, fish"],
    ["an output under a file", ["preview", plan, "-o", join(plan, "sky.png")], 2, "not a folder"],
    ["an output folder under a file", ["make", plan, "-o", join(plan, "out")], 2, "is not a folder"],
    [
      "a missing folder for a picture",
      ["preview", plan, "-o", join(folder, "no", "sky.png")],
      2,
      "no such folder",
    ],
  ];
  it.each(cases)("%s", (_, args, code, sentence) => {
    const ran = lacunar(args);
    expect(ran.err).toContain(sentence);
    expect(ran.code).toBe(code);
    expect(ran.out).toBe("");
    expect(ran.err).not.toMatch(/\n\s+at .*\d+:\d+/);
  });

  const shared = { ...BASE_PLAN.fibre, sharing: "ceiling" };
  const rectangle = (id: string, x: number) => ({ id, x, y: 0, width: 500, length: 500 });
  const plans: [what: string, changes: Record<string, unknown>, code: number, sentence: string][] = [
    ["a height for the ceiling", { ceiling: { width: 2400, length: 1800, height: 2500 } }, 2, "room.height"],
    ["a latitude over 90", { place: { latitude: 91, longitude: 0 } }, 2, "place.latitude"],
    ["several panels without sharing", { panels: { columns: 2, rows: 1 } }, 2, "sharing"],
    ["a time without zone", { moment: "2004-02-29T23:30" }, 2, "needs a time zone"],
    [
      "a time that never was",
      { moment: "2024-03-10T02:30", place: { latitude: 40.7, longitude: -74, timeZone: "America/New_York" } },
      2,
      "does not exist",
    ],
    [
      "an unknown zone",
      { moment: "2004-02-29T23:30", place: { latitude: 41, longitude: -8, timeZone: "Europe/Lisbonn" } },
      2,
      "did you mean Europe/Lisbon?",
    ],
    ["an unknown star", { view: { kind: "chart", aim: { star: "Vegga" } } }, 2, "did you mean Vega?"],
    ["an eye too near", { view: { kind: "eye", eye: { below: 100 } } }, 2, "view.eye"],
    [
      "panels that overlap",
      { panels: [rectangle("a", 0), rectangle("b", 400)], fibre: shared },
      1,
      "panels a and b overlap",
    ],
    ["a panel off the ceiling", { panels: [rectangle("a", 2000)] }, 1, "panel a leaves the ceiling"],
    [
      "nothing in the field",
      { view: { kind: "chart", span: 0.01, aim: { altitude: 80, azimuth: 0 } } },
      1,
      "no object lies over the ceiling",
    ],
    [
      "an aim below the horizon",
      { view: { kind: "chart", span: 60, aim: { star: "Fomalhaut" } } },
      2,
      "view.aim: Fomalhaut stands",
    ],
    ["margins that leave no panel", { holes: { edge: 1000 } }, 1, "leave no place"],
  ];
  it.each(plans)("%s", (what, changes, code, sentence) => {
    const bad = writePlan(folder, `${what.replaceAll(" ", "-")}.json`, changes);
    const out = join(folder, "never");
    const ran = lacunar(["make", bad, "-o", out]);
    expect(ran.err).toContain(sentence);
    expect(ran.code).toBe(code);
    expect(ran.err.trimEnd().split("\n")).toHaveLength(1);
    expect(existsSync(out)).toBe(false);
  });

  it("every reason against building, of the sky and of the panels, as words and as data", () => {
    const bad = writePlan(folder, "many.json", {
      view: { kind: "chart", span: 0.01, aim: { altitude: 80, azimuth: 0 } },
      panels: [rectangle("a", 0), rectangle("b", 400), rectangle("c", 2300)],
      fibre: shared,
    });
    const ran = lacunar(["check", bad, "--json"]);
    expect(ran.code).toBe(1);
    expect(ran.err.trimEnd().split("\n")).toHaveLength(3);
    const report = JSON.parse(ran.out);
    expect(report.buildable).toBe(false);
    expect(report.findings.map((finding: { code: string }) => finding.code)).toEqual([
      "empty-field",
      "panel-outside-ceiling",
      "panels-overlap",
    ]);
  });

  it("an aim below the horizon: refused by what needs the field, told of by the nights", () => {
    const sunken = writePlan(folder, "sunken.json", {
      view: { kind: "chart", span: 60, aim: { star: "Fomalhaut" } },
    });
    const picture = join(folder, "sunken.png");
    for (const args of [
      ["check", sunken],
      ["stars", sunken],
      ["holes", sunken],
      ["preview", sunken, "-o", picture],
    ]) {
      const ran = lacunar(args);
      expect(ran.code).toBe(2);
      expect(ran.err).toMatch(/sunken\.json:\d+:\d+: view\.aim: Fomalhaut stands .* write `moment: \d{4}-/);
      expect(ran.out).toBe("");
    }
    expect(existsSync(picture)).toBe(false);
    expect(lacunar(["nights", sunken, "--around", "1"]).code).toBe(0);
  });

  it("bytes that are no text", () => {
    const path = join(folder, "picture.yaml");
    writeFileSync(path, Uint8Array.of(0xff, 0xd8, 0xff, 0xe0));
    expect(lacunar(["holes", path])).toMatchObject({
      code: 2,
      err: expect.stringContaining("not a text file in UTF-8"),
    });
  });

  it("a file in the way of -o is left alone, unless it is the same or --force is said", () => {
    for (const [name, args] of [
      ["notes.csv", ["holes"]],
      ["package.json", ["holes", "--json"]],
      ["report.txt", ["check"]],
    ] as const) {
      const path = join(folder, name);
      writeFileSync(path, '{\n  "mine": true\n}\n');
      const [verb, ...rest] = args;
      expect(lacunar([verb, plan, ...rest, "-o", path])).toMatchObject({
        code: 2,
        err: expect.stringContaining("is there already"),
      });
      expect(readFileSync(path, "utf8")).toContain("mine");
      expect(lacunar([verb, plan, ...rest, "-o", path, "--force"]).code).toBe(0);
      expect(lacunar([verb, plan, ...rest, "-o", path]).code).toBe(0);
    }
    const picture = join(folder, "holiday.png");
    writeFileSync(picture, Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 1));
    expect(lacunar(["preview", plan, "-o", picture, "--width", "64"]).code).toBe(2);
  });

  it("a plan in the way of init is left alone", () => {
    const path = join(folder, "mine.yaml");
    expect(lacunar(["init", path]).code).toBe(0);
    writeFileSync(path, "# mine");
    expect(lacunar(["init", path])).toMatchObject({
      code: 2,
      err: expect.stringContaining("is there already"),
    });
    expect(readFileSync(path, "utf8")).toBe("# mine");
    mkdirSync(join(folder, "sub"));
    expect(lacunar(["init", join(folder, "sub")]).code).toBe(2);
  });
});
