"""Writes test/reference/night-events.json: rising, setting and twilight of Sun and Moon, the Moon's lit part, places of
planets, and when the Sun's azimuth makes a shadow run along a wall, by libraries that share no code with the project.

    /usr/bin/python3 scripts/reference/make_night_events.py

Needs Debian's python3-astropy, python3-erfa, python3-numpy, libnova-0.16-0 and the system's tz database. Offline.

Sun and Moon: astropy with its built-in ephemeris (ERFA's epv00 and moon98), topocentric AltAz without refraction
(pressure 0), UT1 - UTC from the bundled IERS table, 0 outside it. An event is a crossing, on a 2-minute grid and then a
2-second one with linear interpolation, between civil noon and the next:
  sunrise, sunset     centre of the Sun at -50 arcmin (USNO: zenith distance 90 degrees 50 minutes)
  twilights           centre of the Sun at -6, -12, -18 degrees
  moonrise, moonset   upper limb at -34 arcmin: centre at -(34 arcmin + asin(1737.4 km / distance from the observer))
No dip of the horizon, as in the USNO's tables.
Planets: heliocentric VSOP87 (full series) by libnova through ctypes, ecliptic and equinox J2000 (so its values fall within
plan94's stated error of ERFA's plan94 from 1980 to 2030; read as of date they would not); turned to the ICRS and on to the
horizon by ERFA (ecm06, apco, ab, atioq), light time iterated, UT1 = UTC, no light deflection. ERFA's own plan94,
which is what astropy's built-in planets are, is up to 0.03 degrees off for Jupiter to Uranus: too coarse for 0.01 degrees.
"""

import ctypes
import datetime
import json
import pathlib
import warnings
from zoneinfo import ZoneInfo

import astropy
import astropy.units as u
import erfa
import numpy as np
from astropy.coordinates import AltAz, EarthLocation, get_body, get_sun
from astropy.time import Time
from astropy.utils import iers

OUT = pathlib.Path(__file__).resolve().parents[2] / "test" / "reference" / "night-events.json"
LIGHT_DAYS_PER_AU = 499.004784 / 86400
MOON_RADIUS_KM = 1737.4
SUN_LEVELS = {
    ("sunset", "sunrise"): -50 / 60,
    ("civilDusk", "civilDawn"): -6,
    ("nauticalDusk", "nauticalDawn"): -12,
    ("astronomicalDusk", "astronomicalDawn"): -18,
}
PLANETS = ["Mercury", "Venus", "Mars", "Jupiter", "Saturn", "Uranus", "Neptune"]

# name, latitude, longitude, elevation (m), zone, civil moment, bearing of a wall (degrees)
CASES = [
    ("Valparaíso", -33.0458, -71.6197, 10, "America/Santiago", "1998-07-11T21:15", 290),
    ("Porto", 41.1496, -8.611, 80, "Europe/Lisbon", "2004-02-29T23:30", 75),
    ("Greenwich", 51.4779, 0.0, 47, "Europe/London", "2024-06-20T22:00", 10),
    ("New York", 40.7128, -74.006, 10, "America/New_York", "2024-12-21T19:00", 29),
    ("Sapporo", 43.0618, 141.3545, 20, "Asia/Tokyo", "1972-02-03T05:10", 100),
    ("Sydney", -33.8688, 151.2093, 20, "Australia/Sydney", "1985-07-13T20:00", 0),
    ("Nairobi", -1.2921, 36.8219, 1795, "Africa/Nairobi", "2010-01-15T21:00", 88),
    ("Quito", -0.1807, -78.4678, 2850, "America/Guayaquil", "1994-11-03T03:30", 45),
    ("Reykjavík", 64.1466, -21.9426, 10, "Atlantic/Reykjavik", "2019-08-20T23:30", 60),
    ("Tromsø", 69.6492, 18.9553, 10, "Europe/Oslo", "2015-12-21T18:00", 140),
    ("Tromsø", 69.6492, 18.9553, 10, "Europe/Oslo", "2015-06-21T23:00", 140),
    ("Ushuaia", -54.8019, -68.303, 30, "America/Argentina/Ushuaia", "1976-12-24T23:45", 215),
    ("Kashgar", 39.4704, 75.9898, 1290, "Asia/Shanghai", "2008-08-08T20:08", 5),
    ("Honolulu", 21.3069, -157.8583, 5, "Pacific/Honolulu", "1966-10-01T20:00", 120),
    ("Auckland", -36.8485, 174.7633, 20, "Pacific/Auckland", "2033-04-02T02:00", 330),
    ("Anchorage", 61.2181, -149.9003, 31, "America/Anchorage", "1989-03-12T21:00", 20),
]

nova = ctypes.CDLL("libnova-0.16.so.0")


class HelioPosition(ctypes.Structure):
    _fields_ = [("lon_deg", ctypes.c_double), ("lat_deg", ctypes.c_double), ("radius_au", ctypes.c_double)]


def crossings(altitude_over_level, grid_utc, rising_name, falling_name):
    """(name, iso utc) of every change of sign of a function of time given on a grid and, refined, by calling it."""
    coarse = altitude_over_level(grid_utc)
    found = []
    for i in np.flatnonzero(np.sign(coarse[:-1]) != np.sign(coarse[1:])):
        fine = grid_utc[i] + (grid_utc[i + 1] - grid_utc[i]) * np.linspace(0, 1, 61)
        value = altitude_over_level(fine)
        k = int(np.flatnonzero(np.sign(value[:-1]) != np.sign(value[1:]))[0])
        share = value[k] / (value[k] - value[k + 1])
        when = fine[k] + (fine[k + 1] - fine[k]) * share
        found.append((rising_name if coarse[i] < 0 else falling_name, when.isot[:21] + "Z"))
    return found


def horizontal(coordinates, t, location):
    return coordinates.transform_to(AltAz(obstime=t, location=location))


def vsop_helio_ecliptic_j2000(name, jd_tt):
    """Heliocentric au, mean ecliptic and equinox J2000."""
    position = HelioPosition()
    getattr(nova, f"ln_get_{name.lower()}_helio_coords")(ctypes.c_double(jd_tt), ctypes.byref(position))
    lon, lat = np.radians([position.lon_deg, position.lat_deg])
    return position.radius_au * np.array([np.cos(lat) * np.cos(lon), np.cos(lat) * np.sin(lon), np.sin(lat)])


def planet_place(name, t, lat_deg, lon_deg, elevation_m):
    """Topocentric apparent azimuth and altitude, degrees."""
    tt, utc = t.tt, t.utc
    heliocentric, barycentric = erfa.epv00(tt.jd1, tt.jd2)
    sun = barycentric["p"] - heliocentric["p"]
    rotation = erfa.era00(utc.jd1, utc.jd2)
    tio = erfa.sp00(tt.jd1, tt.jd2)
    astrom = erfa.apco(
        tt.jd1, tt.jd2, barycentric, heliocentric["p"], *erfa.xys06a(tt.jd1, tt.jd2), rotation,
        np.radians(lon_deg), np.radians(lat_deg), elevation_m, 0, 0, tio, 0, 0,
    )
    to_icrs = erfa.ecm06(2451545.0, 0.0).T  # ICRS to mean ecliptic of J2000, turned round
    light_days = 0.0
    for _ in range(4):
        vector = sun + to_icrs @ vsop_helio_ecliptic_j2000(name, tt.jd - light_days) - astrom["eb"]
        distance = float(np.linalg.norm(vector))
        light_days = distance * LIGHT_DAYS_PER_AU
    proper = erfa.ab(vector / distance, astrom["v"], astrom["em"], astrom["bm1"])
    az, zd, *_ = erfa.atioq(*erfa.c2s(astrom["bpn"] @ proper), astrom)
    return {"name": name, "altitudeDeg": round(90 - np.degrees(float(zd)), 5), "azimuthDeg": round(np.degrees(float(az)) % 360, 5)}


def case(name, lat, lon, height, zone, civil, wall_deg):
    location = EarthLocation.from_geodetic(lon * u.deg, lat * u.deg, height * u.m)
    moment = datetime.datetime.fromisoformat(civil).replace(tzinfo=ZoneInfo(zone))
    day = moment.date() if moment.hour >= 12 else moment.date() - datetime.timedelta(days=1)
    noon = [datetime.datetime.combine(day + datetime.timedelta(days=k), datetime.time(12), ZoneInfo(zone)) for k in (0, 1)]
    midnight = [datetime.datetime.combine(moment.date() + datetime.timedelta(days=k), datetime.time(0), ZoneInfo(zone)) for k in (0, 1)]
    utc = lambda when: Time(when.astimezone(datetime.timezone.utc).replace(tzinfo=None), scale="utc")
    span = lambda ends: utc(ends[0]) + (utc(ends[1]) - utc(ends[0])) * np.linspace(0, 1, 721)

    def sun(t):
        return horizontal(get_sun(t), t, location)

    def moon_over_level(t):
        place = horizontal(get_body("moon", t, location), t, location)
        semidiameter = np.degrees(np.arcsin(MOON_RADIUS_KM / place.distance.to_value(u.km)))
        return place.alt.deg + 34 / 60 + semidiameter

    events = []
    for (dusk, dawn), level in SUN_LEVELS.items():
        events += crossings(lambda t: sun(t).alt.deg - level, span(noon), dawn, dusk)
    moon_events = crossings(moon_over_level, span(noon), "moonrise", "moonset")

    def along_wall(t):
        return np.sin(np.radians(sun(t).az.deg - wall_deg))

    shadows = []
    for _, when in crossings(along_wall, span(midnight), "", ""):
        place = sun(Time(when[:-1], scale="utc"))
        if place.alt.deg > 0:
            shadows.append({"utc": when, "sunAzimuthDeg": round(float(place.az.deg), 4), "sunAltitudeDeg": round(float(place.alt.deg), 4)})

    t = utc(moment)
    to_sun, to_moon = get_sun(t), get_body("moon", t)
    elongation = to_sun.separation(to_moon)
    phase = np.arctan2(to_sun.distance * np.sin(elongation), to_moon.distance - to_sun.distance * np.cos(elongation))
    return {
        "place": name, "latitudeDeg": lat, "longitudeDeg": lon, "elevationM": height, "timeZone": zone,
        "moment": civil, "utc": t.isot[:19] + "Z", "noonUtc": [utc(n).isot[:19] + "Z" for n in noon],
        "sunAltitudeDeg": round(float(sun(t).alt.deg), 4),
        "moonLitFraction": round(float((1 + np.cos(phase)) / 2), 5),
        "sun": events, "moon": moon_events,
        "planets": [planet_place(p, t, lat, lon, height) for p in PLANETS],
        "wallBearingDeg": wall_deg, "shadows": shadows,
    }


def main():
    warnings.simplefilter("ignore")  # dubious years, and UT1 after the bundled table
    iers.conf.auto_download = False
    iers.conf.auto_max_age = None
    iers.conf.iers_degraded_accuracy = "ignore"
    cases = [case(*each) for each in CASES]
    header = {
        "what": "Events of the Sun and the Moon from civil noon to civil noon, planets at the moment, Sun's azimuth along a wall",
        "by": f"astropy {astropy.__version__} (built-in ephemeris), ERFA {erfa.version.erfa_version}, libnova 0.16 (VSOP87)",
        "conventions": "see the head of scripts/reference/make_night_events.py",
        "writtenBy": "scripts/reference/make_night_events.py",
    }
    compact = lambda value: json.dumps(value, separators=(",", ":"), ensure_ascii=False)
    head = "".join(f" {compact(k)}: {compact(v)},\n" for k, v in header.items())
    OUT.write_text("{\n" + head + ' "cases": [\n' + ",\n".join(f"  {compact(c)}" for c in cases) + "\n ]\n}\n")
    print(f"{len(cases)} cases, {sum(len(c['sun']) + len(c['moon']) for c in cases)} events, {OUT.stat().st_size} bytes")


if __name__ == "__main__":
    main()
