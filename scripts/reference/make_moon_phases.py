"""Writes test/reference/moon-phases.json: the Moon's disk as seen from a place: lit part, the way from the zenith's direction to
the middle of the bright limb, and the disk's radius.

Run with Debian's python3-astropy: /usr/bin/python3 scripts/reference/make_moon_phases.py > test/reference/moon-phases.json
Moon and Sun are those of astropy's built-in ephemeris (ERFA's moon98 and epv00), topocentric, apparent, without refraction.
The angle is SkyCoord.position_angle in the AltAz frame: from up through increasing azimuth (to the right, for one who
stands facing the Moon).
"""

import json
import math

import astropy
import astropy.units as u
from astropy.coordinates import AltAz, EarthLocation, get_body
from astropy.time import Time
from astropy.utils import iers

iers.conf.auto_download = False
iers.conf.iers_auto_url = ""
iers.conf.iers_degraded_accuracy = "warn"

CASES = [
    ("1998-07-02T00:30:00Z", -33.0458, -71.6197),
    ("1998-07-12T03:15:00Z", -33.0458, -71.6197),
    ("2004-02-25T20:30:00Z", 41.15, -8.61),
    ("2004-03-10T04:30:00Z", 41.15, -8.61),
    ("2015-06-24T12:00:00Z", -37.81, 144.96),
    ("2019-12-29T16:30:00Z", 69.65, 18.96),
    ("2023-10-21T15:00:00Z", 1.35, 103.82),
    ("2024-03-07T19:30:00Z", -22.9, -43.2),
]
MOON_RADIUS_KM = 1737.4


def case(utc, latitude, longitude):
    time = Time(utc.rstrip("Z"), scale="utc")
    place = EarthLocation.from_geodetic(longitude * u.deg, latitude * u.deg, 0 * u.m)
    frame = AltAz(obstime=time, location=place)
    moon, sun = (get_body(body, time, place).transform_to(frame) for body in ("moon", "sun"))
    apart = moon.separation(sun).rad
    # Meeus 48.3
    angle = math.atan2(sun.distance.km * math.sin(apart), moon.distance.km - sun.distance.km * math.cos(apart))
    return {
        "utc": utc,
        "latitudeDeg": latitude,
        "longitudeDeg": longitude,
        "moonAltitudeDeg": round(moon.alt.deg, 3),
        "sunAltitudeDeg": round(sun.alt.deg, 3),
        "litFraction": round((1 + math.cos(angle)) / 2, 5),
        "limbFromUpDeg": round(moon.position_angle(sun).deg % 360, 3),
        "semidiameterDeg": round(math.degrees(math.asin(MOON_RADIUS_KM / moon.distance.km)), 5),
    }


print(
    json.dumps(
        {
            "what": "The Moon's disk as seen from a place, no refraction",
            "by": f"astropy {astropy.__version__} (built-in ephemeris)",
            "writtenBy": "scripts/reference/make_moon_phases.py",
            "cases": [case(*one) for one in CASES],
        },
        indent=1,
    )
)
