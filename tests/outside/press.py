"""Tells what a print shop finds in a traywright PDF, with libraries that know nothing of traywright.

Usage: press.py spaces FILE prints which colour spaces the file uses anywhere, and its output intents (pikepdf).
press.py bleed FILE SVG BLEED: the line of the layer "bleed" is the outline that the SVG shows, buffered by so many mm (shapely).
press.py plates FOLDER SVG FILE: on the plates that Ghostscript made of the file's only page (Pillow), the ink Cutting lies along the
lines that the SVG cuts, and the four inks of the press lie on the piece alone; tells how many dots each plate has.
"""

import json
import pathlib
import re
import sys

import numpy
import pikepdf
import shapely
from PIL import Image

from machine import places, strokes, whole

OPERATORS = {"rg": "DeviceRGB", "RG": "DeviceRGB", "g": "DeviceGray", "G": "DeviceGray", "k": "DeviceCMYK", "K": "DeviceCMYK"}


def named(space):
    return str(space[0] if isinstance(space, pikepdf.Array) else space)[1:]


def spaces(path):
    file = pikepdf.open(path)
    used = set()
    for page in file.pages:
        used |= {OPERATORS[str(operator)] for _, operator in pikepdf.parse_content_stream(page) if str(operator) in OPERATORS}
        for space in page.Resources.get("/ColorSpace", {}).values():
            used.add("stands in: " + named(space[2]))
        for image in page.Resources.get("/XObject", {}).values():
            used.add("image: " + named(image.ColorSpace))
        if "/Group" in page:
            used.add("mixed: " + named(page.Group.CS))
    intents = [{str(key)[1:]: str(value).lstrip("/") for key, value in intent.items()} for intent in file.Root.get("/OutputIntents", [])]
    print(json.dumps({"spaces": sorted(used), "intents": intents}))


def on_piece(page, piece):
    """Where a point of the page, in points, lies on the drawing of the SVG."""
    left, foot = (float(side) for side in page.TrimBox[:2])
    return lambda x, y: ((x - left) * 25.4 / 72 + piece.bounds[0], piece.bounds[3] - (y - foot) * 25.4 / 72)


def bleed(path, svg, width):
    file = pikepdf.open(path)
    page = file.pages[0]
    piece, _ = whole(pathlib.Path(svg))
    place, inside, rings = on_piece(page, piece), None, []
    for operands, operator in pikepdf.parse_content_stream(page):
        word = str(operator)
        if word == "BDC":
            inside = str(page.Resources.Properties[operands[1]].Name)
        elif word == "EMC":
            inside = None
        elif inside == "bleed" and word == "m":
            rings.append([])
        if inside == "bleed" and word in ("m", "l"):
            rings[-1].append(place(*(float(side) for side in operands)))
    outline = shapely.Polygon(piece.exterior)
    wanted = outline.buffer(float(width), join_style="mitre", mitre_limit=2)
    # A bevel where the corner is sharper than 60 degrees, a chord where an arc is cut into pieces.
    apart = shapely.union_all([shapely.Polygon(ring) for ring in rings]).symmetric_difference(wanted)
    left = apart.buffer(-0.06)
    if not left.is_empty:
        sys.exit(f"{left.area:.3f} mm2 between the line and the bleed, at {left.representative_point()}")
    print(json.dumps(len(rings)))


def plates(folder, svg, path):
    file = pikepdf.open(path)
    page = file.pages[0]
    piece, _ = whole(pathlib.Path(svg))
    lines = shapely.union_all([shapely.LineString(places(parts)) for group, parts, _ in strokes(svg) if group == "cutting"])
    _, _, right, top = (float(side) for side in page.MediaBox)
    place, counted = on_piece(page, piece), {}
    for file in sorted(pathlib.Path(folder).glob("plate*(*).tif")):
        ink = re.search(r"\((.*)\)", file.name)[1]
        with Image.open(file) as image:
            dots = numpy.asarray(image.convert("L"))
        height, width = dots.shape
        rows, columns = numpy.nonzero(dots < 128)
        counted[ink] = len(rows)
        x, y = place((columns + 0.5) * right / width, top - (rows + 0.5) * top / height)
        inked = shapely.points(x, y)
        # A line is 0.35 mm wide, a dot at 150 dots an inch 0.17 mm.
        if ink == "Cutting" and (far := shapely.distance(inked, lines)).size and far.max() > 0.4:
            sys.exit(f"the plate of {ink} is inked {far.max():.2f} mm beside the cuts")
        if ink in ("Cyan", "Magenta", "Yellow", "Black") and not shapely.covers(piece.buffer(3.1), inked).all():
            sys.exit(f"the plate of {ink} is inked off the piece")
    print(json.dumps(counted))


{"spaces": spaces, "bleed": bleed, "plates": plates}[sys.argv[1]](*sys.argv[2:])
