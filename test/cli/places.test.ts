import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { BASE_PLAN } from "../plan/testPlan.ts";
import { BIN, lacunar, scratch, writePlan } from "./lacunar.ts";

const folder = scratch();

describe("lacunar places", () => {
  it("prints a table with what to write in a plan", () => {
    const { code, out } = lacunar(["places", "oporto"]);
    expect(code).toBe(0);
    const row = out.split("\n").find((line) => line.startsWith("Porto, Portugal"))!;
    // GeoNames 2735943: 41.14961, -8.61099, 249,633 inhabitants.
    expect(row.split(/ {2,}/)).toEqual([
      "Porto, Portugal",
      "249,633",
      "41.150",
      "-8.611",
      "Europe/Lisbon",
      "{name: Porto, country: PT}",
    ]);
  });

  it("knows letters that are no letter with an accent, in the bundled command too", () => {
    // GeoNames' own spellings, and a curly apostrophe.
    for (const name of ["Tromsø", "Łódź", "Gießen", "Hafnarfjörður", "L’Aquila"]) {
      const { code, out } = lacunar(["places", name, "--json"]);
      expect(code, name).toBe(0);
      expect(JSON.parse(out).places[0].exact, name).toBe(true);
    }
  });

  it("takes words without quotes, a country, and a limit, and says what it left out", () => {
    const { out } = lacunar(["places", "New", "York", "--country", "US", "--json"]);
    expect(JSON.parse(out).places[0]).toMatchObject({ name: "New York City", timeZone: "America/New_York" });
    const limited = lacunar(["places", "San", "--limit", "3"]);
    expect(limited.err).toMatch(/^3 of \d{3,} places/);
    expect(limited.out.trimEnd().split("\n")).toHaveLength(5);
    expect(lacunar(["places", "San", "--limit", "3", "--quiet"]).err).toBe("");
    expect(lacunar(["places", "San", "--limit", "many"]).code).toBe(2);
  });

  it("writes JSON with numbers as numbers, to a file if asked, and replaces only its own", () => {
    const file = join(folder, "porto.json");
    expect(lacunar(["places", "Porto", "--country", "PT", "--json", "-o", file])).toMatchObject({
      code: 0,
      out: "",
    });
    const [first] = JSON.parse(readFileSync(file, "utf8")).places;
    expect(first).toEqual({
      name: "Porto",
      region: "Porto",
      country: "PT",
      countryName: "Portugal",
      population: 249_633,
      latitudeDeg: 41.15,
      longitudeDeg: -8.611,
      timeZone: "Europe/Lisbon",
      exact: true,
      inWords: "Porto, Portugal",
      planText: "{name: Porto, country: PT}",
    });
    expect(lacunar(["places", "Lima", "-o", file])).toMatchObject({ code: 2 });
  });

  it("exits with 2 when nothing is found, suggesting what is near, and for a country that is none", () => {
    const near = lacunar(["places", "Valpariaso"]);
    expect(near).toMatchObject({ code: 2, out: "" });
    expect(near.err).toMatch(/did you mean:\n {4}\{name: Valparaíso, country: CL\}/);
    expect(lacunar(["places", "Porto", "--country", "Portugl"]).err).toContain("did you mean Portugal?");
    expect(lacunar(["places"]).code).toBe(2);
  });
});

describe("a plan that names its place", () => {
  it("gets coordinates and zone, and is written out so that it can be replayed", () => {
    const plan = writePlan(folder, "named.json", { place: { name: "valparaiso", country: "Chile" } });
    const { code, out } = lacunar(["holes", plan, "--json"]);
    expect(code).toBe(0);
    expect(JSON.parse(out).plan.place).toEqual({
      name: "Valparaíso",
      country: "CL",
      latitude: -33.036,
      longitude: -71.63,
      timeZone: "America/Santiago",
      elevation: 0,
    });
  });

  it("is refused with the line and the five largest when the name is ambiguous", () => {
    const plan = writePlan(folder, "many.json", { place: { name: "Springfield", country: "US" } });
    const { code, err } = lacunar(["check", plan]);
    expect(code).toBe(2);
    expect(err).toMatch(/many\.json:1:\d+: place: "Springfield" may mean any of 30 places in United States/);
    const texts = err.split("\n").filter((line) => line.startsWith("    {"));
    expect(texts).toHaveLength(5);
    const place = parse(texts[0]!.trim().replace(/ {2}\(.*/, ""));
    expect(lacunar(["check", writePlan(folder, "one.json", { place })]).code).toBe(0);
  });

  it("keeps the zone and elevation that a person writes", () => {
    const place = { name: "Porto", country: "PT", timeZone: "Europe/Madrid", elevation: 90 };
    const { out } = lacunar(["holes", writePlan(folder, "own.json", { place }), "--json"]);
    expect(JSON.parse(out).plan.place).toMatchObject({
      latitude: 41.15,
      timeZone: "Europe/Madrid",
      elevation: 90,
    });
  });

  it("needs nothing of the gazetteer when it gives coordinates", () => {
    // Every file that the command reads, told by its own reader.
    const plan = writePlan(folder, "coordinates.json");
    expect(BASE_PLAN.place).toHaveProperty("latitude");
    const spy = join(folder, "spy.cjs");
    writeFileSync(
      spy,
      "const fs = require('node:fs'); const read = fs.readFileSync;\n" +
        "fs.readFileSync = (path, ...rest) => { console.log(String(path)); return read(path, ...rest); };\n",
    );
    const opened = (path: string) =>
      execFileSync(
        process.execPath,
        ["--require", spy, BIN, "holes", path, "--quiet", "-o", join(folder, "x.csv"), "--force"],
        {
          encoding: "utf8",
        },
      );
    expect(opened(plan)).toContain("stars.bin");
    expect(opened(plan)).not.toContain("places.bin");
    expect(opened(writePlan(folder, "porto.json", { place: { name: "Oporto" } }))).toContain("places.bin");
  });
});
