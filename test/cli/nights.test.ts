import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { lacunar, scratch, writePlan } from "./lacunar.ts";

const folder = scratch();
const place = { name: "Valparaíso", latitude: -33.0458, longitude: -71.6197, timeZone: "America/Santiago" };
const walls = { top: "window wall", right: "stair wall", bottom: "door wall", left: "shelf wall" };
const night = writePlan(folder, "night.json", { moment: "1998-07-11T21:15", place, walls });
const noon = writePlan(folder, "noon.json", { moment: "1998-07-11T12:30", place });
const polar = writePlan(folder, "polar.json", {
  moment: "2015-06-21T23:00",
  place: { latitude: 69.6492, longitude: 18.9553, timeZone: "Europe/Oslo" },
});

describe("lacunar nights", () => {
  it("tells the night in words, with offsets, on stdout alone", () => {
    const { code, out, err } = lacunar(["nights", night]);
    expect([code, err]).toEqual([0, ""]);
    for (const label of [
      "Sunset",
      "Nautical dusk",
      "Astronomical dawn",
      "Moonrise",
      "Planets",
      "Zenith",
      "Milky Way",
    ])
      expect(out).toMatch(new RegExp(`^${label} `, "m"));
    expect(out).toMatch(/^Sunset +1998-07-11 \d\d:\d\d -04:00$/m);
    expect(out).not.toContain("moment: "); // it is dark: nothing better is asked for
  });

  it("tells it as data, instants in UTC", () => {
    const nights = JSON.parse(lacunar(["nights", night, "--json"]).out);
    expect(nights.moment).toMatchObject({ utc: "1998-07-12T01:15:00Z", darkness: "night" });
    expect(nights.sun.sunset).toEqual({
      utc: expect.stringMatching(/^1998-07-11T\d\d:\d\d:\d\dZ$/),
      civil: expect.stringMatching(/^1998-07-11T\d\d:\d\d:\d\d-04:00$/),
    });
    expect(nights).toMatchObject({ darkMoments: null, around: null, wall: null });
  });

  it("a moment in daylight gets the nearest dark ones, which a plan takes as they are", () => {
    const { out } = lacunar(["nights", noon]);
    const pasted = [...out.matchAll(/moment: (\S+)/g)].map(([, text]) => text!);
    expect(pasted).toHaveLength(2);
    for (const [i, moment] of pasted.entries()) {
      const better = writePlan(folder, `better${i}.json`, { moment, place });
      expect(JSON.parse(lacunar(["nights", better, "--json"]).out).darkMoments).toBeNull();
      expect(lacunar(["check", better]).err).not.toContain("dark is below -12");
    }
  });

  it("says in words that a night has no darkness", () => {
    const { out } = lacunar(["nights", polar]);
    expect(out).toContain("There is no night: the Sun does not set (polar day)");
    expect(out).toMatch(/^Sunset +none: the Sun stays higher$/m);
  });

  it("--around ranks, and says where the plan's own night stands", () => {
    const { code, out } = lacunar(["nights", night, "--around", "30"]);
    expect(code).toBe(0);
    expect(out).toMatch(/^1\. +moment: 1998-\d\d-\d\dT21:15 +\d+ +fully dark/m);
    expect(out).toMatch(/is number \d+ of 61/);
    expect(JSON.parse(lacunar(["nights", night, "--around", "30", "--json"]).out).around.nights).toHaveLength(
      61,
    );
  });

  it("--wall tells the minutes of a shadow, which way it points and how to read it", () => {
    const { out } = lacunar(["nights", night, "--wall", "top", "--date", "2024-12-20"]);
    expect(out).toMatch(
      /^\d\d:\d\d:\d\d-03:00 +points from the (left|right) wall \((shelf|stair) wall\) toward/m,
    );
    expect(out).toContain("clockwise of the wall, view.topBearing is that much too large");
  });

  it("-o writes a file and replaces none unasked, and --quiet is quiet", () => {
    const file = join(folder, "night.txt");
    expect(lacunar(["nights", night, "-o", file])).toMatchObject({ code: 0, out: "" });
    expect(lacunar(["nights", noon, "-o", file]).code).toBe(2);
    expect(lacunar(["nights", noon, "-o", file, "--force"])).toMatchObject({ code: 0, out: "" });
    expect(readFileSync(file, "utf8")).toMatch(/^Lacunar nights\n/);
    const old = writePlan(folder, "old.json", { moment: "1930-07-11T21:15", place });
    expect(lacunar(["nights", old]).err).toContain("warning:");
    expect(lacunar(["nights", old, "--quiet"]).err).toBe("");
  });

  it("tells the same twice", () => {
    const args = ["nights", night, "--around", "5", "--json"];
    expect(lacunar(args).out).toBe(lacunar(args).out);
  });
});

describe("bad input: one clear sentence, exit code 2, nothing written", () => {
  const cases: [what: string, args: string[], sentence: string][] = [
    ["no days", [night, "--around", "0"], "from 1 to 400"],
    ["too many days", [night, "--around", "401"], "from 1 to 400"],
    ["half a day", [night, "--around", "2.5"], "whole number"],
    ["an unknown wall", [night, "--wall", "north"], "top, right, bottom or left"],
    ["a date without a wall", [night, "--date", "2024-06-20"], "--wall top"],
    ["a date that is none", [night, "--wall", "top", "--date", "2023-02-29"], "not in the calendar"],
    ["no plan", [join(folder, "none.yaml")], "no such file"],
    [
      "a date that is none in the plan",
      [writePlan(folder, "february.json", { moment: "2023-02-31T21:00", place })],
      "no such date",
    ],
    [
      "a moment before 1850",
      [writePlan(folder, "early.json", { moment: "1849-02-01T21:00", place })],
      "from 1850 to 2150",
    ],
    [
      "a place not on Earth",
      [writePlan(folder, "off.json", { place: { latitude: 91, longitude: 0 } })],
      "place.latitude",
    ],
  ];
  it.each(cases)("%s", (_, args, sentence) => {
    const file = join(folder, "never.txt");
    const ran = lacunar(["nights", ...args, "-o", file]);
    expect(ran.err).toContain(sentence);
    expect([ran.code, ran.out, existsSync(file)]).toEqual([2, "", false]);
    expect(ran.err).not.toMatch(/\n\s+at .*\d+:\d+/);
  });
});
