"""Looks whether labels stand within their panels, off cuts and creases, with a library that knows nothing of traywright.

Usage: labels.py FILE    FILE is JSON: the margin; panels, each with its name and rings; labels, each with its text, the
index of its panel and the corners of its room; lines, each a list of places. All in mm.

Prints one JSON object: how many labels were looked at, and the least distance from a line. A label that does not lie
within its panel, that comes nearer to a line than the margin or that stands on another goes to standard error, and the
script ends with 1.
"""

import json
import pathlib
import sys

from shapely.geometry import LineString, Polygon
from shapely.ops import unary_union

# Source: reasoning: places are computed in doubles; a millionth of a millimetre is far more than their noise.
NOISE = 1e-5


def main():
    told = json.loads(pathlib.Path(sys.argv[1]).read_text(encoding="utf-8"))
    lines = unary_union([LineString(line) for line in told["lines"]])
    faults, least, seen = [], float("inf"), []
    for label in told["labels"]:
        panel = told["panels"][label["panel"]]
        area = Polygon(label["corners"])
        card = Polygon(panel["rings"][0], panel["rings"][1:]).buffer(0)
        where = f"{label['text']} on {panel['name']}"
        if not card.contains(area):
            faults.append(f"{where} leaves its panel")
        distance = lines.distance(area)
        least = min(least, distance)
        if distance < told["margin"] - NOISE:
            faults.append(f"{where} is {distance} mm from a line")
        faults.extend(f"{where} stands on {other}" for other, taken in seen if taken.intersects(area))
        seen.append((where, area))
    print(json.dumps({"labels": len(seen), "least": least}))
    if faults:
        raise SystemExit("\n".join(faults[:40]))


main()
