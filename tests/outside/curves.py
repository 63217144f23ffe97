"""Reads the holes of a traywright SVG with a library that knows nothing of traywright, and measures their curves.

Usage: curves.py FILE [LENGTH WIDTH]. Prints a JSON list of the closed sub-paths of `cutting` but the outline, in mm: area,
length, count of arcs and lines, how far neighbouring segments turn at their joint (the greatest of all, in degrees),
and the size of the smallest upright rectangle around each. With LENGTH and WIDTH also the least and the greatest distance
outside the ellipse of that size about the middle of the rectangle. Paths are read by svgelements.
"""

import json
import math
import sys
import xml.etree.ElementTree as ElementTree

import svgelements

SVG = "{http://www.w3.org/2000/svg}"
# Places along each arc at which it is held against the ellipse.
PLACES = 200


def subpaths(root):
    for group in root.iter(f"{SVG}g"):
        if group.get("id") == "cutting":
            for element in group:
                yield from svgelements.Path(element.get("d")).as_subpaths()


def segments(subpath):
    drawn = [part for part in subpath if not isinstance(part, svgelements.Move)]
    return [part for part in drawn if isinstance(part, svgelements.Arc) or abs(part.end - part.start) > 1e-9]


def is_closed(subpath):
    return any(isinstance(part, svgelements.Close) for part in subpath)


def area(parts):
    """Green's theorem: the shoelace over the chords, and for each arc the piece beyond its chord."""
    total = 0.0
    for part in parts:
        total += (part.start.x * part.end.y - part.end.x * part.start.y) / 2
        if isinstance(part, svgelements.Arc):
            total += part.rx**2 / 2 * (part.sweep - math.sin(part.sweep))
    return abs(total)


def length(part):
    return abs(part.sweep) * part.rx if isinstance(part, svgelements.Arc) else abs(part.end - part.start)


def direction(part, end):
    """Where a segment heads at its start or its end: of an arc, square to its radius."""
    if not isinstance(part, svgelements.Arc):
        return math.atan2(part.end.y - part.start.y, part.end.x - part.start.x)
    place = part.end if end else part.start
    radial = math.atan2(place.y - part.center.y, place.x - part.center.x)
    return radial + math.copysign(math.pi / 2, part.sweep)


def kink(parts):
    """The greatest turn at a joint."""
    turns = [0.0]
    for one, next_one in zip(parts, parts[1:] + parts[:1]):
        turn = direction(next_one, False) - direction(one, True)
        turns.append(abs(math.degrees(math.remainder(turn, math.tau))))
    return max(turns)


def box(parts):
    """Least and most of places and of arcs at the quarters of their circles."""
    places = [place for part in parts for place in (part.start, part.end)]
    corners = [(place.x, place.y) for place in places]
    for part in parts:
        if isinstance(part, svgelements.Arc):
            start = math.atan2(part.start.y - part.center.y, part.start.x - part.center.x)
            for quarter in range(4):
                share = (math.remainder(quarter * math.pi / 2 - start, math.tau) / part.sweep) % (math.tau / abs(part.sweep))
                if share < 1:
                    angle = quarter * math.pi / 2
                    corners.append((part.center.x + part.rx * math.cos(angle), part.center.y + part.rx * math.sin(angle)))
    xs, ys = zip(*corners)
    return min(xs), min(ys), max(xs), max(ys)


def outside(x, y, a, b):
    """How far a place lies outside an ellipse: from the nearest place of the curve, found by Newton's steps.

    Source: on x = a cos t, y = b sin t the way to the place is square to the tangent there.
    """
    t = math.atan2(y / b, x / a)
    for _ in range(60):
        dx, dy = x - a * math.cos(t), y - b * math.sin(t)
        along_x, along_y = -a * math.sin(t), b * math.cos(t)
        bend = dx * a * math.cos(t) + dy * b * math.sin(t)
        step = (dx * along_x + dy * along_y) / (along_x**2 + along_y**2 + bend)
        t += step
        if abs(step) < 1e-15:
            break
    far = math.hypot(x - a * math.cos(t), y - b * math.sin(t))
    return far if (x / a) ** 2 + (y / b) ** 2 > 1 else -far


def measured(parts, ellipse):
    least_x, least_y, most_x, most_y = box(parts)
    arcs = [part for part in parts if isinstance(part, svgelements.Arc)]
    found = {
        "area": area(parts),
        "length": sum(length(part) for part in parts),
        "arcs": len(arcs),
        "lines": len(parts) - len(arcs),
        "kink": kink(parts),
        "size": [most_x - least_x, most_y - least_y],
    }
    if ellipse:
        a, b = (side / 2 for side in ellipse)
        middle = ((least_x + most_x) / 2, (least_y + most_y) / 2)
        places = [part.point(step / PLACES) for part in arcs for step in range(PLACES + 1)]
        far = [outside(place.x - middle[0], place.y - middle[1], a, b) for place in places]
        found["outside"] = [min(far), max(far)]
    return found


def main():
    root = ElementTree.parse(sys.argv[1]).getroot()
    ellipse = [float(word) for word in sys.argv[2:4]]
    closed = sorted((segments(path) for path in subpaths(root) if is_closed(path)), key=area)
    print(json.dumps([measured(parts, ellipse) for parts in closed[:-1]]))


main()
