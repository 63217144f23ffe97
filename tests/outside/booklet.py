"""Looks whether words and lines of a booklet keep apart.

Usage: booklet.py FILE BOXES    FILE is the PDF; BOXES is what `pdftotext -bbox FILE` wrote about its words.

Prints one JSON object of what was counted, with `full`: for every page how much of its room in height is filled, from the
highest mark of any page to the line with the number of the page. Words that stand on each other or leave the page, and strokes that run through
words or leave the page, go to standard error, one sentence a line, and the script ends with 1. Strokes are read by pypdf,
words by poppler: two readers that know nothing of each other.
"""

import json
import pathlib
import re
import sys
from html import unescape

import numpy
import pypdf
from pypdf.generic import ContentStream

# A box of poppler reaches from the font's ascent to its descent; letters take the middle of it.
# Derived: DejaVu Sans: ascent 0.93, descent 0.24, capitals 0.73 of the size.
ABOVE, BELOW = 0.17, 0.22
# Words may come so near, in points.
NEAR = 0.2

faults = []


def demand(truth, words):
    if not truth:
        faults.append(words)


def boxes(text):
    """For every page its size and its words: text, left, top, right, bottom in points, y down."""
    pages = []
    for page in re.finditer(r'<page width="([\d.]+)" height="([\d.]+)">(.*?)</page>', text, re.S):
        words = []
        pattern = r'<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*?)</word>'
        for word in re.finditer(pattern, page[3], re.S):
            left, top, right, bottom = (float(side) for side in word.groups()[:4])
            height = bottom - top
            words.append((unescape(word[5]), left, top + ABOVE * height, right, bottom - BELOW * height))
        pages.append((float(page[1]), float(page[2]), words))
    return pages


def strokes(reader, page):
    """Straight pieces of all strokes that are not white, in points, y up."""
    found, path, at, start, colour = [], [], None, None, None
    for operands, operator in ContentStream(page.get_contents(), reader).operations:
        operator = operator.decode()
        numbers = [float(number) for number in operands] if operator in ("m", "l", "c", "RG") else []
        demand(operator != "cm", "a page is scaled")
        if operator == "RG":
            colour = numbers
        elif operator == "m":
            at = start = numbers
        elif operator in ("l", "c"):
            path.append((at, numbers[-2:]))
            at = numbers[-2:]
        elif operator == "h":
            path.append((at, start))
            at = start
        elif operator in ("S", "s", "f", "f*", "F", "n", "B", "b"):
            if operator == "S" and colour != [1.0, 1.0, 1.0]:
                found += path
            path = []
    return found


def enters(line, left, low, right, high):
    """Whether a straight line has a place within a rectangle (Liang and Barsky)."""
    start, end = 0.0, 1.0
    for axis, (least, most) in enumerate(((left, right), (low, high))):
        way = line[1][axis] - line[0][axis]
        if way == 0:
            if not least <= line[0][axis] <= most:
                return False
            continue
        one, other = (least - line[0][axis]) / way, (most - line[0][axis]) / way
        start, end = max(start, min(one, other)), min(end, max(one, other))
    return start <= end


def filled(pages):
    """How much of each page is filled: lowest and highest mark of each, and the top of the words at its foot, in points, y down."""
    top = min(high for high, _, _ in pages)
    return [round((low - top) / (foot - top), 3) for _, low, foot in pages]


def main():
    reader = pypdf.PdfReader(sys.argv[1])
    pages = boxes(pathlib.Path(sys.argv[2]).read_text(encoding="utf-8"))
    demand(len(pages) == len(reader.pages), "the readers count different pages")
    counted = {"pages": len(pages), "words": 0, "strokes": 0}
    reach = []
    for number, (page, (width, height, words)) in enumerate(zip(reader.pages, pages), 1):
        lines = strokes(reader, page)
        counted["words"] += len(words)
        counted["strokes"] += len(lines)
        ends = numpy.array(lines, float).reshape(-1, 2, 2)
        least, most = ends.min(axis=1), ends.max(axis=1)
        foot = min(top for _, _, top, _, bottom in words if bottom > max(word[4] for word in words) - 3)
        marks = [side for _, _, top, _, bottom in words if bottom < foot for side in (top, bottom)]
        marks += list(height - least[:, 1]) + list(height - most[:, 1])
        reach.append((min(marks), max(marks), foot))
        demand((least >= 0).all() and (most <= [width, height]).all(), f"page {number}: a stroke leaves the page")
        for index, (text, left, top, right, bottom) in enumerate(words):
            inside = 0 <= left and right <= width and 0 <= top and bottom <= height
            demand(inside, f"page {number}: `{text}` leaves the page")
            for other, l2, t2, r2, b2 in words[index + 1 :]:
                apart = right <= l2 + NEAR or r2 <= left + NEAR or bottom <= t2 + NEAR or b2 <= top + NEAR
                demand(apart, f"page {number}: `{text}` stands on `{other}`")
            low, high = height - bottom, height - top
            near = (least <= [right, high]).all(axis=1) & (most >= [left, low]).all(axis=1)
            crossed = any(enters(lines[line], left, low, right, high) for line in numpy.flatnonzero(near))
            demand(not crossed, f"page {number}: a stroke runs through `{text}`")
    counted["full"] = filled(reach)
    print(json.dumps(counted))
    if faults:
        raise SystemExit("\n".join(faults[:60]))


main()
