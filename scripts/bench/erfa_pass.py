"""Times ERFA over the whole star table, on one core: the side that Lacunar's own pass is measured against.

    /usr/bin/python3 scripts/bench/erfa_pass.py [--source DIR] [--runs N]

Needs Debian's python3-erfa and python3-numpy. Prints one line of JSON:
  {"n", "erfa", "runs", "contextMs", "vectorsMs": [min, median, max], "altAzMs": [...], ...}
Reading the table, the arrays in radians and the one apco13 context are made beforehand and not counted (the
context's own time is given). Counted, over arrays and with no loop in Python:
  altAzMs    pmsafe, atciq, atioq, and altitude = 90 degrees - zenith distance, both in degrees
  vectorsMs  unit vectors (east, north, up): the faster of two ways, both reported:
    vectorsByMatrixMs  pmsafe, atciq, then one product with the matrix of CIRS to horizon and diurnal aberration
    vectorsByAtioqMs   pmsafe, atciq, atioq, then sines and cosines
For a sterner comparison the same without pmsafe (atciq moving the stars itself) stands under "withoutPmsafe".
"""

import argparse
import json
import os
import pathlib
import statistics
import sys
import time
import warnings

for name in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ[name] = "1"  # read when numpy loads: one core

import erfa
import numpy as np

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "reference"))
import source_tables

UTC, LATITUDE_DEG, LONGITUDE_DEG, ELEVATION_M = (1998, 7, 12, 1, 15, 0.0), -33.0458, -71.6197, 41.0


def build_context():
    u1, u2 = erfa.dtf2d("UTC", *UTC)
    place = np.radians(LONGITUDE_DEG), np.radians(LATITUDE_DEG), ELEVATION_M
    astrom, _ = erfa.apco13(u1, u2, 0.0, *place, 0, 0, 0, 0, 0, 0.55)
    return astrom, erfa.taitt(*erfa.utctai(u1, u2))


def star_arrays(folder):
    """All stars in radians; proper motion zero for most, as in the table of motions for the 6,800 it knows."""
    table = source_tables.stars(folder)
    ra, dec = np.radians(table["ra_deg"]), np.radians(table["dec_deg"])
    motions = source_tables.proper_motions(folder)
    pr, pd = np.zeros(len(ra)), np.zeros(len(ra))
    # Which star gets which motion is of no account to the clock: spread them evenly over the table.
    away_from_poles = np.flatnonzero(np.abs(table["dec_deg"]) < 89)
    at = away_from_poles[np.linspace(0, len(away_from_poles) - 1, len(motions["dec_deg"])).astype(int)]
    mas = np.radians(1 / 3.6e6)
    pr[at] = motions["pm_ra_cos_dec_mas"] * mas / np.cos(dec[at])
    pd[at] = motions["pm_dec_mas"] * mas
    return ra, dec, pr, pd


def cirs_to_enu(astrom):
    """Rows east, north, up of the horizon frame in CIRS axes, from the context's Earth rotation and latitude."""
    s, c = np.sin(astrom["eral"]), np.cos(astrom["eral"])
    sphi, cphi = astrom["sphi"], astrom["cphi"]
    return np.array([[-s, c, 0.0], [-sphi * c, -sphi * s, cphi], [cphi * c, cphi * s, sphi]])


def main():
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--source", default=source_tables.SOURCE, help="folder of the source tables")
    options.add_argument("--runs", type=int, default=9)
    args = options.parse_args()
    warnings.simplefilter("ignore", erfa.ErfaWarning)  # pmsafe notes that it put every star at a finite distance
    if hasattr(os, "sched_setaffinity"):
        os.sched_setaffinity(0, {min(os.sched_getaffinity(0))})
    ra, dec, pr, pd = star_arrays(args.source)
    start = time.perf_counter()
    astrom, tt = build_context()
    to_enu = cirs_to_enu(astrom)
    context_ms = (time.perf_counter() - start) * 1e3

    def with_pmsafe():
        a, d, *_ = erfa.pmsafe(ra, dec, pr, pd, 0.0, 0.0, erfa.DJ00, 0.0, tt[0], tt[1])
        return erfa.atciq(a, d, 0.0, 0.0, 0.0, 0.0, astrom)

    def without_pmsafe():
        return erfa.atciq(ra, dec, pr, pd, 0.0, 0.0, astrom)

    def by_matrix(ri, di):
        enu = erfa.s2c(ri, di) @ to_enu.T
        enu[:, 0] += astrom["diurab"]  # diurnal aberration is toward east; to the first order, as in atioq
        enu /= np.sqrt(np.einsum("ij,ij->i", enu, enu))[:, None]
        return enu

    def by_atioq(ri, di):
        az, zd, *_ = erfa.atioq(ri, di, astrom)
        sin_zd = np.sin(zd)
        return np.stack([sin_zd * np.sin(az), sin_zd * np.cos(az), np.cos(zd)], axis=-1)

    def alt_az(ri, di):
        az, zd, *_ = erfa.atioq(ri, di, astrom)
        return np.degrees(az), 90.0 - np.degrees(zd)

    def timed(cirs, finish):
        finish(*cirs())  # warm-up
        ms = []
        for _ in range(args.runs):
            start = time.perf_counter()
            finish(*cirs())
            ms.append((time.perf_counter() - start) * 1e3)
        return [round(f(ms), 2) for f in (min, statistics.median, max)]

    apart = np.abs(by_matrix(*with_pmsafe()) - by_atioq(*with_pmsafe())).max()
    if apart > 1e-9:
        raise SystemExit(f"the two ways to a vector differ by {apart:.1e}: nothing timed")

    def all_ways(cirs):
        matrix, atioq = timed(cirs, by_matrix), timed(cirs, by_atioq)
        return {
            "vectorsMs": min(matrix, atioq, key=lambda t: t[1]),
            "altAzMs": timed(cirs, alt_az),
            "vectorsByMatrixMs": matrix,
            "vectorsByAtioqMs": atioq,
        }

    result = {
        "n": len(ra),
        "erfa": erfa.version.erfa_version,
        "runs": args.runs,
        "contextMs": round(context_ms, 2),
        **all_ways(with_pmsafe),
        "withoutPmsafe": all_ways(without_pmsafe),
    }
    print(json.dumps(result))


if __name__ == "__main__":
    main()
