import type { AimPlan, Plan, ViewPlan } from "../plan/plan.ts";
import type { Darkness } from "../sky/darkness.ts";
import { MONTHS } from "../sky/julianCalendar.ts";
import type { LocalClock } from "../sky/localClock.ts";
import { compassPoint } from "../sky/nightsWords.ts";

const WEEKDAYS = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"] as const;

/** `Sat 11 July 1998`, by the clock on the wall. */
export function dayWords(instantUtcMs: number, clock: LocalClock): string {
  const { dayOfWeek, day, month, year } = clock.wall(instantUtcMs);
  return `${WEEKDAYS[dayOfWeek - 1]} ${day} ${MONTHS[month - 1]} ${year}`;
}

export const DARKNESS_WORDS: Readonly<Record<Darkness, string>> = {
  day: "daylight",
  civilTwilight: "bright twilight",
  nauticalTwilight: "twilight",
  astronomicalTwilight: "dark but for a glow",
  night: "fully dark",
};

const PROJECTION_WORDS = {
  stereographic: "stereographic",
  equalArea: "equal-area",
  equidistant: "equidistant",
  orthographic: "orthographic",
} as const;

/** `eye 1.2 m above the floor`; `chart 100°, toward S` with `stereographic, aim 45° up` as the small print. */
export interface ViewWords {
  readonly view: string;
  readonly details: readonly string[];
}

export function viewWords(view: ViewPlan, { room }: Plan): ViewWords {
  const aim = aimWords(view.aim);
  const kind =
    view.kind === "chart"
      ? `chart ${degrees(view.span)}`
      : room === undefined || room.height <= view.eye.below
        ? `eye ${metres(view.eye.below)} below`
        : `eye ${metres(room.height - view.eye.below)} above the floor`;
  return {
    view: aim.words === "" ? kind : `${kind}, ${aim.words}`,
    details: [view.kind === "chart" ? PROJECTION_WORDS[view.projection] : "", aim.detail].filter(
      (text) => text !== "",
    ),
  };
}

function aimWords(aim: AimPlan): { words: string; detail: string } {
  if (aim === "zenith") return { words: "", detail: "" };
  if ("altitude" in aim) {
    const side = compassPoint(((aim.azimuth % 360) + 360) % 360);
    return { words: `toward ${side}`, detail: `aim ${degrees(aim.altitude)} up` };
  }
  if ("star" in aim)
    return { words: `about ${typeof aim.star === "number" ? `HIP ${aim.star}` : aim.star}`, detail: "" };
  if ("constellation" in aim) return { words: `about ${aim.constellation}`, detail: "" };
  return { words: `about ${aim.rightAscension} h, ${degrees(aim.declination)}`, detail: "" };
}

/** To a hundredth at the most, without trailing zeros. */
const degrees = (deg: number): string => `${Math.round(deg * 100) / 100}°`;
const metres = (mm: number): string => `${Math.round(mm / 10) / 100} m`;
