"""Measures the cuts in SVG and DXF files of traywright with libraries that know nothing of traywright.

Usage: shortest.py FILE… Prints one JSON object: for each file the number of pieces of its cuts, straight or round, and
the lengths of the shortest ones in mm, the shortest first (svgelements for SVG, ezdxf for DXF).
"""

import json
import sys
import xml.etree.ElementTree as ElementTree

import svgelements
from ezdxf import recover
from ezdxf.math import bulge_to_arc

SVG = "{http://www.w3.org/2000/svg}"


def of_svg(path):
    for group in ElementTree.parse(path).getroot().iter(SVG + "g"):
        if group.get("id") != "cutting":
            continue
        for line in group.iter(SVG + "path"):
            for piece in svgelements.Path(line.get("d")):
                closes = isinstance(piece, svgelements.Close)
                if isinstance(piece, svgelements.Move) or closes and piece.start == piece.end:
                    continue
                yield piece.length(error=1e-9)


def of_dxf(path):
    drawing, _ = recover.readfile(path)
    for line in drawing.modelspace().query('*[layer=="CUTTING"]'):
        if line.dxftype() == "LINE":
            yield (line.dxf.end - line.dxf.start).magnitude
            continue
        points = list(line.get_points("xyb"))
        ends = points[1:] + points[:1] if line.closed else points[1:]
        for (x, y, bulge), (to_x, to_y, _) in zip(points, ends):
            if bulge == 0:
                yield ((to_x - x) ** 2 + (to_y - y) ** 2) ** 0.5
            else:
                _, start, end, radius = bulge_to_arc((x, y), (to_x, to_y), bulge)
                yield abs(end - start) * radius


def measured(path):
    lengths = sorted(of_svg(path) if path.endswith(".svg") else of_dxf(path))
    return {"pieces": len(lengths), "shortest": lengths[:20]}


print(json.dumps({path: measured(path) for path in sys.argv[1:]}))
