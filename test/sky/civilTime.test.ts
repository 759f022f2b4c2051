import { describe, expect, it } from "vitest";
import { resolveMoment } from "../../src/sky/civilTime.ts";
import { deltaTSecondsBefore1986, ttMinusUtcSeconds } from "../../src/sky/timeScales.ts";
import {
  civilTimes,
  deltaT,
  earthRotationTime,
  erfaLeapSeconds,
  folds,
  gaps,
} from "../reference/published.ts";

describe("civil time", () => {
  // Oracle: IANA time zone database 2025b and 2025c.
  it.each(civilTimes.rows)("$local in $zone is $utc ($note)", ({ zone, local, utc }) => {
    expect(resolveMoment(local, zone).instantUtcMs).toBe(Date.parse(utc));
  });

  it.each(gaps.rows)("$local in $zone never was, and both readings are named", ({ zone, local, utc }) => {
    const message = messageOf(() => resolveMoment(local, zone));
    expect(message).toContain("does not exist");
    for (const instant of utc) {
      expect(message).toContain(`(${instant})`);
    }
  });

  it.each(folds.rows)(
    "$local in $zone happened twice, and both readings are named",
    ({ zone, local, utc }) => {
      const message = messageOf(() => resolveMoment(local, zone));
      expect(message).toContain("happened twice");
      for (const instant of utc) expect(message).toContain(`(${instant})`);
    },
  );

  it("says which reading is which: New York's clocks went from -05:00 to -04:00", () => {
    const gap = messageOf(() => resolveMoment("2024-03-10T02:30", "America/New_York"));
    expect(gap).toMatch(
      /02:30:00-05:00 \(2024-03-10T07:30:00Z\) to read it with the offset before the change, or .*02:30:00-04:00 \(2024-03-10T06:30:00Z\) for the one after/,
    );
    const fold = messageOf(() => resolveMoment("2024-11-03T01:30", "America/New_York"));
    expect(fold).toMatch(
      /01:30:00-04:00 \(2024-11-03T05:30:00Z\) for the first time, or .*01:30:00-05:00 \(2024-11-03T06:30:00Z\) for the second/,
    );
  });

  it("takes the readings that its own message offers", () => {
    for (const { zone, local, utc } of [...gaps.rows, ...folds.rows]) {
      const message = messageOf(() => resolveMoment(local, zone));
      const offered = [...message.matchAll(/(\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d[+-][\d:]+)/g)].map(
        (match) => match[1]!,
      );
      expect(offered).toHaveLength(2);
      expect(offered.map((text) => resolveMoment(text, zone).instantUtcMs).sort()).toEqual(
        utc.map((each) => Date.parse(each)).sort(),
      );
    }
  });

  it("takes an offset, with seconds too, and Z", () => {
    expect(resolveMoment("1998-07-11T21:15-04:00", undefined).instantUtc).toBe("1998-07-12T01:15:00Z");
    expect(resolveMoment("1900-01-01T12:00+00:09:21", undefined).instantUtc).toBe("1900-01-01T11:50:39Z");
    expect(resolveMoment("1998-07-12T01:15Z", "America/Santiago").civil).toBe("1998-07-11T21:15:00-04:00");
  });

  it("says when a written offset is not the zone's", () => {
    expect(resolveMoment("1998-07-11T21:15-03:00", "America/Santiago").notices.join()).toContain(
      "stood at 1998-07-11T20:15:00",
    );
    expect(resolveMoment("1998-07-11T21:15-04:00", "America/Santiago").notices).toEqual([]);
  });

  it.each([
    ["1998-07-11", "is not a date and time"],
    ["21:15", "is not a date and time"],
    ["1998-02-31T12:00", "no such date: February 1998 has 28 days"],
    ["2000-02-30T12:00", "no such date: February 2000 has 29 days"],
    ["1998-11-31T12:00", "no such date: November 1998 has 30 days"],
    ["1998-07-00T12:00", "no such date: July 1998 has 31 days"],
    ["1998-13-01T12:00", "no such date: months run from 01 to 12"],
    ["1900-02-29T12:00", "the Julian one had it: write 1900-03-13"],
    ["1998-07-11T25:00", "no such time of day: hours run from 00 to 23"],
    ["1998-07-11T24:00", "no such time of day"],
    ["1998-07-11T21:60", "no such time of day"],
    ["1849-12-31T12:00", "from 1850 to 2150"],
    ["2151-01-01T12:00", "from 1850 to 2150"],
    ["1998-07-11T21:15+25:00", "is not an offset"],
    ["1998-07-11T21:15+04:75", "is not an offset"],
    ["1998-07-11T21:15:30.9", "is not a date and time"],
    ["next tuesday", "is not a date and time"],
  ])("refuses %s", (text, reason) => {
    expect(messageOf(() => resolveMoment(text, "America/Santiago"))).toContain(reason);
  });

  it("suggests the nearest zone for an unknown one", () => {
    expect(messageOf(() => resolveMoment("1998-07-11T21:15", "America/Santjago"))).toContain(
      "America/Santiago",
    );
    expect(messageOf(() => resolveMoment("1998-07-11T21:15", "Valparaiso/Chile"))).toContain(
      "not a time zone",
    );
    expect(messageOf(() => resolveMoment("1998-07-11T21:15", "Lisbon"))).toContain("Europe/Lisbon");
    expect(messageOf(() => resolveMoment("1998-07-11T21:15", "+04:00"))).toContain("not a time zone");
  });

  it("asks for a zone when there is none", () => {
    expect(messageOf(() => resolveMoment("1998-07-11T21:15", undefined))).toContain("needs a time zone");
  });

  it("speaks of doubt before 1970 and after the leap seconds that are known, not between", () => {
    expect(resolveMoment("1950-01-01T22:00", "Europe/Paris").notices.join()).toContain("15 degrees");
    expect(resolveMoment("1998-07-11T21:15", "America/Santiago").notices).toEqual([]);
    expect(resolveMoment("2027-01-11T21:15", "America/Santiago").notices).toEqual([]);
    expect(resolveMoment("2060-01-01T22:00", "Europe/Paris").notices.join()).toMatch(/up to about \d+ s/);
  });
});

describe("terrestrial time", () => {
  it("is ERFA's and the IANA list's number of leap seconds ahead", () => {
    for (const { date, taiMinusUtcS } of erfaLeapSeconds.rows) {
      expect(ttMinusUtcSeconds(Date.UTC(date[0], date[1] - 1, date[2]))).toBeCloseTo(
        taiMinusUtcS + 32.184,
        9,
      );
    }
    for (const [day, seconds] of Object.entries(earthRotationTime.taiMinusUtcS)) {
      expect(ttMinusUtcSeconds(Date.parse(`${day}T00:00:00Z`))).toBeCloseTo(seconds + 32.184, 9);
    }
    for (const [month, seconds] of Object.entries(earthRotationTime.ttMinusUtcS)) {
      expect(ttMinusUtcSeconds(Date.parse(`${month}-01T00:00:00Z`))).toBeCloseTo(seconds, 9);
    }
  });
  // Oracle: Espenak and Meeus' polynomials at years y.0.
  it.each([1800, 1850, 1900, 1920, 1940, 1950, 1960, 1970, 1980] as const)(
    "delta T of %d is the polynomial's",
    (year) => {
      expect(Math.abs(deltaTSecondsBefore1986(year) - deltaT.polynomialS[year])).toBeLessThan(
        deltaT.toleranceS,
      );
    },
  );
});

function messageOf(act: () => unknown): string {
  try {
    act();
  } catch (error) {
    return (error as Error).message;
  }
  throw new Error("nothing was thrown");
}
