"""Reads a traywright SVG with libraries that know nothing of traywright, and measures it.

Usage: svg.py FILE. Prints one JSON object of measures in mm. What breaks the rules of the file goes to standard
error, one sentence a line, and the script ends with 1. Paths are read by svgelements, crossings judged by shapely.
"""

import json
import math
import re
import sys
import xml.etree.ElementTree as ElementTree

import shapely
import svgelements

SVG = "{http://www.w3.org/2000/svg}"
LINE_GROUPS = ["cutting", "creasing", "reverse-creasing"]
# The file is exact to 0.0001 mm, so two ends that are one place differ by less than this.
SAME = 0.0005
# Runs shorter than this that lie on each other are a touch of two lines and no line drawn twice.
RUN = 0.01

faults = []


def demand(truth, words):
    if not truth:
        faults.append(words)


def read_page(root):
    """The sheet: `width` and `height` in mm, and a viewBox of as many units."""
    sizes = []
    for key in ("width", "height"):
        found = re.fullmatch(r"([0-9.]+)mm", root.get(key, ""))
        demand(found, f"{key} is {root.get(key)!r} and not a length in mm")
        sizes.append(float(found[1]) if found else math.nan)
    view = [float(word) for word in root.get("viewBox", "").split()]
    same = len(view) == 4 and view[:2] == [0, 0] and all(abs(a - b) < 1e-9 for a, b in zip(view[2:], sizes))
    demand(same, f"the viewBox {root.get('viewBox')!r} is not 0 0 {sizes[0]} {sizes[1]}")
    return sizes


def read_groups(root):
    """The sub-paths of each line group, read by svgelements, and all groups by their names."""
    for element in root.iter():
        demand("transform" not in element.attrib, f"{element.tag} carries a transform")
    groups = {group.get("id"): group for group in root.iter(f"{SVG}g") if group.get("id")}
    missing = set(LINE_GROUPS + ["dimensions"]) - set(groups)
    demand(not missing, f"there is no group {sorted(missing)}")
    lines = {}
    for name in LINE_GROUPS:
        lines[name] = []
        for element in groups.get(name, []):
            demand(element.tag == f"{SVG}path", f"{name} holds {element.tag}")
            words = element.get("d", "")
            letters = set(re.findall(r"[A-Za-z]", words))
            demand(letters <= set("MLACZ"), f"{name} holds a path with {sorted(letters - set('MLACZ'))}")
            lines[name] += svgelements.Path(words).as_subpaths()
    return lines, groups


def segments(subpath):
    """Its segments that go somewhere; a closing that goes nowhere is none."""
    drawn = [part for part in subpath if not isinstance(part, svgelements.Move)]
    return [part for part in drawn if abs(part.end - part.start) > 1e-9 or isinstance(part, svgelements.Arc)]


def is_closed(subpath):
    return any(isinstance(part, svgelements.Close) for part in subpath)


def signed_area(subpath):
    """Green's theorem: the shoelace over the chords, and for each arc the piece beyond its chord."""
    total = 0.0
    for part in segments(subpath):
        total += (part.start.x * part.end.y - part.end.x * part.start.y) / 2
        if isinstance(part, svgelements.Arc):
            demand(abs(part.rx - part.ry) < 1e-6, "an arc is not circular")
            total += part.rx**2 / 2 * (part.sweep - math.sin(part.sweep))
    return total


def polyline(part):
    """A segment as places; an arc as many of them, for crossings only."""
    steps = 64 if isinstance(part, svgelements.Arc) else 1
    return [(place.x, place.y) for place in (part.point(step / steps) for step in range(steps + 1))]


def polygon(subpath):
    places = [place for part in segments(subpath) for place in polyline(part)[:-1]]
    return shapely.Polygon(places)


def judge_outline(lines):
    """One closed sub-path is the outline: it does not cross itself, and every line lies in it."""
    closed = sorted((path for path in lines["cutting"] if is_closed(path)), key=lambda path: abs(signed_area(path)))
    if not closed:
        faults.append("no closed sub-path of cutting can be the outline")
        return shapely.Polygon(), 0.0, 0.0
    outline, holes = closed[-1], closed[:-1]
    blank = polygon(outline)
    demand(blank.is_valid, f"the outline is not simple: {shapely.is_valid_reason(blank)}")
    card = blank.buffer(SAME)
    for name, paths in lines.items():
        for path in paths:
            for part in segments(path):
                inside = card.covers(shapely.LineString(polyline(part)))
                demand(inside, f"{name}: {part} leaves the blank")
    shapes = [polygon(hole) for hole in holes]
    for index, hole in enumerate(shapes):
        demand(hole.is_valid, f"a hole is not simple: {shapely.is_valid_reason(hole)}")
        for other in shapes[index + 1 :]:
            demand(hole.intersection(other).area < 1e-6, f"two holes overlap at {hole.centroid}")
    for path in lines["creasing"] + lines["reverse-creasing"]:
        demand(not is_closed(path), "a crease is a closed line")
    return blank, abs(signed_area(outline)), sum(abs(signed_area(hole)) for hole in holes)


def lie_on_each_other(one, other):
    """Whether two segments share a run: straight ones by their line, arcs by their ends and middle."""
    arcs = [isinstance(part, svgelements.Arc) for part in (one, other)]
    if any(arcs):
        ends = {(round(p.x, 3), round(p.y, 3)) for p in (one.start, one.end)}
        other_ends = {(round(p.x, 3), round(p.y, 3)) for p in (other.start, other.end)}
        middle = abs(one.point(0.5) - other.point(0.5))
        return all(arcs) and ends == other_ends and middle < SAME
    along = one.end - one.start
    length = abs(along)
    heights, places = [], []
    for end in (other.start, other.end):
        offset = end - one.start
        heights.append(abs(along.x * offset.y - along.y * offset.x) / length)
        places.append((along.x * offset.x + along.y * offset.y) / length)
    run = min(length, max(places)) - max(0.0, min(places))
    return max(heights) < SAME and run > RUN


def judge_repeats(lines):
    """No line is drawn twice, in one group or in two."""
    parts = [(name, part) for name, paths in lines.items() for path in paths for part in segments(path)]
    drawn = [shapely.LineString(polyline(part)) for _, part in parts]
    tree = shapely.STRtree(drawn)
    for index, line in enumerate(drawn):
        for near in tree.query(line.buffer(SAME)):
            if near > index and lie_on_each_other(parts[index][1], parts[near][1]):
                faults.append(f"drawn twice: {parts[index]} and {parts[near]}")


def judge_other_groups(groups, blank):
    """Whatever is drawn beside the four groups is drawn beside the blank, too."""
    for name, group in groups.items():
        if name in LINE_GROUPS + ["dimensions"]:
            continue
        for element in group.iter(f"{SVG}path"):
            for path in svgelements.Path(element.get("d", "")).as_subpaths():
                for part in segments(path):
                    demand(not blank.intersects(shapely.LineString(polyline(part))), f"{name} draws on the blank")


def judge_dimensions(group, figures):
    """In its group there are paths alone, and each measure in mm says how long its line is, to the two digits that are written."""
    lengths = []
    texts = [float("".join(element.itertext()).removeprefix("\u2300")) for element in figures]
    for element in group:
        if element.get("fill") is None:
            first = next(iter(svgelements.Path(element.get("d", "")).as_subpaths()))
            lengths.append(segments(first)[0].length())
    demand(all(element.tag == f"{SVG}path" for element in group), "a group of lines holds more than paths")
    demand(len(texts) == len(lengths), f"{len(texts)} measures and {len(lengths)} lines to them")
    for text, length in zip(texts, lengths):
        demand(abs(text - length) <= 0.0051, f"a line of {length} mm is said to be {text}")
    return len(texts)


def scale_bar(groups):
    """The length of the bar by which a maker measures the print."""
    bars = [svgelements.Path(element.get("d", "")).bbox() for element in groups.get("scale", []) if element.get("d")]
    return max((bar[2] - bar[0] for bar in bars), default=None)


def opening(lines):
    """From one crease of the opening in the middle of the blank to the opposite one, along x and along y."""
    cut = [box for path in lines["cutting"] for box in [path.bbox()]]
    centre = [(min(box[axis] for box in cut) + max(box[axis + 2] for box in cut)) / 2 for axis in (0, 1)]
    creases = [part for name in LINE_GROUPS[1:] for path in lines[name] for part in segments(path)]
    measures = []
    for axis in (0, 1):
        places = []
        for crease in creases:
            ends = [(end.x, end.y) for end in (crease.start, crease.end)]
            across = abs(ends[0][axis] - ends[1][axis]) < SAME
            spans = sorted(end[1 - axis] for end in ends)
            if across and spans[0] < centre[1 - axis] < spans[1]:
                places.append(ends[0][axis] - centre[axis])
        before = [place for place in places if place < 0]
        after = [place for place in places if place > 0]
        measures.append(min(after) - max(before) if before and after else None)
    return measures


def main():
    root = ElementTree.parse(sys.argv[1]).getroot()
    width, height = read_page(root)
    lines, groups = read_groups(root)
    blank, outline_area, holes_area = judge_outline(lines)
    judge_repeats(lines)
    judge_other_groups(groups, blank)
    dimensions = judge_dimensions(groups.get("dimensions", []), groups.get("dimension-figures", []))
    if faults:
        sys.exit("\n".join(faults))
    # One unit is one mm when an inch has 25.4 of them: this is how another reader sees the sheet.
    sheet = svgelements.SVG.parse(sys.argv[1], ppi=25.4)
    lengths = {name: sum(part.length() for path in paths for part in segments(path)) for name, paths in lines.items()}
    measures = {
        "sheet": [sheet.width, sheet.height],
        "written": [width, height],
        "blank_area": outline_area - holes_area,
        "opening": opening(lines),
        "scale_bar": scale_bar(groups),
        "dimensions": dimensions,
        "segments": {name: sum(len(segments(path)) for path in paths) for name, paths in lines.items()},
        "closed": sum(is_closed(path) for path in lines["cutting"]),
        "lengths": lengths,
    }
    print(json.dumps(measures))


main()
