import { readFileSync } from "node:fs";
import { Temporal } from "temporal-polyfill";
import { describe, expect, it } from "vitest";
import { altitudeDeg, directionOf } from "../../src/sky/apparent.ts";
import { resolveMoment } from "../../src/sky/civilTime.ts";
import { type LocalClock, localClock } from "../../src/sky/localClock.ts";
import { moonLight, moonThroughNight } from "../../src/sky/nightsMoon.ts";
import { SUN_LEVELS, SUN_LEVELS_DEG, sunAltitudeAt, sunThroughNight } from "../../src/sky/nightsSun.ts";
import { type NightWindow, nightAround } from "../../src/sky/nightsWindow.ts";
import { sunWords } from "../../src/sky/nightsWords.ts";
import { observerAt } from "../../src/sky/observer.ts";
import type { GeoPlace } from "../../src/sky/place.ts";
import { crossings, sample } from "../../src/sky/riseSet.ts";
import { bodyAt, type PlanetName } from "../../src/sky/solarSystem.ts";
import { arcsecBetween } from "./testSky.ts";

interface NightCase {
  readonly place: string;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  readonly elevationM: number;
  readonly timeZone: string;
  readonly moment: string;
  readonly utc: string;
  readonly noonUtc: readonly [string, string];
  readonly moonLitFraction: number;
  readonly sun: readonly (readonly [name: string, utc: string])[];
  readonly moon: readonly (readonly [name: string, utc: string])[];
  readonly planets: readonly { name: PlanetName; altitudeDeg: number; azimuthDeg: number }[];
}

const { cases } = JSON.parse(
  readFileSync(new URL("../reference/night-events.json", import.meta.url), "utf8"),
) as { cases: NightCase[] };

const EVENTS = {
  sunset: ["sunset", "sunrise"],
  civil: ["civilDusk", "civilDawn"],
  nautical: ["nauticalDusk", "nauticalDawn"],
  astronomical: ["astronomicalDusk", "astronomicalDawn"],
} as const;

interface Night {
  readonly clock: LocalClock;
  readonly place: GeoPlace;
  readonly window: NightWindow;
}

function nightOf(
  moment: string,
  timeZone: string | undefined,
  latitudeDeg: number,
  longitudeDeg: number,
  elevationM = 0,
): Night {
  const resolved = resolveMoment(moment, timeZone);
  const clock = localClock(timeZone, resolved);
  return {
    clock,
    place: { latitudeDeg, longitudeDeg, elevationM },
    window: nightAround(resolved.instantUtcMs, clock, longitudeDeg),
  };
}

/** Bar: 30 s. Measured when written: 0.6 s for the Sun, 1.1 s for the Moon. */
const EVENT_SECONDS = 5;
/** Bar: 0.01 degrees. Measured when written: 0.0056 (Saturn). */
const PLANET_DEG = 0.01;

const seconds = (ms: number, utc: string) => Math.abs(ms - Date.parse(utc)) / 1000;

// Oracle: astropy 5.2 with ERFA's ephemeris (Sun, Moon), libnova's VSOP87 with ERFA (planets); see scripts/reference.
describe.each(cases)("the night at $place, $moment", (reference) => {
  const { moment, timeZone, latitudeDeg, longitudeDeg, elevationM } = reference;
  const { place, window } = nightOf(moment, timeZone, latitudeDeg, longitudeDeg, elevationM);

  it("runs from noon to noon of the clock", () => {
    expect([window.fromMs, window.toMs]).toEqual(reference.noonUtc.map((utc) => Date.parse(utc)));
  });

  it("has the Sun's events where astropy has them, and no others", () => {
    const night = sunThroughNight(window, place);
    for (const level of SUN_LEVELS) {
      for (const [side, name] of [
        ["dusk", EVENTS[level][0]],
        ["dawn", EVENTS[level][1]],
      ] as const) {
        const expected = reference.sun.find(([event]) => event === name);
        const ours = night[side][level];
        if (expected === undefined) expect(ours, name).toBeNull();
        else expect(seconds(ours!, expected[1]), name).toBeLessThan(EVENT_SECONDS);
      }
    }
  });

  it("has moonrise and moonset where astropy has them, and its lit part", () => {
    const night = moonThroughNight(window, place);
    for (const [name, ours] of [
      ["moonrise", night.risesMs],
      ["moonset", night.setsMs],
    ] as const) {
      const expected = reference.moon.filter(([event]) => event === name);
      expect(ours, name).toHaveLength(expected.length);
      for (const [i, [, utc]] of expected.entries())
        expect(seconds(ours[i]!, utc), name).toBeLessThan(EVENT_SECONDS);
    }
    expect(moonLight(Date.parse(reference.utc)).litFraction).toBeCloseTo(reference.moonLitFraction, 3);
  });

  it("has the planets within a hundredth of a degree", () => {
    const observer = observerAt(Date.parse(reference.utc), place);
    for (const planet of reference.planets) {
      const expected = directionOf(planet.altitudeDeg, planet.azimuthDeg);
      const offDeg = arcsecBetween(bodyAt(planet.name, observer).enu, expected) / 3600;
      expect(offDeg, planet.name).toBeLessThan(PLANET_DEG);
    }
  });
});

describe("published almanac values", () => {
  it("Venus rises and sets at Boston as Meeus computes it, 1988 March 20", () => {
    // Source: Meeus, Astronomical Algorithms 2nd ed., ex. 15.a: rising 0.51766, setting 0.12130 of the UT day, for
    // an altitude of -0.5667 degrees. His place is of the centre of the Earth: Venus' parallax is 1 s of time here.
    const place = { latitudeDeg: 42.3333, longitudeDeg: -71.0833, elevationM: 0 };
    const day = Date.parse("1988-03-20T00:00:00Z");
    const altitude = (ms: number) => altitudeDeg(...bodyAt("Venus", observerAt(ms, place)).enu);
    const passes = crossings(sample(altitude, day, day + 86_400_000), -0.5667);
    expect(passes.map(({ rising }) => rising)).toEqual([false, true]);
    const [setting, rising] = passes.map(({ instantUtcMs }) => (instantUtcMs - day) / 86_400_000);
    // His interpolation with one correction stops at some 5 s; ours is compared within 10 s.
    expect(Math.abs(setting! - 0.1213)).toBeLessThan(10 / 86_400);
    expect(Math.abs(rising! - 0.51766)).toBeLessThan(10 / 86_400);
  });

  it("the Moon is lit as Meeus has it, 1992 April 12, 0h TD", () => {
    // Source: Meeus, Astronomical Algorithms 2nd ed., ex. 48.a: k = 0.6786; from memory.
    expect(moonLight(Date.parse("1992-04-11T23:59:01Z")).litFraction).toBeCloseTo(0.6786, 3);
  });

  // Sunrise and sunset to the minute as the USNO and HM Nautical Almanac Office print them for these towns; from memory.
  it.each([
    ["New York", "2024-06-20T21:00", "America/New_York", 40.7128, -74.006, "20:31", "05:25"],
    ["New York", "2024-12-20T21:00", "America/New_York", 40.7128, -74.006, "16:32", "07:17"],
    ["London", "2024-06-20T22:00", "Europe/London", 51.5074, -0.1278, "21:21", "04:43"],
    ["London", "2024-12-21T20:00", "Europe/London", 51.5074, -0.1278, "15:53", "08:04"],
  ])("%s, night of %s", (_, moment, zone, latitude, longitude, sunset, sunrise) => {
    const { clock, place, window } = nightOf(moment, zone, latitude, longitude);
    const { dusk, dawn } = sunThroughNight(window, place);
    for (const [ours, printed] of [
      [dusk.sunset, sunset],
      [dawn.sunset, sunrise],
    ] as const) {
      const wall = clock.wall(ours!);
      const off = wall.hour * 60 + wall.minute + wall.second / 60 - minutesOf(printed);
      expect(Math.abs(off), printed).toBeLessThan(1); // rounded minutes; their town is not quite ours
    }
  });
});

const minutesOf = (text: string) => Number(text.slice(0, 2)) * 60 + Number(text.slice(3));

describe("nights that are not as others", () => {
  const told = (moment: string, zone: string, latitude: number, longitude: number) => {
    const { clock, place, window } = nightOf(moment, zone, latitude, longitude);
    const night = sunThroughNight(window, place);
    return { night, words: sunWords(night, clock).join(" ") };
  };

  it("a summer night beyond the polar circle has no night, and says so", () => {
    const { night, words } = told("2015-06-21T23:00", "Europe/Oslo", 69.6492, 18.9553);
    expect(night.dusk).toEqual({ sunset: null, civil: null, nautical: null, astronomical: null });
    expect(words).toContain("There is no night: the Sun does not set");
    // By hand: at the lower transit the Sun stands latitude + 23.44 - 90 = 3.09 high; parallax takes 0.002.
    expect(night.lowest.value).toBeCloseTo(69.6492 + 23.436 - 90, 1);
  });

  it("a winter night there has twilight at noon and no Sun, and says so", () => {
    const { night, words } = told("2015-12-21T18:00", "Europe/Oslo", 69.6492, 18.9553);
    expect(night.dusk.sunset).toBeNull();
    expect(night.dusk.civil).not.toBeNull();
    expect(words).toContain("polar night");
    expect(night.highest.value).toBeCloseTo(90 - 69.6492 - 23.436, 1);
  });

  it("midsummer at 60 north stays in civil twilight, at 55 north nautical, at 50 north astronomical", () => {
    // By hand: the Sun stands latitude + 23.44 - 90 at midnight: -6.6, -11.6 and -16.6; Sun's declination near its greatest.
    expect(told("2024-06-20T23:00", "Europe/London", 61, 0).words).toContain("it stays civil twilight");
    expect(told("2024-06-20T23:00", "Europe/London", 58, 0).words).toContain("it stays nautical twilight");
    expect(told("2024-06-20T23:00", "Europe/London", 50, 0).words).toContain(
      "it stays astronomical twilight",
    );
    expect(told("2024-06-20T23:00", "Europe/London", 45, 0).words).toBe("");
  });

  it("the last sunset before the winter of the far north has no sunrise after it", () => {
    // Source: US National Weather Service, from memory: Utqiagvik's Sun sets on 18 November for about 65 days.
    const { night, words } = told("2023-11-18T20:00", "America/Anchorage", 71.2906, -156.7886);
    expect(night.dusk.sunset).not.toBeNull();
    expect(night.dawn.sunset).toBeNull();
    expect(words).toContain("sunset and no sunrise");
  });

  it("the pole's only sunset of the year, and half a year without one", () => {
    const sunsets: string[] = [];
    for (let day = 20; day <= 30; day++) {
      const { night } = told(`2024-09-${day}T18:00`, "UTC", 90, 0);
      if (night.dusk.sunset !== null) sunsets.push(new Date(night.dusk.sunset).toISOString().slice(0, 10));
      expect(night.dawn.sunset).toBeNull();
    }
    // By hand: declination -50 arcmin comes 2.1 days after the equinox of 2024-09-22 12:44 UT (0.39 degrees a day).
    expect(sunsets).toEqual(["2024-09-24"]);
  });

  it("finds a Sun that shows itself for a few minutes", () => {
    // A parabola that is above the level for 60 s between two samples.
    const of = (ms: number) => 30_000 ** 2 - (ms - 4_321_000) ** 2;
    const passes = crossings(sample(of, 0, 12_000_000), 0);
    expect(passes.map(({ rising }) => rising)).toEqual([true, false]);
    expect(Math.abs(passes[0]!.instantUtcMs - 4_291_000)).toBeLessThan(1000);
    expect(Math.abs(passes[1]!.instantUtcMs - 4_351_000)).toBeLessThan(1000);
  });

  it("at every event, anywhere, the Sun stands at its level, in the order of the evening and the morning", () => {
    let state = 20240620; // seed
    const random = () => {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      return state / 2 ** 32;
    };
    for (let k = 0; k < 40; k++) {
      const place = { latitudeDeg: random() * 180 - 90, longitudeDeg: random() * 360 - 180, elevationM: 0 };
      const ms = Date.UTC(1850, 1, 1) + random() * (Date.UTC(2150, 1, 1) - Date.UTC(1850, 1, 1));
      const moment = resolveMoment(`${new Date(ms).toISOString().slice(0, 19)}Z`, undefined);
      const clock = localClock(undefined, moment);
      const night = sunThroughNight(nightAround(moment.instantUtcMs, clock, place.longitudeDeg), place);
      const order: number[] = [];
      for (const side of ["dusk", "dawn"] as const) {
        const levels = side === "dusk" ? SUN_LEVELS : [...SUN_LEVELS].reverse();
        for (const level of levels) {
          const at = night[side][level];
          if (at === null) continue;
          order.push(at);
          // Within 1 s: the Sun climbs 15 arcsec a second at the most.
          expect(Math.abs(sunAltitudeAt(place)(at) - SUN_LEVELS_DEG[level])).toBeLessThan(15 / 3600);
        }
      }
      expect([...order].sort((a, b) => a - b)).toEqual(order);
    }
  });
});

describe("which night a moment belongs to", () => {
  const utc = ({ window }: Night) =>
    [window.fromMs, window.toMs].map((ms) => new Date(ms).toISOString().slice(0, 16));

  it("before noon the night before, from noon on the coming one", () => {
    expect(utc(nightOf("1998-07-12T05:00", "America/Santiago", -33, -71))[0]).toBe("1998-07-11T16:00");
    expect(utc(nightOf("1998-07-12T11:59", "America/Santiago", -33, -71))[0]).toBe("1998-07-11T16:00");
    expect(utc(nightOf("1998-07-12T12:00", "America/Santiago", -33, -71))[0]).toBe("1998-07-12T16:00");
  });

  it("is an hour short when clocks go forward", () => {
    // IANA tz 2025b: New York, 2024-03-10 02:30 is in a gap.
    expect(utc(nightOf("2024-03-09T21:00", "America/New_York", 40.7, -74))).toEqual([
      "2024-03-09T17:00",
      "2024-03-10T16:00",
    ]);
  });

  it("spans the day that Apia skipped", () => {
    // IANA tz 2025b: from 2011-12-29 23:59:59 (-10) to 2011-12-31 00:00 (+14).
    expect(utc(nightOf("2011-12-31T08:00", "Pacific/Apia", -13.8, -171.8))).toEqual([
      "2011-12-29T22:00",
      "2011-12-30T22:00",
    ]);
  });

  it("goes by the Sun where the clock is another place's", () => {
    // By hand: at longitude 174.75 east, mean noon is 12 h - 11 h 39 min = 00:21 UT.
    const night = nightOf("2004-02-29T12:30Z", undefined, -36.85, 174.75);
    expect(night.window.noon).toBe("meanSolar");
    expect(utc(night)).toEqual(["2004-02-29T00:21", "2004-03-01T00:21"]);
  });
});

describe("the clock of a place", () => {
  const clockOf = (moment: string, zone?: string) => localClock(zone, resolveMoment(moment, zone));
  const wall = (text: string) => Temporal.PlainDateTime.from(text);

  it("writes a moment so that a plan reads it back, with an offset in a fold", () => {
    // IANA tz 2025b: New York, 2024-11-03 01:30 happened at 05:30 and at 06:30 UT.
    const clock = clockOf("2024-11-02T21:00", "America/New_York");
    expect(clock.instantsOf(wall("2024-11-03T01:30"))).toEqual([
      Date.parse("2024-11-03T05:30Z"),
      Date.parse("2024-11-03T06:30Z"),
    ]);
    for (const utcText of [
      "2024-11-03T05:30Z",
      "2024-11-03T06:30Z",
      "2024-11-03T07:30Z",
      "2024-07-01T00:00:07Z",
    ]) {
      const text = clock.momentText(Date.parse(utcText));
      expect(resolveMoment(text, "America/New_York").instantUtcMs).toBe(Date.parse(utcText));
    }
    expect(clock.momentText(Date.parse("2024-11-03T05:30Z"))).toBe("2024-11-03T01:30-04:00");
    expect(clock.momentText(Date.parse("2024-11-03T07:30Z"))).toBe("2024-11-03T02:30");
  });

  it("has no instant for a time that clocks skipped", () => {
    expect(clockOf("2024-03-09T21:00", "America/New_York").instantsOf(wall("2024-03-10T02:30"))).toEqual([]);
  });

  it("keeps the offset of a moment without zone, to the second", () => {
    const clock = clockOf("1900-01-01T12:00+00:09:21");
    expect(clock.civil(Date.parse("1900-01-01T11:50:39Z"))).toBe("1900-01-01T12:00:00+00:09:21");
    expect(clock.instantsOf(wall("1900-01-01T12:00"))).toEqual([Date.parse("1900-01-01T11:50:39Z")]);
    expect(clockOf("2004-02-29T23:30Z").momentText(Date.parse("2004-02-29T23:30Z"))).toBe(
      "2004-02-29T23:30+00:00",
    );
  });
});
