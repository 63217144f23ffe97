"""Holds the panels of folded traywright trays against one another as solids, with a library that knows no tray.

Usage: solids.py FOLDER, with documents of the wire in it (`NAME.json`). Prints one JSON object: what was measured, by
NAME. It folds by itself, from the flat outlines and the creases. Volumes are manifold3d's; mm and mm³. Judges nothing.
"""

import json
import math
import sys
from pathlib import Path

import manifold3d
import numpy

# What a rounding of the library may leave of two faces that touch.
NOISE_VOLUME = 1e-9
NOISE_DEPTH = 1e-7
# Chords of an arc for a quarter turn.
CHORDS = 8


class Panel:
    """A slab in the flat frame and the crease it hangs on: a place on the axis, its direction, and outwards."""

    def __init__(self, words, half):
        self.name = words["name"]
        self.runs = [places(words["outline"])] + [places(hole) for hole in words["holes"]]
        self.corners = numpy.array([[x, y, z] for run in self.runs for x, y in run for z in (-half, half)])
        self.solid = prism(self.runs, half)
        self.ways = numpy.array([[0.0, 0.0, 1.0]] + [way for run in self.runs for way in normals(run)])
        self.pose = numpy.column_stack([words["pose"]["rows"], words["pose"]["shift"]])
        self.parent = None
        if hinge := words.get("hinge"):
            self.parent = hinge["parent"]
            self.fold = math.radians(hinge["fold_deg"])
            here, there = (numpy.array([end["x"], end["y"]]) for end in hinge["line"])
            self.crease = numpy.linalg.norm(there - here)
            along = (there - here) / self.crease
            outwards = numpy.array([along[1], -along[0]])
            if numpy.dot(outwards, self.corners[:, :2].mean(axis=0) - here) < 0:
                outwards = -outwards
            self.outwards = numpy.array([*outwards, 0.0])
            # Turning about this axis lifts what lies outwards to the drawn face.
            self.axis = numpy.cross(self.outwards, [0.0, 0.0, 1.0])
            self.middle = (here + there) / 2
            self.place = numpy.array([*here, math.copysign(hinge["height"], self.fold)])

    def turn(self, angle):
        """The motion of the panel against its parent, as three rows of four."""
        x, y, z = self.axis
        cross = numpy.array([[0, -z, y], [z, 0, -x], [-y, x, 0]])
        rows = numpy.eye(3) + math.sin(angle) * cross + (1 - math.cos(angle)) * cross @ cross
        return numpy.column_stack([rows, self.place - rows @ self.place])

    def beyond(self, bar):
        """The slab without so wide a bar beside its crease, and the corners that are left."""
        at = float(numpy.dot(self.outwards, self.place))
        solid = self.solid.trim_by_plane(tuple(self.outwards), at + bar)
        return solid, numpy.array(solid.to_mesh64().vert_properties).reshape(-1, 3)


class Tray:
    """The panels of one document."""

    def __init__(self, path):
        words = json.loads(Path(path).read_text())["document"]
        self.caliper, self.hinge = words["board"]["caliper"], words["board"]["hinge"]
        self.box = [words["box_size"][name] for name in ("length", "width", "depth")]
        self.panels = [Panel(panel, self.caliper / 2) for panel in words["panels"]]
        self.steps = words["steps"]

    def motions(self, angle):
        """Each panel's motion into the folded frame when panel number i stands at `angle(i)`."""
        motions = []
        for index, panel in enumerate(self.panels):
            still = numpy.eye(3, 4)
            motions.append(still if panel.parent is None else after(motions[panel.parent], panel.turn(angle(index))))
        return motions

    def sliver(self, angle):
        """Width and cross-section of the bar that two slabs share beside a crease turned so far.

        Both inner faces lie a = caliper / 2 - hinge inside the axis; they meet at a tan(angle / 2) from it, and the
        common kite is as wide as that or as the parent's corner, a sin(angle), seen from the child.
        """
        inner, angle = self.caliper / 2 - self.hinge, abs(angle)
        return inner * max(math.sin(min(angle, math.pi / 2)), math.tan(angle / 2)), inner**2 * math.tan(angle / 2)

    def cut_out(self, index):
        """Whether a panel hangs in a hole of its parent's card and not on its edge."""
        panel = self.panels[index]
        if panel.parent is None:
            return False
        return distance(panel.middle, self.panels[panel.parent].runs[0]) > 1e-6


def places(contour):
    """The corners of a closed run; an arc in chords."""
    here = numpy.array([contour["start"]["x"], contour["start"]["y"]])
    found = []
    for segment in contour["segments"]:
        (kind, words), = segment.items()
        there = numpy.array([words["to"]["x"], words["to"]["y"]])
        found.append(here)
        if kind == "arc":
            found += chords(here, there, 4 * math.atan(words["bulge"]))
        here = there
    return found


def chords(here, there, sweep):
    """Places on the way along an arc, its ends left out."""
    way = there - here
    centre = (here + there) / 2 + numpy.array([-way[1], way[0]]) / (2 * math.tan(sweep / 2))
    count = math.ceil(abs(sweep) / (math.pi / 2) * CHORDS)
    found = []
    for step in range(1, count):
        sin, cos = math.sin(sweep * step / count), math.cos(sweep * step / count)
        found.append(centre + numpy.array([[cos, -sin], [sin, cos]]) @ (here - centre))
    return found


def normals(run):
    """Directions across the edges of a run, in the plane of the card."""
    ways = [run[index] - run[index - 1] for index in range(len(run))]
    sizes = [numpy.linalg.norm(way) for way in ways]
    return [[way[1] / size, -way[0] / size, 0.0] for way, size in zip(ways, sizes) if size > 1e-9]


def prism(runs, half):
    """A slab over an outline and its holes. Built corner by corner, for the library's own extrusion rounds them."""
    flat = numpy.concatenate(runs)
    triangles = numpy.array(manifold3d.triangulate(runs))
    count = len(flat)
    corners = [numpy.column_stack([flat, numpy.full(count, height)]) for height in (-half, half)]
    faces = [triangles[:, ::-1], triangles + count]
    start = 0
    for run in runs:
        here = numpy.arange(start, start + len(run))
        there = numpy.roll(here, -1)
        faces += [numpy.column_stack([here, there, there + count]), numpy.column_stack([here, there + count, here + count])]
        start += len(run)
    mesh = manifold3d.Mesh64(numpy.concatenate(corners), numpy.concatenate(faces).astype(numpy.uint64))
    solid = manifold3d.Manifold(mesh)
    if solid.status() != manifold3d.Error.NoError or solid.volume() <= 0:
        raise ValueError(f"no solid: {solid.status()}, {solid.volume()} mm³, {runs}")
    return solid


def distance(place, run):
    """From a place to the nearest edge of a run."""
    least = math.inf
    for index, end in enumerate(run):
        start = run[index - 1]
        way = end - start
        part = min(1.0, max(0.0, numpy.dot(place - start, way) / max(numpy.dot(way, way), 1e-30)))
        least = min(least, numpy.linalg.norm(start + part * way - place))
    return least


def after(outer, inner):
    """First the inner motion, then the outer one."""
    return numpy.column_stack([outer[:, :3] @ inner[:, :3], outer[:, :3] @ inner[:, 3] + outer[:, 3]])


def moved(motion, corners):
    return corners @ motion[:, :3].T + motion[:, 3]


def depth(common):
    """How thick the thickest piece of a common solid is: least reach across one of the faces around it."""
    deepest = 0.0
    for piece in common.decompose():
        if piece.volume() < NOISE_VOLUME:
            continue
        mesh = piece.hull().to_mesh64()
        corners = numpy.array(mesh.vert_properties)[:, :3]
        faces = corners[numpy.array(mesh.tri_verts, dtype=int)]
        across = numpy.cross(faces[:, 1] - faces[:, 0], faces[:, 2] - faces[:, 0])
        sizes = numpy.linalg.norm(across, axis=1)
        across = across[sizes > 1e-3 * sizes.max()] / sizes[sizes > 1e-3 * sizes.max()][:, None]
        reach = corners @ across.T
        deepest = max(deepest, float((reach.max(axis=0) - reach.min(axis=0)).min()))
    return deepest


def stand(tray):
    """The folded tray: its outside, each pair at a crease, and the other pairs that share any space."""
    panels = tray.panels
    motions = tray.motions(lambda index: panels[index].fold)
    corners = [moved(motion, panel.corners) for motion, panel in zip(motions, panels)]
    solids = [panel.solid.transform(motion) for motion, panel in zip(motions, panels)]
    boxes = [(places.min(axis=0), places.max(axis=0)) for places in corners]
    everything = numpy.concatenate(corners)
    seen = {
        "outside": (everything.max(axis=0) - everything.min(axis=0)).tolist(),
        "pose_off": max(float(abs(motion - panel.pose).max()) for motion, panel in zip(motions, panels)),
        "creases": [],
        "meetings": [],
        "pairs": len(panels) * (len(panels) - 1) // 2,
    }
    for one, panel in enumerate(panels):
        for other in range(one):
            names = {"one": panel.name, "other": panels[other].name}
            if panel.parent == other:
                bar, section = tray.sliver(panel.fold)
                free = panel.beyond(bar)[0].transform(motions[one])
                seen["creases"].append(names | {
                    "volume": (solids[one] ^ solids[other]).volume(),
                    "sliver": section * panel.crease,
                    "beyond": depth(free ^ solids[other]),
                })
                continue
            (least, most), (other_least, other_most) = boxes[one], boxes[other]
            if (numpy.minimum(most, other_most) - numpy.maximum(least, other_least)).min() < NOISE_DEPTH:
                continue
            common = solids[one] ^ solids[other]
            deep = depth(common)
            if deep > NOISE_DEPTH:
                seen["meetings"].append(names | {"volume": common.volume(), "depth": deep})
    return seen


def main():
    files = sorted(Path(sys.argv[1]).glob("*.json"))
    print(json.dumps({file.stem: stand(Tray(file)) for file in files}))


if __name__ == "__main__":
    main()
