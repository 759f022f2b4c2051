import { readFileSync } from "node:fs";
import { Constellation } from "astronomy-engine";
import { describe, expect, it } from "vitest";
import { nearestName } from "../../src/plan/nearestName.ts";
import { decodeCatalogue } from "../../src/sky/catalogue.ts";
import { CONSTELLATION_CODES, parseConstellations } from "../../src/sky/constellations.ts";
import { parseDesignations } from "../../src/sky/designations.ts";

const data = new URL("../../data/", import.meta.url);
const text = readFileSync(new URL("designations.tsv", data), "utf8");
const designations = parseDesignations(text);
const constellationsText = readFileSync(new URL("constellations.tsv", data), "utf8");
const constellations = parseConstellations(constellationsText);
const hips = (wanted: string) => designations.find(wanted).map(({ hip }) => hip);

describe("the name shown for a star", () => {
  // Oracle: Hipparcos numbers of the Bright Star Catalogue's brightest; the others from memory.
  it.each([
    [91262, "Vega"], // proper name before α Lyr and 3 Lyr
    [71683, "Rigil Kentaurus"],
    [110991, "δ Cep"], // Bayer
    [2021, "β Hyi"],
    [20535, "υ3 Eri"],
    [95947, "Albireo"],
    [7513, "Titawin"],
    [8102, "τ Cet"],
    [30122, "Furud"],
    [80112, "Alniyat"],
    [37629, "σ Gem"],
    [96441, "θ Cyg"],
    [64394, "β Com"],
    [64924, "61 Vir"], // Flamsteed
    [51459, "36 UMa"],
    [1067, "Algenib"],
  ])("HIP %i is %s", (hip, name) => {
    expect(designations.displayName(hip)).toBe(name);
  });

  it("is the variable's where there is nothing better, without the catalogue's leading zero", () => {
    expect(hips("R Sct")).toEqual([92202]);
    expect(designations.displayName(92202)).toBe("R Sct");
    expect(hips("V822 Cas")).toEqual([181]);
    expect(designations.displayName(181)).toBe("V822 Cas");
    expect(hips("V0822 cas")).toEqual([181]);
  });

  it("is empty for a star without one, and the proper name is proper only", () => {
    expect(designations.displayName(1)).toBe("");
    expect(designations.properName(110991)).toBe("");
    expect(designations.properName(91262)).toBe("Vega");
  });
});

describe("looking a star up", () => {
  it.each([
    ["Vega", [91262]],
    ["vEGA ", [91262]],
    ["belenos", [6643]], // Bélénos
    ["Barnard’s star", [87937]],
    ["α2 Cen", [71681]],
    ["alpha2 Cen", [71681]],
    ["alf02 Cen", [71681]],
    ["Alpha-2 Centauri", [71681]],
    ["α² Cen", [71681]],
    ["alpha Cen", [71683, 71681]], // both components, the brighter first
    ["Alpha Centauri", [71683, 71681]],
    ["α CMa", [32349]],
    ["alpha Canis Majoris", [32349]],
    ["61 Cyg", [104214, 104217]],
    ["61 Cygni", [104214, 104217]],
    ["HIP 71683", [71683]],
    ["hip71683", [71683]],
    ["HD 128620", [71683]],
    ["hd128620", [71683]],
    ["GJ 559A", [71683]],
    ["υ3 Eri", [20535]], // its letter is damaged in the source
    ["Castula", [107418]], // two have it in the source: the brighter keeps it
    ["nosuchstar", []],
    ["alpha Zzz", []],
    ["", []],
  ])("%s finds HIP %j", (wanted, expected) => {
    expect(hips(wanted)).toEqual(expected);
  });

  it("heeds case where it tells stars apart, and not otherwise", () => {
    const [upper, lower] = [designations.find("B Cen"), designations.find("b Cen")];
    expect(upper.map(({ matched }) => matched)).toEqual(["B Cen"]);
    expect(lower.map(({ matched }) => matched)).toEqual(["b Cen"]);
    expect(upper[0]!.hip).not.toBe(lower[0]!.hip);
    expect(designations.find("NU Ori").map(({ matched }) => matched)).toEqual(["NU Ori"]); // the variable
    expect(designations.find("nu Ori").map(({ matched }) => matched)).toEqual(["ν Ori"]); // the Bayer letter
    expect(designations.find("P CYG")[0]!.matched).toBe("P Cyg");
  });

  it("finds every star by the name it shows", () => {
    for (const line of text.trimEnd().split("\n").slice(1)) {
      const hip = Number(line.split("\t")[0]);
      const name = designations.displayName(hip);
      if (name !== "" && !hips(name).includes(hip)) expect.fail(`"${name}" does not find HIP ${hip}`);
    }
  });

  it("has no proper name twice", () => {
    const names = text
      .split("\n")
      .slice(1)
      .map((line) => line.split("\t")[1])
      .filter((name) => name);
    expect(new Set(names).size).toBe(names.length);
    expect(names.length).toBe(575);
  });

  it("lists stars brightest first, as the catalogue does", () => {
    const { hip } = decodeCatalogue(readFileSync(new URL("stars.bin", data)));
    const rowOf = new Map(Array.from(hip, (each, row) => [each, row]));
    const rows = text
      .trimEnd()
      .split("\n")
      .slice(1)
      .map((line) => rowOf.get(Number.parseInt(line, 10))!);
    expect(rows.every((row, i) => i === 0 || row > rows[i - 1]!)).toBe(true);
  });

  it("suggests the nearest name after a slip, and nothing after nonsense", () => {
    expect(designations.suggest("Betelguese")).toBe("Betelgeuse");
    expect(designations.suggest("Arcturs")).toBe("Arcturus");
    expect(designations.suggest("Qqqqqqqq")).toBeNull();
  });

  it("refuses a table that is cut or is something else", () => {
    expect(() => parseDesignations("hip,name\n")).toThrow(/damaged/);
    expect(() => parseDesignations(text.slice(0, -5))).toThrow(/damaged/);
    const broken = parseDesignations(`${text.split("\n", 1)[0]}\n32349\tSirius\tα\n`);
    expect(() => broken.displayName(32349)).toThrow(/damaged at "32349/);
  });
});

describe("the constellations", () => {
  it("are the 88 of the IAU, in an order that never changes", () => {
    expect(CONSTELLATION_CODES).toHaveLength(88);
    expect([CONSTELLATION_CODES[0], CONSTELLATION_CODES[19], CONSTELLATION_CODES[87]]).toEqual([
      "And",
      "CMa",
      "Vul",
    ]);
    const folded = CONSTELLATION_CODES.map((code) => code.toLowerCase());
    expect([...folded].sort()).toEqual(folded);
  });

  it("have the areas published for the boundaries of 1930", () => {
    // Oracle: the table of areas in square degrees, from memory. The cells that we count are 0.02 square degrees each.
    const published = {
      Hya: 1302.84,
      Vir: 1294.43,
      UMa: 1279.66,
      Cet: 1231.41,
      Her: 1225.15,
      Eri: 1137.92,
      And: 722.28,
      Cru: 68.45,
      Equ: 71.64,
      Sge: 79.93,
    };
    for (const [code, area] of Object.entries(published)) {
      expect(Math.abs(constellations.find(code)!.areaSquareDeg - area), code).toBeLessThan(0.5);
    }
    const sum = constellations.all.reduce((total, each) => total + each.areaSquareDeg, 0);
    expect(Math.abs(sum - 41_252.96)).toBeLessThan(88 * 0.05); // the sphere; areas are rounded to 0.1
  });

  it("have their middles inside themselves, but for Serpens, which lies in two parts", () => {
    for (const { code, raHours, decDeg } of constellations.all) {
      if (code !== "Ser") expect(Constellation(raHours, decDeg).symbol).toBe(code);
    }
  });

  it("are found by code, Latin name and genitive, case and accents ignored", () => {
    for (const wanted of ["Boo", "boo", "Boötes", "BOOTES", "bootis"])
      expect(constellations.find(wanted)?.code).toBe("Boo");
    expect(constellations.find("canis  major")?.code).toBe("CMa");
    expect(constellations.find("Crux")).toMatchObject({ code: "Cru", name: "Crux", genitive: "Crucis" });
    expect(constellations.find("Big Dipper")).toBeUndefined();
    expect(constellations.suggest("Casiopeia")).toBe("Cassiopeia");
    expect(constellations.suggest("Xqz")).toBeNull();
  });

  it("are refused from a table in another order", () => {
    const [header, ...lines] = constellationsText.trimEnd().split("\n");
    expect(() => parseConstellations([header, ...lines.reverse()].join("\n"))).toThrow(/88 IAU codes/);
    expect(() => parseConstellations(constellationsText.replace("\t0.6", "\tx"))).toThrow(/damaged/);
  });
});

describe("the nearest name", () => {
  it("counts letters missing, added, changed and swapped, and takes the first of equals", () => {
    expect(nearestName("spacign", ["edge", "spacing"])).toBe("spacing"); // swapped
    expect(nearestName("titel", ["title", "moment"])).toBe("title");
    expect(nearestName("colums", ["columns"])).toBe("columns");
    expect(nearestName("Édge", ["edge"])).toBe("edge");
    expect(nearestName("roew", ["row", "roe"])).toBe("row");
    expect(nearestName("kind", ["span", "turn"])).toBeNull();
    expect(nearestName("ab", ["ac"])).toBeNull();
    expect(nearestName("x", [])).toBeNull();
  });
});
