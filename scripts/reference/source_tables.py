"""The open tables of data/source as numpy arrays, for scripts that must share no code with the project.

Their origin, licence and columns are in data/source (README and LICENCE files there).
"""

import csv
import gzip
import io
import pathlib

import numpy as np

SOURCE = pathlib.Path(__file__).resolve().parents[2] / "data" / "source"


def stars(folder=SOURCE):
    """hip, ra_deg, dec_deg (J2000, epoch 2000), v_mag of every row of xhip-stars.csv.gz, in file order."""
    with gzip.open(pathlib.Path(folder) / "xhip-stars.csv.gz", "rt") as f:
        rows = np.loadtxt(f, delimiter=",", skiprows=1, usecols=(0, 1, 2, 3))
    return {
        "hip": rows[:, 0].astype(int),
        "ra_deg": rows[:, 1],
        "dec_deg": rows[:, 2],
        "v_mag": rows[:, 3],
    }


def proper_motions(folder=SOURCE):
    """ra_deg, dec_deg, and the motions as mas/yr of arc, RA times cos(dec) taken in.

    The table gives seconds of time a century: 1 s = 15 arcsec, so s/century * 15000 / 100 = mas/yr.
    """
    text = (pathlib.Path(folder) / "proper-motions.csv").read_text()
    rows = list(csv.DictReader(io.StringIO(text)))
    column = lambda name: np.array([float(r[name]) for r in rows])
    dec_deg = column("dec_deg")
    return {
        "ra_deg": column("ra_deg"),
        "dec_deg": dec_deg,
        "pm_ra_cos_dec_mas": column("pm_ra_s_per_century") * 150 * np.cos(np.radians(dec_deg)),
        "pm_dec_mas": column("pm_dec_arcsec_per_century") * 10,
    }


def unit_vectors(ra_deg, dec_deg):
    """Rows x, y, z toward each right ascension and declination."""
    ra, dec = np.radians(ra_deg), np.radians(dec_deg)
    return np.stack([np.cos(dec) * np.cos(ra), np.cos(dec) * np.sin(ra), np.sin(dec)], axis=-1)
