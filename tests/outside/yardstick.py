"""The yardstick of the figures: the blank of a single-slot tray in plain Python, without any check of it.

Usage: yardstick.py outlines JOBS.json prints the outlines of all blanks as JSON; yardstick.py files JOBS.json FOLDER writes
NAME.svg, NAME.dxf and NAME.pdf of each job. JOBS.json is a list of jobs: name, box, item, caliper, hinge, fit, around, play,
all in mm. The sizes are those of core/GEOMETRY.md, "Single-slot", with the opening cut out.
The standard library writes the SVG, ezdxf the DXF and pypdf the PDF; each is loaded only where it is used.
"""

import json
import math
import sys
from pathlib import Path

POINTS_PER_MM = 72 / 25.4
MARGIN = 10.0


class Blank:
    """The outline, the hole and the creases of a tray; the corner of the deck's creases is at 0, 0."""

    def __init__(self, job):
        length, width, depth = (size - job["fit"] for size in job["box"])
        card, hinge, play = job["caliper"], job["hinge"], job["play"]
        self.a, self.b = length - card - 2 * hinge, width - card - 2 * hinge
        air = play / 2
        self.trapped, self.recess = card + air, card / 2 - hinge + air
        self.side = depth - card / 2 - hinge
        self.end = depth - card - 2 * hinge
        self.bridge = 2 * card + play - 2 * hinge
        self.inner_end = depth - 1.5 * card - hinge
        self.tab = min(self.end, self.b / 2 - air)
        self.outward = self.side - self.trapped
        self.hole = [size + job["around"] for size in job["item"][:2]]

    def outline(self):
        """The corners, counter-clockwise."""
        recess, trapped, tab, outward = self.recess, self.trapped, self.tab, self.outward
        span = outward - recess
        taper = min(tab * math.tan(math.radians(5)), 0.3 * span)
        cut = min(3, tab / 4, span / 4)
        tip = trapped - tab
        west = [
            (trapped, 0), (trapped, -recess), (tip, -recess - taper), (tip, cut - outward), (tip + cut, -outward),
            (trapped, -outward), (trapped, -self.side),
        ]
        south = west + [(self.a - x, y) for x, y in reversed(west)]
        cut = min(3, self.inner_end / 4)
        wall, far = self.a + self.end, self.a + self.end + self.bridge + self.inner_end
        lower = [(wall, 0), (wall, recess), (far - cut, recess), (far, recess + cut)]
        east = lower + [(x, self.b - y) for x, y in reversed(lower)]
        half = south + east
        return half + [(self.a - x, self.b - y) for x, y in half]

    def opening(self):
        """The corners of the hole in the middle of the deck."""
        (x, y), (length, width) = (self.a / 2, self.b / 2), self.hole
        return [(x + i * length / 2, y + j * width / 2) for i, j in [(-1, -1), (-1, 1), (1, 1), (1, -1)]]

    def creases(self):
        """All creases, each from point to point."""
        a, b, recess = self.a, self.b, self.recess
        west = [((0, 0), (0, b))]
        for away in (self.end, self.end + self.bridge):
            west.append(((-away, recess), (-away, b - recess)))
        south = [((self.trapped, 0), (a - self.trapped, 0))]
        for x in (self.trapped, a - self.trapped):
            south.append(((x, -recess), (x, -self.outward)))
        east = [((a - x, y), (a - u, v)) for (x, y), (u, v) in west]
        north = [((x, b - y), (u, b - v)) for (x, y), (u, v) in south]
        return west + south + east + north

    def box(self):
        """Least and greatest coordinates."""
        xs, ys = zip(*self.outline())
        return min(xs), min(ys), max(xs), max(ys)


def write_svg(blank, path):
    left, bottom, right, top = blank.box()
    width, height = right - left + 2 * MARGIN, top - bottom + 2 * MARGIN

    def way(points, end):
        words = (f"{x - left + MARGIN:.4f} {top - y + MARGIN:.4f}" for x, y in points)
        return f'<path d="M {" L ".join(words)}{end}"/>'

    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" viewBox="0 0 {width} {height}">',
        '<g fill="none" stroke="#000" stroke-width="0.3">', way(blank.outline(), " Z"), way(blank.opening(), " Z"), "</g>",
        '<g fill="none" stroke="#c07" stroke-width="0.3" stroke-dasharray="2 1">',
        *(way(crease, "") for crease in blank.creases()), "</g>", "</svg>",
    ]
    path.write_text("\n".join(lines), encoding="utf-8")


def write_dxf(blank, path):
    import ezdxf

    document = ezdxf.new("R2010", units=ezdxf.units.MM)
    document.layers.add("cutting", color=7)
    document.layers.add("creasing", color=1)
    space = document.modelspace()
    for points in (blank.outline(), blank.opening()):
        space.add_lwpolyline(points, close=True, dxfattribs={"layer": "cutting"})
    for start, end in blank.creases():
        space.add_line(start, end, dxfattribs={"layer": "creasing"})
    document.saveas(path)


def write_pdf(blank, path):
    from pypdf import PdfWriter
    from pypdf.generic import NameObject, StreamObject

    left, bottom, right, top = blank.box()
    size = [(most - least + 2 * MARGIN) * POINTS_PER_MM for least, most in [(left, right), (bottom, top)]]

    def way(points, end):
        words = [f"{(x - left + MARGIN) * POINTS_PER_MM:.4f} {(y - bottom + MARGIN) * POINTS_PER_MM:.4f}" for x, y in points]
        return f"{words[0]} m {' l '.join(words[1:])} l {end}"

    cuts = [way(points, "h S") for points in (blank.outline(), blank.opening())]
    creases = [way(crease, "S") for crease in blank.creases()]
    content = StreamObject()
    content.set_data("\n".join(["0.85 w", *cuts, "[5.7 2.8] 0 d 0.8 0 0.5 RG", *creases]).encode())
    writer = PdfWriter()
    page = writer.add_blank_page(*size)
    page[NameObject("/Contents")] = writer._add_object(content)
    writer.write(path)


def main():
    task, jobs = sys.argv[1], json.loads(Path(sys.argv[2]).read_text(encoding="utf-8"))
    if task == "outlines":
        print(json.dumps([{"outline": Blank(job).outline(), "opening": Blank(job).opening()} for job in jobs]))
        return
    folder = Path(sys.argv[3])
    folder.mkdir(exist_ok=True)
    for job in jobs:
        blank = Blank(job)
        write_svg(blank, folder / f"{job['name']}.svg")
        write_dxf(blank, folder / f"{job['name']}.dxf")
        write_pdf(blank, folder / f"{job['name']}.pdf")


main()
