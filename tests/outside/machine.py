"""Judges how a machine goes along the lines of a traywright SVG, with libraries that know nothing of traywright.

Usage: machine.py order FOLDER tells, for each NAME.svg, the length of the cuts and creases, the idle way between strokes and
the number of strokes. machine.py held FOLDER WIDE holds each NAME.svg, whose outline has gaps, against NAME-whole.svg
without: what is left of the sheet hangs together, every gap is so wide, and as far off corners and short curves, and how
far the nearest gap is from a place that could have one, and how long there is no such place. machine.py wide FOLDER WIDTH holds each NAME.svg, whose closed cuts stand off the
piece, against NAME-whole.svg. Prints JSON; what is wrong goes to standard error, and the script ends with 1.
"""

import json
import math
import sys
import xml.etree.ElementTree as ElementTree
from pathlib import Path

import shapely
import svgelements

GROUPS = ["creasing", "reverse-creasing", "cutting"]
faults = []


def demand(truth, words):
    if not truth:
        faults.append(words)


def strokes(path):
    """The strokes of a file in its order, group by group as they stand: group, segments, whether closed."""
    found = []
    for group in ElementTree.parse(path).getroot().iter("{http://www.w3.org/2000/svg}g"):
        if group.get("id") in GROUPS:
            for element in group:
                for subpath in svgelements.Path(element.get("d")).as_subpaths():
                    parts = [part for part in subpath if not isinstance(part, svgelements.Move) and part.start != part.end]
                    closed = any(isinstance(part, svgelements.Close) for part in subpath)
                    found.append((group.get("id"), parts, closed))
    return found


def places(parts):
    steps = [(part, 48 if isinstance(part, svgelements.Arc) else 1) for part in parts]
    line = [(parts[0].start.x, parts[0].start.y)]
    for part, count in steps:
        line += [(place.x, place.y) for place in (part.point(step / count) for step in range(1, count + 1))]
    return line


def order(path):
    drawn = strokes(path)
    idle, at = 0.0, None
    for _, parts, _ in drawn:
        if at is not None:
            idle += math.hypot(parts[0].start.x - at.x, parts[0].start.y - at.y)
        at = parts[-1].end
    groups = [group for group, _, _ in drawn]
    demand(groups == sorted(groups, key=GROUPS.index), f"{path.stem}: the groups are {groups}")
    largest = max((abs(shapely.Polygon(places(parts)).area), index) for index, (_, parts, closed) in enumerate(drawn) if closed)
    demand(largest[1] == len(drawn) - 1, f"{path.stem}: the outline is not the last stroke")
    lengths = {kind: sum(part.length() for group, parts, _ in drawn for part in parts if (group == "cutting") == (kind == "cut")) for kind in ("cut", "crease")}
    return {"idle": idle, "strokes": len(drawn), **lengths}


def whole(path):
    """The piece by the file without gaps and width: its polygon and its holes."""
    rings = [shapely.Polygon(places(parts)) for group, parts, closed in strokes(path) if group == "cutting" and closed]
    rings.sort(key=lambda ring: -ring.area)
    return rings[0], rings[1:]


def corners(parts):
    """Where an outline turns by more than a degree."""
    def way(part, share):
        step = part.point(share + 0.001) - part.point(share)
        return math.atan2(step.y, step.x)
    turns = [(one, (way(other, 0) - way(one, 0.999)) % math.tau) for one, other in zip(parts, parts[1:] + parts[:1])]
    return [shapely.Point(part.end.x, part.end.y) for part, turn in turns if 0.02 < turn < math.tau - 0.02]


def held(path, wide):
    twin = path.with_name(path.stem + "-whole.svg")
    piece, holes = whole(twin)
    cuts = [shapely.LineString(places(parts)) for group, parts, _ in strokes(path) if group == "cutting"]
    # A blade of a hundredth of a millimetre; what it leaves of a sheet around the piece.
    cut = shapely.union_all(cuts).buffer(0.005)
    sheet = piece.envelope.buffer(10, join_style="mitre")
    left = shapely.get_parts(shapely.difference(sheet, cut))
    # Waste of an opening falls out; flaps and panels hang on the piece.
    left = [part for part in left if not any(hole.buffer(0.01).covers(part) for hole in holes)]
    demand(len(left) == 1, f"{path.stem}: {len(left)} pieces are left, of {[round(part.area, 2) for part in left]} mm2")
    free = shapely.difference(sheet, piece.exterior.buffer(0.005))
    demand(len(shapely.get_parts(free)) == 2, f"{path.stem}: without gaps it would hang together as well")
    gaps = shapely.difference(piece.exterior, cut.buffer(0.001))
    gaps = [gap for gap in shapely.get_parts(shapely.line_merge(gaps)) if gap.length > 0.05]
    [outline] = [parts for group, parts, closed in strokes(twin) if closed and shapely.Polygon(places(parts)).equals(piece)]
    short = [shapely.LineString(places([part])) for part in outline if isinstance(part, svgelements.Arc) and part.length() < wide]
    for gap in gaps:
        # What the blade takes away at both ends is a hundredth.
        demand(abs(gap.length - wide) < 0.02, f"{path.stem}: a gap is {gap.length} mm long")
        near = min(gap.distance(place) for place in corners(outline) + short)
        demand(near > wide, f"{path.stem}: a gap lies {near} mm off a corner or a short curve")
    far, bare = farthest(piece.exterior, outline, gaps, wide)
    return {"gaps": len(gaps), "round": piece.exterior.length, "far": far, "bare": bare}


def farthest(ring, outline, gaps, wide):
    """Of all places for a gap, within a straight edge with the length of a gap left over at both ends: how far along the
    outline the nearest gap lies at most, and the longest stretch without such a place."""
    held = [ring.project(gap.interpolate(0.5, normalized=True)) for gap in gaps]
    far, ends = 0.0, []
    for part in outline:
        room = part.length() - 3 * wide
        if isinstance(part, svgelements.Arc) or room < 0.01:
            continue
        along = []
        for share in range(21):
            place = part.point((1.5 * wide + room * share / 20) / part.length())
            along.append(ring.project(shapely.Point(place.x, place.y)))
            apart = [abs(along[-1] - middle) for middle in held]
            far = max(far, min((min(way, ring.length - way) for way in apart), default=ring.length))
        # The outline may run either way, and one edge may hold the place from which lengths are counted.
        if abs(along[0] - along[-1]) < room + 0.01:
            ends.append((min(along), max(along)))
        else:
            ends += [(0.0, min(along)), (max(along), ring.length)]
    ends.sort()
    bare = [after[0] - before[1] for before, after in zip(ends, ends[1:] + [(ends[0][0] + ring.length, 0)])]
    return far, max(bare)


def wide(path, width):
    """The closed cuts against mitred buffers of the piece's own edges; arcs as many chords, so within what they leave."""
    rings = [shapely.Polygon(places(parts)) for group, parts, closed in strokes(path) if group == "cutting" and closed]
    rings.sort(key=lambda ring: -ring.area)
    piece, holes = whole(path.with_name(path.stem + "-whole.svg"))
    far = 0.0
    for moved, ring, way in [(rings[0], piece, 1), *((hole, None, -1) for hole in rings[1:])]:
        # A hole is known by where it lies: both files draw at places that differ by whole millimetres at most.
        ring = ring or min(holes, key=lambda hole: hole.centroid.distance(moved.centroid))
        expected = ring.buffer(way * width / 2, join_style="mitre", mitre_limit=100)
        demand(expected.geom_type == "Polygon", f"{path.stem}: the buffer falls apart")
        far = max(far, shapely.hausdorff_distance(moved.exterior, expected.exterior))
    def open_cuts(file):
        return shapely.union_all([shapely.LineString(places(parts)) for group, parts, closed in strokes(file) if group == "cutting" and not closed])

    opened = open_cuts(path), open_cuts(path.with_name(path.stem + "-whole.svg"))
    same = all(cuts.is_empty for cuts in opened) or shapely.hausdorff_distance(*opened) < 0.001
    demand(same, f"{path.stem}: open cuts differ")
    demand(len(rings) == 1 + len(holes), f"{path.stem}: {len(rings) - 1} holes, not {len(holes)}")
    demand(far < 0.02, f"{path.stem}: a cut lies {far} mm off a mitred buffer")
    return {"far": far, "holes": len(holes)}


def main():
    told = {}
    for path in sorted(Path(sys.argv[2]).glob("*.svg")):
        if sys.argv[1] == "order":
            told[path.stem] = order(path)
        elif path.with_name(path.stem + "-whole.svg").exists():
            told[path.stem] = {"held": held, "wide": wide}[sys.argv[1]](path, float(sys.argv[3]))
    if faults:
        sys.exit("\n".join(faults[:40]))
    print(json.dumps(told))


if __name__ == "__main__":
    main()
