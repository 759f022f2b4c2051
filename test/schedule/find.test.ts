import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { foundReport } from "../../src/outputs/foundReport.ts";
import { InputError } from "../../src/plan/errors.ts";
import { yamlLine } from "../../src/plan/valueText.ts";
import { findInSky } from "../../src/schedule/find.ts";
import { planSky } from "../../src/schedule/makeSchedule.ts";
import { listStars } from "../../src/schedule/stars.ts";
import { directionOf } from "../../src/sky/apparent.ts";
import { planWith } from "../plan/testPlan.ts";
import { sunMoonPlanets } from "../reference/erfaFiles.ts";
import { brightestStars } from "../reference/published/stars.ts";
import { arcsecBetween, testSky } from "../sky/testSky.ts";

const sky = testSky();
const names = (text: string) =>
  findInSky(text, sky).found.map(({ name, designation }) => name || designation);
const refusal = (text: string): string => {
  try {
    findInSky(text, sky);
  } catch (error) {
    expect(error).toBeInstanceOf(InputError);
    return (error as Error).message;
  }
  throw new Error("was found");
};

describe("a name finds what it names", () => {
  // Oracle: Bright Star Catalogue, 5th ed., printed to 0.1 s and 1 arcsec; 7 arcsec covers Rigil Kentaurus (its source says so).
  it.each(brightestStars.rows)(
    "$name, with its number, light and place",
    ({ name, hip, raDeg, decDeg, vMag }) => {
      const { found } = findInSky(name, sky);
      expect(found).toHaveLength(1);
      const [star] = found;
      expect(star).toMatchObject({ kind: "star", name, hip, aim: { star: name } });
      expect(Math.abs(star!.mag! - vMag)).toBeLessThan(0.15);
      expect(
        arcsecBetween(directionOf(star!.decDeg!, star!.raDeg!), directionOf(decDeg, raDeg)),
      ).toBeLessThan(7);
      expect(findInSky(`HIP ${hip}`, sky).found).toEqual(found);
      expect(findInSky(String(hip), sky).found).toEqual(found);
    },
  );

  it("prints Vega as the catalogues do", () => {
    // Bright Star Catalogue: 18h 36m 56.3s, +38 47 01.
    expect(foundReport(findInSky("VEGA", sky))).toBe(`Star          Vega (α Lyr), HIP 91262
In            Lyra (Lyr)
Magnitude     V 0.03
Place         right ascension 18h 36m 56.3s, declination +38° 47′ 01″ (J2000)
Aim           aim: {star: Vega}
`);
  });

  it("a letter that two stars share finds both, the brighter first", () => {
    expect(names("alf Centauri")).toEqual(["Rigil Kentaurus", "Toliman"]);
    const mags = findInSky("61 cyg", sky).found.map(({ mag }) => mag!);
    expect(mags).toHaveLength(2);
    expect(mags[0]).toBeLessThan(mags[1]!);
  });

  it.each(["Boo", "boötes", "BOOTES", "Boötis"])(
    "constellation %s: its centre and its brightest stars",
    (text) => {
      const { found } = findInSky(text, sky);
      expect(found).toHaveLength(1);
      // From memory: Arcturus is the brightest of Boötes, Izar the second; it covers 907 square degrees.
      expect(found[0]).toMatchObject({
        kind: "constellation",
        designation: "Boo",
        aim: { constellation: "Boo" },
      });
      expect(found[0]!.stars.slice(0, 2).map(({ name }) => name)).toEqual(["Arcturus", "Izar"]);
      expect(found[0]!.areaSquareDeg).toBeCloseTo(907, 0);
      const mags = found[0]!.stars.map(({ mag }) => mag);
      expect(mags).toEqual([...mags].sort((a, b) => a - b));
    },
  );

  it("a beginning finds all that have such a word, and says that nothing is called so", () => {
    const found = findInSky("kaus", sky);
    expect(found.beginsSo).toBe(true);
    expect(names("kaus")).toEqual(["Kaus Australis", "Kaus Media", "Kaus Borealis"]);
    expect(names("ursa")).toEqual(["Ursa Major", "Ursa Minor"]);
    expect(findInSky("Vega", sky).beginsSo).toBe(false);
  });

  it("what nobody is called suggests who is", () => {
    expect(refusal("Betelgeux")).toContain("did you mean Betelgeuse?");
    expect(refusal("Scorpeus")).toContain("Scorpius");
    expect(refusal("Satrun")).toContain("Saturn");
    expect(refusal("HIP 999999")).toContain("HIP 999999 is not in the catalogue");
    for (const text of ["", "x", "ψ Cru", "{star: x}", "12345678901234", "z".repeat(5000)])
      expect(refusal(text)).toContain("write a name such as Vega");
    expect(refusal("z".repeat(5000)).length).toBeLessThan(400);
  });

  it("the aim of every star with a name is YAML that leads back to that star", () => {
    for (const { hip } of sky.designations.named) {
      const { aim } = findInSky(`HIP ${hip}`, sky).found[0]!;
      const pasted = parse(yamlLine(aim!)) as { star: string | number };
      expect(pasted).toEqual(aim);
      const back = typeof pasted.star === "number" ? pasted.star : sky.designations.find(pasted.star)[0]!.hip;
      expect(back).toBe(hip);
    }
  });
});

describe("with a plan, where it stands", () => {
  it.each([false, true])(
    "as the list of all that is over the ceiling has it (refraction %s)",
    (refraction) => {
      // Second method: the field's own way through all stars at once.
      const plan = planWith({ show: { refraction, moon: true } });
      const { field } = planSky(plan, sky);
      const listed = listStars(field, sky).filter(({ hip, mag }) => hip === null || mag < 2);
      expect(listed.length).toBeGreaterThan(10);
      for (const star of listed) {
        const [found] = findInSky(star.hip === null ? star.name : `HIP ${star.hip}`, sky, plan).found;
        const { altDeg, azDeg, xMm, yMm } = star;
        expect(found!.atMoment).toEqual({ altDeg, azDeg, xMm, yMm, where: "over", overCeiling: true });
        expect(found).toMatchObject({ mag: star.mag, raDeg: star.raDeg, decDeg: star.decDeg });
      }
    },
  );

  it("a star that no list has lies below the horizon or off the ceiling", () => {
    const plan = planWith();
    const { field } = planSky(plan, sky);
    const over = new Set(listStars(field, sky, 3).map(({ hip }) => hip));
    const where = { belowHorizon: 0, offCeiling: 0 };
    for (const { hip, name } of sky.designations.named.slice(0, 150)) {
      const [found] = findInSky(name, sky, plan).found.filter((each) => each.hip === hip);
      if (found === undefined || found.mag! > 3) continue;
      const { where: lies, overCeiling, altDeg } = found.atMoment!;
      expect(overCeiling).toBe(over.has(hip));
      if (lies === "belowHorizon") {
        expect(altDeg).toBeLessThanOrEqual(0);
        where.belowHorizon++;
      } else if (lies === "offCeiling") where.offCeiling++;
    }
    expect(where.belowHorizon).toBeGreaterThan(10);
    expect(where.offCeiling).toBeGreaterThan(5);
  });

  // Oracle: ERFA 2.0.0 (moon98, plan94), each with that model's own stated error; the ephemeris here says 1 arcmin of itself.
  it.each(sunMoonPlanets())("planets and Moon where ERFA has them at $utc", (one) => {
    const place = { latitude: one.latitudeDeg, longitude: one.longitudeDeg, elevation: one.elevationM };
    const plan = planWith({ moment: one.utc, place, show: { belowHorizon: true } });
    for (const { body, azimuthDeg, altitudeDeg, toleranceArcsec } of one.bodies) {
      if (body === "Sun") continue;
      const { atMoment } = findInSky(body, sky, plan).found[0]!;
      const seen = directionOf(atMoment!.altDeg, atMoment!.azDeg);
      expect(arcsecBetween(seen, directionOf(altitudeDeg, azimuthDeg)), body).toBeLessThan(
        toleranceArcsec + 60,
      );
    }
  });

  it("a planet's aim brings it to the middle of the ceiling", () => {
    const moment = "1998-07-12T08:00Z"; // Jupiter and Saturn stand high then
    const here = { moment, place: { latitude: -33, longitude: -71 } };
    const { aim } = findInSky("Jupiter", sky, planWith(here)).found[0]!;
    const aimed = planWith({ ...here, view: { kind: "chart", span: 120, aim } });
    const { atMoment } = findInSky("Jupiter", sky, aimed).found[0]!;
    expect(atMoment!.overCeiling).toBe(true);
    // The paste has 0.00001 hours (0.5 arcsec): far below a millimetre on 2.4 m of 120 degrees.
    expect(atMoment!.xMm).toBeCloseTo(1200, 0);
    expect(atMoment!.yMm).toBeCloseTo(900, 0);
  });

  it("a planet that the plan does not show is over the ceiling, and no object of it", () => {
    const here = { moment: "1998-07-12T08:00Z", place: { latitude: -33, longitude: -71 } };
    const plan = planWith({
      ...here,
      show: { planets: false, belowHorizon: true },
      view: { kind: "chart", span: 290 },
    });
    const found = findInSky("Jupiter", sky, plan);
    expect(found.found[0]!.atMoment).toMatchObject({ where: "over", overCeiling: false });
    expect(foundReport(found)).toContain("but show.planets is false");
  });
});
