import { placeWords } from "../plan/placeWords.ts";
import type { Nights, SunEventName } from "../schedule/nights.ts";
import type { NearbyNights } from "../schedule/nightsAround.ts";
import type { PasteableMoment, Timed } from "../schedule/nightsTimes.ts";
import type { ShadowsOfWall } from "../schedule/nightsWall.ts";
import { compassPoint } from "../sky/nightsWords.ts";
import { NEAR_ZENITH_DEG } from "../sky/nightsZenith.ts";

type Row = readonly [label: string, text: string];

const MOST_RANKED = 10;

export const nightsJson = (nights: Nights): string => `${JSON.stringify(nights, null, 2)}\n`;

/** The plain words of `lacunar nights`: label in the first column, what it says in the second. */
export function nightsReport(nights: Nights): string {
  const rows: Row[] = [
    ...momentRows(nights),
    ...sunRows(nights),
    ...moonRows(nights),
    ...planetRows(nights),
    ...zenithRows(nights),
    ...darkRows(nights),
    ...(nights.around === null ? [] : aroundRows(nights.around)),
    ...(nights.wall === null ? [] : wallRows(nights.wall)),
  ];
  const width = Math.max(...rows.map(([label]) => label.length)) + 2;
  return `Lacunar nights\n${rows.map(([label, text]) => `${label.padEnd(width)}${text}`).join("\n")}\n`;
}

const DARKNESS_WORDS = {
  day: "day",
  civilTwilight: "civil twilight",
  nauticalTwilight: "nautical twilight",
  astronomicalTwilight: "dark, in astronomical twilight",
  night: "fully dark",
} as const;

function momentRows({ place, clock, moment, night }: Nights): Row[] {
  const where = placeWords(place);
  const counted = night.noon === "civil" ? "from noon to noon of the clock" : "from noon to noon of the Sun";
  return [
    ["Place", `${where}; clock: ${clock}`],
    [
      "Moment",
      `${spaced(moment.civil)} (${moment.utc}): ${DARKNESS_WORDS[moment.darkness]}, the Sun ${upDown(moment.sunAltDeg)}`,
    ],
    ["Night", `${toMinute(night.from)} to ${toMinute(night.to)}, ${counted}`],
  ];
}

const SUN_LABELS: readonly (readonly [SunEventName, string])[] = [
  ["sunset", "Sunset"],
  ["civilDusk", "Civil dusk"],
  ["nauticalDusk", "Nautical dusk"],
  ["astronomicalDusk", "Astronomical dusk"],
  ["astronomicalDawn", "Astronomical dawn"],
  ["nauticalDawn", "Nautical dawn"],
  ["civilDawn", "Civil dawn"],
  ["sunrise", "Sunrise"],
];

const sunRows = ({ sun }: Nights): Row[] => [
  ...SUN_LABELS.map(([name, label]): Row => {
    const event = sun[name];
    return [label, event.civil === null ? event.why : toMinute(event)];
  }),
  ...sun.words.map((words): Row => ["", words]),
];

function moonRows({ moon }: Nights): Row[] {
  const times = (events: readonly Timed[]) =>
    events.length === 0 ? "none in this night" : events.map(toMinute).join(" and ");
  const passes: Row[] =
    moon.words === ""
      ? [
          ["Moonrise", times(moon.rises)],
          ["Moonset", times(moon.sets)],
        ]
      : [["Moon", moon.words]];
  const lit = `${(moon.litFraction * 100).toFixed(0)} % lit, ${moon.phase}`;
  const where = moon.up
    ? `at the moment ${upDown(moon.altDeg)}, azimuth ${moon.azDeg.toFixed(1)} (${compassPoint(moon.azDeg)})`
    : "down at the moment";
  return [...passes, ["Moonlight", `${lit}; ${where}`]];
}

function planetRows({ planets }: Nights): Row[] {
  if (planets.length === 0) return [["Planets", "none above the horizon at the moment"]];
  return planets.map(
    (planet, i): Row => [
      i === 0 ? "Planets" : "",
      `${planet.name.padEnd(8)} mag ${tenths(planet.mag).padStart(4)}, altitude ${planet.altDeg.toFixed(1)}, azimuth ${planet.azDeg.toFixed(1)} (${compassPoint(planet.azDeg)}), in ${planet.constellation}${planet.inField ? "; over this ceiling" : ""}`,
    ],
  );
}

function zenithRows({ zenith }: Nights): Row[] {
  const stars = zenith.stars.map(
    (star) =>
      `${star.name || `HIP ${star.hip}`} (${tenths(star.mag)}, ${star.zenithDistanceDeg.toFixed(0)}°)`,
  );
  const others = zenith.constellations
    .map(({ name }) => name)
    .filter((name) => name !== zenith.constellation.name);
  return [
    ["Zenith", `in ${zenith.constellation.name}; around it ${others.join(", ") || "no star to magnitude 5"}`],
    [
      "",
      `brightest within ${NEAR_ZENITH_DEG} degrees (magnitude, from the zenith): ${stars.join(", ") || "none to magnitude 5"}`,
    ],
    ["Milky Way", `${zenith.words} (galactic latitude ${zenith.milkyWay.galacticLatitudeDeg.toFixed(1)})`],
  ];
}

function darkRows({ darkMoments }: Nights): Row[] {
  if (darkMoments === null) return [];
  const row = (label: string, found: PasteableMoment | null): Row => [
    label,
    found === null ? "none within the calendar of plans" : pasteable(found),
  ];
  return [
    ["Not dark", "at the plan's moment; the nearest dark ones (the Sun below -12 degrees), ready to paste:"],
    row("Dark before", darkMoments.before),
    row("Dark after", darkMoments.after),
  ];
}

function aroundRows({ days, nights, leftOut }: NearbyNights): Row[] {
  const own = nights.find((night) => night.days === 0)!;
  const rows: Row[] = [
    [
      "Nearby nights",
      `${nights.length} within ${days} days at this clock time, the best first (points of 100)`,
    ],
  ];
  const row = (night: NearbyNights["nights"][number]): Row => [
    `${night.rank}.`,
    `${pasteable(night)}  ${String(night.points).padStart(3)}  ${night.reasons.join("; ")}`,
  ];
  rows.push(...nights.slice(0, MOST_RANKED).map(row));
  if (own.rank > MOST_RANKED)
    rows.push(["The plan's", `is number ${own.rank} of ${nights.length}:`], row(own));
  if (!nights[0]!.dark)
    rows.push(["", "at this clock time none of these nights is dark: choose another time of the night"]);
  for (const { date, why } of leftOut.slice(0, 3)) rows.push(["Left out", `${date}: ${why}`]);
  if (leftOut.length > 3) rows.push(["", `and ${leftOut.length - 3} more dates`]);
  return rows;
}

/** Lower than this the shadow is long and faint; higher, too short to lay a line along. */
const USEFUL_SUN_DEG = { least: 5, most: 75 } as const;

function wallRows({ wall, names, bearingDeg, from, to, date, topBearingDeg, shadows }: ShadowsOfWall): Row[] {
  const rows: Row[] = [
    [
      "Wall",
      `${names[wall]} runs from ${names[from]} to ${names[to]} along ${bearingDeg.toFixed(1)} degrees, if view.topBearing ${topBearingDeg} is right (sides as seen from below)`,
    ],
    ["Shadow", `of a plumb line along that wall on ${date}:`],
  ];
  for (const shadow of shadows) {
    const { sunAltDeg, sunAzDeg, turnsDegPerMinute: turn, lengthPerMetreM } = shadow;
    const use =
      sunAltDeg < USEFUL_SUN_DEG.least
        ? "; low Sun: long and faint"
        : sunAltDeg > USEFUL_SUN_DEG.most
          ? "; high Sun: too short to trust"
          : "";
    rows.push(
      [spaced(shadow.civil).slice(11), shadow.words],
      [
        "",
        `the Sun at altitude ${sunAltDeg.toFixed(1)}, azimuth ${sunAzDeg.toFixed(1)} (${compassPoint(sunAzDeg)}); ${lengthPerMetreM.toFixed(2)} m of shadow a metre of line; it turns ${Math.abs(turn).toFixed(2)} degrees a minute, ${turn >= 0 ? "clockwise" : "counter-clockwise"}${use}`,
      ],
    );
  }
  if (shadows.length === 0) {
    rows.push([
      "",
      "never while the Sun is up on that day: take a wall at right angles to it, or another --date",
    ]);
    return rows;
  }
  rows.push(
    ["To check", "at that minute the shadow must lie parallel to the wall and point as said."],
    [
      "",
      "Seen looking down at the floor: if the shadow lies some degrees clockwise of the wall, view.topBearing is that much too large;",
    ],
    ["", "if counter-clockwise, too small. The times hold for the plan's place: the room must stand there."],
  );
  return rows;
}

/** Never -0.0. */
const tenths = (mag: number) => (Math.round(mag * 10) / 10 + 0).toFixed(1);
const upDown = (deg: number) =>
  `${Math.abs(deg).toFixed(1)} degrees ${deg >= 0 ? "above" : "below"} the horizon`;
const spaced = (civil: string) => civil.replace("T", " ");
const pasteable = ({ moment }: PasteableMoment) => `moment: ${moment}`;

/** `1998-07-11 21:15 -04:00`, rounded to the minute: the air moves events by more than the rest. */
function toMinute({ civil }: { readonly civil: string }): string {
  const [, date, hours, minutes, seconds, offset] = /^(\S+)T(\d\d):(\d\d):(\d\d)(.*)$/.exec(civil)!;
  const total = Number(hours) * 60 + Number(minutes) + (Number(seconds) >= 30 ? 1 : 0);
  const two = (n: number) => String(n).padStart(2, "0");
  // The last half minute of a day stays in it: a date one on would read as another night.
  const shown = Math.min(total, 24 * 60 - 1);
  return `${date} ${two(Math.floor(shown / 60))}:${two(shown % 60)} ${offset}`;
}
