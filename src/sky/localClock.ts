import { Temporal } from "temporal-polyfill";
import type { Moment } from "./civilTime.ts";

/** The clock on the wall at a place: to instants and back. */
export interface LocalClock {
  /** For words: `America/Santiago`, or `offset -04:00` where the plan knows no zone. */
  readonly name: string;
  /** Civil time to the second with its offset: `1998-07-11T21:15:00-04:00`. */
  civil(instantUtcMs: number): string;
  /** Its date and time of day. */
  wall(instantUtcMs: number): Temporal.PlainDateTime;
  /** Instants at which the clock shows a date and time: none in a gap, two in a fold, else one. */
  instantsOf(wall: Temporal.PlainDateTime): readonly number[];
  /** First instant of a date. */
  startOfDay(date: Temporal.PlainDate): number;
  /** The start of the minute that the clock shows. */
  minuteBefore(instantUtcMs: number): number;
  /** What a plan's `moment:` says for an instant: with an offset only where it is needed. Whole seconds. */
  momentText(instantUtcMs: number): string;
}

/** @param timeZone IANA name, already checked by `resolveMoment`; without one the moment's own offset is kept throughout */
export function localClock(timeZone: string | undefined, moment: Moment): LocalClock {
  const offsetMs = timeZone === undefined ? offsetOf(moment.civil) : 0;
  const zone = timeZone ?? "UTC";
  const at = (ms: number) =>
    Temporal.Instant.fromEpochMilliseconds(Math.round(ms) + offsetMs).toZonedDateTimeISO(zone);
  const offsetText = (ms: number) => (timeZone === undefined ? writtenOffset(offsetMs) : at(ms).offset);
  const wall = (ms: number) => at(ms).toPlainDateTime();
  const instantsOf = (time: Temporal.PlainDateTime): number[] => {
    const earlier = time.toZonedDateTime(zone, { disambiguation: "earlier" });
    const later = time.toZonedDateTime(zone, { disambiguation: "later" });
    if (!earlier.toPlainDateTime().equals(time)) return [];
    const both = [earlier.epochMilliseconds - offsetMs, later.epochMilliseconds - offsetMs];
    return both[0] === both[1] ? [both[0]!] : both;
  };
  const civil = (ms: number) =>
    `${wall(ms).round("second").toString({ smallestUnit: "second" })}${offsetText(ms)}`;
  return {
    name: timeZone ?? `offset ${writtenOffset(offsetMs)}`,
    civil,
    wall,
    instantsOf,
    startOfDay: (date) => date.toZonedDateTime(zone).epochMilliseconds - offsetMs,
    minuteBefore: (ms) => {
      const { second, millisecond } = wall(ms);
      return Math.round(ms) - second * 1000 - millisecond;
    },
    momentText: (ms) => {
      const time = wall(ms).round("second");
      const plain = time.toString({ smallestUnit: time.second === 0 ? "minute" : "second" });
      const needsOffset = timeZone === undefined || instantsOf(time).length !== 1;
      return needsOffset ? `${plain}${offsetText(ms)}` : plain;
    },
  };
}

function offsetOf(civil: string): number {
  const [, sign, hours, minutes, seconds = "0"] =
    /([+-])(\d{2}):?(\d{2})(?::?(\d{2}))?$/.exec(civil.slice(10)) ?? [];
  if (sign === undefined) return 0; // Z
  const total = Number(hours) * 3600 + Number(minutes) * 60 + Number(seconds);
  return (sign === "-" ? -1 : 1) * total * 1000;
}

function writtenOffset(ms: number): string {
  const two = (n: number) => String(Math.floor(n)).padStart(2, "0");
  const s = Math.abs(ms) / 1000;
  return `${ms < 0 ? "-" : "+"}${two(s / 3600)}:${two((s % 3600) / 60)}${s % 60 === 0 ? "" : `:${two(s % 60)}`}`;
}
