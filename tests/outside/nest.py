"""How far the blanks of a sheet are apart: svgelements reads the paths, shapely judges.

Prints as JSON the number of blanks, the least distance of two, the largest area that two share, and the least distance
from the edge of the stock, which the lines of the dimensions draw.
"""
import json
import sys
import xml.etree.ElementTree as tree

from shapely.geometry import Polygon
from svgelements import Path

SPACE = "{http://www.w3.org/2000/svg}"


def outline(path):
    """A closed path as a polygon; arcs as chords."""
    points = []
    for segment in Path(path):
        steps = 64 if type(segment).__name__ == "Arc" else 1
        points += [segment.point(step / steps) for step in range(1, steps + 1)] if segment.end is not None else []
    return Polygon([(point.x, point.y) for point in points])


def main():
    root = tree.parse(sys.argv[1]).getroot()
    groups = {group.get("id"): group for group in root.iter(SPACE + "g")}
    cuts = groups["cutting"].iter(SPACE + "path")
    blanks = [outline(path.get("d")) for path in cuts if path.get("id").startswith("outline")]
    edges = [Path(path.get("d")).bbox() for path in groups["dimensions"].iter(SPACE + "path")]
    # The lines of the first dimension are its own and the left and right edges; those of the second the lower and upper.
    first, second = [box for box in edges if box][0], [box for box in edges if box][2]
    left, right, upper, lower = first[0], first[2], second[1], second[3]
    bounds = [blank.bounds for blank in blanks]
    pairs = [(one, other) for index, one in enumerate(blanks) for other in blanks[index + 1:]]
    print(json.dumps({
        "blanks": len(blanks),
        "apart": min(one.distance(other) for one, other in pairs),
        "overlap": max(one.intersection(other).area for one, other in pairs),
        "edge": min(min(box[0] - left, right - box[2], box[1] - upper, lower - box[3]) for box in bounds),
    }))


main()
