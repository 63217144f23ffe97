"""Measures a bare SVG and a bare DXF of traywright with libraries that know nothing of traywright.

Usage: bare.py FILE.svg FILE.dxf. Prints one JSON object: the tags and ids of the SVG, its sheet, the extent of its lines
and the length of each group (svgelements); the kinds, layers and extent of the DXF and what its audit finds (ezdxf).
"""

import json
import sys
import xml.etree.ElementTree as ElementTree

import ezdxf
import svgelements
from ezdxf import bbox, recover

SVG = "{http://www.w3.org/2000/svg}"


def of_svg(path):
    root = ElementTree.parse(path).getroot()
    lengths, boxes = {}, []
    for group in root:
        lines = [svgelements.Path(line.get("d")) for line in group]
        lengths[group.get("id")] = sum(line.length(error=1e-9) for line in lines)
        boxes += [line.bbox() for line in lines]
    return {
        "tags": sorted({element.tag.removeprefix(SVG) for element in root.iter()}),
        "words": "".join(root.itertext()).strip(),
        "groups": [group.get("id") for group in root],
        "widths": sorted({group.get("stroke-width") for group in root}),
        "dashed": [group.get("id") for group in root if group.get("stroke-dasharray")],
        "colours": len({group.get("stroke") for group in root}),
        "sheet": [root.get("width"), root.get("height"), root.get("viewBox")],
        "lengths": lengths,
        "extent": [f(box[at] for box in boxes) for at, f in enumerate((min, min, max, max))],
    }


def of_dxf(path):
    # ezdxf itself adds the layer Defpoints to every drawing that it reads.
    drawing, _ = recover.readfile(path)
    audit = drawing.audit()
    lines = list(drawing.modelspace())
    box = bbox.extents(lines)
    return {
        "faults": len(audit.errors) + len(audit.fixes),
        "kinds": sorted({line.dxftype() for line in lines}),
        "layers": sorted(layer.dxf.name for layer in drawing.layers if layer.dxf.name != "Defpoints"),
        "drawn_on": sorted({line.dxf.layer for line in lines}),
        "closed": sum(1 for line in lines if line.is_closed),
        "extent": [box.extmin.x, box.extmin.y, box.extmax.x, box.extmax.y],
        "says": [*drawing.header["$EXTMIN"][:2], *drawing.header["$EXTMAX"][:2]],
    }


print(json.dumps({"svg": of_svg(sys.argv[1]), "dxf": of_dxf(sys.argv[2])}))
