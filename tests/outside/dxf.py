"""Holds DXF files of traywright against its SVG files with readers that know nothing of traywright.

Usage: dxf.py pairs FOLDER judges every NAME.dxf beside its NAME.svg and prints one JSON object by name; dxf.py picture
FILE.dxf FILE.svg draws one. What is wrong goes to standard error, one sentence a line, and the script ends with 1.
ezdxf reads, audits and recovers the DXF; OGR (by pyogrio) reads it once more; svgelements reads the SVG; shapely judges.
"""

import json
import math
import sys
import xml.etree.ElementTree as ElementTree
from collections import Counter
from pathlib import Path

import ezdxf
import numpy
import pyogrio
import shapely
import svgelements
from ezdxf import recover
from ezdxf.addons.drawing import Frontend, RenderContext, layout, svg

GROUPS = ["cutting", "creasing", "reverse-creasing"]
# Source: core/CONTRACT.md, "Files: DXF": the lines of the SVG within 0.001 mm.
NEAR = 0.001
faults = []


def demand(truth, words):
    if not truth:
        faults.append(words)


class Part:
    """One straight or round way: its ends, its bulge (0 straight, positive counter-clockwise with y up)."""

    def __init__(self, start, end, bulge):
        self.start, self.end, self.bulge = numpy.array(start[:2]), numpy.array(end[:2]), bulge
        chord = self.end - self.start
        self.chord = math.hypot(*chord)
        self.sweep = 4 * math.atan(bulge)
        if bulge:
            self.radius = self.chord / (2 * abs(math.sin(self.sweep / 2)))
            left = numpy.array([-chord[1], chord[0]])
            self.centre = (self.start + self.end) / 2 + left * (1 - bulge**2) / (4 * bulge)

    def length(self):
        return self.radius * abs(self.sweep) if self.bulge else self.chord

    def at(self, share):
        if not self.bulge:
            return self.start + (self.end - self.start) * share
        sin, cos = math.sin(self.sweep * share), math.cos(self.sweep * share)
        x, y = self.start - self.centre
        return self.centre + numpy.array([x * cos - y * sin, x * sin + y * cos])

    def line(self, steps=64):
        steps = steps if self.bulge else 1
        return shapely.LineString([self.at(step / steps) for step in range(steps + 1)])

    def away(self, place):
        """How far a place lies off it."""
        ends = min(math.hypot(*(place - self.start)), math.hypot(*(place - self.end)))
        if not self.bulge:
            along = numpy.dot(place - self.start, self.end - self.start) / self.chord**2
            foot = self.start + (self.end - self.start) * min(1.0, max(0.0, along))
            return math.hypot(*(place - foot))
        angle = math.atan2(*(place - self.centre)[::-1]) - math.atan2(*(self.start - self.centre)[::-1])
        angle = angle % math.tau if self.sweep > 0 else -(-angle % math.tau)
        on = abs(angle) <= abs(self.sweep)
        return min(ends, abs(math.hypot(*(place - self.centre)) - self.radius)) if on else ends

    def beyond(self):
        """Twice the area that it adds to that over its chord."""
        doubled = self.start[0] * self.end[1] - self.end[0] * self.start[1]
        return doubled + (self.radius**2 * (self.sweep - math.sin(self.sweep)) if self.bulge else 0.0)


def svg_runs(path):
    """The runs of each group, y turned up; each as its parts and whether it is closed."""
    root = ElementTree.parse(path).getroot()
    runs = {}
    for group in root.iter("{http://www.w3.org/2000/svg}g"):
        if group.get("id") not in GROUPS:
            continue
        runs[group.get("id")] = found = []
        for element in group:
            for subpath in svgelements.Path(element.get("d")).as_subpaths():
                parts, closed = [], False
                for segment in subpath:
                    closed = closed or isinstance(segment, svgelements.Close)
                    if isinstance(segment, svgelements.Move) or segment.end == segment.start:
                        continue
                    # Turning y over turns the sense of an arc.
                    arc = isinstance(segment, svgelements.Arc)
                    bulge = -math.tan(segment.sweep / 4) if arc else 0.0
                    parts.append(Part((segment.start.x, -segment.start.y), (segment.end.x, -segment.end.y), bulge))
                found.append((parts, closed))
    return runs


def dxf_runs(drawing):
    """The same of a DXF, by layer; whatever is no polyline there is told."""
    runs = {group: [] for group in GROUPS}
    for entity in drawing.modelspace():
        group = entity.dxf.layer.lower()
        if group == "dimensions":
            kinds = ("DIMENSION",) if drawing.dxfversion == "AC1015" else ("TEXT", "LINE", "SOLID")
            demand(entity.dxftype() in kinds, f"a {entity.dxftype()} stands among the measures")
            continue
        if group in ("title", "notes", "labels"):
            demand(entity.dxftype() == "TEXT", f"a {entity.dxftype()} stands among the words")
            continue
        demand(group in GROUPS, f"something stands on the layer {entity.dxf.layer}")
        demand(entity.dxftype() in ("LWPOLYLINE", "POLYLINE"), f"{entity.dxf.layer} holds a {entity.dxftype()}")
        if entity.dxftype() == "LWPOLYLINE":
            corners, closed = [(x, y, bulge) for x, y, _, _, bulge in entity.get_points("xyseb")], entity.closed
        else:
            corners = [(v.dxf.location.x, v.dxf.location.y, v.dxf.bulge) for v in entity.vertices]
            closed = entity.is_closed
            demand(all(v.dxf.layer == entity.dxf.layer for v in entity.vertices), "a corner stands on another layer")
        ends = corners[1:] + corners[: 1 if closed else 0]
        runs[group].append(([Part(one, other, one[2]) for one, other in zip(corners, ends)], closed))
    return runs


def distances(places, parts):
    """How far each place lies off the nearest part; without end beyond a tenth of a millimetre."""
    if not places or not parts:
        return [math.inf] * len(places)
    tree = shapely.STRtree([part.line() for part in parts])
    near = tree.query(shapely.points(places), predicate="dwithin", distance=0.1)
    least = [math.inf] * len(places)
    for place, part in near.T:
        least[place] = min(least[place], parts[part].away(places[place]))
    return least


def compare(name, drawn, written):
    """The SVG's and the DXF's runs are the same lines: the greatest distance between them, lengths and areas."""
    # The outline is the last run of the cuts in both; its first corner tells how one file lies over the other.
    shift = written["cutting"][-1][0][0].start - drawn["cutting"][-1][0][0].start
    greatest = 0.0
    for group in GROUPS:
        one, other = ([part for parts, _ in runs[group] for part in parts] for runs in (drawn, written))
        for parts, others, move in ((one, other, shift), (other, one, -shift)):
            places = [part.at(share) + move for part in parts for share in (0.0, 0.23, 0.5, 0.77, 1.0)]
            for place, off in zip(places, distances(places, others)):
                greatest = max(greatest, off)
                demand(off < NEAR, f"{name}: a line of {group} at {place} is {off} off in the other file")
        lengths = [sum(part.length() for part in parts) for parts in (one, other)]
        demand(abs(lengths[0] - lengths[1]) < NEAR * max(1, len(one)), f"{name}: {group} is {lengths} mm long")
        arcs = [sum(part.length() for part in parts if part.bulge) for parts in (one, other)]
        demand(abs(arcs[0] - arcs[1]) < NEAR * max(1, len(one)), f"{name}: {group} has arcs of {arcs} mm")
        counts = [(len(runs[group]), sum(closed for _, closed in runs[group])) for runs in (drawn, written)]
        demand(counts[0] == counts[1], f"{name}: runs and closed ones of {group} are {counts}")
    areas = [sum(sum(part.beyond() for part in parts) / 2 for parts, closed in runs["cutting"] if closed) for runs in (drawn, written)]
    demand(abs(areas[0] - areas[1]) < 0.01 + 1e-5 * abs(areas[0]), f"{name}: areas are {areas}")
    return greatest, areas


def judge_once(name, runs):
    """Every line stands there once: what all lines cover together is as long as all of them."""
    lines = [part.line() for group in runs.values() for parts, _ in group for part in parts]
    covered, drawn = shapely.union_all(lines).length, sum(line.length for line in lines)
    demand(abs(covered - drawn) < 0.01, f"{name}: {drawn} mm are drawn and {covered} mm covered")


def judge_by_ogr(name, path, runs):
    """OGR, which draws arcs as chords, finds as many lines on each layer, with their corners on ours."""
    frame, _, shapes, fields = pyogrio.raw.read(path)
    layers = fields[list(frame["fields"]).index("Layer")]
    kinds = shapely.from_wkb(shapes)
    for group in GROUPS:
        found = [shape for layer, shape in zip(layers, kinds) if layer.lower() == group]
        demand(len(found) == len(runs[group]), f"{name}: OGR finds {len(found)} lines of {group}, not {len(runs[group])}")
        parts = [part for parts, _ in runs[group] for part in parts]
        places = [place for shape in found for place in shapely.get_coordinates(shape)]
        for place, off in zip(places, distances(places, parts)):
            demand(off < NEAR, f"{name}: OGR sees a corner of {group} at {place}, {off} off")


def judge_extents(name, drawing):
    least, most = (drawing.header[key] for key in ("$EXTMIN", "$EXTMAX"))
    for entity in drawing.modelspace():
        if entity.dxftype() in ("LWPOLYLINE", "LINE"):
            ends = entity.get_points("xy") if entity.dxftype() == "LWPOLYLINE" else (entity.dxf.start, entity.dxf.end)
            for x, y, *_ in map(tuple, ends):
                inside = least[0] - 1e-6 <= x <= most[0] + 1e-6 and least[1] - 1e-6 <= y <= most[1] + 1e-6
                demand(inside, f"{name}: {x}, {y} lies beyond the extents {least} {most}")


def judge_dimensions(name, drawing):
    """Every dimension measures the number that it shows, and its block holds lines, heads and the words."""
    dimensions = drawing.modelspace().query("DIMENSION")
    blocks = [entity.dxf.geometry for entity in dimensions]
    demand(len(set(blocks)) == len(blocks), f"{name}: dimensions share a block: {blocks}")
    for entity in dimensions:
        words = entity.dxf.text.replace("%%c", "").strip()
        number = float(words.split()[0].replace(",", "."))
        measured = entity.get_measurement()
        # Source: 1 in = 25.4 mm exactly. The words are rounded to 0.01 mm, or 0.001 in.
        near = min(abs(measured - number) / 0.005, abs(measured - 25.4 * number) / (25.4 * 0.0005))
        demand(near < 1.01, f"{name}: the dimension {words} measures {measured}")
        demand(abs(measured - entity.dxf.actual_measurement) < 1e-6, f"{name}: the dimension {words} says {entity.dxf.actual_measurement} and measures {measured}")
        block = drawing.blocks.get(entity.dxf.geometry)
        kinds = Counter(part.dxftype() for part in block)
        demand(kinds["SOLID"] == 2 and kinds["LINE"] >= 1 and kinds["TEXT"] == 1, f"{name}: the block of {words} holds {kinds}")
        texts = [part.dxf.text for part in block if part.dxftype() == "TEXT"]
        demand(texts == [entity.dxf.text], f"{name}: the dimension {entity.dxf.text} shows {texts}")
        style, height = drawing.dimstyles.get(entity.dxf.dimstyle).dxf.dimtxt, block.query("TEXT")[0].dxf.height
        demand(abs(style - height) < 1e-6, f"{name}: the words of a dimension are {height} high, and its style says {style}")
    demand(dimensions or drawing.dxfversion == "AC1009", f"{name}: no dimension")


def judge_data(name, drawing):
    """Creases carry an angle with the sign of their layer, the outline a thickness."""
    if drawing.dxfversion == "AC1009":
        return
    demand("TRAYWRIGHT" in drawing.appids, f"{name}: the application is not registered")
    told = Counter()
    for entity in drawing.modelspace().query("LWPOLYLINE"):
        layer = entity.dxf.layer
        tags = entity.get_xdata("TRAYWRIGHT") if entity.has_xdata("TRAYWRIGHT") else []
        values = [tag.value for tag in tags if tag.code != 1001]
        data = dict(zip(values[::2], values[1::2]))
        told.update(data.keys())
        if layer == "CUTTING":
            demand(set(data) in (set(), {"caliper", "hinge", "creases"}) and data.get("caliper", 1) > 0, f"{name}: a cut carries {data}")
        else:
            sign = 1 if layer == "CREASING" else -1
            demand(set(data) == {"fold-angle", "panel"} and 0 < sign * data["fold-angle"] <= 180, f"{name}: a line of {layer} carries {data}")
    demand(told["caliper"] > 0 and told["fold-angle"] > 0, f"{name}: extended data is {told}")


def judge_words(name, drawing, svg):
    """Measures and names read as in the SVG; ezdxf has a sign of its own for a diameter."""
    groups = [group for group in ElementTree.parse(svg).getroot().iter("{http://www.w3.org/2000/svg}g") if group.get("id") in ("dimension-figures", "names")]
    wanted = Counter(text.text.strip() for group in groups for text in group.iter("{http://www.w3.org/2000/svg}text"))
    texts = list(drawing.modelspace().query("TEXT"))
    texts += [part for entity in drawing.modelspace().query("DIMENSION") for part in drawing.blocks.get(entity.dxf.geometry) if part.dxftype() == "TEXT"]
    found = Counter(text.plain_text().replace("Ø", "⌀") for text in texts)
    demand(wanted and not wanted - found, f"{name}: words differ: {wanted - found} is not in {found}")


def judge(path):
    name = path.stem
    drawing = ezdxf.readfile(path)
    audit = drawing.audit()
    _, recovered = recover.readfile(path)
    for who, auditor in (("audit", audit), ("recover", recovered)):
        told = [entry.message for entry in auditor.errors + auditor.fixes]
        demand(not told, f"{name}: {who} says {told[:3]}")
    unit = drawing.header.get("$INSUNITS") if drawing.dxfversion == "AC1015" else 4
    # Source: tests/facts/drawing.md dxf-05 and X3: release 12 has no unit.
    demand(drawing.dxfversion in ("AC1015", "AC1009") and unit == 4, f"{name}: {drawing.dxfversion}, unit {unit}")
    judge_extents(name, drawing)
    judge_words(name, drawing, path.with_suffix(".svg"))
    judge_dimensions(name, drawing)
    judge_data(name, drawing)
    written, drawn = dxf_runs(drawing), svg_runs(path.with_suffix(".svg"))
    greatest, areas = compare(name, drawn, written)
    judge_once(name, written)
    judge_by_ogr(name, path, written)
    parts = [part for group in written.values() for parts, _ in group for part in parts]
    return {
        "release": drawing.dxfversion,
        "greatest": greatest,
        "area": areas[1],
        "runs": sum(len(group) for group in written.values()),
        "arcs": sum(bool(part.bulge) for part in parts),
        "segments": len(parts),
    }


def picture(path, into):
    drawing = ezdxf.readfile(path)
    backend = svg.SVGBackend()
    Frontend(RenderContext(drawing), backend).draw_layout(drawing.modelspace())
    Path(into).write_text(backend.get_string(layout.Page(0, 0, layout.Units.mm)))


def main():
    if sys.argv[1] == "picture":
        return picture(sys.argv[2], sys.argv[3])
    told = {path.stem: judge(path) for path in sorted(Path(sys.argv[2]).glob("*.dxf"))}
    if faults:
        sys.exit("\n".join(faults[:40]))
    print(json.dumps(told))


main()
