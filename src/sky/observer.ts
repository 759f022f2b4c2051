import { BaryState, Body, HelioVector } from "astronomy-engine";
import { apparentSiderealTimeRad, icrsToTrueOfDate } from "./earthOrientation.ts";
import { astroTime } from "./ephemeris.ts";
import { applyInverse, type Matrix3, multiply, type Vector3 } from "./matrix.ts";
import { type GeoPlace, geocentricMetres } from "./place.ts";
import { julianDateUtc, ttCenturies } from "./timeScales.ts";

const AU_M = 149_597_870_700; // IAU 2012 resolution B2
const LIGHT_M_PER_S = 299_792_458;
const EARTH_TURN_RAD_PER_S = 7.292_115e-5; // WGS 84

/** All that an instant and a place give for turning catalogue directions into apparent ones. */
export interface Observer {
  readonly instantUtcMs: number;
  readonly place: GeoPlace;
  /** Julian years of TT since J2000.0, for proper motion. */
  readonly yearsFromJ2000: number;
  /** Velocity of the observer over that of light, ICRS axes, relative to the solar system's barycentre. */
  readonly velocityOverC: Vector3;
  /** The part of it that is the Earth's turn. */
  readonly diurnalVelocityOverC: Vector3;
  /** Unit vector from the Sun to the Earth, ICRS axes, and their distance in au. */
  readonly sunToEarth: Vector3;
  readonly sunDistanceAu: number;
  /** Observer from the geocentre, ICRS axes, au. */
  readonly geocentricAu: Vector3;
  /** ICRS axes to east, north, up. */
  readonly icrsToEnu: Matrix3;
}

/** UT1 is taken as UTC: at most 0.9 s, 13.5 arcsec of rotation (ITU-R TF.460-6). No polar motion. */
export function observerAt(instantUtcMs: number, place: GeoPlace): Observer {
  const t = ttCenturies(instantUtcMs);
  const siderealRad =
    apparentSiderealTimeRad(julianDateUtc(instantUtcMs), t) + (place.longitudeDeg * Math.PI) / 180;
  const toDate = icrsToTrueOfDate(t);

  const [cosS, sinS] = [Math.cos(siderealRad), Math.sin(siderealRad)];
  const lat = (place.latitudeDeg * Math.PI) / 180;
  const [cosL, sinL] = [Math.cos(lat), Math.sin(lat)];
  // Rows: east, north and up at the place, in the true equator and equinox of date.
  const dateToEnu: Matrix3 = [
    -sinS,
    cosS,
    0,
    -sinL * cosS,
    -sinL * sinS,
    cosL,
    cosL * cosS,
    cosL * sinS,
    sinL,
  ];

  const { axisM, equatorM } = geocentricMetres(place);
  const speed = (EARTH_TURN_RAD_PER_S * axisM) / LIGHT_M_PER_S;
  const diurnalVelocityOverC = applyInverse(toDate, [-sinS * speed, cosS * speed, 0]);
  const geocentricM = applyInverse(toDate, [axisM * cosS, axisM * sinS, equatorM]);

  const time = astroTime(instantUtcMs);
  const earth = BaryState(Body.Earth, time);
  const perDayToC = AU_M / 86_400 / LIGHT_M_PER_S;
  const sunToEarth = HelioVector(Body.Earth, time);
  const sunDistanceAu = sunToEarth.Length();
  return {
    instantUtcMs,
    place,
    yearsFromJ2000: t * 100,
    velocityOverC: [
      earth.vx * perDayToC + diurnalVelocityOverC[0],
      earth.vy * perDayToC + diurnalVelocityOverC[1],
      earth.vz * perDayToC + diurnalVelocityOverC[2],
    ],
    diurnalVelocityOverC,
    sunToEarth: [sunToEarth.x / sunDistanceAu, sunToEarth.y / sunDistanceAu, sunToEarth.z / sunDistanceAu],
    sunDistanceAu,
    geocentricAu: [geocentricM[0] / AU_M, geocentricM[1] / AU_M, geocentricM[2] / AU_M],
    icrsToEnu: multiply(dateToEnu, toDate),
  };
}
