#!/usr/bin/python3
"""Points on the IAU constellation boundaries, found with astropy alone: test/reference/boundary-points.json.

astropy carries its own copy of Roman's table (CDS VI/42) and has the mean equator of B1875 as FK5 (its get_constellation is
not used: it adds aberration, up to 20 arcseconds). Pairs of random directions up to 6 degrees apart are halved until both
ends of what is left lie 0.05 arcseconds apart in different constellations. Half of the pairs lie anywhere, half within 20
degrees of a pole.

It also rebuilds the sky from the arcs of data/boundaries.tsv alone, once by its parallels and once by its meridians,
compares it with that table cell by cell, and prints how many differ.

Run: /usr/bin/python3 scripts/reference/make_boundary_points.py     (Debian: python3-astropy, python3-numpy)
"""
import json
import os
import warnings

import astropy
import numpy as np
from astropy.coordinates import FK5, SkyCoord, UnitSphericalRepresentation
from astropy.time import Time

warnings.filterwarnings("ignore")
HERE = os.path.dirname(os.path.abspath(__file__))
ROOT = os.path.join(HERE, "..", "..")
ROMAN = os.path.join(os.path.dirname(astropy.__file__), "coordinates", "data", "constellation_data_roman87.dat")


def code_of(v):
    """By Roman's rule: the first row whose limits hold. Mean equator of B1875 by IAU 1976 precession (FK5)."""
    sky = SkyCoord(v[:, 0], v[:, 1], v[:, 2], representation_type="cartesian", frame="icrs")
    at = sky.transform_to(FK5(equinox=Time("B1875"))).represent_as(UnitSphericalRepresentation)
    seconds, half = at.lon.hour * 3600, (at.lat.deg + 90) * 120
    code = np.full(len(v), "---")
    for first, last, bottom, name in reversed(read_roman()):
        code[(seconds >= first) & (seconds < last) & (half >= bottom)] = name
    assert not (code == "---").any()
    return code


def unit(v):
    return v / np.linalg.norm(v, axis=1)[:, None]


def crossings(seed=1875, pairs=1800):
    rng = np.random.default_rng(seed)
    a = unit(rng.normal(size=(pairs, 3)))
    near_pole = np.arange(pairs) % 2 == 1
    a[near_pole] = unit(np.c_[rng.uniform(-0.25, 0.25, (near_pole.sum(), 2)), rng.choice([-1, 1], near_pole.sum())])
    b = unit(a + rng.uniform(-0.06, 0.06, size=(pairs, 3)))
    code_a, code_b = code_of(a), code_of(b)
    keep = code_a != code_b
    a, b, code_a, code_b = a[keep], b[keep], code_a[keep], code_b[keep]
    for _ in range(21):
        middle = unit(a + b)
        code = code_of(middle)
        to_a = code == code_a
        a = np.where(to_a[:, None], middle, a)
        b = np.where(to_a[:, None], b, middle)
        code_b = np.where(to_a, code_b, code)
    middle = unit(a + b)
    ra = np.degrees(np.arctan2(middle[:, 1], middle[:, 0])) % 360
    dec = np.degrees(np.arcsin(middle[:, 2]))
    return [
        {"raDeg": round(float(r), 6), "decDeg": round(float(d), 6), "sides": sorted([str(p), str(q)])}
        for r, d, p, q in zip(ra, dec, code_a, code_b)
    ]


def read_roman():
    """Limits as whole seconds of time and half arcminutes from the south pole."""
    rows = [line.split() for line in open(ROMAN) if line.strip() and not line.startswith("#")]
    scaled = [(float(a) * 3600, float(b) * 3600, (float(d) + 90) * 120, code) for a, b, d, code in rows]
    for row in scaled:  # printed to four decimals of an hour (0.36 s) and of a degree (0.012 half arcminutes)
        assert all(abs(value - round(value)) < 0.19 for value in row[:3]), row
    return [(round(a), round(b), round(d), code) for a, b, d, code in scaled]


def read_arcs():
    with open(os.path.join(ROOT, "data", "boundaries.tsv")) as file:
        rows = [line.rstrip("\n").split("\t") for line in file][1:]
    half = lambda arcmin: round((float(arcmin) + 5400) * 2)
    return [(row[0], int(row[1]), half(row[2]), int(row[3]), half(row[4]), row[5], row[6]) for row in rows]


def compare():
    """Both as cells between all the limits that occur in either: exact, however fine the limits are."""
    roman, arcs = read_roman(), read_arcs()
    codes = sorted({row[3] for row in roman})
    ra = sorted({0, 86400} | {v for r in roman for v in r[:2]} | {v % 86400 for a in arcs for v in (a[1], a[3])})
    dec = sorted({0, 21600} | {r[2] for r in roman} | {v for a in arcs for v in (a[2], a[4])})
    at_ra, at_dec = {v: i for i, v in enumerate(ra)}, {v: i for i, v in enumerate(dec)}
    shape = (len(dec) - 1, len(ra) - 1)

    wanted = np.full(shape, codes.index("Oct"), np.int16)
    for first, last, bottom, code in reversed(roman):  # the first row that holds wins: painted last
        wanted[at_dec[bottom] :, at_ra[first] : at_ra[last]] = codes.index(code)

    step = np.zeros(shape, np.int16)  # what changes across each parallel, then summed from Octans northward
    sideways = np.zeros(shape, np.int16)  # what changes across each meridian
    for along, ra0, dec0, ra1, dec1, low, high in arcs:
        change = codes.index(high) - codes.index(low)
        if along == "parallel":
            pieces = [(ra0, ra1)] if ra1 <= 86400 else [(ra0, 86400), (0, ra1 - 86400)]
            for first, last in pieces:
                step[at_dec[dec0], at_ra[first] : at_ra[last]] += change
        else:
            sideways[at_dec[dec0] : at_dec[dec1], at_ra[ra0]] += change
    ours = np.cumsum(step, axis=0) + codes.index("Oct")
    by_meridians = np.abs(sideways - (ours - np.roll(ours, 1, axis=1))).sum()

    # Area of each constellation, square degrees, from astropy's table.
    height = np.diff(np.sin(np.radians(np.array(dec) / 120 - 90)))
    width = np.diff(np.array(ra)) / 240
    area = np.degrees(height)[:, None] * width[None, :]
    areas = {code: float(area[wanted == i].sum()) for i, code in enumerate(codes)}
    return int((ours != wanted).sum()), int(by_meridians), ours.size, areas


def main():
    points = crossings()
    path = os.path.join(ROOT, "test", "reference", "boundary-points.json")
    with open(path, "w") as file:
        file.write(
            json.dumps({"source": f"astropy {astropy.__version__}: FK5 of equinox B1875, table of Roman 1987 (CDS VI/42)", "points": points}, indent=None)
            .replace("}, ", "},\n")
            .replace('"points": [', '"points": [\n')
            + "\n"
        )
    by_parallels, by_meridians, size, areas = compare()
    print(f"{len(points)} points; of {size} cells {by_parallels} differ from Roman's table, {by_meridians} across meridians")
    print(f"{len(areas)} constellations, {sum(areas.values()):.3f} square degrees")


if __name__ == "__main__":
    main()
