"""Measures perforated creases in SVG and DXF of traywright with libraries that know nothing of traywright.

Usage: perforated.py PLAIN.svg FILE.svg FILE.dxf. PLAIN has the same tray with its creases whole. Prints one JSON object:
for SVG and DXF of the perforated tray and each of its two layers the creases of PLAIN in that direction, each with its
length, the lengths of the cuts that lie on it, and the gaps before, between and after them (svgelements, ezdxf, shapely);
cuts that lie on no crease; the groups and layers; and the greatest distance between the cutting lines of both SVGs.
"""

import json
import sys
import xml.etree.ElementTree as ElementTree

import shapely
import svgelements
from ezdxf import recover

SVG = "{http://www.w3.org/2000/svg}"
TOUCH = 2e-3


def of_svg(path):
    found = {}
    for group in ElementTree.parse(path).getroot():
        if group.tag != SVG + "g":
            continue
        lines = [svgelements.Path(line.get("d")) for line in group.iter(SVG + "path")]
        parts = [part for line in lines for part in line if not isinstance(part, svgelements.Move)]
        found[group.get("id")] = [((part.start.x, part.start.y), (part.end.x, part.end.y)) for part in parts]
    return found


def of_dxf(path, height, corner):
    drawing, _ = recover.readfile(path)
    found = {layer.dxf.name.lower(): [] for layer in drawing.layers if layer.dxf.name not in ("0", "Defpoints")}
    for line in drawing.modelspace().query("LWPOLYLINE"):
        places = [(x + corner[0], height - y + corner[1]) for x, y in line.get_points("xy")]
        found[line.dxf.layer.lower()] += list(zip(places, places[1:]))
    return found


def along(crease, cuts):
    """The cuts on a crease as stretches along it."""
    line = shapely.LineString(crease)
    on = [cut for cut in cuts if all(line.distance(shapely.Point(end)) < TOUCH for end in cut)]
    stretches = sorted(sorted(line.project(shapely.Point(end)) for end in cut) for cut in on)
    ends = [0, *[end for stretch in stretches for end in stretch], line.length]
    pairs = [ends[at + 1] - ends[at] for at in range(len(ends) - 1)]
    return on, {"length": line.length, "gaps": pairs[0::2], "cuts": pairs[1::2]}


def told(plain, perforated):
    result = {}
    for crease, row in [("creasing", "perforating"), ("reverse-creasing", "reverse-perforating")]:
        cuts, rows, used = perforated[row], [], []
        for one in plain[crease]:
            on, measured = along(one, cuts)
            rows.append(measured)
            used += on
        result[row] = {"rows": rows, "astray": len(cuts) - len(used)}
    return result


plain, svg = of_svg(sys.argv[1]), of_svg(sys.argv[2])
lines = [shapely.union_all([shapely.LineString(line) for line in of["cutting"]]) for of in (plain, svg)]
xs, ys = zip(*[end for line in plain["cutting"] for end in line])
dxf = of_dxf(sys.argv[3], max(ys), (min(xs), 0))
print(
    json.dumps(
        {
            "svg": told(plain, svg),
            "dxf": told(plain, dxf),
            "groups": [name for name in svg if svg[name] and name in (*plain, "perforating", "reverse-perforating")],
            "layers": sorted(dxf),
            "cutting": shapely.hausdorff_distance(*lines),
        }
    )
)
