import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import sharp from "sharp";
import { beforeAll, describe, expect, it } from "vitest";
import { parse, parseDocument } from "yaml";
import { readPlan } from "../../src/plan/read.ts";
import { makeSchedule } from "../../src/schedule/makeSchedule.ts";
import { proofSheet } from "../../src/schedule/nightsSheet.ts";
import { testSky } from "../sky/testSky.ts";
import { lacunar, type Ran, scratch, writePlan } from "./lacunar.ts";

const folder = scratch();
const place = { name: "Valparaíso", latitude: -33.0458, longitude: -71.6197, timeZone: "America/Santiago" };
const night = writePlan(folder, "night.json", { moment: "1998-07-11T21:15", place });
const file = (name: string) => join(folder, name);

/** The words of a command as a POSIX shell hands them on. */
const shellWords = (command: string): string[] =>
  execFileSync("sh", ["-c", `printf '%s\\n' ${command}`], { encoding: "utf8" })
    .trimEnd()
    .split("\n");

/** What `set` does by its contract: each key gets its value, read as YAML. */
function planAfter(path: string, pairs: readonly string[]): string {
  const document = parseDocument(readFileSync(path, "utf8"));
  for (let i = 0; i < pairs.length; i += 2)
    document.setIn(pairs[i]!.split("."), document.createNode(parse(pairs[i + 1]!)));
  return document.toString();
}

const png = file("sheet.png");
let drawn: Ran;
beforeAll(() => {
  drawn = lacunar(["nights", night, "--sheet", png]);
}, 60_000);

async function expectSheet(path: string, format: string): Promise<void> {
  const bytes = readFileSync(path);
  expect(bytes.includes("Made by Lacunar")).toBe(true);
  const info = await sharp(bytes).metadata();
  expect(info.format).toBe(format);
  expect([info.width, info.height].sort()).toEqual([1680, 2376]); // ISO 216, eight pixels a millimetre
}

describe("lacunar nights --sheet", () => {
  it("draws an A4 sheet as .png: white paper with dark words and black pictures, readable in print", async () => {
    expect(drawn).toMatchObject({ code: 0, err: "" });
    await expectSheet(png, "png");
    const { data, info } = await sharp(png).greyscale().raw().toBuffer({ resolveWithObject: true });
    expect(data[0]).toBe(255);
    const share = (test: (value: number) => boolean) => data.filter(test).length / (info.width * info.height);
    expect(share((value) => value > 250)).toBeGreaterThan(0.3);
    expect(share((value) => value < 10)).toBeGreaterThan(0.3);
  });

  it.each([
    ["webp", "webp"],
    ["avif", "heif"],
  ])("draws it as .%s", async (extension, format) => {
    const path = file(`sheet.${extension}`);
    expect(lacunar(["nights", night, "--sheet", path])).toMatchObject({ code: 0, err: "" });
    await expectSheet(path, format);
  });

  it("gives the same bytes twice, and replaces a sheet of ours without being forced", () => {
    const before = readFileSync(png);
    expect(lacunar(["nights", night, "--sheet", png])).toEqual(drawn);
    expect(readFileSync(png).equals(before)).toBe(true);
  });

  it.each(["times", "kinds"] as const)(
    "lists %s with commands that write just that choice into the plan",
    (over) => {
      // A path that a shell would take apart.
      mkdirSync(file("Ida's room"), { recursive: true });
      const path = writePlan(file("Ida's room"), `${over} plan.json`, { moment: "1998-07-11T21:15", place });
      const { out } = lacunar([
        ...["nights", path, "--sheet", file(`${over}.png`), "--json"],
        ...(over === "kinds" ? ["--kinds"] : []),
      ]);
      const { choices } = JSON.parse(out);
      const sheet = proofSheet(readPlan(readFileSync(path, "utf8"), path), testSky(), over);
      expect(choices).toHaveLength(12);
      for (const [i, { number, own, command, limitingMag }] of choices.entries()) {
        expect(number).toBe(i + 1);
        expect(command === null).toBe(own);
        if (command === null) continue;
        const [lacunarWord, set, planPath, ...pairs] = shellWords(command);
        expect([lacunarWord, set, planPath]).toEqual(["lacunar", "set", path]);
        const written = readPlan(planAfter(path, pairs), path);
        expect(written).toEqual(sheet.choices[i]!.plan);
        const { made } = sheet.choices[i]!;
        const schedule = makeSchedule(written, testSky());
        expect("schedule" in made && made.schedule.holes).toEqual(schedule.holes);
        expect(limitingMag).toBe(schedule.fidelity.limitingMag);
      }
    },
  );

  it("tells the choices in words, each with its command under it", () => {
    const { out } = drawn;
    const lines = out.split("\n");
    expect(lines[0]).toBe(`Lacunar proof sheet: ${png}`);
    const first = lines.findIndex((line) => line.startsWith("1. "));
    expect(lines.length - first - 1).toBe(24);
    expect(lines[first]).toMatch(/^1\. {2}1998-07-11 \d\d:\d\d -04:00, .* holes to magnitude \d\.\d\d; /);
    expect(lines[first + 1]).toBe(
      `    lacunar set ${night} moment ${/\S+ \d\d:\d\d/.exec(lines[first]!.slice(4))![0].replace(" ", "T")}`,
    );
    expect(out).toContain("\n    the plan as it is\n");
  });

  it("writes the words to -o, and names no file for a plan from standard input", () => {
    const input = readFileSync(night, "utf8");
    const args = ["nights", "-", "--sheet", file("stdin.png"), "-o", file("choices.txt")];
    expect(lacunar(args, { input })).toMatchObject({ code: 0, out: "" });
    expect(readFileSync(file("choices.txt"), "utf8")).toContain("lacunar set PLAN moment ");
  });

  it("replaces nothing else unless forced", () => {
    const path = file("mine.png");
    writeFileSync(path, "holiday");
    expect(lacunar(["nights", night, "--sheet", path])).toMatchObject({ code: 2, out: "" });
    expect(readFileSync(path, "utf8")).toBe("holiday");
    expect(lacunar(["nights", night, "--sheet", path, "--force"]).code).toBe(0);
    expect(readFileSync(path).includes("Made by Lacunar")).toBe(true);
  });

  it("says in a box why a variant cannot be, and ends well", () => {
    const deneb = writePlan(folder, "deneb.json", {
      moment: "1998-07-11T21:15",
      place,
      view: { kind: "eye", eye: { below: 30_000 }, aim: { star: "Deneb" } },
    });
    const { code, out } = lacunar(["nights", deneb, "--sheet", file("deneb.png")]);
    expect(code).toBe(0);
    expect(out).toMatch(/cannot be: .*horizon/);
  });
});

describe("bad input: one clear sentence, exit code 2, nothing written", () => {
  const never = file("never.png");
  const cases: [what: string, args: string[], sentence: string][] = [
    ["--kinds alone", [night, "--kinds"], "--sheet sheet.png --kinds"],
    ["an unknown extension", [night, "--sheet", file("never.svg")], "end the name in .png, .webp or .avif"],
    ["no extension", [night, "--sheet", file("never")], "end the name in .png"],
    ["--around too", [night, "--sheet", never, "--around", "3"], "goes without --around"],
    [
      "--wall and --date too",
      [night, "--sheet", never, "--wall", "top", "--date", "2024-06-20"],
      "--wall and --date",
    ],
    ["one file for both", [night, "--sheet", never, "-o", never], "same file"],
    ["no plan", [file("none.yaml"), "--sheet", never], "no such file"],
    [
      "a star nobody knows",
      [writePlan(folder, "vgea.json", { view: { kind: "chart", aim: { star: "Vgea" } } }), "--sheet", never],
      "did you mean Vega",
    ],
    ["a folder that is not there", [night, "--sheet", join(folder, "no", "never.png")], "no such folder"],
  ];
  it.each(cases)("%s", (_, args, sentence) => {
    const ran = lacunar(["nights", ...args]);
    expect(ran.err).toContain(sentence);
    expect([ran.code, ran.out, existsSync(never), existsSync(file("never.svg"))]).toEqual([
      2,
      "",
      false,
      false,
    ]);
  });
});
