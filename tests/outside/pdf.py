"""Reads a traywright PDF with a library that knows nothing of traywright, and measures it.

Usage: pdf.py structure FILE       what the file says of itself: pages, layers, boxes
       pdf.py joined FOLDER        joins the sheets of every NAME.pdf by their crosses, against NAME.svg
       pdf.py bars FILE FOLDER     measures both bars of every page on pictures FOLDER/*.pgm of 300 dots an inch

Prints one JSON object of what was measured. What breaks the rules of the file goes to standard error, one sentence a
line, and the script ends with 1. Pages are read by pypdf, SVG paths by svgelements; no coordinate is taken from pictures
but in `bars`.
"""

import json
import math
import pathlib
import sys
import xml.etree.ElementTree as ElementTree

import numpy
import pypdf
import svgelements
from pypdf.generic import ContentStream

from pixels import joined_up, read_picture, run

MM = 25.4 / 72
LAYERS = ["cutting", "creasing", "reverse-creasing", "dimensions"]
# Source: ISO 19593-1 as in the PDF Association's grammar: structural steps have a type, dimensions have none.
STEPS = {
    "cutting": {"/GTS_ProcStepsGroup": "/Structural", "/GTS_ProcStepsType": "/Cutting"},
    "creasing": {"/GTS_ProcStepsGroup": "/Structural", "/GTS_ProcStepsType": "/Creasing"},
    "reverse-creasing": {"/GTS_ProcStepsGroup": "/Structural", "/GTS_ProcStepsType": "/ReverseCreasing"},
    "dimensions": {"/GTS_ProcStepsGroup": "/Dimensions"},
}
# Source: core/CONTRACT.md, "Files: PDF": every line is on paper within 0.02 mm.
NEAR = 0.02

faults = []


def demand(truth, words):
    if not truth:
        faults.append(words)


class Sheet:
    """One page: its strokes by layer in mm, and its words with their places."""

    def __init__(self, reader, page):
        self.media = [float(side) * MM for side in page.mediabox]
        self.trim = [float(side) * MM for side in page.trimbox]
        self.user_unit = "/UserUnit" in page
        self.strokes = {name: [] for name in [None, *LAYERS]}
        self.words = []
        self.depth = []
        self.read(reader, page)
        page.extract_text(visitor_text=self.hear)

    def read(self, reader, page):
        names = {key: str(group.get_object()["/Name"]) for key, group in page["/Resources"].get("/Properties", {}).items()}
        matrices, path, at, start = [numpy.eye(3)], [], None, None
        for operands, operator in ContentStream(page.get_contents(), reader).operations:
            operator = operator.decode()
            numbers = [float(number) for number in operands] if operator in ("m", "l", "c", "cm") else []
            place = lambda x, y: (matrices[-1].T @ [x, y, 1])[:2] * MM
            if operator == "q":
                matrices.append(matrices[-1])
            elif operator == "Q":
                matrices.pop()
            elif operator == "cm":
                a, b, c, d, e, f = numbers
                matrices[-1] = numpy.array([[a, b, 0], [c, d, 0], [e, f, 1]]) @ matrices[-1]
            elif operator == "BDC":
                self.depth.append(names.get(str(operands[1])) if operands[0] == "/OC" else None)
            elif operator == "EMC":
                demand(self.depth, "marked content ends that did not begin")
                self.depth and self.depth.pop()
            elif operator == "m":
                at = start = place(*numbers)
            elif operator == "l":
                to = place(*numbers)
                path.append(numpy.array([at, to]))
                at = to
            elif operator == "c":
                corners = [at] + [place(*numbers[index : index + 2]) for index in (0, 2, 4)]
                path.append(curve(corners))
                at = corners[3]
            elif operator == "h":
                if numpy.hypot(*(at - start)) > 1e-9:
                    path.append(numpy.array([at, start]))
                at = start
            elif operator in ("S", "s", "f", "f*", "F", "n", "B", "b"):
                demand(operator in ("S", "f", "f*"), f"a path is painted with {operator}")
                if operator == "S":
                    self.strokes[self.depth[-1] if self.depth else None].append(path)
                path = []
        demand(not self.depth, "marked content does not end")
        demand(len(matrices) == 1, "q and Q are not balanced")

    def hear(self, text, cm, tm, font, size):
        if text.strip():
            self.words.append((text.strip(), tm[4] * MM, tm[5] * MM))

    def straight(self):
        """Single straight strokes outside the layers."""
        return [path[0] for path in self.strokes[None] if len(path) == 1 and len(path[0]) == 2]

    def crosses(self):
        """Two strokes of one length that cross in the middle, with the number beside them."""
        found = {}
        lines = self.straight()
        level = [line for line in lines if abs(line[0][1] - line[1][1]) < 1e-4]
        upright = [line for line in lines if abs(line[0][0] - line[1][0]) < 1e-4]
        for one in level:
            for other in upright:
                middle, length = one.mean(axis=0), abs(one[1][0] - one[0][0])
                same = abs(abs(other[1][1] - other[0][1]) - length) < 1e-3
                if same and 2 - 1e-3 <= length <= 20 and numpy.hypot(*(other.mean(axis=0) - middle)) < 1e-3:
                    beside = [t for t, x, y in self.words if 0 < x - middle[0] < length / 2 and 0 < y - middle[1] < length / 2]
                    demand(len(beside) == 1 and beside[0] not in found, f"a cross has the numbers {beside}")
                    if beside:
                        found[beside[0]] = middle
        return found

    def bars(self, least=99.0, most=101.0):
        """Strokes about as long as a bar: those across and those down."""
        lengths = [(numpy.abs(line[1] - line[0]), line) for line in self.straight()]
        across = [line for size, line in lengths if size[1] < 1e-4 and least < size[0] < most]
        down = [line for size, line in lengths if size[0] < 1e-4 and least < size[1] < most]
        return across, down

    def number(self):
        """Row and column from the words of the page."""
        for text, _, _ in self.words:
            words = text.replace(",", " ").split()
            if len(words) >= 4 and words[0] == "Row" and words[2] == "Column":
                return int(words[1]), int(words[3])
        faults.append("a page has no row and column")
        return None


def curve(corners):
    """A cubic as a polyline; a step of 1/24 leaves an arc of 90 degrees by less than 0.0006 of its radius."""
    share = numpy.linspace(0, 1, 25)[:, None]
    weights = [(1 - share) ** 3, 3 * (1 - share) ** 2 * share, 3 * (1 - share) * share**2, share**3]
    return sum(weight * corner for weight, corner in zip(weights, corners))


def read_sheets(path):
    reader = pypdf.PdfReader(path)
    return reader, [Sheet(reader, page) for page in reader.pages]


def structure(path):
    reader, sheets = read_sheets(path)
    catalog = reader.trailer["/Root"]
    properties = catalog["/OCProperties"]
    names = []
    for group in properties["/OCGs"]:
        demand(isinstance(group, pypdf.generic.IndirectObject), "a layer is no indirect object")
        group = group.get_object()
        demand(group.get("/Type") == "/OCG", "a layer has no type")
        names.append(str(group["/Name"]))
        metadata = {str(key): str(value) for key, value in group["/GTS_Metadata"].items()}
        demand(metadata == STEPS.get(names[-1]), f"{names[-1]} says {metadata}")
        demand("/Usage" not in group, f"{names[-1]} may vanish on paper")
    demand(names == LAYERS, f"the layers are {names}")
    demand("/D" in properties, "the layers have no default")
    demand(catalog["/ViewerPreferences"].get("/PrintScaling") == "/None", "the page may be scaled by the print dialog")
    for sheet in sheets:
        demand(not sheet.user_unit, "a page has a user unit")
        demand(numpy.allclose(sheet.media, sheet.trim, atol=1e-6), f"trim {sheet.trim}, media {sheet.media}")
    demand(reader.pdf_header >= "%PDF-1.5", f"layers need PDF 1.5, this is {reader.pdf_header}")
    pages = []
    for sheet in with_lines(sheets):
        ends = [end for name in LAYERS for path in sheet.strokes[name] for part in path for end in part]
        every = [end for paths in sheet.strokes.values() for path in paths for part in path for end in part]
        width, height = sheet.media[2], sheet.media[3]
        gap = lambda places: min(min(x, y, width - x, height - y) for x, y in places)
        across, down = sheet.bars(85, 115)
        pages.append(
            {
                "size": [width, height],
                "margin_of_lines": gap(ends),
                "margin_of_all": gap(every),
                "strokes": {name: len(sheet.strokes[name]) for name in LAYERS},
                "bars": [[float(numpy.hypot(*(line[1] - line[0]))) for line in bars] for bars in (across, down)],
                "crosses": sorted(sheet.crosses(), key=int),
                "number": sheet.number(),
            }
        )
    return {"pages": pages, "info": sorted(reader.metadata)}


def with_lines(sheets):
    """The sheets that carry lines: a last one may have words alone, and then it has no bars."""
    lined = [sheet for sheet in sheets if any(sheet.strokes[name] for name in LAYERS)]
    demand(lined in (sheets, sheets[:-1]), "a sheet without lines is not the last")
    demand(not any(any(sheet.bars(85, 115)) for sheet in sheets[len(lined):]), "a sheet of words has a bar")
    return lined


def svg_lines(path):
    """Lines of the SVG by layer as polylines in mm, y up."""
    lines = {}
    root = ElementTree.parse(path).getroot()
    for group in root.iter("{http://www.w3.org/2000/svg}g"):
        if group.get("id") in LAYERS[:3]:
            parts = [part for element in group for part in svgelements.Path(element.get("d"))]
            drawn = [part for part in parts if not isinstance(part, svgelements.Move) and abs(part.end - part.start) > 1e-9]
            lines[group.get("id")] = [polyline(part) for part in drawn]
    return lines


def polyline(part):
    steps = 48 if isinstance(part, svgelements.Arc) else 1
    places = [part.point(step / steps) for step in range(steps + 1)]
    return numpy.array([(place.x, -place.y) for place in places])


def join(name, sheets):
    """Where each sheet lies, found from the crosses alone: sheets of neighbouring rows or columns share two or more."""
    numbers = {sheet.number(): sheet for sheet in sheets}
    demand(len(numbers) == len(sheets), f"{name}: two sheets have one number")
    crosses = {number: sheet.crosses() for number, sheet in numbers.items()}
    start = min(numbers)
    offsets, edge = {start: numpy.zeros(2)}, [start]
    while edge:
        row, column = edge.pop()
        for other in [(row, column + 1), (row + 1, column), (row, column - 1), (row - 1, column)]:
            if other not in numbers:
                continue
            shared = sorted(set(crosses[row, column]) & set(crosses[other]))
            demand(len(shared) >= 2, f"{name}: {(row, column)} and {other} share the crosses {shared}")
            moves = [offsets[row, column] + crosses[row, column][mark] - crosses[other][mark] for mark in shared]
            for move in moves:
                known = offsets.setdefault(other, move)
                demand(numpy.hypot(*(known - move)) < 2e-3, f"{name}: {other} does not meet {(row, column)} by {known - move}")
                if other not in edge and known is move:
                    edge.append(other)
    demand(set(offsets) == set(numbers), f"{name}: {set(numbers) - set(offsets)} cannot be joined")
    return [(sheet, offsets.get(number, numpy.zeros(2))) for number, sheet in numbers.items()]


def samples(lines, step=0.5):
    """Places along polylines, ends included, no farther apart than the step."""
    places = [numpy.zeros((0, 2))]
    for line in lines:
        for start, end in zip(line[:-1], line[1:]):
            count = max(1, math.ceil(numpy.hypot(*(end - start)) / step))
            places.append(start + numpy.linspace(0, 1, count + 1)[:, None] * (end - start))
    return numpy.concatenate(places)


def farthest(places, lines):
    """How far the farthest place is from the nearest line."""
    if len(places) == 0:
        return 0.0
    ends = [(start, end) for line in lines for start, end in zip(line[:-1], line[1:])]
    if not ends:
        return math.inf
    best = numpy.full(len(places), math.inf)
    for start, end in ends:
        way = end - start
        length = max(float(way @ way), 1e-18)
        share = numpy.clip((places - start) @ way / length, 0, 1)
        best = numpy.minimum(best, numpy.hypot(*(places - start - share[:, None] * way).T))
    return float(best.max())


def joined(folder):
    """Every line of the SVG is on the joined sheets, and nothing else is in their line layers."""
    results = {}
    for svg in sorted(pathlib.Path(folder).glob("*.svg")):
        _, sheets = read_sheets(svg.with_suffix(".pdf"))
        sheets = with_lines(sheets)
        placed = join(svg.stem, sheets)
        paper = {layer: [part + offset for sheet, offset in placed for path in sheet.strokes[layer] for part in path] for layer in LAYERS[:3]}
        drawing = svg_lines(svg)
        corner = lambda lines: numpy.array([min(line[:, axis].min() for line in lines) for axis in (0, 1)])
        move = corner(drawing["cutting"]) - corner(paper["cutting"])
        worst = {}
        for layer in LAYERS[:3]:
            lines = [line + move for line in paper[layer]]
            missing, extra = farthest(samples(drawing[layer]), lines), farthest(samples(lines), drawing[layer])
            demand(missing < NEAR, f"{svg.stem}: a line of {layer} is {missing} mm off the paper's")
            demand(extra < NEAR, f"{svg.stem}: the paper's {layer} has a line {extra} mm off")
            worst[layer] = max(missing, extra)
        for sheet in sheets:
            demand(any(sheet.strokes[layer] for layer in LAYERS), f"{svg.stem}: sheet {sheet.number()} has no line")
            across, down = sheet.bars()
            demand(len(across) == 1 and len(down) == 1, f"{svg.stem}: {len(across)} and {len(down)} bars")
            demand(len(sheets) == 1 or len(sheet.crosses()) >= 2, f"{svg.stem}: a sheet has too few crosses")
        size = [max(line[:, axis].max() for line in drawing["cutting"]) - corner(drawing["cutting"])[axis] for axis in (0, 1)]
        results[svg.stem] = {
            "pages": len(sheets),
            "paper": sheets[0].media[2:],
            "blank": size,
            "off": max(worst.values()),
            "along_edges": float(sum(along_edges(sheet) for sheet in sheets)),
        }
    return results


def along_edges(sheet, margin=6.0):
    """How much of the lines runs within 3 mm along the edges of what the sheet can show."""
    width, height = sheet.media[2:]
    total = 0.0
    for layer in LAYERS[:3]:
        for part in (part for path in sheet.strokes[layer] for part in path if len(part) == 2):
            for axis, side in ((0, width), (1, height)):
                away = [min(end[axis] - margin, side - margin - end[axis]) for end in part]
                way = numpy.abs(part[1] - part[0])
                if max(away) < 3 - 1e-3 and way[axis] * 6 <= way[1 - axis]:
                    total += numpy.hypot(*way)
    return total


def bars(path, folder):
    """The length of each bar in pixels: the run of dark pixels along its middle."""
    _, sheets = read_sheets(path)
    pictures = [read_picture(picture) for picture in sorted(pathlib.Path(folder).glob("*.pgm"))]
    demand(len(pictures) == len(sheets), f"{len(pictures)} pictures of {len(sheets)} pages")
    runs = []
    for sheet, picture in zip(with_lines(sheets), pictures):
        dot = 25.4 / 300
        across, down = (found[0] for found in sheet.bars())
        row = picture[int((sheet.media[3] - across[0][1]) / dot)]
        column = picture[:, int(down[0][0] / dot)]
        middles = [int(across.mean(axis=0)[0] / dot), int((sheet.media[3] - down.mean(axis=0)[1]) / dot)]
        runs.append([run(row, middles[0]), run(column, middles[1])])
    return {"runs": runs}


def cuts(path, folder):
    """Width and height in mm of the outline and of the opening, between the middles of their lines on the picture."""
    _, (sheet,) = read_sheets(path)
    (picture,) = [read_picture(picture) for picture in sorted(pathlib.Path(folder).glob("*.pgm"))]
    edges = [edge for path in sheet.strokes["cutting"] for edge in path if len(edge) == 2]
    rings = sorted(joined_up(edges), key=lambda ring: -numpy.ptp(numpy.concatenate(ring), axis=0).max())
    demand(len(rings) == 2, f"{len(rings)} runs of cuts, and not an outline and an opening")
    return {"sizes": [[across(ring, axis, sheet, picture) for axis in (0, 1)] for ring in rings[:2]]}


def across(ring, axis, sheet, picture):
    """The distance between the two outermost edges of a ring along one axis, each found on the picture."""
    places = []
    for outermost in (min, max):
        level = outermost(end[axis] for edge in ring for end in edge)
        edge = max((e for e in ring if numpy.abs(e[:, axis] - level).max() < 1e-3), key=lambda e: numpy.ptp(e[:, 1 - axis]))
        places.append(line_on_picture(edge, axis, sheet, picture))
    return abs(places[1] - places[0])


def line_on_picture(edge, axis, sheet, picture):
    """Where a line is, in mm along an axis, where it is thinnest: elsewhere another line may run into it."""
    dot = 25.4 / 300
    found = []
    for share in numpy.linspace(0.2, 0.8, 13):
        place = edge[0] + (edge[1] - edge[0]) * share
        x, y = int(place[0] / dot), int((sheet.media[3] - place[1]) / dot)
        pixels, middle = (picture[y], x) if axis == 0 else (picture[:, x], y)
        dark = [at for at in range(middle - 3, middle + 4) if pixels[at] < 128]
        if dark:
            found.append((run(pixels, dark[0]), (dark[0] + dark[-1] + 1) / 2 * dot))
    demand(found, f"no line is seen at {edge.tolist()}")
    return min(found, default=(0, 0.0))[1]


def main():
    what, *words = sys.argv[1:]
    measured = {"structure": structure, "joined": joined, "bars": bars, "cuts": cuts}[what](*words)
    if faults:
        sys.exit("\n".join(faults))
    print(json.dumps(measured))


main()
