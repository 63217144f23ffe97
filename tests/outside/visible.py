"""Holds the lines of figures against a depth buffer.

Given the path of a JSON file: a list of figures, each with `surfaces` (rings of places as seen: across, up, towards the
eye), `edges` (pairs of such places) and `seen` (for every edge the stretches that were drawn, across and up).
Every edge is walked in steps of PIXEL. At each step the depth buffer holds the nearest surface there, found by asking
every polygon whether it covers the place (even-odd rule) and how near its plane is. A step is hidden when that is nearer
than the edge by more than ALLOWANCE. A step that is drawn and hidden, or visible and not drawn, counts, unless the buffer
changes its mind within two pixels of it. Prints counts; ends with 1 and the places when anything counts.
"""

import json
import sys

import numpy

PIXEL = 0.25
# Source: 0.02 mm is far less than the thinnest card of the trade, and more than the noise of poses.
ALLOWANCE = 0.03
BLUR = 2


def covers(rings, x, y):
    inside = numpy.zeros(len(x), bool)
    for ring in rings:
        ring = numpy.asarray(ring, float)[:, :2]
        for one, two in zip(ring, numpy.roll(ring, -1, axis=0)):
            crosses = (one[1] > y) != (two[1] > y)
            if one[1] != two[1]:
                at = one[0] + (y - one[1]) / (two[1] - one[1]) * (two[0] - one[0])
                inside ^= crosses & (x < at)
    return inside


def plane(ring):
    """Nearness as a function of across and up, by Newell's normal; none when seen edge on."""
    ring = numpy.asarray(ring, float)
    following = numpy.roll(ring, -1, axis=0)
    normal = numpy.array([
        numpy.sum((ring[:, 1] - following[:, 1]) * (ring[:, 2] + following[:, 2])),
        numpy.sum((ring[:, 2] - following[:, 2]) * (ring[:, 0] + following[:, 0])),
        numpy.sum((ring[:, 0] - following[:, 0]) * (ring[:, 1] + following[:, 1])),
    ])
    length = numpy.linalg.norm(normal)
    if length == 0 or abs(normal[2]) < 1e-6 * length:
        return None
    middle = ring.mean(axis=0)
    return normal, middle


def drawn(stretches, start, way, count):
    """Which steps of an edge lie on a stretch that was drawn."""
    length2 = float(way @ way)
    shown = numpy.zeros(count, bool)
    steps = (numpy.arange(count) + 0.5) / count
    for stretch in stretches:
        ends = [float((numpy.asarray(end) - start) @ way) / length2 for end in stretch]
        off = [abs(float(numpy.cross(way, numpy.asarray(end) - start))) / length2 ** 0.5 for end in stretch]
        if max(off) > 1e-6:
            raise SystemExit(f"a stretch lies {max(off)} mm beside its edge")
        shown |= (steps >= min(ends)) & (steps <= max(ends))
    return shown


def faults(figure):
    surfaces = []
    for rings in figure["surfaces"]:
        flat = plane(rings[0])
        if flat is not None:
            ring = numpy.asarray(rings[0], float)[:, :2]
            surfaces.append((rings, flat, ring.min(axis=0), ring.max(axis=0)))
    found, steps_in_all, hidden_in_all = [], 0, 0
    for edge, stretches in zip(figure["edges"], figure["seen"]):
        start, end = (numpy.asarray(place, float) for place in edge)
        way = (end - start)[:2]
        count = int(numpy.linalg.norm(way) / PIXEL)
        if count < 2 * BLUR + 1:
            continue
        steps = (numpy.arange(count) + 0.5) / count
        x, y, near = (start[axis] + steps * (end[axis] - start[axis]) for axis in range(3))
        buffer = numpy.full(count, -numpy.inf)
        for rings, (normal, middle), least, most in surfaces:
            if max(start[0], end[0]) < least[0] or min(start[0], end[0]) > most[0]:
                continue
            if max(start[1], end[1]) < least[1] or min(start[1], end[1]) > most[1]:
                continue
            depth = middle[2] - (normal[0] * (x - middle[0]) + normal[1] * (y - middle[1])) / normal[2]
            ahead = covers(rings, x, y) & (depth > buffer)
            buffer[ahead] = depth[ahead]
        hidden = buffer > near + ALLOWANCE
        shown = drawn(stretches, start[:2], way, count)
        wrong = shown == hidden
        # Where the buffer changes its mind within two pixels, or is just at its allowance, nothing is said.
        unsure = numpy.abs(buffer - near - ALLOWANCE) < 0.02
        for shift in range(-BLUR, BLUR + 1):
            moved = numpy.roll(hidden, shift)
            if shift > 0:
                moved[:shift] = hidden[:shift]
            elif shift < 0:
                moved[shift:] = hidden[shift:]
            unsure |= moved != hidden
        unsure[:BLUR] = True
        unsure[count - BLUR:] = True
        for step in numpy.flatnonzero(wrong & ~unsure):
            word = "drawn though hidden" if hidden[step] else "missing though visible"
            found.append(f"{word} at {x[step]:.2f}, {y[step]:.2f}")
        steps_in_all += int((~unsure).sum())
        hidden_in_all += int((hidden & ~unsure).sum())
    return found, steps_in_all, hidden_in_all


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        figures = json.load(file)
    wrong, steps, hidden = [], 0, 0
    for number, figure in enumerate(figures):
        found, some, some_hidden = faults(figure)
        wrong += [f"figure {number}: {words}" for words in found]
        steps += some
        hidden += some_hidden
    if wrong:
        raise SystemExit(f"{len(wrong)} of {steps} places are wrong\n" + "\n".join(wrong[:40]))
    print(json.dumps({"figures": len(figures), "places": steps, "hidden": hidden}))


main()
