import { Temporal } from "temporal-polyfill";
import { describe, expect, it } from "vitest";
import { planSky } from "../../src/schedule/makeSchedule.ts";
import { planNights } from "../../src/schedule/nights.ts";
import { resolveMoment } from "../../src/sky/civilTime.ts";
import { gregorianOfJulian, julianOfGregorian } from "../../src/sky/julianCalendar.ts";
import { planWith } from "../plan/testPlan.ts";
import { testSky } from "./testSky.ts";

const notices = (text: string, zone?: string, country?: string) =>
  resolveMoment(text, zone, country).notices.filter((one) => one.includes("Gregorian"));

/** Day number of a Julian date. Source: Meeus, Astronomical Algorithms 2nd ed., ch. 7, without the Gregorian term B. */
function julianDayNumber(year: number, month: number, day: number): number {
  const [y, m] = month > 2 ? [year, month] : [year - 1, month + 12];
  return Math.floor(365.25 * (y + 4716)) + Math.floor(30.6001 * (m + 1)) + day - 1524;
}
/** Of a Gregorian date: JD 2440588 begins at noon of 1970 January 1 (Meeus, table 7.A: 2451545.0 is 2000 January 1.5). */
const gregorianDayNumber = (date: Temporal.PlainDate) =>
  2_440_588 + Date.parse(`${date.toString()}T00:00Z`) / 86_400_000;

describe("an old date in the other calendar", () => {
  it("is Meeus' count of days, for every day of the years that matter", () => {
    const end = Temporal.PlainDate.from("1927-01-01");
    let days = 0;
    for (
      let date = Temporal.PlainDate.from("1850-01-01");
      Temporal.PlainDate.compare(date, end) < 0;
      date = date.add({ days: 1 })
    ) {
      const [year, month, day] = julianOfGregorian(date).split("-").map(Number) as [number, number, number];
      if (julianDayNumber(year, month, day) !== gregorianDayNumber(date)) throw new Error(date.toString());
      const asGregorian = Temporal.PlainDate.from(gregorianOfJulian(date));
      if (gregorianDayNumber(asGregorian) !== julianDayNumber(date.year, date.month, date.day))
        throw new Error(`${date.toString()} old style`);
      days++;
    }
    expect(days).toBe(28_123); // 77 years, 18 of them leap: 1900 is none
  });

  it("reads as history has it", () => {
    // From memory, as in any history: the October Revolution, 1917 October 25 old style, is November 7; Bloody Sunday, 1905
    // January 9, is January 22; the last Julian day of Russia, 1918 January 31, was followed by February 14.
    expect(julianOfGregorian(Temporal.PlainDate.from("1917-11-07"))).toBe("1917-10-25");
    expect(gregorianOfJulian(Temporal.PlainDate.from("1905-01-09"))).toBe("1905-01-22");
    expect(julianOfGregorian(Temporal.PlainDate.from("1918-02-13"))).toBe("1918-01-31");
    expect(julianOfGregorian(Temporal.PlainDate.from("1900-03-13"))).toBe("1900-02-29");
  });
});

describe("a moment before 1927", () => {
  it("is told to be read as Gregorian, and that is all where nothing else was kept", () => {
    const plain = ["the date is read as one of the Gregorian calendar"];
    expect(notices("1910-06-01T21:00", "America/Santiago")).toEqual(plain);
    expect(notices("1926-12-31T21:00", "Europe/Athens")).toEqual(plain);
    expect(notices("1910-06-01T21:00Z")).toEqual(plain);
    expect(notices("1927-01-01T21:00", "Europe/Athens")).toEqual([]);
    expect(notices("1998-07-11T21:15", "Europe/Moscow")).toEqual([]);
  });

  it("in a country that kept the Julian calendar is told what it was there, and what to write if that is meant", () => {
    const [petrograd] = notices("1917-11-07T21:45", "Europe/Moscow");
    expect(petrograd).toContain(
      "Russia kept the Julian calendar until it changed to 1918-02-14, and there that day was 1917-10-25",
    );
    expect(petrograd).toContain(
      "if your record is in the Julian calendar (old style), write moment: 1917-11-20T21:45",
    );
    // What it offers is taken, with its time and offset.
    const [sofia] = notices("1905-01-09T20:00:30+02:00", "Europe/Sofia");
    expect(sofia).toContain("write moment: 1905-01-22T20:00:30+02:00");
    expect(resolveMoment("1905-01-22T20:00:30+02:00", "Europe/Sofia").instantUtc).toBe(
      "1905-01-22T18:00:30Z",
    );
  });

  // Last Julian days by `ncal -p` (Debian, ncal 12.1.8): BG 1916-03-31, RO 1919-03-31, RU 1918-01-31, LV 1918-02-01, AL 1912-11-30,
  // YU 1919-03-04. Greece from memory: 1923-02-15, and March 1 the day after; Turkey 1917-02-15; Alaska 1867-10-06.
  it.each([
    ["Europe/Sofia", "1916-03-31"],
    ["Europe/Bucharest", "1919-03-31"],
    ["Europe/Moscow", "1918-01-31"],
    ["Asia/Tashkent", "1918-01-31"],
    ["Europe/Riga", "1918-02-01"],
    ["Europe/Tirane", "1912-11-30"],
    ["Europe/Belgrade", "1919-03-04"],
    ["Europe/Athens", "1923-02-15"],
    ["Europe/Istanbul", "1917-02-15"],
    ["America/Sitka", "1867-10-05"],
  ])("in %s counted old style up to %s, and not on the day after", (zone, lastJulian) => {
    const [year, month, day] = lastJulian.split("-").map(Number) as [number, number, number];
    const last = Temporal.PlainDate.from("1850-01-01").add({
      days: julianDayNumber(year, month, day) - gregorianDayNumber(Temporal.PlainDate.from("1850-01-01")),
    });
    expect(notices(`${last.toString()}T12:00`, zone)[0]).toContain(`there that day was ${lastJulian}`);
    expect(notices(`${last.add({ days: 1 }).toString()}T12:00`, zone)[0]).not.toContain("Julian");
  });

  it("without a zone goes by the country; with one, by the zone", () => {
    expect(notices("1910-06-01T21:00+02:00", undefined, "ro")[0]).toContain("Romania kept the Julian");
    expect(notices("1910-06-01T21:00+02:00", undefined, "CL")[0]).not.toContain("Julian");
    // Königsberg was German, and Gregorian, then.
    expect(notices("1910-06-01T21:00", "Europe/Kaliningrad", "RU")[0]).not.toContain("Julian");
  });

  it("knows only zones that the platform knows", () => {
    for (const zone of [
      "Asia/Ust-Nera",
      "Europe/Kyiv",
      "Asia/Qostanay",
      "Europe/Podgorica",
      "America/Metlakatla",
    ])
      expect(notices("1860-06-01T21:00", zone)[0], zone).toContain("kept the Julian calendar");
  });

  it("says so wherever its plan is asked about", () => {
    const plan = planWith({
      moment: "1917-11-07T21:45+02:00",
      place: { latitude: 59.94, longitude: 30.31, country: "RU" },
    });
    for (const told of [planSky(plan, testSky()).moment.notices, planNights(plan, testSky()).notices])
      expect(told.join()).toContain("that day was 1917-10-25");
  });
});
