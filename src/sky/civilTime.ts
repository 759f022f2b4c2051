import { Temporal } from "temporal-polyfill";
import { keyError } from "../plan/errors.ts";
import { nearestName } from "../plan/nearestName.ts";
import type { Plan } from "../plan/plan.ts";
import { calendarNotice, noSuchDay } from "./julianCalendar.ts";
import { LEAP_SECONDS_KNOWN_TO_MS } from "./timeScales.ts";

export interface Moment {
  /** POSIX milliseconds. */
  readonly instantUtcMs: number;
  /** `1998-07-12T01:15:00Z` */
  readonly instantUtc: string;
  /** Civil time with its offset, `1998-07-11T21:15:00-04:00`. */
  readonly civil: string;
  /** Civil time less UTC, in hours; for a moment with an offset and no zone, that offset. */
  readonly offsetHours: number;
  /** What a careful person should know about this moment's clock. */
  readonly notices: readonly string[];
}

const SHAPE =
  /^(\d{4})-(\d{2})-(\d{2})[T ](\d{2}):(\d{2})(?::(\d{2}))?\s*(Z|[+-]\d{2}:?\d{2}(?::?\d{2})?)?$/i;

/**
 * Civil time at a place to an instant, by the zone rules of that year (IANA).
 * @param text      `1998-07-11T21:15`, with an offset or `Z` if the person knows it
 * @param timeZone  IANA name; may be missing when the text has an offset
 * @param country   ISO 3166 code: tells whose calendar an old date may be in where there is no zone
 * @throws InputError for text that is no time, a zone nobody knows, a year outside 1850-2150, and for a time that
 *   does not exist or happened twice: the message then gives both readings and how to write each
 */
export function resolveMoment(text: string, timeZone: string | undefined, country?: string): Moment {
  const fail = (message: string, cause?: unknown): never => {
    throw keyError("moment", message, cause);
  };
  const match = SHAPE.exec(text.trim());
  if (!match) {
    return fail(
      `${JSON.stringify(text)} is not a date and time; write it as 1998-07-11T21:15, with an offset such as -04:00 only if you know it`,
    );
  }
  const [, year, month, day, hour, minute, second = "00", offset] = match as unknown as (
    | string
    | undefined
  )[];
  const wallText = `${year}-${month}-${day}T${hour}:${minute}:${second}`;
  if (second === "60")
    return fail(`${JSON.stringify(text)}: clocks here do not know leap seconds; write :59`);
  let wall: Temporal.PlainDateTime;
  try {
    wall = Temporal.PlainDateTime.from(
      {
        year: Number(year),
        month: Number(month),
        day: Number(day),
        hour: Number(hour),
        minute: Number(minute),
        second: Number(second),
      },
      { overflow: "reject" },
    );
  } catch (cause) {
    return fail(`${JSON.stringify(text)}: ${whyNoSuchTime(Number(year), Number(month), Number(day))}`, cause);
  }
  if (wall.year < 1850 || wall.year > 2150) {
    return fail(
      `${JSON.stringify(text)}: the year must lie from 1850 to 2150, the years for which the places of stars and planets are good enough`,
    );
  }

  const zone = timeZone === undefined ? null : checkedZone(timeZone, wall);
  const notices: string[] = [];
  let zoned: Temporal.ZonedDateTime;
  if (offset !== undefined) {
    const instant = instantWithOffset(wall, offset);
    if (instant === null)
      return fail(`${JSON.stringify(offset)} is not an offset from UTC; write one from -18:00 to +18:00`);
    zoned = instant.toZonedDateTimeISO(zone ?? "UTC");
    if (zone !== null && !zoned.toPlainDateTime().equals(wall)) {
      notices.push(
        `the moment is written with offset ${offset}, but clocks in ${zone} stood at ${zoned.toPlainDateTime().toString()} (offset ${zoned.offset}) then; the offset as written is used`,
      );
    }
  } else {
    if (zone === null) {
      return fail(
        `${JSON.stringify(text)} needs a time zone: write place.timeZone (an IANA name such as America/Santiago) or add an offset such as -04:00`,
      );
    }
    const earlier = wall.toZonedDateTime(zone, { disambiguation: "earlier" });
    const later = wall.toZonedDateTime(zone, { disambiguation: "later" });
    if (!earlier.equals(later)) {
      const gap = !earlier.toPlainDateTime().equals(wall);
      // Around a gap as around a fold, the earlier instant has the offset before the change, the later the one after.
      const before = earlier.offset;
      const after = later.offset;
      const reading = (off: string) => `${wallText}${off} (${instantWithOffset(wall, off)!.toString()})`;
      return fail(
        gap
          ? `${wallText} does not exist in ${zone}: clocks skipped it. Write ${reading(before)} to read it with the offset before the change, or ${reading(after)} for the one after`
          : `${wallText} happened twice in ${zone}. Write ${reading(before)} for the first time, or ${reading(after)} for the second`,
      );
    }
    zoned = earlier;
  }

  const instantUtcMs = zoned.epochMilliseconds;
  const shownAsWritten = offset !== undefined && zone === null;
  const oldDate = calendarNotice(text, wall.toPlainDate(), zone ?? undefined, country);
  if (oldDate !== null) notices.push(oldDate);
  notices.push(...doubts(wall.year, instantUtcMs, offset !== undefined));
  return {
    instantUtcMs,
    instantUtc: zoned.toInstant().toString(),
    offsetHours: shownAsWritten
      ? (wall.toZonedDateTime("UTC").epochMilliseconds - instantUtcMs) / 3_600_000
      : zoned.offsetNanoseconds / 3.6e12,
    civil: shownAsWritten
      ? `${wallText}${offset.toUpperCase()}`
      : `${zoned.toPlainDateTime().toString({ smallestUnit: "second" })}${zoned.offset}`,
    notices,
  };
}

/** The moment of a plan. @throws InputError as `resolveMoment` does */
export const momentOf = ({ moment, place }: Pick<Plan, "moment" | "place">): Moment =>
  resolveMoment(moment, place.timeZone, place.country);

/** Of a date and time that the calendar refuses. */
function whyNoSuchTime(year: number, month: number, day: number): string {
  if (month < 1 || month > 12) return "there is no such date: months run from 01 to 12";
  const { daysInMonth } = Temporal.PlainYearMonth.from({ year, month });
  if (day < 1 || day > daysInMonth) return noSuchDay(year, month, daysInMonth, day);
  return "there is no such time of day: hours run from 00 to 23, minutes and seconds from 00 to 59";
}

/** Null when the offset is out of range. Temporal's own offsets end at minutes; history has seconds. */
function instantWithOffset(wall: Temporal.PlainDateTime, offset: string): Temporal.Instant | null {
  const asUtc = wall.toZonedDateTime("UTC").epochMilliseconds;
  if (/^z$/i.test(offset)) return Temporal.Instant.fromEpochMilliseconds(asUtc);
  const [, sign, hours, minutes, seconds = "0"] = /^([+-])(\d{2}):?(\d{2})(?::?(\d{2}))?$/.exec(offset)!;
  const total = Number(hours) * 3600 + Number(minutes) * 60 + Number(seconds);
  if (Number(minutes) > 59 || Number(seconds) > 59 || total > 18 * 3600) return null;
  return Temporal.Instant.fromEpochMilliseconds(asUtc - (sign === "-" ? -1 : 1) * total * 1000);
}

/** The zone's name as given, if the zone database knows it. */
function checkedZone(name: string, wall: Temporal.PlainDateTime): string {
  try {
    // Bare offsets pass as zones in Temporal; a place has a zone with rules.
    if (/^[A-Za-z][A-Za-z0-9_+\-/]*$/.test(name) && wall.toZonedDateTime(name)) return name;
  } catch (cause) {
    if (!(cause instanceof RangeError)) throw cause;
  }
  const near = nearestZones(name);
  throw keyError(
    "place.timeZone",
    `${JSON.stringify(name)} is not a time zone of the IANA database; ${near.length > 0 ? `did you mean ${near.join(" or ")}?` : "write a name such as America/Santiago"}`,
  );
}

/** Up to three zones that may be meant, by their whole name or by their town alone. */
function nearestZones(name: string): string[] {
  const town = (zone: string) => zone.slice(zone.lastIndexOf("/") + 1);
  const wanted = name.replaceAll(" ", "_");
  let names = [...Intl.supportedValuesOf("timeZone"), "UTC"];
  const near: string[] = [];
  while (near.length < 3) {
    const nearTown = nearestName(town(wanted), names.map(town));
    const next = nearestName(wanted, names) ?? names.find((zone) => town(zone) === nearTown);
    if (next === undefined) break;
    near.push(next);
    names = names.filter((zone) => zone !== next);
  }
  return near;
}

/** An hour of clock turns the sky 15.04 degrees; a second 15 arcsec. */
function doubts(year: number, instantUtcMs: number, offsetGiven: boolean): string[] {
  const notices: string[] = [];
  if (year < 1970 && !offsetGiven) {
    notices.push(
      "before 1970 the zone database is less sure of local clocks (its own notes say so): if it is an hour off, the sky turns 15 degrees; check against a record of the time, and write the offset if you know it",
    );
  }
  if (instantUtcMs < Date.UTC(1972, 0, 1)) {
    notices.push(
      "before 1972 clocks followed the Earth's turn itself: taking them as UT1 leaves about a second of doubt (15 arcsec, well under a hole's width)",
    );
  }
  if (instantUtcMs > LEAP_SECONDS_KNOWN_TO_MS) {
    const yearsPast = (instantUtcMs - LEAP_SECONDS_KNOWN_TO_MS) / (365.25 * 86_400_000);
    // Without leap seconds UT1 - UTC drifts: 37 steps came in 45 years, none since 2017. A second a year bounds it.
    const seconds = 1 + Math.round(yearsPast);
    notices.push(
      `after 2027-06-28 neither clock rules nor the Earth's turn are settled: a change of the zone's rules by an hour turns the sky 15 degrees, and the Earth may be up to about ${seconds} s off the clock (${((seconds * 15.041) / 3600).toFixed(2)} degrees)`,
    );
  }
  return notices;
}
