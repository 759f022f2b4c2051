import { Body, GeoMoon, GeoVector, Illumination } from "astronomy-engine";
import { describe, expect, it } from "vitest";
import { equatorialVector } from "../../src/sky/apparent.ts";
import { astroTime } from "../../src/sky/ephemeris.ts";
import { dot, normalise, type Vector3 } from "../../src/sky/matrix.ts";
import { litMoon, moonSeen } from "../../src/sky/moonPhase.ts";
import { observerAt } from "../../src/sky/observer.ts";
import { moonPhases } from "../reference/moonPhases.ts";

const RAD = Math.PI / 180;

/** Position angle of a tangent, from celestial north through east. */
const positionAngleDeg = (at: Vector3, tangent: Vector3): number => {
  const east = normalise([-at[1], at[0], 0]);
  const north: Vector3 = [-at[2] * east[1], at[2] * east[0], at[0] * east[1] - at[1] * east[0]];
  return (Math.atan2(dot(tangent, east), dot(tangent, north)) / RAD + 360) % 360;
};

describe("the lit Moon", () => {
  it("is that of Meeus, 1992 April 12, 0h TD", () => {
    // Source: Meeus, Astronomical Algorithms, 2nd ed., ex. 48.a (from memory): i 69.0756, k 0.6786, bright limb at 285.0.
    const moon = litMoon(
      equatorialVector(134.6885, 13.7684),
      368_410,
      equatorialVector(20.6579, 8.6964),
      149_971_520,
    );
    expect(Math.acos(moon.cosPhaseAngle) / RAD).toBeCloseTo(69.0756, 3);
    expect((1 + moon.cosPhaseAngle) / 2).toBeCloseTo(0.6786, 4);
    expect(positionAngleDeg(equatorialVector(134.6885, 13.7684), moon.towardSun)).toBeCloseTo(285, 1);
  });

  it("has the ephemeris library's lit part from the Earth's centre", () => {
    for (let day = 0; day < 30; day += 2.5) {
      const time = astroTime(Date.parse("2031-05-01T00:00:00Z") + day * 86_400_000);
      const [moon, sun] = [GeoMoon(time), GeoVector(Body.Sun, time, false)];
      const unit = ({ x, y, z }: { x: number; y: number; z: number }) => normalise([x, y, z]);
      const { cosPhaseAngle } = litMoon(unit(moon), moon.Length(), unit(sun), sun.Length());
      expect((1 + cosPhaseAngle) / 2).toBeCloseTo(Illumination(Body.Moon, time).phase_fraction, 3);
    }
  });

  it.each(moonPhases())(
    "is lit, tilted and as large as astropy has it at $utc",
    ({ utc, latitudeDeg, longitudeDeg, litFraction, limbFromUpDeg, semidiameterDeg }) => {
      const seen = moonSeen(observerAt(Date.parse(utc), { latitudeDeg, longitudeDeg, elevationM: 0 }));
      expect((1 + seen.cosPhaseAngle) / 2).toBeCloseTo(litFraction, 3);
      expect(seen.semidiameterDeg).toBeCloseTo(semidiameterDeg, 4);
      // In the horizon's frame: up, and the way of growing azimuth, which is to the right.
      const [e, n, u] = seen.enu;
      const right = normalise([n, -e, 0]);
      const up: Vector3 = normalise([-u * e, -u * n, e * e + n * n]);
      const angle = Math.atan2(dot(seen.towardSun, right), dot(seen.towardSun, up)) / RAD;
      // moon98 is good to 18 arcsec; the angle of a limb 20 degrees from the Sun or more then to a minute of arc.
      expect(Math.abs(((angle - limbFromUpDeg + 540) % 360) - 180)).toBeLessThan(0.05);
    },
  );
});
