"""Writes test/reference/erfa-directions.json: apparent directions of stars by ERFA, the open issue of SOFA.

    /usr/bin/python3 scripts/reference/make_erfa_directions.py [--source DIR]

Needs Debian's python3-erfa and python3-numpy. The seed is fixed: the same ERFA writes the same bytes.
"""

import argparse
import json
import pathlib
import warnings

import erfa
import numpy as np

import source_tables

HERE = pathlib.Path(__file__).resolve()
OUT = HERE.parents[2] / "test" / "reference" / "erfa-directions.json"
SEED = 19980711
MAS_TO_RAD = np.radians(1 / 3.6e6)
STARS_PER_CASE, TABLE_MOTIONS, EXTREME_MOTIONS = 60, 24, 6
SUN_LIMIT_DEG = 5.0

RECIPE = (
    "Catalogue place: equinox and epoch J2000.0, parallax 0, radial velocity 0. "
    "pmsafe carries it from J2000.0 to the instant (TT in place of TDB), with pm in RA divided by cos dec. "
    "apco13 builds the context of the instant: UT1 = UTC, xp = yp = 0, pressure 0 (no refraction), WGS84 place. "
    "atciq then takes the moved place with proper motion, parallax and radial velocity all 0, so that proper motion "
    "is applied exactly once (handing the motion to atciq as well would apply it twice). "
    "atioq gives azimuth (north through east) and zenith distance; altitude is 90 degrees less that."
)

# Chosen places: both poles, the equator, the date line, high ground, the demo's town. Others are random.
CHOSEN = [
    ("1900-01-01T00:00:00Z", 90, 0, 0),
    ("2100-12-31T23:59:59Z", -90, 0, 2835),
    ("2000-01-01T12:00:00Z", 0, 0, 0),
    ("1950-06-15T06:30:00Z", 0, 180, 0),
    ("2050-03-21T00:00:00Z", 0, -180, 4000),
    ("1998-07-12T01:15:00Z", -33.0458, -71.6197, 41),
    ("1971-12-31T12:00:00Z", 51.4779, 0, 47),
    ("1972-01-01T00:00:01Z", -89.9, 139.27, 2800),
    ("2017-07-01T00:00:00Z", 89.99, -45, 0),
    ("1900-07-04T18:00:00Z", 40.7128, -74.006, 10),
    ("2099-12-01T03:00:00Z", -16.5, -68.15, 3640),
    ("2026-11-25T22:00:00Z", 66.5622, 25.85, 100),
    ("1936-02-29T10:10:10Z", -54.8019, -68.303, 30),
    ("1969-07-20T20:17:40Z", 29.7604, -95.3698, 15),
]


def random_cases(rng, n):
    """Instants to the second over 1900-2100, places even over the sphere, heights 0-4000 m."""
    start, end = np.datetime64("1900-01-01T00:00:00"), np.datetime64("2101-01-01T00:00:00")
    span = int((end - start).astype(int))
    for _ in range(n):
        utc = str(start + np.timedelta64(int(rng.integers(span)), "s")) + "Z"
        lat = round(float(np.degrees(np.arcsin(rng.uniform(-1, 1)))), 4)
        yield (utc, lat, round(float(rng.uniform(-180, 180)), 4), int(rng.integers(0, 4001)))


def utc_two_part(utc):
    date, time = utc.rstrip("Z").split("T")
    (year, month, day), (hour, minute, second) = (map(int, part) for part in (date.split("-"), time.split(":")))
    return erfa.dtf2d("UTC", year, month, day, hour, minute, float(second))


def context(utc, lat_deg, lon_deg, elevation_m):
    u1, u2 = utc_two_part(utc)
    astrom, _ = erfa.apco13(u1, u2, 0.0, np.radians(lon_deg), np.radians(lat_deg), elevation_m, 0, 0, 0, 0, 0, 0.55)
    tt = erfa.taitt(*erfa.utctai(u1, u2))
    return astrom, tt


def apparent(astrom, tt, ra_deg, dec_deg, pm_ra_cos_dec_mas, pm_dec_mas):
    """Azimuth and altitude, degrees, by RECIPE; and by atciq's own proper motion in place of pmsafe, to compare."""
    ra, dec = np.radians(ra_deg), np.radians(dec_deg)
    pr, pd = pm_ra_cos_dec_mas * MAS_TO_RAD / np.cos(dec), pm_dec_mas * MAS_TO_RAD
    moved_ra, moved_dec, *_ = erfa.pmsafe(ra, dec, pr, pd, 0.0, 0.0, erfa.DJ00, 0.0, tt[0], tt[1])
    ways = []
    for place in ((moved_ra, moved_dec, 0.0, 0.0), (ra, dec, pr, pd)):
        ri, di = erfa.atciq(*place, 0.0, 0.0, astrom)
        az, zd, *_ = erfa.atioq(ri, di, astrom)
        ways.append((np.degrees(az) % 360, 90 - np.degrees(zd)))
    return ways


def pick_stars(rng, table, motions, astrom):
    """Sixty stars over the whole sky, none near the Sun, the last ones nearest the celestial poles and the zenith."""
    toward = source_tables.unit_vectors(table["ra_deg"], table["dec_deg"])
    far = toward @ -astrom["eh"] < np.cos(np.radians(SUN_LIMIT_DEG + 0.5))
    bright = table["v_mag"] < 7
    usable = np.flatnonzero(far & bright)
    lat = astrom["phi"]
    zenith = (np.cos(lat) * np.cos(astrom["eral"]), np.cos(lat) * np.sin(astrom["eral"]), np.sin(lat))
    special = []
    for direction in ((0, 0, 1), (0, 0, -1), astrom["bpn"].T @ np.array(zenith)):
        special.append(int(usable[np.argmax(toward[usable] @ np.array(direction))]))
    has_motion = usable[motions["known"][usable]]
    moving = rng.choice(np.setdiff1d(has_motion, special), TABLE_MOTIONS, replace=False)
    rest = np.setdiff1d(usable, np.concatenate([special, moving]))
    others = rng.choice(rest, STARS_PER_CASE - TABLE_MOTIONS - len(special), replace=False)
    index = np.concatenate([moving, others, np.unique(special)]).astype(int)
    pm_ra, pm_dec = np.zeros(len(index)), np.zeros(len(index))
    pm_ra[:TABLE_MOTIONS] = motions["pm_ra_cos_dec_mas"][moving]
    pm_dec[:TABLE_MOTIONS] = motions["pm_dec_mas"][moving]
    # Invented motions, to the size of Barnard's star (10.4 arcsec/yr), in any direction.
    fast = slice(TABLE_MOTIONS, TABLE_MOTIONS + EXTREME_MOTIONS)
    size = np.exp(rng.uniform(np.log(500), np.log(10400), EXTREME_MOTIONS))
    size[0] = 10400
    angle = rng.uniform(0, 2 * np.pi, EXTREME_MOTIONS)
    pm_ra[fast], pm_dec[fast] = size * np.cos(angle), size * np.sin(angle)
    return index, np.round(pm_ra, 3), np.round(pm_dec, 3)


def motions_by_star(table, folder):
    """The proper-motion table's rows laid onto the star within 5 arcsec of each."""
    rows = source_tables.proper_motions(folder)
    stars = source_tables.unit_vectors(table["ra_deg"], table["dec_deg"])
    known = np.zeros(len(stars), bool)
    pm_ra, pm_dec = np.zeros(len(stars)), np.zeros(len(stars))
    limit = np.cos(np.radians(5 / 3600))
    for i, v in enumerate(source_tables.unit_vectors(rows["ra_deg"], rows["dec_deg"])):
        dots = stars @ v
        j = int(np.argmax(dots))
        if dots[j] >= limit:
            known[j], pm_ra[j], pm_dec[j] = True, rows["pm_ra_cos_dec_mas"][i], rows["pm_dec_mas"][i]
    return {"known": known, "pm_ra_cos_dec_mas": pm_ra, "pm_dec_mas": pm_dec}


def separation_arcsec(a, b):
    p, q = (source_tables.unit_vectors(*way) for way in (a, b))
    return np.degrees(2 * np.arcsin(np.linalg.norm(p - q, axis=-1) / 2)) * 3600


def main():
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--source", default=source_tables.SOURCE, help="folder of the source tables")
    folder = options.parse_args().source
    warnings.simplefilter("ignore", erfa.ErfaWarning)  # dubious years before 1960 and after the leap-second list
    rng = np.random.default_rng(SEED)
    table = source_tables.stars(folder)
    motions = motions_by_star(table, folder)
    cases, worst = [], 0.0
    for utc, lat, lon, height in [*CHOSEN, *random_cases(rng, 32)]:
        astrom, tt = context(utc, lat, lon, height)
        index, pm_ra, pm_dec = pick_stars(rng, table, motions, astrom)
        ra, dec = table["ra_deg"][index], table["dec_deg"][index]
        by_recipe, by_atciq = apparent(astrom, tt, ra, dec, pm_ra, pm_dec)
        worst = max(worst, float(separation_arcsec(by_recipe, by_atciq).max()))
        rows = [
            [int(h), float(a), float(d), float(p), float(q), round(float(az), 9), round(float(alt), 9)]
            for h, a, d, p, q, az, alt in zip(table["hip"][index], ra, dec, pm_ra, pm_dec, *by_recipe)
        ]
        cases.append((dict(utc=utc, latitudeDeg=lat, longitudeDeg=lon, elevationM=height), rows))
    header = {
        "what": "Apparent azimuth (true north through east) and altitude of stars, no refraction",
        "erfa": f"ERFA {erfa.version.erfa_version} (SOFA {erfa.version.sofa_version}) through pyerfa {erfa.__version__}",
        "recipe": RECIPE,
        "proofOfReading": f"The same with atciq's own linear proper motion in place of pmsafe: worst {worst:.4f} arcsec",
        "excluded": f"Stars within {SUN_LIMIT_DEG} degrees of the Sun",
        "motions": "First 24 stars of a case: from data/source/proper-motions.csv; next 6: invented, 0.5 to 10.4 "
        "arcsec/yr, the first of them 10.4; the rest zero",
        "seed": SEED,
        "writtenBy": "scripts/reference/make_erfa_directions.py",
        "columns": ["hip", "raDeg", "decDeg", "pmRaCosDecMasPerYr", "pmDecMasPerYr", "azimuthDeg", "altitudeDeg"],
    }
    compact = lambda value: json.dumps(value, separators=(",", ":"), ensure_ascii=False)
    lines = ["{"] + [f" {compact(k)}: {compact(v)}," for k, v in header.items()] + [' "cases": [']
    for i, (place, rows) in enumerate(cases):
        stars = ",\n".join(f"   {compact(r)}" for r in rows)
        lines.append(f'  {compact(place)[:-1]},"stars":[\n{stars}]}}{"," if i < len(cases) - 1 else ""}')
    OUT.write_text("\n".join([*lines, " ]", "}", ""]))
    print(f"{len(cases)} cases, {sum(len(r) for _, r in cases)} stars, {OUT.stat().st_size} bytes; {header['proofOfReading']}")


if __name__ == "__main__":
    main()
