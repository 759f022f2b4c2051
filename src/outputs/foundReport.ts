import { yamlLine } from "../plan/valueText.ts";
import type { AtMoment, Found, FoundObject } from "../schedule/find.ts";

/** What `lacunar stars --find` tells, in words. */
export const foundReport = (found: Found): string =>
  `${found.found.map((each) => linesOf(each, found).join("\n")).join("\n\n")}\n`;

export const foundJson = ({ text, moment, found }: Found): string =>
  `${JSON.stringify(
    {
      find: text,
      moment,
      found: found.map((each) => ({ ...each, aimText: each.aim && yamlLine(each.aim) })),
    },
    null,
    2,
  )}\n`;

const KINDS = { star: "Star", constellation: "Constellation", planet: "Planet", moon: "Moon" } as const;

function linesOf(object: FoundObject, { moment }: Found): string[] {
  const { kind, name, designation, hip, constellation, mag, raDeg, decDeg, aim, areaSquareDeg, stars } =
    object;
  const line = (label: string, words: string) => `${label.padEnd(14)}${words}`;
  const called = name && designation ? `${name} (${designation})` : name || designation;
  const title = [called, hip === null ? "" : `HIP ${hip}`].filter((each) => each !== "").join(", ");
  const lines = [line(KINDS[kind], title)];
  if (kind !== "constellation" && constellation !== null)
    lines.push(line("In", `${constellation.name} (${constellation.code})`));
  if (mag !== null) lines.push(line("Magnitude", `V ${mag.toFixed(2)}`));
  if (raDeg === null || decDeg === null) {
    lines.push(line("Place", `depends on the moment; a plan has one: lacunar stars PLAN --find ${name}`));
    return lines;
  }
  lines.push(
    kind === "constellation"
      ? line(
          "Centre",
          `of its area: right ascension ${hoursText(raDeg, 600)}, declination ${degreesText(decDeg, 60)} (J2000)`,
        )
      : line(
          "Place",
          `right ascension ${hoursText(raDeg, 1)}, declination ${degreesText(decDeg, 1)} (J2000${kind === "star" ? "" : ", at the moment"})`,
        ),
  );
  if (areaSquareDeg !== null) lines.push(line("Area", `${areaSquareDeg} square degrees`));
  if (stars.length > 0)
    lines.push(
      line(
        "Stars",
        stars
          .map((star) => `${star.name} (${star.designation || `HIP ${star.hip}`}) ${star.mag.toFixed(2)}`)
          .join(", "),
      ),
    );
  if (aim !== null) lines.push(line("Aim", `aim: ${yamlLine(aim)}`));
  if (object.atMoment !== null && moment !== null)
    lines.push(
      line("At the moment", `${moment.civil.replace("T", " ")}: ${standing(object.atMoment, kind)}`),
    );
  return lines;
}

function standing(
  { altDeg, azDeg, where, overCeiling, xMm, yMm }: AtMoment,
  kind: FoundObject["kind"],
): string {
  const place = `altitude ${altDeg.toFixed(2)}, azimuth ${azDeg.toFixed(2)} degrees`;
  switch (where) {
    case "over": {
      const point = `over the ceiling at x ${xMm!.toFixed(0)}, y ${yMm!.toFixed(0)} mm`;
      return `${place}, ${overCeiling ? point : `${point}, but show.${kind === "moon" ? "moon" : "planets"} is false`}`;
    }
    case "belowHorizon":
      return `${place}, below the horizon`;
    case "offCeiling":
      return `${place}, off this ceiling`;
    case "beyondProjection":
      return `${place}, beyond what this view can show`;
  }
}

/** `18h 36m 56.3s`, or `18h 37m` in whole minutes; carried over rightly. @param step tenths of a second */
function hoursText(raDeg: number, step: 1 | 600): string {
  const tenths = (Math.round(((raDeg / 15) * 36_000) / step) * step) % 864_000;
  const [h, m, s] = [Math.floor(tenths / 36_000), Math.floor(tenths / 600) % 60, (tenths % 600) / 10];
  return `${two(h)}h ${two(m)}m${step === 600 ? "" : ` ${s.toFixed(1).padStart(4, "0")}s`}`;
}

/** `+38° 47′ 01″`, or `+38° 47′`. @param step arc seconds */
function degreesText(decDeg: number, step: 1 | 60): string {
  const seconds = Math.round((Math.abs(decDeg) * 3600) / step) * step;
  const [d, m, s] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, seconds % 60];
  return `${decDeg < 0 ? "-" : "+"}${two(d)}° ${two(m)}′${step === 60 ? "" : ` ${two(s)}″`}`;
}

const two = (value: number): string => String(value).padStart(2, "0");
