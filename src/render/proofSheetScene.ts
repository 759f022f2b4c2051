import { placeWords } from "../plan/placeWords.ts";
import type { Plan } from "../plan/plan.ts";
import type { MadeChoice, ProofSheet, SheetChoice } from "../schedule/nightsSheet.ts";
import { DARKNESS_WORDS } from "../schedule/nightsSheetWords.ts";
import { compassPoint } from "../sky/nightsWords.ts";
import type { PreviewScene } from "./previewScene.ts";
import { sceneOf } from "./sceneOf.ts";

/** One box of a proof sheet, in words and dots. */
export interface SheetBox {
  readonly number: number;
  readonly own: boolean;
  /** What tells it from its neighbours, large; and a word after it, small. */
  readonly headline: string;
  readonly aside: string;
  /** Each on a line of its own if there is room. */
  readonly lines: readonly string[];
  /** Run on over the lines that are left, as many as fit whole. */
  readonly names: readonly string[];
  /** What the preview of this variant shows; null with a reason in `lines`. */
  readonly scene: PreviewScene | null;
}

/** All that a proof sheet shows. */
export interface SheetScene {
  readonly title: string;
  readonly lines: readonly string[];
  readonly ceiling: { readonly widthMm: number; readonly lengthMm: number };
  readonly boxes: readonly SheetBox[];
}

/** Names beside dots: the brightest, few enough to leave the sky free. */
const NAMES_IN_PICTURE = 6;

export function sheetSceneOf(sheet: ProofSheet): SheetScene {
  const { plan } = sheet;
  return {
    title: plan.title || "Star ceiling",
    lines: headerLines(sheet),
    ceiling: { widthMm: plan.ceiling.width, lengthMm: plan.ceiling.length },
    boxes: sheet.choices.map((choice) => boxOf(choice, sheet)),
  };
}

function headerLines({ over, plan, day, words, choices }: ProofSheet): string[] {
  const where = placeWords(plan.place);
  const own = choices.find((choice) => choice.own)!;
  const what =
    over === "times"
      ? `the night of ${day}; ${own.words.view}`
      : `${day}, ${own.clockTime}: views to choose from`;
  return [`${where}, ${what}`, ...words, orientationLine(plan, over)];
}

function orientationLine({ walls, view, show }: Plan, over: ProofSheet["over"]): string {
  const wall = walls.top === undefined ? "" : `${walls.top}, `;
  const bearingDeg = ((view.topBearing % 360) + 360) % 360;
  const rolled = view.roll === 0 ? "" : `, the sky rolled by ${view.roll}°`;
  const edge =
    view.aim === "zenith"
      ? `true bearing ${Math.round(bearingDeg * 10) / 10}° (${compassPoint(bearingDeg)})${rolled}${over === "kinds" ? "; of a view toward a side, up" : ""}`
      : `${view.up === "north" ? "celestial north" : "up"}${rolled}`;
  const moon = show.moon ? "" : " The Moon is not drawn.";
  return `Top edge: ${wall}${edge}. Seen from below: north at the top, east is LEFT.${moon}`;
}

function boxOf(choice: SheetChoice, { over, day, plan }: ProofSheet): SheetBox {
  const { number, own, made } = choice;
  const { details } = choice.words;
  const onDay = capital([...details, `${choice.clockTime}, ${withoutYear(choice.day)}`].join("; "));
  const head =
    over === "times"
      ? { headline: choice.clockTime, aside: choice.day === day ? "" : withoutYear(choice.day) }
      : { headline: capital(choice.words.view), aside: wholeSky(made) };
  const base = { number, own, ...head };
  if ("why" in made) return { ...base, lines: [`Cannot be: ${made.why}`], names: [], scene: null };
  return {
    ...base,
    lines: [
      `${reach(made)}; ${field(made)}`,
      over === "times" ? `${capital(DARKNESS_WORDS[choice.darkness])}; ${moonWords(made)}` : onDay,
      ...notes(made, plan, over),
    ],
    names: made.sky.stars,
    scene: thumbnailOf(made),
  };
}

const withoutYear = (day: string): string => day.replace(/ \d+$/, "");
const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** The whole horizon is within the ceiling. */
const wholeSky = (made: SheetChoice["made"]): string =>
  "sky" in made && Math.min(made.sky.widthDeg, made.sky.lengthDeg) >= 179.9 ? "the whole sky" : "";

const reach = ({ sky }: MadeChoice): string =>
  sky.limitingMag === null ? "no holes" : `${sky.holes} holes, to mag ${sky.limitingMag.toFixed(2)}`;

const field = ({ sky }: MadeChoice): string => `${Math.round(sky.widthDeg)}° × ${Math.round(sky.lengthDeg)}°`;

function moonWords({ sky: { moon } }: MadeChoice): string {
  const lit = `${Math.round(moon.litFraction * 100)} % lit`;
  if (moon.overCeiling) return `Moon over the ceiling, ${lit}`;
  return moon.up ? `Moon up, ${lit}` : "Moon down";
}

/** What speaks for or against this one. */
function notes({ sky }: MadeChoice, plan: Plan, over: ProofSheet["over"]): string[] {
  const moon = over === "kinds" && sky.moon.overCeiling ? ["Moon"] : [];
  const bodies = [...moon, ...sky.planets.map(({ name }) => name)];
  const drawn = plan.show.planets || sky.planets.length === 0 ? "" : " (planets not drawn)";
  const words = [
    bodies.length > 0 ? `With ${bodies.join(", ")}${drawn}` : "",
    sky.emptyShare >= 0.05 ? `${Math.round(sky.emptyShare * 100)} % stays empty` : "",
    sky.darkStrands > 0 ? `${sky.darkStrands} strands stay dark` : "",
  ].filter((text) => text !== "");
  return words.length === 0 ? [] : [words.join("; ")];
}

/** The variant's preview with few names, and neither walls nor panel ids. */
function thumbnailOf({ schedule, view, sky }: MadeChoice): PreviewScene {
  const scene = sceneOf(schedule, view);
  const known = new Set([...sky.stars, ...sky.planets.map(({ name }) => name)]);
  return {
    ...scene,
    walls: {},
    names: scene.names.filter(({ text }) => known.has(text)).slice(0, NAMES_IN_PICTURE),
  };
}
