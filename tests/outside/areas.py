"""Lists the filled areas of a PDF: page by page the colour of each and the rectangle around it.

Usage: areas.py FILE

Prints one JSON list a page, of [[red, green, blue], [left, low, right, high]]; colours count from 0 to 255, places are mm
from the lower left corner of the page. Read by pypdf.
"""

import json
import sys

import pypdf
from pypdf.generic import ContentStream

MM = 25.4 / 72


def areas(reader, page):
    found, places, colour = [], [], [0, 0, 0]
    for operands, operator in ContentStream(page.get_contents(), reader).operations:
        operator = operator.decode()
        if operator == "rg":
            colour = [round(255 * float(part)) for part in operands]
        elif operator in ("m", "l", "c"):
            places.append([float(side) * MM for side in operands[-2:]])
        elif operator in ("f", "f*", "F"):
            across, up = zip(*places)
            found.append([colour, [min(across), min(up), max(across), max(up)]])
            places = []
        elif operator in ("S", "s", "n", "B", "b"):
            places = []
    return found


reader = pypdf.PdfReader(sys.argv[1])
print(json.dumps([areas(reader, page) for page in reader.pages]))
