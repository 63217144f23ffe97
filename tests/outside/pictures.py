"""Looks at pictures printed on panels, as other programs draw them, with libraries that know nothing of traywright.

Usage: pictures.py FILE PICTURE DRAWN PAGE    FILE is JSON: the bleed and the margin in mm; wanted, each with the name of its
panel and whether its picture covers it. PICTURE is the drawn sheet as a PPM, DRAWN the SVG or PDF that was drawn, and PAGE
the HTML page of the tray, which has the outlines of all panels.

Prints one JSON object: how many places of each panel are printed. Faults go to standard error, and the script ends with 1.
"""

import json
import pathlib
import re
import sys
import xml.etree.ElementTree as ElementTree

import numpy
import pypdf
import shapely
import svgelements
from shapely.geometry import Polygon
from shapely.ops import unary_union

# The colours of the test's picture: upper left, upper right, lower left, lower right.
COLOURS = numpy.array([(240, 130, 200), (120, 230, 120), (110, 150, 250), (250, 220, 90)])
# A renderer may be off by a few of 255 steps.
SAME = 10
# Places nearer than this to an edge, in mm, have mixed colours.
EDGE = 0.6


def read_picture(path):
    data = pathlib.Path(path).read_bytes()
    words = data[:80].split(None, 4)
    width, height = int(words[1]), int(words[2])
    return numpy.frombuffer(data[-3 * width * height :], dtype=numpy.uint8).reshape(height, width, 3).astype(int)


def read_frame(path):
    """Size of a sheet, and the upper left corner of the blank on it, in mm."""
    if path.endswith(".pdf"):
        page = pypdf.PdfReader(path).pages[0]
        media, trim = ([float(side) * 25.4 / 72 for side in box] for box in (page.mediabox, page.trimbox))
        return [media[2] - media[0], media[3] - media[1]], [trim[0] - media[0], media[3] - trim[3]]
    root = ElementTree.parse(path).getroot()
    size = [float(root.get(key).removesuffix("mm")) for key in ("width", "height")]
    cuts = next(group for group in root.iter() if group.get("id") == "cutting")
    boxes = [svgelements.Path(path.get("d")).bbox() for path in cuts]
    return size, [min(box[0] for box in boxes), min(box[1] for box in boxes)]


def read_cards(path):
    """The panels of a tray, flat, by their names."""
    text = pathlib.Path(path).read_text(encoding="utf-8")
    scene = json.loads(re.search(r'id="scene">(.*?)</script>', text, re.DOTALL)[1])
    rings = lambda panel: [list(zip(ring[::2], ring[1::2])) for ring in panel["rings"]]
    return {panel["name"]: Polygon(rings(panel)[0], rings(panel)[1:]).buffer(0) for panel in scene["panels"]}


def way_up(card, deck):
    """North on the deck; on a wall the way to the deck, from which it hangs."""
    across, along = deck.centroid.x - card.centroid.x, deck.centroid.y - card.centroid.y
    if card is deck or abs(along) > abs(across):
        return [0, -1 if along < 0 else 1]
    return [-1 if across < 0 else 1, 0]


def main():
    told = json.loads(pathlib.Path(sys.argv[1]).read_text(encoding="utf-8"))
    pixels = read_picture(sys.argv[2])
    size, frame = read_frame(sys.argv[3])
    cards = read_cards(sys.argv[4])
    rows, columns = pixels.shape[:2]
    step = [size[0] / columns, size[1] / rows]
    y, x = numpy.mgrid[0:rows, 0:columns]
    whole = unary_union(list(cards.values())).bounds
    x = whole[0] + (x + 0.5) * step[0] - frame[0]
    y = whole[3] - ((y + 0.5) * step[1] - frame[1])
    seen = numpy.full((rows, columns), -1)
    for number, colour in enumerate(COLOURS):
        seen[numpy.abs(pixels - colour).max(axis=2) <= SAME] = number
    faults, printed, allowed = [], {}, []
    for wanted in told["wanted"]:
        name = wanted["panel"]
        card, deck = cards[name], cards["deck"]
        others = unary_union([other for other in cards.values() if other is not card])
        holes = unary_union([Polygon(ring) for ring in card.interiors])
        # A crease is where two panels meet.
        creases = card.buffer(0.01).intersection(others)
        taken = unary_union([others, holes, creases.buffer(told["margin"])])
        allowed.append(card.buffer(told["bleed"], join_style="mitre").difference(taken.buffer(-EDGE)).buffer(EDGE))
        area = card.difference(taken).buffer(-EDGE)
        inside = shapely.contains_xy(area, x, y)
        there = inside & (seen >= 0)
        printed[name] = int(there.sum())
        if not there.any():
            faults.append(f"nothing is printed on {name}")
            continue
        share = there.sum() / inside.sum()
        if wanted["covers"] and share < 0.9:
            faults.append(f"{name} is covered by {share:.3f}")
        up = way_up(card, deck)
        right, top = x * up[1] - y * up[0], x * up[0] + y * up[1]
        middle = [(way[there].min() + way[there].max()) / 2 for way in (right, top)]
        for number in range(4):
            is_right, is_low = number % 2 == 1, number >= 2
            beside = (right - middle[0]) * (1 if is_right else -1) > 2 * EDGE
            above = (top - middle[1]) * (-1 if is_low else 1) > 2 * EDGE
            corner = there & beside & above
            good = (seen[corner] == number).mean() if corner.any() else 0
            if good < 0.99:
                faults.append(f"{name}: only {good:.3f} of corner {number} have its colour")
    far = (seen >= 0) & ~shapely.contains_xy(unary_union(allowed), x, y)
    # Smoothed edges of lines may have one of the colours by chance: a few places and no area.
    if far.sum() > 20:
        at = numpy.argwhere(far)[0]
        faults.append(f"{int(far.sum())} places are printed where nothing may be, one at {x[tuple(at)]:.1f}, {y[tuple(at)]:.1f}")
    print(json.dumps({"printed": printed}))
    if faults:
        raise SystemExit("\n".join(faults))


main()
