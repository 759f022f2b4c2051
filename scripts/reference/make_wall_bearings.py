"""
Writes test/reference/wall-bearings.json: azimuth and length of short lines between points of a map, by GeographicLib
(Debian: python3-geographiclib), an implementation of geodesics that shares no code or formula with the project.
Places: four towns, the equator, Greenwich, the date line and 78 degrees north; lines of 6, 40 and 4900 m in random directions.
"""

import json
import random
from importlib.metadata import version
from pathlib import Path

from geographiclib.geodesic import Geodesic

PLACES = [
    (41.150123, -8.610345),
    (-33.0458, -71.6197),
    (64.1466, -21.9426),
    (0.0, 100.0),
    (78.2232, 15.6469),
    (-54.8019, -68.303),
    (51.4778, 0.0),
    (-17.7134, 179.99998),
]


def main() -> None:
    random.seed(3)
    rows = []
    for lat, lon in PLACES:
        for length_m in (6.0, 40.0, 4900.0):
            end = Geodesic.WGS84.Direct(lat, lon, random.uniform(0, 360), length_m)
            to = (round(end["lat2"], 6), round(end["lon2"], 6))
            line = Geodesic.WGS84.Inverse(lat, lon, *to)
            rows.append(
                {
                    "from": [lat, lon],
                    "to": list(to),
                    "bearingDeg": round(line["azi1"] % 360, 7),
                    "lengthM": round(line["s12"], 4),
                }
            )
    source = f"GeographicLib {version('geographiclib')} (Python), geodesics on WGS 84; scripts/reference/make_wall_bearings.py"
    lines = ",\n".join("    " + json.dumps(row) for row in rows)
    text = f'{{\n  "source": {json.dumps(source)},\n  "rows": [\n{lines}\n  ]\n}}\n'
    Path(__file__).parents[2].joinpath("test/reference/wall-bearings.json").write_text(text)


main()
