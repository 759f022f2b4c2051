import { readFileSync } from "node:fs";

/** A row of moon-phases.json. */
export interface MoonPhaseCase {
  readonly utc: string;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  readonly moonAltitudeDeg: number;
  readonly litFraction: number;
  /** From up clockwise, as one sees it who faces the Moon, to the middle of the bright limb. */
  readonly limbFromUpDeg: number;
  readonly semidiameterDeg: number;
}

export const moonPhases = (): MoonPhaseCase[] =>
  JSON.parse(readFileSync(new URL("moon-phases.json", import.meta.url), "utf8")).cases;
