import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { lacunar, scratch, writePlan } from "./lacunar.ts";

const folder = scratch();
const place = { latitude: -33.0458, longitude: -71.6197, timeZone: "America/Santiago" };
const night = writePlan(folder, "night.json", { moment: "1998-07-11T21:15", place });

describe("lacunar stars --find", () => {
  it("needs no plan, and tells a name in words on stdout alone", () => {
    const { code, out, err } = lacunar(["stars", "--find", "véga"]);
    expect([code, err]).toEqual([0, ""]);
    expect(out).toMatch(/^Star +Vega \(α Lyr\), HIP 91262$/m);
    expect(out).toMatch(/^Aim +aim: \{star: Vega\}$/m);
  });

  it("with a plan tells where it stands, and as data the same", () => {
    expect(lacunar(["stars", night, "--find", "Antares"]).out).toMatch(
      /^At the moment 1998-07-11 21:15:00-04:00: altitude \d+\.\d\d, azimuth \d+\.\d\d degrees, over the ceiling at x \d+, y \d+ mm$/m,
    );
    expect(lacunar(["stars", night, "--find", "Polaris"]).out).toContain("degrees, below the horizon");
    const data = JSON.parse(lacunar(["stars", night, "--find", "Cru", "--json"]).out);
    expect(data).toMatchObject({
      find: "Cru",
      moment: { instantUtc: "1998-07-12T01:15:00Z" },
      found: [
        { kind: "constellation", aimText: "{constellation: Cru}", atMoment: { altDeg: expect.any(Number) } },
      ],
    });
  });

  it("a planet without a plan says what its place depends on", () => {
    const { code, out } = lacunar(["stars", "--find", "VENUS"]);
    expect(code).toBe(0);
    expect(out).toContain("depends on the moment; a plan has one: lacunar stars PLAN --find Venus");
    expect(lacunar(["stars", night, "--find", "Venus"]).out).toMatch(/^Aim +aim: \{rightAscension: /m);
  });

  it("a beginning is told on stderr, and --quiet is quiet", () => {
    expect(lacunar(["stars", "--find", "kaus"]).err).toContain('Nothing is called "kaus"');
    expect(lacunar(["stars", "--find", "kaus", "--quiet"]).err).toBe("");
  });

  it("what it says goes into a plan as it is", () => {
    const [, aim] = /^Aim +aim: (.*)$/m.exec(lacunar(["stars", "--find", "61 Cyg"]).out)!;
    const plan = writePlan(folder, "aimed.json", { moment: "2004-08-01T23:30Z" });
    expect(lacunar(["set", plan, "view.aim", aim!]).code).toBe(0);
    expect(JSON.parse(readFileSync(plan, "utf8")).view.aim).toEqual({ star: "61 Cyg" });
  });

  const cases: [what: string, args: string[], sentence: string][] = [
    ["nobody is called so", ["--find", "Vegaa"], "did you mean Vega?"],
    ["no name", ["--find", " "], "--find: the name is empty"],
    ["no plan and nothing to find", [], "name a plan file, or look a name up"],
    ["two ways to choose at once", ["--find", "Vega", "--faintest", "3"], "use one of them"],
    ["no such plan", [join(folder, "none.yaml"), "--find", "Vega"], "no such file"],
    [
      "31 February",
      [writePlan(folder, "feb.json", { moment: "1998-02-31T21:15Z" }), "--find", "Vega"],
      "moment: ",
    ],
  ];
  it.each(cases)("refuses in one sentence: %s", (_, args, sentence) => {
    const file = join(folder, "never.txt");
    const ran = lacunar(["stars", ...args, "-o", file]);
    expect(ran.err).toContain(sentence);
    expect([ran.code, ran.out, existsSync(file)]).toEqual([2, "", false]);
    expect(ran.err).not.toMatch(/\n\s+at .*\d+:\d+/);
  });
});
