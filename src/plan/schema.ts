import * as z from "zod";
import { LENGTH_EXAMPLES, parseLengthMm } from "./lengths.ts";
import { nearestName } from "./nearestName.ts";
import { PAPER_NAMES } from "./paper.ts";

// Each schema is used once a run: compiling its parser would cost more than it saves.
z.config({ jitless: true });

/** Longest length anything in a plan may have: a hall of 200 m. Guards against slips of the unit. */
const LONGEST_MM = 200_000;

/** Keys that people write elsewhere, and where they belong. */
export const MISPLACED: Readonly<Record<string, string>> = {
  "ceiling.height":
    "a ceiling has `ceiling.width` and `ceiling.length`; how high it hangs above the floor is `room.height`",
  "view.projection": "`projection` belongs to `view.kind: chart`; an eye view is always true to direction",
  "view.span": "`span` belongs to `view.kind: chart`; an eye view takes its width from `view.eye.below`",
  "view.eye": "`eye` belongs to `view.kind: eye`; a chart has no eye point",
};

/**
 * An object that refuses keys it does not know. The message holds one line a key, in the order of the issue's keys,
 * so that each can be reported at its own place.
 */
function strict<T extends z.ZodRawShape>(where: string, shape: T) {
  const known = Object.keys(shape);
  return z.strictObject(shape, {
    error: (issue) => {
      if (issue.code !== "unrecognized_keys") return undefined;
      return (issue.keys as string[])
        .map((key) => {
          const at = where === "" ? key : `${where}.${key}`;
          const misplaced = Object.hasOwn(MISPLACED, at) ? MISPLACED[at] : undefined;
          if (misplaced) return `unknown key; ${misplaced}`;
          const near = nearestName(key, known);
          return near
            ? `unknown key; did you mean \`${near}\`?`
            : `unknown key; known here: ${known.join(", ")}`;
        })
        .join("\n");
    },
  });
}

/** For the JSON Schema alone: what `parseLengthMm` takes, told loosely enough for editors. */
const LENGTH_PATTERN = "^\\s*-?\\s*[0-9.][0-9./ -]*\\s*(mm|cm|m|in|ft|'|\"|′|″)";
const BOUND = { positive: { exclusiveMinimum: 0 }, nonNegative: { minimum: 0 }, any: {} } as const;

const length = (least: "positive" | "nonNegative" | "any", what = "a length", examples = LENGTH_EXAMPLES) =>
  z
    .union([z.number().meta(BOUND[least]), z.string().meta({ pattern: LENGTH_PATTERN })])
    .transform((value, context) => {
      const fail = (message: string) => {
        context.addIssue({ code: "custom", message });
        return z.NEVER;
      };
      const mm = typeof value === "number" ? value : parseLengthMm(value);
      if (mm === null) {
        return fail(
          /^\s*-?[\d.]+\s*$/.test(String(value))
            ? `${JSON.stringify(value)} has no unit; write ${examples}`
            : `${JSON.stringify(value)} is not ${what}; write ${examples}`,
        );
      }
      if (least === "positive" && mm <= 0) return fail(`${value} must be more than 0`);
      if (least === "nonNegative" && mm < 0) return fail(`${value} must not be negative`);
      if (Math.abs(mm) > LONGEST_MM) return fail(`${value} is over ${LONGEST_MM / 1000} m; check the unit`);
      return mm;
    });

const positive = () => length("positive");
const nonNegative = () => length("nonNegative");
/** mm a minute; a length is taken for the way of one minute. */
const feed = () => length("positive", "a feed", "millimetres a minute as a plain number, such as 200");
const position = () => length("any");

/** Words of the person's own: one line, without signs that steer a terminal. */
const words = (least: number, most: number) =>
  z
    .string()
    .min(least)
    .max(most)
    .regex(/^\P{Cc}*$/u, "words on one line, without control characters");

const wallNames = words(1, 60).optional();
const longitude = () => z.number().min(-180).max(180);
const latitude = () => z.number().min(-90).max(90);
const bearing = () => z.number().min(-360).max(360);

const place = strict("place", {
  name: words(1, 120).optional(),
  country: z.string().min(1).max(60).optional(),
  latitude: latitude().optional(),
  longitude: longitude().optional(),
  timeZone: z.string().min(1).max(60).optional(),
  elevation: z.number().min(-500).max(10_000).default(0),
});

const aim = z.union([
  z.literal("zenith"),
  strict("view.aim", { altitude: z.number().min(-90).max(90), azimuth: bearing() }),
  strict("view.aim", { rightAscension: z.number().min(0).max(24), declination: latitude() }),
  strict("view.aim", { star: z.union([z.string().min(1), z.int().positive()]) }),
  strict("view.aim", { constellation: z.string().min(1) }),
]);

const latLon = () => z.tuple([latitude(), longitude()]);
const bearingOrigins = (where: string) =>
  [
    strict(where, { magnetic: bearing(), declination: z.number().min(-180).max(180) }),
    strict(where, { from: latLon(), to: latLon() }),
  ] as const;

const sharedView = {
  aim: aim.default("zenith"),
  topBearing: z.union([bearing(), ...bearingOrigins("view.topBearing")]).default(0),
  up: z.enum(["zenith", "north"]).default("zenith"),
  roll: bearing().default(0),
  // Written by Lacunar beside the number that it gives; last, so that a plan that is replayed is written out the same.
  topBearingFrom: z.union(bearingOrigins("view.topBearingFrom")).optional(),
};

const SPAN_LIMIT_DEG = { stereographic: 300, equalArea: 360, equidistant: 360, orthographic: 180 } as const;

const view = z.discriminatedUnion("kind", [
  strict("view", {
    kind: z.literal("eye"),
    eye: strict("view.eye", {
      below: positive().optional(),
      aboveFloor: nonNegative().optional(),
      x: position().optional(),
      y: position().optional(),
    }),
    ...sharedView,
  }),
  strict("view", {
    kind: z.literal("chart"),
    projection: z
      .enum(["stereographic", "equalArea", "equidistant", "orthographic"])
      .default("stereographic"),
    span: z.number().positive().default(140),
    ...sharedView,
  }).superRefine((chart, context) => {
    const limit = SPAN_LIMIT_DEG[chart.projection];
    if (chart.span > limit) {
      context.addIssue({
        code: "custom",
        path: ["span"],
        message: `${chart.span} is more than the ${limit} degrees that a chart of projection ${chart.projection} can show`,
      });
    }
  }),
]);

const show = strict("show", {
  planets: z.boolean().default(true),
  moon: z
    .union([z.boolean(), strict("show.moon", { ring: positive(), fibre: positive().optional() })])
    .default(false),
  refraction: z.boolean().default(false),
  belowHorizon: z.boolean().default(false),
  extinction: z.number().min(0).max(2).default(0),
});

const point = z.tuple([position(), position()]);
const outline = z.array(point).min(3).max(1000);
const panelId = () =>
  z.string().regex(/^[A-Za-z0-9_]{1,20}$/, "a panel id is 1 to 20 letters, digits or underscores");

const wallSide = z.enum(["top", "right", "bottom", "left"]);

/** More corners than any room has; the largest field is sought among them. */
const MOST_ROOM_CORNERS = 60;

const ceiling = strict("ceiling", {
  width: positive().optional(),
  length: positive().optional(),
  outline: z.array(point).min(3).max(MOST_ROOM_CORNERS).optional(),
  sides: strict("ceiling.sides", {
    top: positive(),
    right: positive(),
    bottom: positive(),
    left: positive(),
  }).optional(),
  diagonals: strict("ceiling.diagonals", { risingRight: positive(), fallingRight: positive() }).optional(),
  squareTo: wallSide.optional(),
}).meta({
  // `fillCeiling` says it in words; this is for editors.
  anyOf: [{ required: ["width", "length"] }, { required: ["outline"] }, { required: ["sides", "diagonals"] }],
});

const panelGrid = strict("panels", {
  columns: z.int().min(1).max(100),
  rows: z.int().min(1).max(100),
  gap: nonNegative().default(3),
  perimeter: nonNegative().default(10),
});

const panelRectangle = strict("panels[]", {
  id: panelId(),
  x: position(),
  y: position(),
  width: positive(),
  length: positive(),
});

const panelOutline = strict("panels[]", { id: panelId(), outline });

/** A hanging point between two screws is then 20 mm from either. */
const LEAST_PITCH_MM = 40;

const frame = strict("frame", {
  batten: strict("frame.batten", { width: positive(), depth: positive() }),
  inset: nonNegative().default(0),
  crossBattens: z.int().min(0).max(100).default(1),
  battens: z
    .array(strict("frame.battens[]", { panel: panelId(), from: point, to: point }))
    .max(10_000)
    .default([]),
  screws: strict("frame.screws", {
    pitch: positive()
      .refine(
        (mm) => mm >= LEAST_PITCH_MM,
        `screws nearer than ${LEAST_PITCH_MM} mm to each other leave no room for hanging points, which keep 20 mm from them; write ${LEAST_PITCH_MM}mm or more`,
      )
      .default(200),
  }).prefault({}),
  hangers: z.int().min(0).max(1000).default(4),
  bored: strict("frame.bored", { brightest: z.int().min(0).max(100_000), diameter: positive() }).optional(),
});

const keepOutShared = {
  id: z.string().regex(/^[A-Za-z0-9_]{1,20}$/, "an id is 1 to 20 letters, digits or underscores"),
  kind: z.enum(["grille", "hatch", "luminaire", "detector", "sprinkler", "speaker", "other"]),
  stars: z.enum(["move", "drop"]).default("move"),
  upTo: nonNegative().optional(),
  clearance: strict("keepOut[].clearance", {
    front: nonNegative().default(0),
    behind: nonNegative().default(0),
  }).prefault({}),
};

const keepOut = z.union([
  strict("keepOut[]", { ...keepOutShared, at: point, radius: positive() }),
  strict("keepOut[]", {
    ...keepOutShared,
    x: position(),
    y: position(),
    width: positive(),
    length: positive(),
  }),
  strict("keepOut[]", { ...keepOutShared, outline }),
]);

/** Beyond these a sky is not slid out of a batten's way, but another one. */
const FARTHEST_SHIFT_MM = 500;
const WIDEST_TURN_DEG = 10;

const share = z
  .string()
  .meta({ pattern: "^\\s*[0-9]{1,2}(\\.[0-9]+)?\\s*%\\s*$" })
  .transform((text, context) => {
    const percent = /^\s*(\d+(?:\.\d+)?)\s*%\s*$/.exec(text)?.[1];
    if (percent === undefined || Number(percent) >= 100) {
      context.addIssue({
        code: "custom",
        message: `${JSON.stringify(text)} is not a share; write a percentage under 100%, such as 3%`,
      });
      return z.NEVER;
    }
    return `${Number(percent)}%`;
  });

const fibre = strict("fibre", {
  sizes: z
    .array(strict("fibre.sizes[]", { diameter: positive(), bit: positive(), flute: positive().optional() }))
    .min(1)
    .max(50)
    .optional(),
  bundles: strict("fibre.bundles", {
    count: z.int().min(1).max(10_000),
    strands: z.record(z.string(), z.int().min(0).max(1_000_000)),
    overall: positive().optional(),
    sleeve: nonNegative().optional(),
  }),
  reserve: share.default("0%"),
  milkyWay: share.default("0%"),
  sharing: z.enum(["panel", "ceiling"]).optional(),
});

const lightSource = strict("lightSource", {
  id: z.string().min(1).max(20).optional(),
  x: position(),
  y: position(),
  above: nonNegative(),
  ports: z.int().min(1).max(1000).optional(),
});

const paper = strict("paper", {
  size: z.union([z.enum(PAPER_NAMES), strict("paper.size", { roll: positive() })]).default("A4"),
  margin: nonNegative().default(6.5),
  overlap: positive().optional(),
  measured100: positive().default(100),
});

/** A board that came from the saw: its width and length, and its diagonals as seen from the room. */
const cutBoard = strict("asCut[]", {
  width: positive(),
  length: positive(),
  diagonals: strict("asCut[].diagonals", { risingRight: positive(), fallingRight: positive() }).optional(),
});

const work = strict("work", {
  pilot: positive().default(0.8),
  opening: z.enum(["pierce", "hotNeedle", "drill"]).default("pierce"),
});

const cnc = strict("cnc", {
  mode: z.enum(["through", "spot"]).default("through"),
  overdrill: nonNegative().optional(),
  sacrificial: positive().default(12),
  peck: z.enum(["auto", "always", "never"]).default("auto"),
  bed: z.tuple([positive(), positive()]).optional(),
  frame: z.enum(["FACE", "BACK"]).default("FACE"),
  scribeBattens: z.boolean().default(false),
  safeHeight: positive().default(15),
  spindle: z.number().min(100).max(200_000).default(12_000),
  feed: feed().optional(),
  scribeFeed: feed().default(600),
});

/** A picture of 4K at most; smaller than this nobody could read its words. */
const pictureSide = () => z.int().min(640).max(4096);
const pixel = () => z.tuple([z.number(), z.number()]);
const panelIds = () => z.array(panelId()).min(1).max(11);

const marking = strict("marking", {
  pixels: z.tuple([pictureSide(), pictureSide()]).default([3840, 2160]),
  background: z.enum(["dark", "light"]).default("dark"),
  numbers: z.boolean().default(false),
  grid: positive()
    .refine((mm) => mm >= 10, "a grid under 10 mm hides the marks; write such as 100mm")
    .default(100),
  coarsest: positive().default(1),
  groups: z.array(panelIds().min(2)).max(1000).default([]),
  keystone: z
    .array(
      strict("marking.keystone[]", {
        panels: panelIds(),
        corners: strict("marking.keystone[].corners", {
          lowerLeft: pixel(),
          lowerRight: pixel(),
          upperRight: pixel(),
          upperLeft: pixel(),
        }),
        measured: z.tuple([point, point, point]).optional(),
      }),
    )
    .max(1000)
    .default([]),
  pixelRuler: z.boolean().default(false),
});

/** The plan file as a person writes it. `read.ts` fills what depends on several keys. */
export const planSchema = strict("", {
  lacunar: z.literal(1),
  title: words(0, 200).default(""),
  moment: z.string(),
  place,
  view,
  show: show.prefault({}),
  room: strict("room", { height: positive() }).optional(),
  drawnAs: z.enum(["fromBelow", "reflectedPlan"]).optional(),
  walls: strict("walls", { top: wallNames, right: wallNames, bottom: wallNames, left: wallNames }).prefault(
    {},
  ),
  ceiling,
  panels: z.union([
    panelGrid,
    z
      .array(z.union([panelRectangle, panelOutline]))
      .min(1)
      .max(10_000),
  ]),
  fabric: strict("fabric", { thickness: nonNegative().default(0) }).prefault({}),
  board: strict("board", {
    material: z.string().min(1).max(60).default("mdf"),
    thickness: positive().default(6),
  }).prefault({}),
  cavity: nonNegative().optional(),
  frame: z.union([z.literal("none"), frame]).default("none"),
  drill: strict("drill", {
    chuckRadius: nonNegative().default(22),
    projection: positive().default(15),
  }).prefault({}),
  keepOut: z.array(keepOut).max(1000).default([]),
  fibre,
  holes: strict("holes", {
    edge: nonNegative().default(12),
    batten: nonNegative().default(5),
    spacing: nonNegative().default(3),
    merge: nonNegative().default(1),
    maxShift: nonNegative().default(60),
  }).prefault({}),
  placement: strict("placement", {
    spread: z.boolean().default(true),
    shift: nonNegative()
      .refine(
        (mm) => mm <= FARTHEST_SHIFT_MM,
        `more than ${FARTHEST_SHIFT_MM} mm is another view, not a slide: move the eye, or aim elsewhere`,
      )
      .default(0),
    turn: z.number().min(0).max(WIDEST_TURN_DEG).default(0),
  }).prefault({}),
  marking: marking.prefault({}),
  lightSource: z.union([lightSource, z.array(lightSource).min(1).max(100)]).optional(),
  paper: paper.prefault({}),
  work: work.prefault({}),
  cnc: cnc.prefault({}),
  asCut: z.record(panelId(), cutBoard).default({}),
});

export type PlanInput = z.infer<typeof planSchema>;
