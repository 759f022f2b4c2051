import { Temporal } from "temporal-polyfill";
import { InputError } from "../plan/errors.ts";
import type { Plan } from "../plan/plan.ts";
import { type WallShadow, type WallSide, wallRuns, wallShadows } from "../sky/nightsWall.ts";
import { type PlanClock, type Timed, timedBy } from "./nightsTimes.ts";
import { rounded, tenThousandths } from "./rounding.ts";

/** When a plumb line's shadow runs along a wall, and which way it must point. */
export interface ShadowsOfWall {
  readonly wall: WallSide;
  /** The walls by side, as seen from below, with the plan's names. */
  readonly names: Readonly<Record<WallSide, string>>;
  readonly topBearingDeg: number;
  /** True bearing along the wall, from its end at `from` to its end at `to`. */
  readonly bearingDeg: number;
  readonly from: WallSide;
  readonly to: WallSide;
  readonly date: string;
  readonly shadows: readonly (Timed & Omit<WallShadow, "instantUtcMs"> & { readonly words: string })[];
}

/** @throws InputError for text that is no date of the calendar */
export function shadowsOfWall(
  plan: Plan,
  { moment, clock, geoPlace }: PlanClock,
  wall: WallSide,
  wallDate?: string,
): ShadowsOfWall {
  const date = wallDate === undefined ? clock.wall(moment.instantUtcMs).toPlainDate() : dateFrom(wallDate);
  const { topBearing } = plan.view;
  const { bearingDeg, from, to } = wallRuns(wall, topBearing);
  const side = (one: WallSide) =>
    `the ${one} wall${plan.walls[one] === undefined ? "" : ` (${plan.walls[one]})`}`;
  const names = { top: side("top"), right: side("right"), bottom: side("bottom"), left: side("left") };
  const [fromMs, toMs] = [clock.startOfDay(date), clock.startOfDay(date.add({ days: 1 }))];
  return {
    wall,
    names,
    topBearingDeg: topBearing,
    bearingDeg: rounded(bearingDeg, 1e6),
    from,
    to,
    date: date.toString(),
    shadows: wallShadows(wall, topBearing, fromMs, toMs, geoPlace).map(({ instantUtcMs, ...shadow }) => ({
      ...timedBy(clock, instantUtcMs),
      ...shadow,
      sunAltDeg: tenThousandths(shadow.sunAltDeg),
      sunAzDeg: tenThousandths(shadow.sunAzDeg),
      shadowAzDeg: tenThousandths(shadow.shadowAzDeg),
      turnsDegPerMinute: tenThousandths(shadow.turnsDegPerMinute),
      lengthPerMetreM: rounded(shadow.lengthPerMetreM, 1000),
      words: `points from ${names[shadow.from]} toward ${names[shadow.to]}, true bearing ${shadow.shadowAzDeg.toFixed(1)}`,
    })),
  };
}

function dateFrom(text: string): Temporal.PlainDate {
  const fail = (why: string, cause?: unknown): never => {
    throw new InputError(`--date: ${JSON.stringify(text)} ${why}`, { cause });
  };
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (!match) return fail("is not a date; write it as 2024-06-20");
  const [year, month, day] = match.slice(1).map(Number) as [number, number, number];
  if (year < 1850 || year > 2150) return fail("is out of range: the year must lie from 1850 to 2150");
  try {
    return Temporal.PlainDate.from({ year, month, day }, { overflow: "reject" });
  } catch (cause) {
    return fail("is not in the calendar", cause);
  }
}
