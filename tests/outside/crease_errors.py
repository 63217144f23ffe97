"""Folds the written blank of a tray again and again, each time with its creases a little beside their lines.

Usage: crease_errors.py FILE.json, a document of the wire. Each crease is moved into its panel by an error drawn evenly
between plus and minus the accuracy of the document's tool, independently of the others, while the cut edges stay; each cut
tip of a panel has an error of its own of the same size. Prints one JSON object: how often the outside of the tray is more
than the box, along, across and upright, with a box that is measured to half a millimetre, and how often each tongue ends
before the panel that it goes into. It folds by itself: no pose of the document is read, and no formula.
"""

import json
import sys
from pathlib import Path

import numpy

DRAWS = 100_000
# Walls within this of the outermost one stand outside as well.
AS_FAR = 0.05


def rotation(axis, degrees):
    """The turn about an axis through the origin (Rodrigues)."""
    x, y, z = axis
    cross = numpy.array([[0, -z, y], [z, 0, -x], [-y, x, 0]])
    angle = numpy.radians(degrees)
    return numpy.eye(3) + numpy.sin(angle) * cross + (1 - numpy.cos(angle)) * cross @ cross


class Folding:
    """Rotations are the same in every draw; only places differ, one row a draw."""

    def __init__(self, document, draw):
        self.panels = document["panels"]
        self.half = document["board"]["caliper"] / 2
        accuracy = document["tool"]["accuracy"]
        self.turns, self.shifts = [], []
        self.tips = draw.uniform(-accuracy, accuracy, (len(self.panels), DRAWS))
        for panel in self.panels:
            hinge = panel.get("hinge")
            if hinge is None:
                self.turns.append(numpy.eye(3))
                self.shifts.append(numpy.zeros((DRAWS, 3)))
                continue
            start, end = (numpy.array([end["x"], end["y"], 0.0]) for end in hinge["line"])
            along = (start - end) / numpy.linalg.norm(start - end)
            # The panel lies right of its line, which `along` runs against.
            into = numpy.array([-along[1], along[0], 0.0])
            turn = rotation(along, hinge["fold_deg"])
            off = draw.uniform(-accuracy, accuracy, (DRAWS, 1))
            # The first draw is the tray as it is meant to be.
            off[0] = 0.0
            height = numpy.array([0.0, 0.0, numpy.sign(hinge["fold_deg"]) * hinge["height"]])
            axis = start + height + off * into
            parent_turn, parent_shift = self.turns[hinge["parent"]], self.shifts[hinge["parent"]]
            own_shift = axis - axis @ turn.T
            self.turns.append(parent_turn @ turn)
            self.shifts.append(own_shift @ parent_turn.T + parent_shift)

    def place(self, panel, point):
        return self.turns[panel] @ numpy.asarray(point) + self.shifts[panel]


def corners(contour):
    """The corners of a contour; curves count by their ends."""
    ends = [contour["start"]] + [next(iter(part.values()))["to"] for part in contour["segments"]]
    return [(end["x"], end["y"]) for end in ends]


def main():
    document = json.loads(Path(sys.argv[1]).read_text())
    document = document.get("document", document)
    draw = numpy.random.default_rng(18)
    folding = Folding(document, draw)
    reaches = []
    for index, panel in enumerate(document["panels"]):
        places = [folding.place(index, (x, y, side))
                  for x, y in corners(panel["outline"]) for side in (-folding.half, folding.half)]
        reaches.append((numpy.min(places, axis=0), numpy.max(places, axis=0)))
    lows, highs = (numpy.array(ends) for ends in zip(*reaches))
    # Only walls that are meant to stand outside count: layers behind them come forward too, but there the wall gives.
    outer_low = lows[:, 0] < lows[:, 0].min(axis=0) + AS_FAR
    outer_high = highs[:, 0] > highs[:, 0].max(axis=0) - AS_FAR
    least = numpy.where(outer_low[:, None], lows, numpy.inf).min(axis=0)
    most = numpy.where(outer_high[:, None], highs, -numpy.inf).max(axis=0)
    size = document["box_size"]
    box = numpy.array([size["length"], size["width"], size["depth"]])
    spare = box + draw.uniform(-0.5, 0.5, (DRAWS, 3)) - (most - least)
    tongues = {}
    for lock in document["interlocks"]:
        run = corners(lock["tongue"])
        foot, tip = run[0], run[len(run) // 2]
        out = numpy.array(tip) - numpy.array(foot)
        into = lock["into"]

        def height(point):
            place = folding.place(lock["panel"], (*point, 0.0)) - folding.shifts[into]
            return place @ folding.turns[into][:, 2]

        sense = numpy.sign((height(tip) - height(foot)).mean())
        reach = sense * height(tip) + folding.half + folding.tips[lock["panel"]]
        tongues.setdefault(lock["name"], float(numpy.mean(reach < 0.0)))
    print(json.dumps({
        "too_tight": [float(part) for part in numpy.mean(spare < 0.0, axis=0)],
        "deviation": [float(part) for part in spare.std(axis=0)],
        "tongues": tongues,
    }))


main()
