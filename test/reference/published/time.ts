/*
 * IANA time zone database, checked in releases 2025b and 2025c. Before 1970 the database itself warns that it is less
 * reliable; merged zones are left out.
 */

export const civilTimes = {
  source: "IANA tz 2025b, 2025c; recomputed with zoneinfo",
  rows: [
    {
      zone: "Europe/London",
      local: "1941-07-01T12:00",
      utc: "1941-07-01T10:00:00Z",
      note: "double summer time",
    },
    {
      zone: "Europe/London",
      local: "1941-01-01T12:00",
      utc: "1941-01-01T11:00:00Z",
      note: "summer time kept in winter",
    },
    {
      zone: "Europe/London",
      local: "1947-05-01T12:00",
      utc: "1947-05-01T10:00:00Z",
      note: "last year of double summer time",
    },
    {
      zone: "Europe/London",
      local: "1969-01-01T12:00",
      utc: "1969-01-01T11:00:00Z",
      note: "an hour ahead all year",
    },
    {
      zone: "Europe/Lisbon",
      local: "1993-01-01T12:00",
      utc: "1993-01-01T11:00:00Z",
      note: "Central European time",
    },
    {
      zone: "Europe/Lisbon",
      local: "1993-07-01T12:00",
      utc: "1993-07-01T10:00:00Z",
      note: "Central European summer time",
    },
    { zone: "Europe/Lisbon", local: "1992-01-01T12:00", utc: "1992-01-01T12:00:00Z", note: "before" },
    { zone: "Europe/Lisbon", local: "1996-07-01T12:00", utc: "1996-07-01T11:00:00Z", note: "after" },
    { zone: "Europe/Lisbon", local: "1997-01-01T12:00", utc: "1997-01-01T12:00:00Z", note: "after" },
    {
      zone: "Asia/Kathmandu",
      local: "1985-12-31T23:59:59",
      utc: "1985-12-31T18:29:59Z",
      note: "last second of +5:30",
    },
    {
      zone: "Asia/Kathmandu",
      local: "1986-01-01T00:15",
      utc: "1985-12-31T18:30:00Z",
      note: "first second of +5:45",
    },
    {
      zone: "Asia/Tokyo",
      local: "1950-07-01T12:00",
      utc: "1950-07-01T02:00:00Z",
      note: "post-war summer time",
    },
    { zone: "Asia/Kolkata", local: "1944-01-01T12:00", utc: "1944-01-01T05:30:00Z", note: "war time" },
    {
      zone: "Europe/Berlin",
      local: "1945-06-01T12:00",
      utc: "1945-06-01T09:00:00Z",
      note: "double summer time",
    },
    { zone: "Europe/Moscow", local: "2012-01-01T12:00", utc: "2012-01-01T08:00:00Z", note: "+4" },
    { zone: "Europe/Moscow", local: "2015-01-01T12:00", utc: "2015-01-01T09:00:00Z", note: "+3" },
    { zone: "America/Caracas", local: "2010-01-01T12:00", utc: "2010-01-01T16:30:00Z", note: "-4:30" },
    { zone: "America/Caracas", local: "2017-01-01T12:00", utc: "2017-01-01T16:00:00Z", note: "-4:00" },
    {
      zone: "Africa/Monrovia",
      local: "1970-01-01T12:00",
      utc: "1970-01-01T12:44:30Z",
      note: "offset with seconds",
    },
    { zone: "Europe/Paris", local: "1900-01-01T12:00", utc: "1900-01-01T11:50:39Z", note: "local mean time" },
    { zone: "Australia/Lord_Howe", local: "2024-07-01T12:00", utc: "2024-07-01T01:30:00Z", note: "+10:30" },
    {
      zone: "Australia/Lord_Howe",
      local: "2024-01-01T12:00",
      utc: "2024-01-01T01:00:00Z",
      note: "half-hour summer time",
    },
    { zone: "Pacific/Chatham", local: "2024-01-01T12:00", utc: "2023-12-31T22:15:00Z", note: "+13:45" },
    { zone: "America/St_Johns", local: "2024-01-01T12:00", utc: "2024-01-01T15:30:00Z", note: "-3:30" },
    { zone: "Pacific/Kiritimati", local: "2024-01-01T12:00", utc: "2023-12-31T22:00:00Z", note: "+14" },
  ],
} as const;

/**
 * Local times that no clock showed. Lacunar refuses them and names both readings: the offset before the gap (which
 * gives the later instant) and the one after it. `utc`: [with the offset after, with the offset before].
 */
export const gaps = {
  source: "IANA tz 2025b, 2025c; recomputed with zoneinfo",
  rows: [
    {
      zone: "Pacific/Apia",
      local: "2011-12-30T12:00",
      utc: ["2011-12-29T22:00:00Z", "2011-12-30T22:00:00Z"],
    },
    {
      zone: "Pacific/Kwajalein",
      local: "1993-08-21T12:00",
      utc: ["1993-08-21T00:00:00Z", "1993-08-22T00:00:00Z"],
    },
    {
      zone: "America/New_York",
      local: "2024-03-10T02:30",
      utc: ["2024-03-10T06:30:00Z", "2024-03-10T07:30:00Z"],
    },
    {
      zone: "Europe/Berlin",
      local: "2024-03-31T02:30",
      utc: ["2024-03-31T00:30:00Z", "2024-03-31T01:30:00Z"],
    },
    {
      zone: "Europe/London",
      local: "2024-03-31T01:30",
      utc: ["2024-03-31T00:30:00Z", "2024-03-31T01:30:00Z"],
    },
    {
      zone: "America/Sao_Paulo",
      local: "2018-11-04T00:30",
      utc: ["2018-11-04T02:30:00Z", "2018-11-04T03:30:00Z"],
    },
  ],
} as const;

/** Local times that came twice, with both instants, the earlier first. */
export const folds = {
  source: "IANA tz 2025b, 2025c; recomputed with zoneinfo",
  rows: [
    {
      zone: "America/New_York",
      local: "2024-11-03T01:30",
      utc: ["2024-11-03T05:30:00Z", "2024-11-03T06:30:00Z"],
    },
    {
      zone: "Europe/Berlin",
      local: "2024-10-27T02:30",
      utc: ["2024-10-27T00:30:00Z", "2024-10-27T01:30:00Z"],
    },
    {
      zone: "Europe/London",
      local: "2024-10-27T01:30",
      utc: ["2024-10-27T00:30:00Z", "2024-10-27T01:30:00Z"],
    },
  ],
} as const;

export const earthRotationTime = {
  source: "ITU-R TF.460-6; IANA leap-seconds list (valid to 2027-06-28); ERFA for TT - UTC; recomputed",
  ut1MinusUtcLimitS: 0.9,
  taiMinusUtcS: { "2012-07-01": 35, "2015-07-01": 36, "2017-01-01": 37 },
  ttMinusUtcS: { "1972-01": 42.184, "1980-01": 51.184, "1990-01": 57.184, "2000-01": 64.184 },
  deltaTSince2017S: 69.184,
} as const;

export const deltaT = {
  source:
    "F. Espenak, J. Meeus, Five Millennium Canon, NASA 2006: polynomials at year y.0 (from 1900 on recomputed); Meeus table 10.A; April 2017 published as 70.16",
  polynomialS: {
    1000: 1574.2,
    1600: 120.0,
    1700: 8.83,
    1750: 13.37,
    1800: 13.72,
    1850: 7.11,
    1900: -2.79,
    1920: 21.2,
    1940: 24.41,
    1950: 29.07,
    1960: 33.1,
    1970: 40.19,
    1980: 50.51,
    1990: 56.89,
    2000: 63.86,
    2005: 64.67,
    2010: 66.7,
    2020: 71.6,
    2050: 93.0,
  },
  april2017: { year: 2017 + 3.5 / 12, s: 70.16 },
  meeusTable10aS: { 1900: -2.8, 1950: 29.1, 1996: 61.6 },
  toleranceS: 0.006,
} as const;
