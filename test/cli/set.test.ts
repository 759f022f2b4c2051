import {
  chmodSync,
  lstatSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { STARTER_PLAN } from "../../src/plan/starter.ts";
import { lacunar, scratch } from "./lacunar.ts";

const folder = scratch();
let made = 0;
/** The starter plan as `lacunar init` writes it, in a file of its own. */
const starter = (): string => {
  const path = join(folder, `plan${made++}.yaml`);
  expect(lacunar(["init", path, "--quiet"]).code).toBe(0);
  return path;
};
const bytesOf = (path: string) => readFileSync(path, "utf8");

describe("lacunar set", () => {
  it("changes the key in the file, and says on stderr from what to what", () => {
    const plan = starter();
    const { code, out, err } = lacunar(["set", plan, "view.aim", "{star: Vega}"]);
    expect([code, out]).toEqual([0, ""]);
    expect(err).toBe(`${plan}: view.aim from zenith to {star: Vega}\n`);
    expect(bytesOf(plan)).toBe(STARTER_PLAN.replace("aim: zenith", "aim: {star: Vega}"));
    expect(lacunar(["set", plan, "view.roll", "5", "--quiet"])).toEqual({ code: 0, out: "", err: "" });
  });

  it("takes values that begin with a minus, and pairs together with --unset", () => {
    const plan = starter();
    const pairs = ["place.latitude", "-33.4", "holes.merge", "0.5mm"];
    expect(lacunar(["set", plan, ...pairs, "--unset", "view.roll", "--unset", "room"]).code).toBe(0);
    const text = bytesOf(plan);
    expect(text).toContain("latitude: -33.4       # north positive\n");
    expect(text).toContain("merge: 0.5mm               # stars closer");
    expect(text).not.toMatch(/^ {2}roll:|^room:/m);
    expect(lacunar(["check", plan]).code).toBe(0);
  });

  it("changes the kind of view in one go", () => {
    const plan = starter();
    expect(lacunar(["set", plan, "view", "{kind: chart, span: 140}"]).code).toBe(0);
    expect(lacunar(["check", plan]).code).toBe(0);
    expect(lacunar(["set", plan, "view.kind", "eye"])).toMatchObject({
      code: 2,
      err: expect.stringContaining("view.eye: missing; write {below: 1350mm}"),
    });
    expect(lacunar(["set", plan, "view.kind", "eye", "view.eye.below", "1350mm"]).code).toBe(0);
  });

  it("- reads standard input and writes the plan to standard output", () => {
    const { code, out, err } = lacunar(["set", "-", "title", "Attic"], { input: STARTER_PLAN });
    expect(code).toBe(0);
    expect(out).toBe(STARTER_PLAN.replace("title: Bookshop, upstairs room", "title: Attic"));
    expect(err).toContain("title from Bookshop, upstairs room to Attic");
  });

  it("keeps the file's permissions, a link a link, and a byte order mark; leaves nothing beside it", () => {
    const plan = starter();
    chmodSync(plan, 0o640);
    const link = join(folder, "link.yaml");
    symlinkSync(plan, link);
    expect(lacunar(["set", link, "title", "Attic"]).code).toBe(0);
    expect(lstatSync(link).isSymbolicLink()).toBe(true);
    expect(statSync(plan).mode & 0o777).toBe(0o640);
    expect(bytesOf(plan)).toContain("title: Attic\n");

    const marked = join(folder, "marked.yaml");
    writeFileSync(marked, `\uFEFF${STARTER_PLAN.replaceAll("\n", "\r\n")}`);
    expect(lacunar(["set", marked, "title", "Attic"]).code).toBe(0);
    expect(bytesOf(marked)).toBe(
      `\uFEFF${STARTER_PLAN.replace("title: Bookshop, upstairs room", "title: Attic").replaceAll("\n", "\r\n")}`,
    );
    expect(readdirSync(folder).filter((name) => name.includes(".part"))).toEqual([]);
  });

  it("does not touch a file that says so already", () => {
    const plan = starter();
    const before = statSync(plan, { bigint: true });
    expect(lacunar(["set", plan, "view.aim", "zenith"]).err).toContain("says so already");
    const after = statSync(plan, { bigint: true });
    expect([after.ino, after.mtimeNs]).toEqual([before.ino, before.mtimeNs]);
  });
});

it("takes feet and inches with real prime marks, in the bundled command too", () => {
  const plan = starter();
  expect(lacunar(["set", plan, "ceiling.width", "15′ 1″"]).code).toBe(0);
  expect(readFileSync(plan, "utf8")).toContain("15′ 1″");
});

describe("bad input: one clear sentence, exit code 2, the file as it was", () => {
  const cases: [what: string, words: string[], sentence: string][] = [
    ["no pair", [], "name a key and its value"],
    ["no value", ["view.roll"], "view.roll: has no value after it"],
    ["an option nobody knows", ["--quite", "view.roll", "1"], 'unknown option "--quite"'],
    ["a wrong key", ["view.tobBearing", "3"], "did you mean `view.topBearing`?"],
    [
      "a value out of range",
      ["place.latitude", "91"],
      "place.latitude: 91 is out of range; write degrees from -90",
    ],
    ["31 February", ["moment", "1998-02-31T21:15"], "there is no such date: February 1998 has 28 days"],
    [
      "a star nobody knows",
      ["view.aim", "{star: Vegaa}"],
      'view.aim.star: "Vegaa" is not a star known here; did you mean Vega?',
    ],
    ["a zone nobody knows", ["place.timeZone", "America/Santigo"], "did you mean America/Santiago"],
    ["an eye too near", ["view.eye.below", "10mm"], "the limit is 150"],
  ];
  it.each(cases)("%s", (_, words, sentence) => {
    const plan = starter();
    const ran = lacunar(["set", plan, ...words]);
    expect(ran.err).toContain(sentence);
    expect([ran.code, ran.out]).toEqual([2, ""]);
    expect(ran.err).not.toMatch(/\n\s+at .*\d+:\d+/);
    expect(bytesOf(plan)).toBe(STARTER_PLAN);
  });

  it("tells the sentence that check would tell of the changed plan", () => {
    const plan = starter();
    const told = lacunar(["set", plan, "holes.edge", "-1mm"]).err.split("\n")[0];
    writeFileSync(plan, STARTER_PLAN.replace("edge: 12mm", "edge: -1mm"));
    expect(lacunar(["check", plan]).err.split("\n")[0]).toBe(told);
  });

  it("what is no plan file: nothing there, a folder, links in a circle, a device", () => {
    const [one, other] = [join(folder, "one.yaml"), join(folder, "other.yaml")];
    symlinkSync(other, one);
    symlinkSync(one, other);
    for (const [path, sentence] of [
      [join(folder, "none.yaml"), "no such file"],
      [folder, "it is a folder"],
      [one, "runs in circles"],
      ["/dev/null", "no ordinary file"],
    ] as const)
      expect(lacunar(["set", path, "title", "x"])).toMatchObject({
        code: 2,
        out: "",
        err: expect.stringContaining(sentence),
      });
  });
});
