import type { Temporal } from "temporal-polyfill";

/** A country that kept the Julian calendar into the years of plans. */
interface JulianCountry {
  /** ISO 3166 code; none where a zone belongs to a country that had changed long before. */
  readonly country: string | null;
  readonly name: string;
  /** Its first day in the Gregorian calendar. */
  readonly changed: string;
  /** IANA zones, split by space. */
  readonly zones: string;
}

/**
 * Sources of the dates: the table of FreeBSD's `ncal -p` (Debian's package ncal; the last Julian day of each country) for
 * Albania, Bulgaria, Latvia, Lithuania, Romania, Russia and Yugoslavia. From memory, not in that table or against it: Greece's civil
 * calendar (the table has the church's change of 1924), Turkey's days (the table has the change of its years), Estonia, Ukraine,
 * Moldova, Alaska, and the rest of what was Russia. Where a country changed region by region the later date stands: it makes
 * a notice and no more. Zones by country: zone.tab of the IANA time zone database; left out are parts that belonged to
 * Gregorian countries (Kaliningrad, Uzhgorod).
 */
const JULIAN_COUNTRIES: readonly JulianCountry[] = [
  {
    country: null,
    name: "Alaska",
    changed: "1867-10-18",
    zones: "America/Anchorage America/Juneau America/Metlakatla America/Nome America/Sitka America/Yakutat",
  },
  { country: "AL", name: "Albania", changed: "1912-12-14", zones: "Europe/Tirane" },
  { country: "BG", name: "Bulgaria", changed: "1916-04-14", zones: "Europe/Sofia" },
  { country: "TR", name: "Turkey", changed: "1917-03-01", zones: "Europe/Istanbul Asia/Istanbul Turkey" },
  { country: "AM", name: "Armenia", changed: "1918-02-14", zones: "Asia/Yerevan" },
  { country: "AZ", name: "Azerbaijan", changed: "1918-02-14", zones: "Asia/Baku" },
  { country: "BY", name: "Belarus", changed: "1918-02-14", zones: "Europe/Minsk" },
  { country: "EE", name: "Estonia", changed: "1918-02-14", zones: "Europe/Tallinn" },
  { country: "GE", name: "Georgia", changed: "1918-02-14", zones: "Asia/Tbilisi" },
  { country: "KG", name: "Kyrgyzstan", changed: "1918-02-14", zones: "Asia/Bishkek" },
  {
    country: "KZ",
    name: "Kazakhstan",
    changed: "1918-02-14",
    zones: "Asia/Almaty Asia/Aqtau Asia/Aqtobe Asia/Atyrau Asia/Oral Asia/Qostanay Asia/Qyzylorda",
  },
  {
    country: "RU",
    name: "Russia",
    changed: "1918-02-14",
    zones:
      "Asia/Anadyr Asia/Barnaul Asia/Chita Asia/Irkutsk Asia/Kamchatka Asia/Khandyga Asia/Krasnoyarsk Asia/Magadan Asia/Novokuznetsk Asia/Novosibirsk Asia/Omsk Asia/Sakhalin Asia/Srednekolymsk Asia/Tomsk Asia/Ust-Nera Asia/Vladivostok Asia/Yakutsk Asia/Yekaterinburg Europe/Astrakhan Europe/Kirov Europe/Moscow Europe/Samara Europe/Saratov Europe/Ulyanovsk Europe/Volgograd W-SU",
  },
  { country: "TJ", name: "Tajikistan", changed: "1918-02-14", zones: "Asia/Dushanbe" },
  { country: "TM", name: "Turkmenistan", changed: "1918-02-14", zones: "Asia/Ashgabat" },
  { country: "UZ", name: "Uzbekistan", changed: "1918-02-14", zones: "Asia/Samarkand Asia/Tashkent" },
  { country: "LT", name: "Lithuania", changed: "1918-02-15", zones: "Europe/Vilnius" },
  { country: "LV", name: "Latvia", changed: "1918-02-15", zones: "Europe/Riga" },
  {
    country: "UA",
    name: "Ukraine",
    changed: "1918-03-01",
    zones: "Europe/Kyiv Europe/Kiev Europe/Simferopol Europe/Zaporozhye",
  },
  { country: "ME", name: "Montenegro", changed: "1919-03-18", zones: "Europe/Podgorica" },
  { country: "MK", name: "North Macedonia", changed: "1919-03-18", zones: "Europe/Skopje" },
  { country: "RS", name: "Serbia", changed: "1919-03-18", zones: "Europe/Belgrade" },
  { country: "MD", name: "Moldova", changed: "1919-04-14", zones: "Europe/Chisinau" },
  { country: "RO", name: "Romania", changed: "1919-04-14", zones: "Europe/Bucharest" },
  { country: "GR", name: "Greece", changed: "1923-03-01", zones: "Europe/Athens" },
];

/** From this year on all countries of the table count alike. */
const ALL_CHANGED_BY = 1927;

/** The Julian calendar had a 29 February in 1900, and from then on is 13 days behind in place of 12. */
const LEAP_DAY_1900 = "1900-02-29";
const GREGORIAN_OF_LEAP_DAY_1900 = "1900-03-13";

/** What a Julian date is in the Gregorian calendar. @param date year, month and day as written; 1800-03-01 to 2100-02-28 */
export function gregorianOfJulian(date: Temporal.PlainDate): string {
  return date.add({ days: date.toString() < LEAP_DAY_1900 ? 12 : 13 }).toString();
}

/** What a Gregorian date is in the Julian calendar. @param date 1800-03-13 to 2100-03-13 */
export function julianOfGregorian(date: Temporal.PlainDate): string {
  const text = date.toString();
  if (text === GREGORIAN_OF_LEAP_DAY_1900) return LEAP_DAY_1900;
  return date.subtract({ days: text < GREGORIAN_OF_LEAP_DAY_1900 ? 12 : 13 }).toString();
}

/**
 * What a careful person should know about an old date.
 * @param text     the moment as written; begins with the date
 * @param timeZone decides whose calendar it was; `country` (ISO 3166) only where there is none
 * @returns null from 1927 on
 */
export function calendarNotice(
  text: string,
  date: Temporal.PlainDate,
  timeZone: string | undefined,
  country: string | undefined,
): string | null {
  if (date.year >= ALL_CHANGED_BY) return null;
  const read = "the date is read as one of the Gregorian calendar";
  const old = julianCountry(timeZone, country);
  if (old === undefined || date.toString() >= old.changed) return read;
  const meant = text.trim().replace(/^\d{4}-\d{2}-\d{2}/, gregorianOfJulian(date));
  return `${read}; ${old.name} kept the Julian calendar until it changed to ${old.changed}, and there that day was ${julianOfGregorian(date)}: if your record is in the Julian calendar (old style), write moment: ${meant}`;
}

function julianCountry(timeZone: string | undefined, country: string | undefined): JulianCountry | undefined {
  if (timeZone === undefined)
    return JULIAN_COUNTRIES.find((one) => one.country !== null && one.country === country?.toUpperCase());
  const zone = timeZone.toLowerCase();
  return JULIAN_COUNTRIES.find(({ zones }) => zones.toLowerCase().split(" ").includes(zone));
}

/** Why a date is in no calendar here, in words. @param month 1 to 12 */
export function noSuchDay(year: number, month: number, daysInMonth: number, day: number): string {
  const name = MONTHS[month - 1]!;
  return year === 1900 && month === 2 && day === 29
    ? `there is no such date in the Gregorian calendar; the Julian one had it: write ${GREGORIAN_OF_LEAP_DAY_1900} if your record is old style`
    : `there is no such date: ${name} ${year} has ${daysInMonth} days`;
}

export const MONTHS = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December",
] as const;
