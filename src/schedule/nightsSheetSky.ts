import type { View } from "../projection/view.ts";
import { moonAboveRisingDeg, moonLight } from "../sky/nightsMoon.ts";
import type { SkyData } from "../sky/skyData.ts";
import { bodyAt, moonAt, PLANETS, type SkyBody } from "../sky/solarSystem.ts";
import type { PlannedSky } from "./makeSchedule.ts";
import { shownDirection, testBy } from "./nightsField.ts";
import { hundredths, rounded } from "./rounding.ts";
import type { Schedule } from "./types.ts";
import { emptyShares } from "./warnings.ts";

/** What a variant shows, as its box tells it. */
export interface SheetSky {
  /** Magnitude of the faintest hole. */
  readonly limitingMag: number | null;
  readonly holes: number;
  /** Strands that find no object. */
  readonly darkStrands: number;
  /** Part of the ceiling that no star can be on, 0 to 1. */
  readonly emptyShare: number;
  /** Degrees of sky along the ceiling's width and length, through the aim. */
  readonly widthDeg: number;
  readonly lengthDeg: number;
  readonly moon: {
    readonly litFraction: number;
    readonly phase: string;
    readonly up: boolean;
    /** Above the horizon and within the ceiling. */
    readonly overCeiling: boolean;
  };
  /** Planets over the ceiling that the eye can see, brightest first. */
  readonly planets: readonly { readonly name: string; readonly mag: number }[];
  /** Proper names of stars that have a hole, brightest first. */
  readonly stars: readonly string[];
}

/** More find no room in a box. */
const MOST_STARS = 12;

/** What a keen eye sees in a dark sky. */
const NAKED_EYE_MAG = 6;

export function sheetSky(
  { plan, holes, fidelity }: Schedule,
  { observer, field }: PlannedSky,
  sky: SkyData,
): SheetSky {
  const { view } = field;
  const { width, length } = plan.ceiling;
  const onCeiling = testBy(view, plan);
  const overCeiling = ({ enu }: SkyBody): boolean =>
    onCeiling(shownDirection(enu, plan.show)).where === "over";
  const { litFraction, phase } = moonLight(observer.instantUtcMs);
  const { below, beyond } = emptyShares(plan, view);
  return {
    limitingMag: fidelity.limitingMag,
    holes: fidelity.holes,
    darkStrands: fidelity.strands.reduce((sum, { dark }) => sum + dark, 0),
    emptyShare: rounded(below + beyond, 1000),
    widthDeg: rounded(degreesAlong(view, view.centre.xMm, width), 10),
    lengthDeg: rounded(degreesAlong(view, view.centre.yMm, length), 10),
    moon: {
      litFraction: rounded(litFraction, 10_000),
      phase,
      up: moonAboveRisingDeg(observer) >= 0,
      overCeiling: overCeiling(moonAt(observer)),
    },
    planets: PLANETS.map((name) => bodyAt(name, observer))
      .filter((body) => body.vMag < NAKED_EYE_MAG && overCeiling(body))
      .sort((a, b) => a.vMag - b.vMag)
      .map(({ name, vMag }) => ({ name, mag: hundredths(vMag) })),
    stars: holes
      .filter(({ hip }) => hip !== null && sky.designations.properName(hip) !== "")
      .sort((a, b) => a.mag! - b.mag!) // every star has one
      .slice(0, MOST_STARS)
      .map(({ name }) => name),
  };
}

/** From edge to edge through the aim's point; to the projection's limit on a side where that comes before the edge. */
function degreesAlong(view: View, centreMm: number, sideMm: number): number {
  const limitDeg = (Math.acos(view.leastCos) * 180) / Math.PI;
  const toEdge = (mm: number) => Math.sign(mm) * (view.angleFromAimDeg(Math.abs(mm)) ?? limitDeg);
  return toEdge(centreMm) + toEdge(sideMm - centreMm);
}
