"""Folds traywright FOLD files as solids about the true fold lines of their card, and measures what is left in the box.

Usage: fold_solids.py FOLDER HINGE, with files NAME.fold in it; HINGE is how far the fold lines lie from the middle of the
card towards the inside, as a part of its caliper. Prints one JSON object by NAME: what is left of the box along its three
sides (mm), how deep panels come into each other beside the bars at their creases, and how far the file's folded form is
from the card folded here. It takes the flat frame alone: faces, fold angles, caliper. Solids are manifold3d's. Judges
nothing.
"""

import json
import math
import sys
from collections import defaultdict
from pathlib import Path

import manifold3d
import numpy

from solids import NOISE_DEPTH, after, depth, moved, prism


class Panel:
    """Faces that are whole card together, the panel that they hang on, and the crease that leads there."""

    def __init__(self, face, parent, crease):
        self.faces, self.parent, self.crease = [face], parent, crease
        self.motion = numpy.eye(3, 4)


class Card:
    """The flat frame of a file."""

    def __init__(self, words):
        self.words = words
        self.flat = numpy.array(words["vertices_coords"], dtype=float)
        self.faces = words["faces_vertices"]
        self.caliper = words["traywright:caliper"]
        self.beside = defaultdict(list)
        for face, corners in enumerate(self.faces):
            for side in zip(corners, corners[1:] + corners[:1]):
                self.beside[frozenset(side)].append((face, side))
        self.angle = {frozenset(ends): angle for ends, angle in zip(words["edges_vertices"], words["edges_foldAngle"])}
        self.letter = {frozenset(ends): letter for ends, letter in zip(words["edges_vertices"], words["edges_assignment"])}

    def neighbours(self, face, letters):
        """Faces across the edges of a face that have one of these letters: the other face, the side, the angle."""
        corners = self.faces[face]
        for side in zip(corners, corners[1:] + corners[:1]):
            edge = frozenset(side)
            if self.letter[edge] in letters:
                for other, _ in self.beside[edge]:
                    if other != face:
                        yield other, side, self.angle[edge]

    def panels(self):
        """The panels, each after its parent."""
        of_face, panels = {}, []
        reached = [(0, None, None)]
        for face, parent, crease in reached:
            if face in of_face:
                continue
            panel = Panel(face, parent, crease)
            # The list grows while it is gone through.
            for member in panel.faces:
                of_face[member] = len(panels)
                for other, _, _ in self.neighbours(member, "F"):
                    if other not in panel.faces:
                        panel.faces.append(other)
            panels.append(panel)
            for member in panel.faces:
                for other, side, angle in self.neighbours(member, "VM"):
                    reached.append((other, len(panels) - 1, (side, angle)))
        return panels


class Tray:
    """A card folded about lines so high above its middle, towards the inside of each fold."""

    def __init__(self, words, part):
        self.card = Card(words)
        self.half = self.card.caliper / 2
        self.hinge = part * self.card.caliper
        self.panels = self.card.panels()
        for panel in self.panels:
            if panel.parent is not None:
                panel.motion = after(self.panels[panel.parent].motion, self.turn(panel.crease))
        self.solids = [self.solid(panel).transform(panel.motion) for panel in self.panels]

    def axis(self, crease):
        """A place on the fold line, and its way: what lies right of it folds up about it, against the clock."""
        side, angle = crease
        start, end = (numpy.append(self.card.flat[vertex], math.copysign(self.hinge, angle)) for vertex in side)
        return start, (start - end) / numpy.linalg.norm(end - start)

    def turn(self, crease):
        """Rodrigues' rotation about the fold line."""
        place, (x, y, z) = self.axis(crease)
        turn = math.radians(crease[1])
        cross = numpy.array([[0, -z, y], [z, 0, -x], [-y, x, 0]])
        rows = numpy.eye(3) + math.sin(turn) * cross + (1 - math.cos(turn)) * cross @ cross
        return numpy.column_stack([rows, place - rows @ place])

    def solid(self, panel):
        """The panel's card, flat. Its faces meet exactly, so their union is the panel."""
        slabs = [prism([list(self.card.flat[self.card.faces[face]])], self.half) for face in panel.faces]
        return manifold3d.Manifold.batch_boolean(slabs, manifold3d.OpType.Add)

    def corners(self, panel):
        """The corners of both faces of the card in the folded tray."""
        flat = self.card.flat[[vertex for face in panel.faces for vertex in self.card.faces[face]]]
        both = [numpy.column_stack([flat, numpy.full(len(flat), height)]) for height in (-self.half, self.half)]
        return moved(panel.motion, numpy.concatenate(both))

    def beyond(self, panel):
        """The panel's solid without the bar that it shares with its parent."""
        inner, angle = self.half - self.hinge, math.radians(abs(panel.crease[1]))
        bar = inner * max(math.sin(min(angle, math.pi / 2)), math.tan(angle / 2))
        place, way = self.axis(panel.crease)
        # The panel lies right of the side, which runs against the axis.
        outwards = numpy.cross([0.0, 0.0, 1.0], way)
        free = self.solid(panel).trim_by_plane(tuple(outwards), float(outwards @ place) + bar)
        return free.transform(panel.motion)

    def left(self):
        """What is left of the box."""
        everything = numpy.concatenate([self.corners(panel) for panel in self.panels])
        outside = everything.max(axis=0) - everything.min(axis=0)
        return (numpy.array(self.card.words["traywright:box"]) - outside).tolist()

    def deepest(self):
        """How deep two panels are in each other at most, and their names."""
        names = self.card.words["faces_traywright:name"]
        boxes = [(places.min(axis=0), places.max(axis=0)) for places in map(self.corners, self.panels)]
        worst = {"depth": 0.0, "panels": None}
        for one, panel in enumerate(self.panels):
            for other in range(one):
                (least, most), (other_least, other_most) = boxes[one], boxes[other]
                if (numpy.minimum(most, other_most) - numpy.maximum(least, other_least)).min() < NOISE_DEPTH:
                    continue
                own = self.beyond(panel) if panel.parent == other else self.solids[one]
                deep = depth(own ^ self.solids[other])
                if deep > worst["depth"]:
                    worst = {"depth": deep, "panels": [names[self.panels[at].faces[0]] for at in (one, other)]}
        return worst

    def off(self):
        """How far the folded form of the file is from this; None where it has none of its own."""
        frame = self.card.words["file_frames"][0]
        if frame["frame_inherit"]:
            return None
        said, worst = numpy.array(frame["vertices_coords"]), 0.0
        for panel in self.panels:
            for face in panel.faces:
                flat = self.card.flat[self.card.faces[face]]
                here = moved(panel.motion, numpy.column_stack([flat, numpy.zeros(len(flat))]))
                worst = max(worst, float(abs(here - said[frame["faces_vertices"][face]]).max()))
        return worst


def main():
    folder, part = Path(sys.argv[1]), float(sys.argv[2])
    seen = {}
    for path in sorted(folder.glob("*.fold")):
        tray = Tray(json.loads(path.read_text()), part)
        seen[path.stem] = {"left": tray.left(), "deepest": tray.deepest(), "off": tray.off()}
    print(json.dumps(seen))


main()
