"""Writes test/reference/sun-moon-planets.json: topocentric apparent places of Sun, Moon and planets by ERFA.

    /usr/bin/python3 scripts/reference/make_erfa_sun_moon_planets.py

Needs Debian's python3-erfa and python3-numpy. No file of ephemerides is used: the Earth and the Sun come from
ERFA's epv00, the Moon from moon98, the planets from plan94. Every body goes the same way:
  position from the observer (geocentre and site, from apco) at the moment light left it (three iterations),
  aberration (ab), bias-precession-nutation (apco's matrix), Earth rotation and diurnal aberration (atioq).
UT1 = UTC, no polar motion, no refraction, centre of the disc. TT of the bodies' places: leap seconds from 1972 to
2026, else UT1 plus delta T by Espenak and Meeus (ERFA alone would hold TAI - UTC at 0 before 1960 and at 37 s for
ever, and the Moon moves half an arcsecond a second). Light deflection is left out: it is under 0.05 arcsec
more than 10 degrees from the Sun, and no planet nearer than that is written.
"""

import json
import pathlib
import warnings

import erfa
import numpy as np

from delta_t import espenak_meeus_s
from make_erfa_directions import utc_two_part

OUT = pathlib.Path(__file__).resolve().parents[2] / "test" / "reference" / "sun-moon-planets.json"
PLANETS = {"Mercury": 1, "Venus": 2, "Mars": 4, "Jupiter": 5, "Saturn": 6, "Uranus": 7, "Neptune": 8}
# plan94's documented largest differences from DE200 over 1800-2100: longitude and latitude (arcsec, heliocentric)
# and radius (km).
PLAN94_LIMITS = {
    "Mercury": (7, 1, 500),
    "Venus": (7, 1, 1100),
    "Mars": (26, 1, 9000),
    "Jupiter": (78, 6, 82000),
    "Saturn": (87, 14, 263000),
    "Uranus": (86, 7, 661000),
    "Neptune": (11, 2, 248000),
}
MOON98_LIMIT_ARCSEC = 18.3  # its documented worst case over 1950-2100, geocentric
MOON98_LIMIT_KM = 31.7
AU_KM = 149597870.7
LIGHT_DAYS_PER_AU = 499.004782 / 86400

SUN_CASES = [
    ("1900-03-21T12:00:00Z", 51.4779, 0.0, 0),
    ("1915-09-23T06:00:00Z", -33.8688, 151.2093, 20),
    ("1930-01-15T15:30:00Z", 40.7128, -74.006, 10),
    ("1945-05-08T13:00:00Z", 48.8566, 2.3522, 35),
    ("1957-10-04T19:28:34Z", 45.9647, 63.3052, 90),
    ("1969-07-20T20:17:40Z", 29.7604, -95.3698, 15),
    ("1980-06-21T00:00:00Z", 90.0, 0.0, 0),
    ("1987-04-10T19:21:00Z", 38.9213889, -77.0655556, 0),
    ("1992-10-13T00:00:00Z", 35.6762, 139.6503, 40),
    ("1998-07-12T01:15:00Z", -33.0458, -71.6197, 41),
    ("2000-01-01T12:00:00Z", 0.0, 0.0, 0),
    ("2004-02-29T23:59:59Z", 61.2181, -149.9003, 31),
    ("2012-06-06T01:30:00Z", 19.8207, -155.4681, 4000),
    ("2017-08-21T18:25:32Z", 36.966, -87.671, 170),
    ("2024-12-21T09:20:00Z", -90.0, 0.0, 2835),
    ("2030-06-01T05:21:00Z", 43.0618, 141.3545, 20),
    ("2043-11-11T11:11:11Z", -1.2921, 36.8219, 1795),
    ("2050-03-20T10:19:00Z", 64.1466, -21.9426, 10),
    ("2075-08-08T20:00:00Z", -54.8019, -68.303, 30),
    ("2100-12-31T12:00:00Z", 1.3521, 103.8198, 15),
]

PLANET_CASES = [
    ("1950-01-01T00:00:00Z", 51.4779, 0.0, 47),
    ("1958-08-14T09:00:00Z", 35.6762, 139.6503, 40),
    ("1969-07-20T20:17:40Z", 29.7604, -95.3698, 15),
    ("1977-02-18T04:00:00Z", -33.9249, 18.4241, 15),
    ("1985-07-13T12:00:00Z", -33.8688, 151.2093, 20),
    ("1992-04-12T00:00:00Z", 48.8566, 2.3522, 35),
    ("1998-07-12T01:15:00Z", -33.0458, -71.6197, 41),
    ("2004-06-08T20:20:00Z", 64.1466, -21.9426, 10),
    ("2010-01-15T07:06:00Z", -1.2921, 36.8219, 1795),
    ("2019-07-02T20:39:00Z", -30.2446, -70.7494, 2200),
    ("2026-11-25T22:00:00Z", 0.0, -180.0, 0),
    ("2035-09-02T01:10:00Z", 90.0, 0.0, 0),
    ("2050-06-21T12:00:00Z", 19.8207, -155.4681, 4000),
]


def context_with_delta_t(utc, lat_deg, lon_deg, elevation_m):
    """As apco13 builds it, but with TT as the top of this file says; (context, two-part TT, TT - UTC in s)."""
    u1, u2 = utc_two_part(utc)
    year = int(utc[:4]) + (int(utc[5:7]) - 0.5) / 12
    if 1972 <= year < 2027:
        tt1, tt2 = erfa.taitt(*erfa.utctai(u1, u2))
        tt_minus_utc_s = ((tt1 - u1) + (tt2 - u2)) * 86400
    else:
        tt_minus_utc_s = espenak_meeus_s(year)
        tt1, tt2 = u1, u2 + tt_minus_utc_s / 86400
    heliocentric, barycentric = erfa.epv00(tt1, tt2)
    place = np.radians(lon_deg), np.radians(lat_deg), elevation_m
    earth_rotation, tio = erfa.era00(u1, u2), erfa.sp00(tt1, tt2)
    astrom = erfa.apco(
        tt1, tt2, barycentric, heliocentric["p"], *erfa.xys06a(tt1, tt2), earth_rotation, *place, 0, 0, tio, 0, 0
    )
    return astrom, (tt1, tt2), float(tt_minus_utc_s)


def sun_barycentric_au(tt1, tt2):
    heliocentric, barycentric = erfa.epv00(tt1, tt2)
    return barycentric["p"] - heliocentric["p"]


def body_barycentric_au(body, tt1, tt2):
    if body == "Sun":
        return sun_barycentric_au(tt1, tt2)
    if body == "Moon":
        return erfa.epv00(tt1, tt2)[1]["p"] + erfa.moon98(tt1, tt2)["p"]
    return sun_barycentric_au(tt1, tt2) + erfa.plan94(tt1, tt2, PLANETS[body])["p"]


def topocentric(body, astrom, tt):
    """Azimuth, altitude (deg), distance (au) of the body, and the observer's vector to it (au)."""
    light_days = 0.0
    for _ in range(4):
        from_observer = body_barycentric_au(body, tt[0], tt[1] - light_days) - astrom["eb"]
        distance_au = float(np.linalg.norm(from_observer))
        light_days = distance_au * LIGHT_DAYS_PER_AU
    proper = erfa.ab(from_observer / distance_au, astrom["v"], astrom["em"], astrom["bm1"])
    ra_cirs, dec_cirs = erfa.c2s(astrom["bpn"] @ proper)
    az, zd, *_ = erfa.atioq(ra_cirs, dec_cirs, astrom)
    return float(np.degrees(az) % 360), float(90 - np.degrees(zd)), distance_au, from_observer


def bound_arcsec(body, distance_au, heliocentric_au):
    """The model's documented worst error as seen from the Earth, and 1 arcsec for what was left out."""
    if body == "Sun":
        return 1.0  # epv00: 13.4 km at the worst over 1900-2100, 0.02 arcsec; the rest is for the other side's model
    if body == "Moon":
        return MOON98_LIMIT_ARCSEC * 384400 / (distance_au * AU_KM) * 1.05 + 1.0
    lon, lat, radius_km = PLAN94_LIMITS[body]
    across_au = np.hypot(lon, lat) * heliocentric_au
    along_au = np.degrees(radius_km / AU_KM) * 3600  # at the worst it lies wholly across the line of sight
    return float(np.hypot(across_au, along_au) / distance_au + 1.0)


def row(body, astrom, tt):
    az, alt, distance_au, vector = topocentric(body, astrom, tt)
    heliocentric_au = float(np.linalg.norm(vector + astrom["eh"] * astrom["em"]))
    from_sun = np.degrees(np.arccos(np.clip(vector @ -astrom["eh"] / distance_au, -1, 1)))
    if body != "Sun" and body != "Moon" and from_sun < 10:
        return None
    return {
        "body": body,
        "azimuthDeg": round(az, 6),
        "altitudeDeg": round(alt, 6),
        "distanceAu": round(distance_au, 6),
        "toleranceArcsec": round(bound_arcsec(body, distance_au, heliocentric_au), 1),
    }


def main():
    warnings.simplefilter("ignore", erfa.ErfaWarning)  # dubious years before 1960 and after the leap-second list
    cases = []
    for bodies, places in ((["Sun"], SUN_CASES), (["Sun", "Moon", *PLANETS], PLANET_CASES)):
        for utc, lat, lon, height in places:
            astrom, tt, tt_minus_utc_s = context_with_delta_t(utc, lat, lon, height)
            rows = [r for r in (row(b, astrom, tt) for b in bodies) if r]
            offset = {"ttMinusUtcS": round(tt_minus_utc_s, 3)}
            cases.append((dict(utc=utc, latitudeDeg=lat, longitudeDeg=lon, elevationM=height, **offset), rows))
    header = {
        "what": "Topocentric apparent azimuth (true north through east) and altitude of the disc's centre, no refraction",
        "erfa": f"ERFA {erfa.version.erfa_version} (SOFA {erfa.version.sofa_version}) through pyerfa {erfa.__version__}",
        "recipe": "epv00 (Earth, Sun), moon98, plan94; from the observer at the light-time moment; ab; apco's "
        "bias-precession-nutation; atioq; UT1 = UTC, no polar motion, pressure 0; no light deflection; TT by leap "
        "seconds 1972-2026, else by delta T of Espenak and Meeus",
        "tolerance": "toleranceArcsec is the ERFA model's own documented worst error seen from the Earth (plan94 "
        "against DE200 1800-2100; moon98 against ELP/MPP02 1950-2100: 18.3 arcsec) and 1 arcsec more. "
        "A test adds its own model's stated error.",
        "leftOut": "Planets within 10 degrees of the Sun",
        "writtenBy": "scripts/reference/make_erfa_sun_moon_planets.py",
    }
    compact = lambda value: json.dumps(value, separators=(",", ":"), ensure_ascii=False)
    lines = ["{"] + [f" {compact(k)}: {compact(v)}," for k, v in header.items()] + [' "cases": [']
    for i, (place, rows) in enumerate(cases):
        bodies = ",\n".join(f"   {compact(r)}" for r in rows)
        lines.append(f'  {compact(place)[:-1]},"bodies":[\n{bodies}]}}{"," if i < len(cases) - 1 else ""}')
    OUT.write_text("\n".join([*lines, " ]", "}", ""]))
    print(f"{len(cases)} cases, {sum(len(r) for _, r in cases)} places, {OUT.stat().st_size} bytes")


if __name__ == "__main__":
    main()
