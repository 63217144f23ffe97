"""Pushes and lifts the items of folded traywright trays as solids, with a library that knows no tray.

Usage: held.py FOLDER, with documents of the wire in it (`NAME.json`), each with `lift`, the height at which the tray stands
over the floor of its box, and `fit`, the clearance around an item. Prints one JSON object: what was measured, by NAME.
It folds by itself (`solids.py`). An item sweeps a prism; what of a panel lies in it tells how far the item goes. Judges nothing.
"""

import json
import math
import sys
from pathlib import Path

import manifold3d
import numpy

import solids
from solids import Tray, depth, moved

# Chords of a quarter turn: of a curved edge of card, and of an item.
solids.CHORDS = 96
ITEM_CHORDS = 64
# By so much an item is slimmer across its way, so that card beside it is no card before it.
SLIM = 1e-5
# What is met within so much more is met together with the first stop: a choice of the project.
TOGETHER = 0.05
# Halvings of an edge of card that find where a curve meets it.
HALVINGS = 60
STILL = numpy.eye(3, 4)
OVER = numpy.array([[1.0, 0, 0, 0], [0, -1.0, 0, 0], [0, 0, -1.0, 0]])


class Item:
    """An item of a document, as an upright prism in the standing tray."""

    def __init__(self, words, middle, bare):
        self.round = words.get("shape", "rectangle") != "rectangle"
        self.half = [words["length"] / 2, words["width"] / 2]
        self.middle = middle
        self.bare = bare
        self.base = bare + words["rest"]
        self.straight = self.base + words.get("straight", words["depth"])
        self.top = self.base + words["depth"]
        self.words = words

    def prism(self, low, high, slimmer=0.0, shift=(0.0, 0.0)):
        """Its outline between two heights, moved."""
        half = [size - slimmer for size in self.half]
        if self.round:
            turns = numpy.linspace(0.0, 2 * math.pi, 4 * ITEM_CHORDS, endpoint=False)
            ring = numpy.column_stack([half[0] * numpy.cos(turns), half[1] * numpy.sin(turns)])
        else:
            ring = numpy.array([[-half[0], -half[1]], [half[0], -half[1]], [half[0], half[1]], [-half[0], half[1]]])
        return solids.prism([ring], (high - low) / 2).translate(
            (self.middle[0] + shift[0], self.middle[1] + shift[1], (low + high) / 2))

    def way_to(self, shared, axis, sense):
        """How far it goes along an axis until it meets what its way shares with a panel."""
        mesh = shared.to_mesh64()
        corners = numpy.array(mesh.vert_properties)[:, :3]
        faces = numpy.array(mesh.tri_verts, dtype=int)
        ahead = sense * (corners[:, axis] - self.middle[axis])
        if not self.round:
            return max(0.0, float(ahead.min()) - self.half[axis])
        across = (corners[:, 1 - axis] - self.middle[1 - axis]) / self.half[1 - axis]
        ends = numpy.concatenate([faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]])
        ends = ends[ends[:, 0] < ends[:, 1]]
        start, end = ends[:, 0], ends[:, 1]

        def gap(part):
            # Along an edge this is convex: a straight line less the front of an ellipse.
            at = across[start] + part * (across[end] - across[start])
            front = self.half[axis] * numpy.sqrt(numpy.maximum(0.0, 1 - at * at))
            return ahead[start] + part * (ahead[end] - ahead[start]) - front

        low, high = numpy.zeros(len(start)), numpy.ones(len(start))
        for _ in range(HALVINGS):
            third = (high - low) / 3
            nearer = gap(low + third) < gap(high - third)
            low, high = numpy.where(nearer, low, low + third), numpy.where(nearer, high - third, high)
        least = numpy.minimum(gap((low + high) / 2), numpy.minimum(gap(low), gap(high)))
        return max(0.0, float(least.min()))


class Stand:
    """A tray in its closed box: x along the box, z upwards from its floor."""

    def __init__(self, tray, document, lift, angle, finished=None):
        self.tray, self.document = tray, document
        inside = document["output"].get("drawn_face", "inside") == "inside"
        up = document["stands"] == "root-up"
        turn = OVER if inside == up else STILL
        motions = [solids.after(turn, motion) for motion in tray.motions(angle)]
        lowest = min(moved(motion, panel.corners)[:, 2].min() for motion, panel in zip(motions, tray.panels))
        self.up = finished.up if finished else lift - lowest
        self.lid = tray.box[2]
        self.place(motions)

    def place(self, motions):
        """Sets the tray down: so that its lowest corner lies `lift` above the floor when it is finished."""
        panels = self.tray.panels
        raised = numpy.column_stack([numpy.zeros((3, 3)), [0, 0, self.up]])
        self.motions = [motion + raised for motion in motions]
        self.panels = [panel.solid.transform(motion) for motion, panel in zip(self.motions, panels)]
        corners = [moved(motion, panel.corners) for motion, panel in zip(self.motions, panels)]
        self.bounds = [(places.min(axis=0), places.max(axis=0)) for places in corners]
        self.least = numpy.min([least for least, _ in self.bounds], axis=0)
        self.most = numpy.max([most for _, most in self.bounds], axis=0)

    def item(self, words):
        flat = numpy.array([[words["middle"]["x"], words["middle"]["y"], 0.0]])
        middle = moved(self.motions[words["panel"]], flat)[0][:2]
        bare = self.bounds[0][1][2] if self.document["stands"] == "root-down" else 0.0
        return Item(words, middle, bare)

    def within(self, room, aside=()):
        """What each panel shares with a room, where that is anything."""
        box = room.bounding_box()
        least, most = numpy.array(box[:3]), numpy.array(box[3:])
        for index, (low, high) in enumerate(self.bounds):
            if index in aside or (numpy.minimum(high, most) - numpy.maximum(low, least)).min() <= 0:
                continue
            shared = self.panels[index] ^ room
            if shared.volume() > solids.NOISE_VOLUME:
                yield index, shared

    def wall(self, axis, sense):
        """Where the box ends."""
        room = (self.tray.box[axis] - (self.most - self.least)[axis]) / 2
        return sense * (self.most if sense > 0 else self.least)[axis] + room

    def push(self, item, heights, axis, sense):
        """How far an item goes, and what it meets there: panel and shared heights, the most first."""
        far = self.wall(axis, sense) - sense * item.middle[axis] - item.half[axis]
        size, corner = numpy.zeros(3), numpy.zeros(3)
        size[axis] = far + item.half[axis]
        corner[axis] = item.middle[axis] - (size[axis] if sense < 0 else 0.0)
        size[1 - axis] = 2 * (item.half[1 - axis] - SLIM)
        corner[1 - axis] = item.middle[1 - axis] - size[1 - axis] / 2
        size[2], corner[2] = heights[1] - heights[0] - 2e-6, heights[0] + 1e-6
        if size[2] <= 0:
            return far, []
        way = manifold3d.Manifold.cube(tuple(size)).translate(tuple(corner))
        met = [(item.way_to(shared, axis, sense), index) for index, shared in self.within(way)]
        far = min([far] + [there for there, _ in met])
        shift = numpy.zeros(2)
        shift[axis] = sense * (far + TOGETHER)
        there = item.prism(*heights, shift=shift)
        stops = []
        for index, shared in self.within(there):
            if any(index == panel and way <= far + TOGETHER for way, panel in met):
                box = shared.bounding_box()
                stops.append((index, box[2], box[5]))
        return far, sorted(stops, key=lambda stop: stop[1] - stop[2])

    def own(self, item, fit):
        """The panels that hang on the edges of an item's opening."""
        words, found = item.words, []
        middle = numpy.array([words["middle"]["x"], words["middle"]["y"]])
        half = numpy.array(item.half) + fit / 2 + 0.01
        for index, panel in enumerate(self.tray.panels):
            if panel.parent == words["panel"] and (abs(panel.middle - middle) <= half).all():
                found.append(index)
        return found

    def what(self, index, item, own):
        if index == item.words["panel"]:
            return "edge"
        if index in own:
            return "fences" if item.words.get("held", {}).get("deck") is None else "flaps"
        return "panel"

    def rise(self, item):
        """How far an item goes up."""
        if item.top >= self.lid - 2e-6:
            return self.lid - item.top
        room = item.prism(item.top, self.lid, slimmer=0.01)
        lowest = [shared.bounding_box()[2] for _, shared in self.within(room)]
        return min([self.lid] + lowest) - item.top

    def seat(self, item):
        """How high card lies that is flat under the item and carries it, over the bare floor."""
        carrying = {}
        for index, (low, high) in enumerate(self.bounds):
            flat = high[2] - low[2] < self.tray.caliper + 1e-6 and high[2] <= item.bare + 3 * self.tray.caliper + 1e-6
            if flat and high[2] > item.bare + 1e-6:
                under = self.panels[index] ^ item.prism(low[2], high[2])
                if under.volume() > solids.NOISE_VOLUME:
                    carrying.setdefault(round(high[2], 5), []).append(under)
        for height in sorted(carrying, reverse=True):
            # What it stands on carries it if its middle lies over the hull of that.
            middle = manifold3d.Manifold.cube((1e-3, 1e-3, 100.0), True).translate((*item.middle, height))
            if (manifold3d.Manifold.batch_hull(carrying[height]) ^ middle).volume() > 0:
                return height - item.bare
        return 0.0

    def in_room(self, item, own, high):
        """The panels that reach into the place of an item, with the thickness of what they share."""
        aside = own + ([item.words["panel"]] if item.words.get("held", {}).get("deck") is not None else [])
        room = item.prism(item.base, high)
        found = [(self.tray.panels[index].name, depth(shared)) for index, shared in self.within(room, aside)]
        return [{"panel": name, "depth": deep} for name, deep in found if deep > solids.NOISE_DEPTH]


def pushed(stand, item, own, lift):
    """Travel along and across, and what bears the item least, when it is lifted so far."""
    heights = (item.base + lift, item.straight + lift)
    found = []
    for axis in (0, 1):
        ways = [stand.push(item, heights, axis, sense) for sense in (-1, 1)]
        bears = [stops[0][2] - stops[0][1] if stops else heights[1] - heights[0] for _, stops in ways]
        weak = min(bears)
        kinds, spans = set(), []
        for (_, stops), bear in zip(ways, bears):
            if bear > weak + TOGETHER:
                continue
            if not stops:
                kinds.add("box")
            for index, low, high in stops:
                if high - low > bear - TOGETHER:
                    kinds.add(stand.what(index, item, own))
                    spans.append([low - item.bare, high - item.bare])
        found.append({"travel": ways[0][0] + ways[1][0], "bears": weak, "by": sorted(kinds), "spans": spans})
    return found


def as_it_takes_items(tray, document):
    """Each panel's angle when the items go in."""
    steps = [step["action"] for step in document["steps"]]
    if "place" not in steps:
        return lambda index: tray.panels[index].fold
    done = set()
    for action in steps[:steps.index("place")]:
        if isinstance(action, dict) and "fold" in action:
            done.update(move["panel"] for move in action["fold"])
    return lambda index: tray.panels[index].fold if index in done else 0.0


def measure(path):
    words = json.loads(path.read_text())
    document, tray = words["document"], Tray(path)
    stand = Stand(tray, document, words["lift"], lambda index: tray.panels[index].fold)
    taking = Stand(tray, document, words["lift"], as_it_takes_items(tray, document), stand)
    found = []
    for entry in document["items"]:
        item = stand.item(entry)
        own = stand.own(item, words["fit"])
        rise = stand.rise(item)
        # Upside down both lie on the lid: the item as far up in the tray as its top lies below that of the tray.
        down = min(float(stand.most[2]) - item.top, rise)
        deck = stand.bounds[entry["panel"]][1][2]
        found.append({
            "name": entry["name"],
            "seat": stand.seat(item),
            "below": deck - item.top,
            "rise": rise,
            "rest": pushed(stand, item, own, 0.0),
            "risen": pushed(stand, item, own, max(rise, 0.0)),
            "down": pushed(stand, item, own, down),
            "in_place": stand.in_room(item, own, item.straight),
            "way_in": taking.in_room(item, own, float(taking.most[2]) + 1.0),
        })
    return found


def main():
    files = sorted(Path(sys.argv[1]).glob("*.json"))
    print(json.dumps({file.stem: measure(file) for file in files}))


if __name__ == "__main__":
    main()
