import type { Plan } from "../plan/plan.ts";
import { describeObject, type Field, moonInField } from "../projection/field.ts";
import type { View } from "../projection/view.ts";
import { altitudeDeg, azimuthDeg } from "../sky/apparent.ts";
import type { Moment } from "../sky/civilTime.ts";
import { darknessOf } from "../sky/darkness.ts";
import type { SkyData } from "../sky/skyData.ts";
import type { Selection } from "./select.ts";
import type { PanelRecord, StrandRecord } from "./types.ts";

const IN_WORDS = {
  day: "it was day",
  civilTwilight: "it was civil twilight",
  nauticalTwilight: "it was nautical twilight",
  astronomicalTwilight: "",
  night: "",
} as const;

/** Every star in the list was in the sky, but nobody saw it while the Sun was up. */
export function daylightWarning(sunAltDeg: number): string | null {
  const words = IN_WORDS[darknessOf(sunAltDeg)];
  if (!words) return null;
  return `the Sun stood ${Math.abs(sunAltDeg).toFixed(1)} degrees ${sunAltDeg >= 0 ? "above" : "below"} the horizon: ${words}, so this sky was there but not to be seen as the ceiling shows it (dark is below -12)`;
}

/** @param allPlaced  no object was dropped for want of a place */
export function darkStrandsWarning(strands: readonly StrandRecord[], allPlaced: boolean): string | null {
  const dark = strands.reduce((sum, size) => sum + size.dark, 0);
  if (dark === 0) return null;
  const bySize = strands
    .filter((size) => size.dark > 0)
    .map((size) => `${size.dark} of ${size.diameterMm} mm`);
  return `${dark} strands stay dark: ${allPlaced ? "the field has no more objects" : "no other object of the field finds a place"} (${bySize.join(", ")})`;
}

/**
 * Hours by which clocks may lead the Sun: about 4 either way; a day more just east of the date line, where islands keep
 * western dates (Kiritimati, Apia, Chatham); 20 to 22 less on Attu, west of it with American clocks. Common knowledge of
 * the zone map, no source.
 */
const CLOCK_LEADS_HOURS = [
  [-4, 4],
  [23, 26],
  [-22, -20],
] as const;

/** A slip of the longitude's sign or of the zone shows in how far the clocks are from the Sun. */
export function farZoneWarning({ offsetHours }: Moment, plan: Plan): string | null {
  const lead = offsetHours - plan.place.longitude / 15;
  if (CLOCK_LEADS_HOURS.some(([least, most]) => lead >= least && lead <= most)) return null;
  return `clocks ${offsetHours} h from UTC do not fit longitude ${plan.place.longitude}, where the Sun keeps ${(plan.place.longitude / 15).toFixed(1)} h: check the sign of the longitude (east is positive) and the time zone`;
}

/** As a rule of the trade, a sheet whose 100 mm are over 0.5 mm off is not used (common practice). */
const MOST_PAPER_OFF_MM = 0.5;

export function paperWarning({ paper: { measured100 } }: Plan): string | null {
  const off = measured100 - 100;
  if (Math.abs(off) <= MOST_PAPER_OFF_MM + 1e-9) return null;
  return `paper.measured100: 100 mm come out ${Number(Math.abs(off).toFixed(3))} mm too ${off > 0 ? "long" : "short"}, more than paper does (0.5 mm): templates are drawn at ${Number((1e4 / measured100).toFixed(3))} % so that the board is right, but look first whether the printer scales`;
}

/** With an aim off the zenith +Y follows the aim. */
export const unusedBearingWarning = (plan: Plan, view: View): string | null =>
  (plan.view.topBearing !== 0 || plan.view.topBearingFrom !== undefined) && !view.aimedAtZenith
    ? "view.topBearing has no effect: with an aim off the zenith the top edge follows `view.up`"
    : null;

const SAMPLES = 24;

/** Parts of the ceiling, 0 to 1, that no star can be on: below the horizon, and beyond the rim of the projection. */
export function emptyShares(plan: Plan, view: View): { below: number; beyond: number } {
  let below = 0;
  let beyond = 0;
  for (let i = 0; i < SAMPLES * SAMPLES; i++) {
    const direction = view.unproject({
      xMm: (((i % SAMPLES) + 0.5) / SAMPLES) * plan.ceiling.width,
      yMm: ((Math.floor(i / SAMPLES) + 0.5) / SAMPLES) * plan.ceiling.length,
    });
    if (direction === null) beyond++;
    else if (direction[2] < 0 && !plan.show.belowHorizon) below++;
  }
  return { below: below / SAMPLES ** 2, beyond: beyond / SAMPLES ** 2 };
}

export function emptyCeilingWarnings(plan: Plan, view: View): string[] {
  const { below, beyond } = emptyShares(plan, view);
  const share = (part: number) => `about ${Math.round(100 * part)} % of the ceiling`;
  const warnings: string[] = [];
  if (below > 0.05) {
    warnings.push(`${share(below)} stays empty: it lies below the horizon; show.belowHorizon: true fills it`);
  }
  if (beyond > 0.05) {
    warnings.push(
      `${share(beyond)} stays empty: it lies beyond the rim of the chart; a smaller view.span fills it`,
    );
  }
  return warnings;
}

/** A planet that shares a brighter object's hole cannot be seen in `merged`, which holds HIP numbers alone. */
export function foldedBodiesWarnings(
  { placed, lights }: Selection,
  field: Field,
  sky: SkyData,
  mergeMm: number,
): string[] {
  return placed.flatMap(({ leader }) =>
    (lights.foldedInto.get(leader) ?? [])
      .filter((j) => field.source[j]! < 0)
      .map((j) => {
        const apartMm = Math.hypot(field.xMm[j]! - field.xMm[leader]!, field.yMm[j]! - field.yMm[leader]!);
        const { name, hip } = describeObject(field, leader, sky);
        return `${describeObject(field, j, sky).name} lies ${apartMm.toFixed(2)} mm from ${name || `HIP ${hip}`}, closer than holes.merge of ${mergeMm} mm: both share one hole`;
      }),
  );
}

/** A Moon that was asked for and is not there. */
export function noMoonWarning(field: Field): string | null {
  const moon = field.bodies.find((body) => body.name === "Moon");
  if (moon === undefined || moonInField(field) >= 0) return null;
  const altDeg = altitudeDeg(...moon.enu);
  const where = `${Math.abs(altDeg).toFixed(1)} degrees ${altDeg < 0 ? "below" : "above"} the horizon`;
  return `the Moon is not over the ceiling: it stood ${where}, azimuth ${azimuthDeg(moon.enu[0], moon.enu[1]).toFixed(0)}`;
}

/**
 * A fibre may be 6 % over size and a hole 0.025 mm under.
 * Source: makers' sheets MH-4002 and BH-4001; AND10387.
 */
export function tightBitWarnings(plan: Plan): string[] {
  return plan.fibre.sizes
    .filter(({ diameter, bit }) => bit < diameter * 1.06 + 0.025 - 1e-9)
    .map(
      ({ diameter, bit }) =>
        `a ${bit} mm bit may be too tight for ${diameter} mm fibre: at 6 % over size it needs ${(diameter * 1.06 + 0.025).toFixed(2)} mm; try one hole and one fibre first`,
    );
}

/** Holes to be bored while the board is bare, panel by panel. */
export function boreFirstWarning(panels: readonly PanelRecord[], plan: Plan): string | null {
  const { frame, drill, board } = plan;
  const first = panels.filter((panel) => panel.boreFirst.length > 0);
  if (frame === "none" || first.length === 0) return null;
  const all = first.reduce((sum, panel) => sum + panel.boreFirst.length, 0);
  const nose = drill.projection - board.thickness;
  const why =
    nose <= 0
      ? `a bit that stands ${drill.projection} mm out of its chuck does not come through ${board.thickness} mm of board`
      : `the chuck, ${drill.chuckRadius} mm in radius, comes down to ${Number(nose.toFixed(2))} mm above the board's back between battens ${frame.batten.depth} mm deep`;
  return `${all} ${all === 1 ? "hole cannot" : "holes cannot"} be bored from behind once the frame is on (${why}): bore them before framing (${first.map(({ id, boreFirst }) => `${id} ${boreFirst.length}`).join(", ")}; listed as boreFirst in schedule.json)`;
}
