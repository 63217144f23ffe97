"""Lists the separations, layers and boxes of a traywright PDF with a library that knows nothing of traywright.

Usage: inks.py told FILE. pikepdf reads the file; prints one JSON object.
inks.py only FILE LAYER COPY writes a copy with all other layers switched off.
inks.py clean PICTURE SVG FILE WHITE: on the picture, a PGM of the file's only page, nothing dark lies on the piece that the SVG
shows, nor nearer to it than so many millimetres; tells how many dots are dark.
"""

import json
import pathlib
import sys

import numpy
import pikepdf
import shapely

from machine import whole


def told(path):
    file = pikepdf.open(path)
    pages = []
    for page in file.pages:
        spaces = page.Resources.ColorSpace
        inks = {str(space[1])[1:]: [float(part) for part in space[3].C1] for space in spaces.values() if space[0] == "/Separation"}
        used, overprinted, states = [], True, page.Resources.ExtGState
        inside, state = None, None
        for operands, operator in pikepdf.parse_content_stream(page):
            word = str(operator)
            if word == "BDC":
                inside, state = str(page.Resources.Properties[operands[1]].Name), None
            elif word == "EMC":
                inside = None
            elif word == "gs":
                state = states[operands[0]]
            elif word in ("CS", "cs"):
                used.append([inside, str(operands[0])[1:]])
            elif word in ("S", "s", "f", "f*", "B") and inside:
                overprinted = overprinted and state is not None and bool(state.OP) and bool(state.op)
        boxes = {name: [float(side) for side in page[f"/{name}"]] for name in ("MediaBox", "TrimBox", "BleedBox")}
        pages.append({"inks": inks, "used": sorted(set(map(tuple, used))), "overprinted": overprinted, **boxes})
    steps = {str(group.Name): {str(key)[1:]: str(value)[1:] for key, value in group.GTS_Metadata.items()} for group in file.Root.OCProperties.OCGs}
    with file.open_metadata() as metadata:
        title = metadata.get("dc:title")
    print(json.dumps({"pages": pages, "steps": steps, "title": title}))


def only(path, layer, copy):
    file = pikepdf.open(path)
    layers = file.Root.OCProperties
    layers.D = pikepdf.Dictionary(OFF=[group for group in layers.OCGs if str(group.Name) != layer])
    file.save(copy)


def clean(picture, svg, path, white):
    with open(picture, "rb") as file:
        _, size, _, dots = file.read().split(b"\n", 3)
    width, height = map(int, size.split())
    dots = numpy.frombuffer(dots, numpy.uint8).reshape(height, width)
    document = pikepdf.open(path)
    page = document.pages[0]
    right, top = (float(side) * 25.4 / 72 for side in page.MediaBox[2:])
    left, above = float(page.TrimBox[0]) * 25.4 / 72, top - float(page.TrimBox[3]) * 25.4 / 72
    piece, _ = whole(pathlib.Path(svg))
    rows, columns = numpy.nonzero(dots < 200)
    x, y = (columns + 0.5) * right / width - left + piece.bounds[0], (rows + 0.5) * top / height - above + piece.bounds[1]
    on_piece = shapely.contains_xy(piece.buffer(float(white)), x, y)
    if on_piece.any():
        sys.exit(f"{on_piece.sum()} of {len(x)} dots are not off the piece, the first {x[on_piece][0]:.2f}, {y[on_piece][0]:.2f}")
    print(json.dumps(len(x)))


{"told": told, "only": only, "clean": clean}[sys.argv[1]](*sys.argv[2:])
