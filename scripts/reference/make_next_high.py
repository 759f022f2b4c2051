"""Writes test/reference/next-high.json: when a target below the horizon is next high in the dark, found minute by minute.

    /usr/bin/python3 scripts/reference/make_next_high.py

Needs Debian's python3-astropy and python3-numpy. Offline. Targets are ICRS places without proper motion; AltAz without refraction
(pressure 0); UT1 - UTC from the bundled IERS table, 0 outside it. High: 30 degrees, or, for a target whose highest altitude in the
first 24 hours is h, h - 5 or h / 2 (whichever is more) where that is less. Dark: the Sun's centre below -12 degrees.
`utc` is the first whole minute that is both, within 367 days; null with `inLightUtc`, the first whole minute that is high, where
none is dark; both null where the target does not rise.
"""

import json
import pathlib
import warnings

import astropy
import astropy.units as u
import numpy as np
from astropy.coordinates import AltAz, EarthLocation, SkyCoord, get_sun
from astropy.time import Time
from astropy.utils import iers

OUT = pathlib.Path(__file__).resolve().parents[2] / "test" / "reference" / "next-high.json"

# what, latitude, longitude, UTC, right ascension (hours), declination
CASES = [
    ("a northern star over Porto, later that night", 41.15, -8.61, "2004-02-29T21:00", 18.6156, 38.7837),
    ("a low southern star over Porto, in another season", 41.15, -8.61, "2004-02-29T21:00", 22.9608, -29.6222),
    ("a low northern star over Valparaiso", -33.0458, -71.6197, "1998-07-11T19:00", 18.6156, 38.7837),
    ("Orion's Belt in the polar summer of Longyearbyen", 78.2232, 15.6469, "2004-05-01T23:00", 5.6, -1.2),
    ("a target that at 66 degrees north is up only by day", 66.0, 25.0, "2010-01-10T00:00", 18.0, -23.0),
    ("a target of the other sky over Sydney", -33.8688, 151.2093, "1985-11-13T10:00", 10.5, 40.0),
    ("the Southern Cross from Porto", 41.15, -8.61, "2004-02-29T21:00", 12.45, -60.2),
    ("a southern star from the North Pole", 90.0, 0.0, "2004-02-29T21:00", 12.45, -1.0),
]


def main():
    warnings.simplefilter("ignore")
    iers.conf.auto_download = False
    iers.conf.iers_degraded_accuracy = "ignore"
    rows = []
    for what, lat, lon, utc, ra_hours, dec_deg in CASES:
        place = EarthLocation(lat=lat * u.deg, lon=lon * u.deg, height=0 * u.m)
        star = SkyCoord(ra=ra_hours * 15 * u.deg, dec=dec_deg * u.deg, frame="icrs")
        minutes = np.arange(1, 24 * 60 + 1) / 1440

        def altitude(of, t):
            return of.transform_to(AltAz(obstime=t, location=place)).alt.deg

        start = Time(utc)
        assert altitude(star, start) < 0, what
        highest = altitude(star, start + minutes).max()
        high = min(30, max(highest - 5, highest / 2))
        found = in_light = None
        for day in range(367 if highest > 0 else 0):
            t = start + (day + minutes)
            is_high = altitude(star, t) >= high
            if in_light is None and is_high.any():
                in_light = t[is_high][0]
            if not is_high.any():
                continue
            good = np.flatnonzero(is_high)[altitude(get_sun(t[is_high]), t[is_high]) < -12]
            if good.size:
                found = t[good[0]]
                break
        iso = lambda t: None if t is None else t.isot[:16] + ":00Z"
        rows.append(
            {
                "what": what,
                "latitudeDeg": lat,
                "longitudeDeg": lon,
                "fromUtc": utc + "Z",
                "rightAscension": ra_hours,
                "declination": dec_deg,
                "belowDeg": round(-float(altitude(star, start)), 2),
                "highestDeg": round(float(highest), 3),
                "utc": iso(found),
                "inLightUtc": None if found is not None else iso(in_light),
            }
        )
        print(rows[-1])
    source = f"astropy {astropy.__version__}, minute by minute; scripts/reference/make_next_high.py"
    lines = ",\n".join("    " + json.dumps(row) for row in rows)
    OUT.write_text(f'{{\n  "source": {json.dumps(source)},\n  "rows": [\n{lines}\n  ]\n}}\n')


main()
