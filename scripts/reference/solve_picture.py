"""An independent blind plate solver: which part of the sky does a preview or a list of holes show, and which way round?

    /usr/bin/python3 scripts/reference/solve_picture.py preview.png --kind gnomonic
    /usr/bin/python3 scripts/reference/solve_picture.py schedule.csv --kind stereographic --x ceiling_x_mm \\
        --y ceiling_y_mm --size 3000 2400

It shares no code with the project: dots, the open star table, and the radial law of the projection named are all it
uses. Scale, place, roll and parity are found by search. Needs python3-numpy, and python3-pil for pictures. Stars
are at their J2000 places: precession is a turn of the sky and goes into the answer, whose centre is of J2000.

Prints JSON:
  centreRaDeg, centreDecDeg   of the picture's middle, J2000
  rollDeg       counter-clockwise in the picture as given, from +y (up) to celestial north at the middle
  parity        "seen-from-below" (north up, east left) or "mirrored"
  unitsPerRadian, spanDeg, widthDeg   scale at the projection's centre (px or mm); across the longer side; across x
  projectionCentre            where the aim lies, from the lower-left corner (the middle unless told or freed)
  matched, of, rms            dots of the brightest hundred within 0.35 degrees (at the centre's scale) of a star
  otherParityMatched          the same for the best solution of the other parity
  solved                      matched is at least half of `of` and twice the other parity's
Ends with 1 when not solved.
"""

import argparse
import json
import pathlib
import sys

import numpy as np

import picture_dots
import source_tables
from star_search import RADIAL, SPANS_DEG, Sky, camera_directions, solve


def arguments():
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("file", help="PNG, or CSV of holes")
    options.add_argument("--kind", choices=list(RADIAL), required=True)
    options.add_argument("--span", type=float, help="hint: degrees across the longer side; 5 %% either way is searched")
    options.add_argument("--centre", type=float, nargs=2, metavar=("X", "Y"), help="the projection's centre, px or mm")
    options.add_argument("--free-centre", action="store_true", help="let the fit move the projection's centre")
    options.add_argument("--size", type=float, nargs=2, metavar=("WIDTH", "LENGTH"), help="of the ceiling, for a CSV")
    options.add_argument("--x", default="x_mm", help="CSV column, default x_mm")
    options.add_argument("--y", default="y_mm", help="CSV column, default y_mm")
    options.add_argument("--diameter", default="diameter_mm", help="CSV column, default diameter_mm")
    options.add_argument("--threshold", type=float, default=0.2, help="of the brightest pixel, default 0.2")
    options.add_argument("--source", default=source_tables.SOURCE, help="folder of the star table")
    return options.parse_args()


def middle_of(solution, size):
    """RA, Dec and roll (degrees) at the picture's middle."""
    middle = np.array(size) / 2
    h = 1e-4 * solution.units_per_radian
    points = np.array([middle, middle + (h, 0), middle + (0, h)])
    v = camera_directions(
        solution.kind, solution.parity, solution.units_per_radian, solution.centre, points[:, 0], points[:, 1]
    )
    at, right, up = v @ solution.turn.T
    ra, dec = np.arctan2(at[1], at[0]), np.arcsin(np.clip(at[2], -1, 1))
    # North's components along the picture's axes: d(declination) per step to the right and up, by the local axes.
    north = np.array([-np.sin(dec) * np.cos(ra), -np.sin(dec) * np.sin(ra), np.cos(dec)])
    east = np.array([-np.sin(ra), np.cos(ra), 0])
    # Solve steps (right, up) that lead due north on the sky: exact also where the scale differs with direction.
    steps = np.array([[(right - at) @ east, (up - at) @ east], [(right - at) @ north, (up - at) @ north]])
    dx, dy = np.linalg.solve(steps, [0, 1])
    return float(np.degrees(ra) % 360), float(np.degrees(dec)), float(np.degrees(np.arctan2(-dx, dy)) % 360)


def main():
    args = arguments()
    if pathlib.Path(args.file).suffix.lower() == ".csv":
        x, y, strength, size = picture_dots.dots_of_holes(args.file, args.x, args.y, args.diameter, args.size)
    else:
        x, y, strength, size = picture_dots.dots_of_picture(args.file, args.threshold)
    if len(x) < 20:
        raise SystemExit(f"{args.file}: {len(x)} dots; 20 are needed")
    table = source_tables.stars(args.source)
    bright = table["v_mag"] < 6.6
    sky = Sky(source_tables.unit_vectors(table["ra_deg"][bright], table["dec_deg"][bright]), table["v_mag"][bright])
    low, high = SPANS_DEG[args.kind]
    spans = (max(low, args.span * 0.95), min(high, args.span * 1.05)) if args.span else (low, high)
    centre = args.centre or (size[0] / 2, size[1] / 2)
    report = lambda words: print(words, file=sys.stderr)
    report(f"{len(x)} dots in {size[0]:g} x {size[1]:g}")
    best, other = solve(args.kind, sky, x, y, strength, size, centre, spans, args.free_centre, report)
    ra, dec, roll = middle_of(best, size)
    across = lambda length: float(2 * np.degrees(RADIAL[args.kind][1](length / 2 / best.units_per_radian)))
    solved = best.matched * 2 >= best.of and best.matched >= 2 * other.matched
    result = {
        "solved": bool(solved),
        "kind": args.kind,
        "centreRaDeg": round(ra, 4),
        "centreDecDeg": round(dec, 4),
        "rollDeg": round(roll, 3),
        "parity": best.parity,
        "unitsPerRadian": round(best.units_per_radian, 3),
        "spanDeg": round(across(max(size)), 3),
        "widthDeg": round(across(size[0]), 3),
        "projectionCentre": [round(float(c), 2) for c in best.centre],
        "dots": len(x),
        "matched": best.matched,
        "of": best.of,
        "rms": round(best.rms, 3),
        "otherParityMatched": other.matched,
    }
    print(json.dumps(result))
    sys.exit(0 if solved else 1)


if __name__ == "__main__":
    main()
