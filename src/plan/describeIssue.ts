import type * as z from "zod";
import { LENGTH_EXAMPLES } from "./lengths.ts";

type Path = readonly PropertyKey[];

export interface Problem {
  readonly path: Path;
  /** True when `path` names a key that should not be there: point at the key, not at its value. */
  readonly atKey: boolean;
  readonly message: string;
}

const LAT_LON =
  "degrees: first the latitude from -90 to 90, then the longitude from -180 to 180, east positive";

const POINT = "[x, y]: two lengths";
const CORNERS = "three corners or more, [[0, 0], [600, 0], [600, 400]]";
const TAPE = "a length as the tape gives it, such as 3660mm";
const ID = "1 to 20 letters, digits or underscores";
const PIXEL = "[x, y] in pixels from the picture's upper-left corner, y down";
const KEYSTONE = "{panels: [A1], corners: {lowerLeft, lowerRight, upperRight, upperLeft}, measured}";
const KEEP_OUTS = "{id, kind, at: [x, y], radius}, {id, kind, x, y, width, length} or {id, kind, outline}";

/** What would be right, by path; array indices and names of free keys are written `[]`. */
const WANTED: Readonly<Record<string, string>> = {
  "": "a plan: keys such as `moment`, `place`, `view`, `ceiling`, `panels` and `fibre`",
  lacunar: "1, the version of the plan format",
  moment: "the civil time at the place in quotes or plain, such as 1998-07-11T21:15",
  place: "{name: Valparaíso, country: CL} or {latitude, longitude, timeZone}",
  "place.latitude": "degrees from -90 (south pole) to 90",
  "place.longitude": "degrees from -180 to 180, east positive",
  "place.timeZone": "an IANA name such as America/Santiago",
  "place.elevation": "metres above sea level, from -500 to 10000",
  view: "{kind: eye, eye: {below: 1350mm}} or {kind: chart, span: 140}",
  "view.kind": "eye (true directions from an eye point) or chart (a map of the sky)",
  "view.eye": "{below: 1350mm}, the eye's distance below the finished face",
  "view.span": "degrees across the ceiling's longer side",
  "view.aim":
    "zenith, {altitude, azimuth}, {rightAscension, declination}, {star: Vega} or {constellation: Cru}",
  "view.aim.star": "a name, a designation or a Hipparcos number",
  "view.topBearing":
    "the true azimuth of the ceiling's top edge in degrees, from -360 to 360, {magnetic: 25, declination: 2.5} by a compass, or {from: [lat, lon], to: [lat, lon]}, two points of a map along a side wall, from its bottom end to its top end",
  "view.topBearing.magnetic":
    "what the compass shows toward the ceiling's top edge, degrees from -360 to 360",
  "view.topBearing.declination":
    "degrees from -180 to 180 by which a compass points east of true north at the place on the day you read it (west negative): the national geomagnetic service's model gives it",
  "view.topBearing.from":
    "[latitude, longitude] in degrees of the BOTTOM end of a side wall, as read off a map",
  "view.topBearing.to": "[latitude, longitude] in degrees of the TOP end of the same wall, as read off a map",
  "view.topBearing.from[]": LAT_LON,
  "view.topBearing.to[]": LAT_LON,
  "view.roll": "degrees from -360 to 360",
  "show.moon": "true (one hole), false, or {ring: 45mm} (the outline of its lit part)",
  "show.moon.ring": "the diameter of the Moon's disk on the ceiling, such as 45mm",
  "show.extinction": "magnitudes per air mass, from 0 to 2",
  placement: "{spread: true, shift: 40mm, turn: 1}",
  "placement.shift": "how far the whole sky may be slid, from 0 to 500mm",
  "placement.turn": "by how many degrees the whole sky may be turned either way, from 0 to 10",
  ceiling: "{width: 4.8m, length: 3.6m}, or measured {sides, diagonals}, or {outline}",
  "ceiling.outline": `the room's corners, once round: ${CORNERS}`,
  "ceiling.outline[]": POINT,
  "ceiling.sides": "the length of each wall as seen from below: {top, right, bottom, left}",
  "ceiling.sides.top": TAPE,
  "ceiling.sides.right": TAPE,
  "ceiling.sides.bottom": TAPE,
  "ceiling.sides.left": TAPE,
  "ceiling.diagonals": "{risingRight, fallingRight}, as seen from below",
  "ceiling.diagonals.risingRight": "the length from the lower left to the upper right corner, such as 4398mm",
  "ceiling.diagonals.fallingRight":
    "the length from the upper left to the lower right corner, such as 4398mm",
  "ceiling.squareTo": "top, right, bottom or left: the wall that panels are parallel to",
  drawnAs: "fromBelow (as seen lying on the floor) or reflectedPlan (laid out like a floor plan)",
  panels: "{columns: 3, rows: 2}, or a list of {id, x, y, width, length} or {id, outline}",
  "panels[].id": ID,
  "panels[].outline": CORNERS,
  "panels[].outline[]": POINT,
  frame: "none, or {batten: {width: 38mm, depth: 19mm}}",
  "frame.batten": "{width: 38mm, depth: 19mm}: width along the board, depth away from it",
  "frame.crossBattens": "how many battens cross each panel, from 0 to 100",
  "frame.battens": "a list of {panel: A1, from: [x, y], to: [x, y]}, in the panel's face frame",
  "frame.battens[].panel": "the id of a panel",
  "frame.battens[].from": POINT,
  "frame.battens[].to": POINT,
  "frame.screws": "{pitch: 200mm}",
  "frame.hangers": "how many hanging points each panel gets, from 0 to 1000",
  "frame.bored": "{brightest: 12, diameter: 10mm}",
  "frame.bored.brightest": "how many of the brightest stars may sit on a batten",
  drill: "{chuckRadius: 22mm, projection: 15mm}",
  keepOut: `a list of ${KEEP_OUTS}`,
  "keepOut[]": KEEP_OUTS,
  "keepOut[].id": ID,
  "keepOut[].kind": "grille, hatch, luminaire, detector, sprinkler, speaker or other",
  "keepOut[].stars": "move (stars under it move aside) or drop (they are left out)",
  "keepOut[].clearance": "{front: 50mm, behind: 100mm}",
  "keepOut[].at": POINT,
  "keepOut[].outline": CORNERS,
  "keepOut[].outline[]": POINT,
  marking: "{groups: [[A1, A2]], background: dark, numbers: false, grid: 100mm, coarsest: 1mm}",
  "marking.pixels":
    "[width, height] of the projector's picture in pixels, each from 640 to 4096, such as [3840, 2160]",
  "marking.pixels[]": "a whole number of pixels from 640 to 4096",
  "marking.background": "dark (light marks on black) or light (dark marks on white)",
  "marking.groups": "a list of groups of neighbouring panels, such as [[A1, A2], [B1, B2]]",
  "marking.groups[]": "a group of 2 to 11 neighbouring panels, such as [A1, A2]",
  "marking.groups[][]": ID,
  "marking.keystone": `a list of ${KEYSTONE}`,
  "marking.keystone[]": KEYSTONE,
  "marking.keystone[].panels": "the panels of one picture: [A1], or a group such as [A1, A2]",
  "marking.keystone[].panels[]": ID,
  "marking.keystone[].corners": "{lowerLeft, lowerRight, upperRight, upperLeft}, each [x, y] in pixels",
  ...Object.fromEntries(
    ["lowerLeft", "lowerRight", "upperRight", "upperLeft"].flatMap((corner) => [
      [`marking.keystone[].corners.${corner}`, PIXEL],
      [`marking.keystone[].corners.${corner}[]`, "a number of pixels"],
    ]),
  ),
  "marking.keystone[].measured":
    "where the three check marks were found: [[x, y], [x, y], [x, y]], lengths measured as the picture says",
  "marking.keystone[].measured[]": POINT,
  fibre: "{bundles: {count: 6, strands: {0.5mm: 70, 0.75mm: 20}}}",
  "fibre.bundles": "{count: 6, strands: {0.5mm: 70, 0.75mm: 20}}",
  "fibre.bundles.strands": "the strands of each diameter in one bundle, such as {0.5mm: 70, 0.75mm: 20}",
  "fibre.sizes": "a list of {diameter: 0.5mm, bit: 0.6mm}",
  "fibre.sharing": "ceiling (a bundle may feed any panel) or panel (each panel lives on whole bundles)",
  "fibre.reserve": "a percentage such as 3%",
  "fibre.milkyWay": "a percentage such as 15%",
  paper: "{size: A4, margin: 6.5mm, overlap: 14mm, measured100: 100mm}",
  "paper.size": "A4, A3, Letter, Tabloid or {roll: 610mm}, the width of a roll",
  "paper.size.roll": "the width of the roll, such as 610mm",
  "paper.margin": "what the printer leaves blank all round, such as 6.5mm",
  "paper.overlap": "how wide a strip two tiles share, such as 14mm",
  "paper.measured100": "what a ruler printed as 100 mm measures on the paper, such as 100.3mm",
  work: "{pilot: 0.8mm, opening: pierce}",
  "work.pilot": "the bit of the pilot pass, such as 0.8mm",
  "work.opening": "pierce, hotNeedle or drill: how pilot holes are opened to size from the back",
  cnc: "{mode: through, bed: [1200mm, 800mm]}",
  "cnc.mode": "through (into a sacrificial board) or spot (dimples of 1 mm)",
  "cnc.overdrill": "how far below the board holes end, such as 1mm",
  "cnc.sacrificial": "the thickness of the sacrificial board, such as 12mm",
  "cnc.peck": "auto, always or never",
  "cnc.bed": "[along X, along Y]: how far the machine reaches, such as [1200mm, 800mm]",
  "cnc.frame": "FACE (as seen from the room) or BACK (mirrored)",
  "cnc.scribeBattens": "true or false",
  "cnc.safeHeight": "how high above the board the bit travels, such as 15mm",
  "cnc.spindle": "turns a minute, from 100 to 200000",
  "cnc.feed": "millimetres a minute into the board as a plain number, such as 200",
  "cnc.scribeFeed": "millimetres a minute of the scribing tool as a plain number, such as 600",
  asCut: "the boards as measured, by panel: {A1: {width: 1386mm, length: 1487mm}}",
};

const pattern = (path: Path): string =>
  path.reduce<string>(
    (text, key) =>
      typeof key === "number" ? `${text}[]` : text === "" ? String(key) : `${text}.${String(key)}`,
    "",
  );

/** `panels[0].id`, as people write a path. */
export const showPath = (path: Path): string =>
  path.reduce<string>(
    (text, key) =>
      typeof key === "number"
        ? `${text}[${key}]`
        : /^[\w$]+$/.test(String(key))
          ? text === ""
            ? String(key)
            : `${text}.${String(key)}`
          : `${text}[${JSON.stringify(String(key))}]`,
    "",
  );

const shown = (value: unknown): string => {
  if (value === undefined) return "nothing";
  if (value === null) return "an empty value";
  if (typeof value === "number")
    return Number.isNaN(value) ? "not-a-number" : String(value).replace("Infinity", "infinity");
  if (Array.isArray(value)) return "a list";
  if (typeof value === "object") return "a group of keys";
  const text = JSON.stringify(value) ?? String(value);
  return text.length > 60 ? `${text.slice(0, 57)}…"` : text;
};

const valueAt = (data: unknown, path: Path): unknown =>
  path.reduce<unknown>(
    (value, key) => (value as Record<PropertyKey, unknown> | undefined | null)?.[key],
    data,
  );

const KINDS: Readonly<Record<string, string>> = {
  string: "text",
  number: "a number",
  int: "a whole number",
  boolean: "true or false",
  object: "a group of keys",
  array: "a list",
  record: "a group of keys",
};

/** Turns one issue of the schema library into plain problems, each with its own path. */
export function describeIssue(issue: z.core.$ZodIssue, data: unknown, base: Path = []): Problem[] {
  const path = [...base, ...issue.path];
  const seen = valueAt(data, path);
  const wanted = WANTED[pattern(path)];
  const one = (message: string): Problem[] => [{ path, atKey: false, message }];

  switch (issue.code) {
    case "unrecognized_keys":
      return issue.message
        .split("\n")
        .map((message, i) => ({ path: [...path, issue.keys[i]!], atKey: true, message }));
    case "invalid_key":
      return [{ path, atKey: true, message: `is not a key here; write ${ID}, such as A1` }];
    case "invalid_union": {
      if (seen === undefined) return one(`missing; write ${wanted ?? LENGTH_EXAMPLES}`);
      const branch = bestBranch(issue.errors);
      // The discriminator itself is off, or nothing in any branch fits: say what would.
      if (!branch) return one(`${shown(seen)} does not fit; write ${wanted ?? LENGTH_EXAMPLES}`);
      return branch.flatMap((inner) => describeIssue(inner, data, path));
    }
    case "invalid_type": {
      if (seen === undefined)
        return one(`missing; write ${wanted ?? KINDS[issue.expected] ?? issue.expected}`);
      return one(`${shown(seen)} is not ${wanted ?? KINDS[issue.expected] ?? issue.expected}`);
    }
    case "invalid_value":
      if (seen === undefined) return one(`missing; write ${wanted ?? issue.values.join(" or ")}`);
      return one(`${shown(seen)} is not ${wanted ?? issue.values.map(String).join(" or ")}`);
    case "too_small":
    case "too_big": {
      const bound = issue.code === "too_small" ? issue.minimum : issue.maximum;
      const relation =
        issue.code === "too_small"
          ? issue.inclusive
            ? "at least"
            : "more than"
          : issue.inclusive
            ? "at most"
            : "less than";
      if (wanted && Array.isArray(seen))
        return one(
          `a list of ${seen.length} is too ${issue.code === "too_small" ? "short" : "long"}; write ${wanted}`,
        );
      if (wanted) return one(`${shown(seen)} is out of range; write ${wanted}${countedTo360(path, seen)}`);
      return one(
        `${shown(seen)} is out of range; it must ${Array.isArray(seen) || typeof seen === "string" ? "hold" : "be"} ${relation} ${bound}`,
      );
    }
    case "invalid_format":
      return one(`${shown(seen)} does not fit; write ${wanted ?? issue.message}`);
    default:
      return one(issue.message);
  }
}

/** Some maps count longitudes eastward all the way round. */
const countedTo360 = (path: Path, seen: unknown): string =>
  path.at(-1) === "longitude" && typeof seen === "number" && seen > 180 && seen <= 360
    ? `; ${seen} counted eastward is ${Number((seen - 360).toFixed(9))}`
    : "";

/** Of a union's branches, the one the person most likely meant: fewest foreign or missing keys, then fewest faults. */
function bestBranch(branches: readonly (readonly z.core.$ZodIssue[])[]): readonly z.core.$ZodIssue[] | null {
  let best: readonly z.core.$ZodIssue[] | null = null;
  let bestScore = Number.POSITIVE_INFINITY;
  for (const issues of branches) {
    const speaks = issues.some((issue) => issue.code === "invalid_type" && issue.expected === "never");
    const rootMismatch =
      !speaks &&
      issues.some(
        (issue) => issue.path.length === 0 && issue.code !== "unrecognized_keys" && issue.code !== "custom",
      );
    if (rootMismatch) continue;
    const foreign = issues.reduce(
      (sum, issue) => sum + (issue.code === "unrecognized_keys" ? issue.keys.length : 0),
      0,
    );
    const score = speaks ? 5 : foreign * 10 + issues.length;
    if (score < bestScore) [best, bestScore] = [issues, score];
  }
  return best;
}
