import { AstroTime } from "astronomy-engine";
import { julianDateUtc, ttMinusUtcSeconds } from "./timeScales.ts";

/** Our instant as the ephemeris library's time, set by TT so that its own guess of Delta T does not enter. */
export const astroTime = (instantUtcMs: number): AstroTime =>
  AstroTime.FromTerrestrialTime(
    julianDateUtc(instantUtcMs) - 2451545 + ttMinusUtcSeconds(instantUtcMs) / 86_400,
  );
