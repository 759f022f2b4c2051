import { Body, GeoMoon, Illumination, MoonPhase } from "astronomy-engine";
import { altitudeDeg } from "./apparent.ts";
import { astroTime } from "./ephemeris.ts";
import type { NightWindow } from "./nightsWindow.ts";
import { type Observer, observerAt } from "./observer.ts";
import type { GeoPlace } from "./place.ts";
import { crossings, sample } from "./riseSet.ts";
import { moonAt } from "./solarSystem.ts";

const AU_KM = 149_597_870.7; // IAU 2012 resolution B2
const MOON_RADIUS_KM = 1737.4; // IAU WGCCRE 2015, mean radius
const HORIZONTAL_REFRACTION_DEG = 34 / 60; // USNO

/**
 * Angle by which the Moon's upper limb stands above where it rises and sets, degrees: limb at -34 arcmin (refraction),
 * seen from the place (parallax is in the altitude), no dip of the horizon. Source: USNO definitions of rise and set.
 */
export function moonAboveRisingDeg(observer: Observer): number {
  const distanceKm = GeoMoon(astroTime(observer.instantUtcMs)).Length() * AU_KM;
  // On the horizon the distance from the place and from the Earth's centre agree within one part in 7,000.
  const semidiameterDeg = (Math.asin(MOON_RADIUS_KM / distanceKm) * 180) / Math.PI;
  return altitudeDeg(...moonAt(observer).enu) + semidiameterDeg + HORIZONTAL_REFRACTION_DEG;
}

export interface MoonNight {
  readonly risesMs: readonly number[];
  readonly setsMs: readonly number[];
  /** Above the horizon at the first noon. */
  readonly upAtStart: boolean;
}

/** Moonrises and moonsets of a night, from noon to noon. */
export function moonThroughNight({ fromMs, toMs }: NightWindow, place: GeoPlace): MoonNight {
  const samples = sample((ms) => moonAboveRisingDeg(observerAt(ms, place)), fromMs, toMs);
  const passes = crossings(samples, 0);
  return {
    risesMs: passes.filter((one) => one.rising).map((one) => one.instantUtcMs),
    setsMs: passes.filter((one) => !one.rising).map((one) => one.instantUtcMs),
    upAtStart: samples.value[0]! >= 0,
  };
}

export interface MoonLight {
  /** Lit part of the disc, 0 to 1, from the Earth's centre. */
  readonly litFraction: number;
  /** `waxing crescent` and so on. */
  readonly phase: string;
}

/** @returns the Moon's light at an instant; it changes by a hundredth in about an hour at the most */
export function moonLight(instantUtcMs: number): MoonLight {
  const time = astroTime(instantUtcMs);
  return {
    litFraction: Illumination(Body.Moon, time).phase_fraction,
    phase: phaseName(MoonPhase(time)),
  };
}

/** Named within half a day of the four quarters (the Moon gains 12.2 degrees a day on the Sun). */
function phaseName(elongationDeg: number): string {
  const within = (deg: number) => Math.abs(((elongationDeg - deg + 540) % 360) - 180) < 6;
  if (within(0)) return "new";
  if (within(90)) return "first quarter";
  if (within(180)) return "full";
  if (within(270)) return "last quarter";
  if (elongationDeg < 90) return "waxing crescent";
  if (elongationDeg < 180) return "waxing gibbous";
  return elongationDeg < 270 ? "waning gibbous" : "waning crescent";
}
