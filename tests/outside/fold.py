"""Folds traywright FOLD files by themselves, and holds them against the rules of the format.

Usage: fold.py FOLDER, with files NAME.fold in it. Prints one JSON object of measures (mm, degrees), by NAME. What breaks
a rule goes to standard error, one sentence a line, and the script ends with 1. It reads nothing but the files: the card
is folded from the flat frame's faces and angles, by numpy. Simple faces and areas are shapely's.
"""

import json
import math
import sys
from collections import Counter, defaultdict
from pathlib import Path

import numpy
import shapely

# tests/facts/fold.md fld-06: a face is the same in both frames; lengths in mm, areas in parts of themselves.
RIGID = 1e-9
# A vertex of several panels has one place when all of them come to it as near as this.
FOLDED = 1e-9
# Keys of FOLD 1.2 that such a file may use; all others need a colon.
KEYS = {
    "file_spec", "file_creator", "file_title", "file_classes", "file_frames",
    "frame_title", "frame_description", "frame_classes", "frame_attributes", "frame_unit", "frame_parent", "frame_inherit",
    "vertices_coords", "edges_vertices", "edges_assignment", "edges_foldAngle", "faces_vertices",
}  # fmt: skip

faults = []
at = ""


def demand(truth, words):
    if not truth:
        faults.append(f"{at}: {words}")
    return truth


def sides(face):
    """The directed edges of a face."""
    return list(zip(face, face[1:] + face[:1]))


class Card:
    """The flat frame."""

    def __init__(self, words):
        self.words = words
        self.flat = numpy.array(words["vertices_coords"], dtype=float)
        self.edges = [tuple(ends) for ends in words["edges_vertices"]]
        self.letters = words["edges_assignment"]
        self.angles = words["edges_foldAngle"]
        self.faces = words["faces_vertices"]
        self.names = words["faces_traywright:name"]
        self.number = {frozenset(ends): edge for edge, ends in enumerate(self.edges)}
        self.beside = defaultdict(list)
        for face, corners in enumerate(self.faces):
            for side in sides(corners):
                self.beside[self.number.get(frozenset(side))].append((face, side))

    def polygon(self, face):
        return shapely.Polygon(self.flat[self.faces[face]])


def judge_head(words):
    """fld-01 and the keys."""
    demand(words["file_spec"] == 1.2 and words["frame_unit"] == "mm", "is not FOLD 1.2 in mm")
    demand(words["frame_classes"] == ["creasePattern"], "its key frame is no crease pattern")
    frames = words.get("file_frames", [])
    keys = {key for frame in [words, *frames] for key in frame}
    strange = {key for key in keys if key not in KEYS and ":" not in key}
    demand(not strange, f"has keys of its own without a colon: {sorted(strange)}")
    demand(len(frames) == 1, "has not one folded form")
    for frame in frames:
        folded = frame["frame_classes"] == ["foldedForm"] and frame["frame_parent"] == 0
        joined = "traywright:hinge" not in words
        demand(folded and frame["frame_inherit"] is joined, "its next frame is no folded form of the key frame")
        demand(joined or frame.get("frame_unit") == "mm", "its folded form inherits nothing and has no unit")


def judge_edges(card):
    """fld-02 and fld-05."""
    counts = [len(card.letters), len(card.angles), len(card.edges)]
    demand(len(set(counts)) == 1, f"has so many letters, angles and edges: {counts}")
    demand(len(card.number) == len(card.edges), "has two edges with the same ends")
    demand(None not in card.beside, "has a face with a side that is no edge")
    for edge, (letter, angle) in enumerate(zip(card.letters, card.angles)):
        right = {"V": 0 < angle <= 180, "M": -180 <= angle < 0, "B": angle == 0, "F": angle == 0}
        demand(right.get(letter, False), f"edge {edge} is {letter} and turns by {angle}")
        faces = card.beside[edge]
        demand(len(faces) == (1 if letter == "B" else 2), f"edge {edge} is {letter} and has {len(faces)} faces")
        if len(faces) == 2:
            (one, side), (other, back) = faces
            demand(side == back[::-1], f"edge {edge} runs the same way around both its faces")
            same = card.names[one] == card.names[other]
            demand(same == (letter == "F"), f"edge {edge} is {letter} between {card.names[one]}, {card.names[other]}")


def judge_faces(card):
    """fld-03: simple, counter-clockwise, and no card twice. Gives the sum of areas."""
    polygons = [card.polygon(face) for face in range(len(card.faces))]
    for face, polygon in enumerate(polygons):
        simple = polygon.is_valid and len(set(card.faces[face])) == len(card.faces[face])
        demand(simple, f"face {face} of {card.names[face]} is not simple")
        demand(polygon.exterior.is_ccw, f"face {face} of {card.names[face]} runs clockwise")
    bays = [polygon.convex_hull.area - polygon.area for polygon in polygons]
    convex = "convexFaces" if max(bays) < 1e-6 else "nonConvexFaces"
    demand(convex in card.words["frame_attributes"], f"does not say that it has {convex}")
    area = sum(polygon.area for polygon in polygons)
    covered = shapely.unary_union([polygon.buffer(0) for polygon in polygons]).area
    demand(abs(area - covered) <= 1e-6 * area, f"faces have {area} mm² and cover {covered}")
    return area


def judge_junctions(card):
    """No vertex lies within an edge."""
    for edge, (start, end) in enumerate(card.edges):
        way = card.flat[end] - card.flat[start]
        length = numpy.linalg.norm(way)
        if not demand(length > RIGID, f"edge {edge} has no length"):
            continue
        steps = card.flat - card.flat[start]
        along = steps @ way / length
        aside = numpy.abs(steps @ numpy.array([-way[1], way[0]])) / length
        within = (aside < RIGID) & (along > RIGID) & (along < length - RIGID)
        demand(not within.any(), f"edge {edge} has vertex {within.argmax()} within it")


def rims(card):
    """Closed runs of edges with one face. Every vertex on one must join two of its edges."""
    around = defaultdict(list)
    for ends, letter in zip(card.edges, card.letters):
        if letter == "B":
            around[ends[0]].append(ends[1])
            around[ends[1]].append(ends[0])
    crowded = [vertex for vertex, ends in around.items() if len(ends) != 2]
    demand(not crowded, f"its rims meet at vertices {crowded}")
    return len(pieces(around))


def pieces(neighbours):
    """The connected parts of a graph."""
    left, parts = set(neighbours), []
    while left:
        part, reached = set(), [left.pop()]
        while reached:
            here = reached.pop()
            part.add(here)
            left.discard(here)
            reached += [there for there in neighbours[here] if there not in part]
        parts.append(part)
    return parts


def rotation(start, end, degrees, height=0.0):
    """A turn about the way from one place to another, counter-clockwise seen against it (Rodrigues); so high above them."""
    start, end = start + [0, 0, height], end + [0, 0, height]
    x, y, z = axis = (end - start) / numpy.linalg.norm(end - start)
    cross = numpy.array([[0, -z, y], [z, 0, -x], [-y, x, 0]])
    turn = math.radians(degrees)
    rows = numpy.eye(3) + math.sin(turn) * cross + (1 - math.cos(turn)) * (cross @ cross)
    motion = numpy.eye(4)
    motion[:3, :3], motion[:3, 3] = rows, start - rows @ start
    return motion


def fold(card):
    """Where every corner of every face stands: from the first face over one crease after the other.

    The fold lines lie the file's hinge from the middle of the card, towards the inside of each fold.
    """
    hinge = card.words.get("traywright:hinge", 0.0)
    flat = numpy.column_stack([card.flat, numpy.zeros(len(card.flat))])
    motions, reached = {0: numpy.eye(4)}, [0]
    for face in reached:
        for side in sides(card.faces[face]):
            edge = card.number[frozenset(side)]
            for other in [other for other, _ in card.beside[edge] if other not in motions]:
                # The other face lies to the right of the side. A valley brings the normals, which point up, towards one
                # another: it lifts what is on the right, which is a turn the other way round.
                # The inside of a valley is above the card.
                height = math.copysign(hinge, card.angles[edge])
                turn = rotation(flat[side[0]], flat[side[1]], -card.angles[edge], height)
                motions[other] = motions[face] @ turn
                reached.append(other)
    demand(len(motions) == len(card.faces), "falls apart")
    standing = {face: numpy.column_stack([flat, numpy.ones(len(flat))]) @ move.T for face, move in motions.items()}
    return {face: places[:, :3] for face, places in standing.items()}


def polygon_area(places):
    middle = places.mean(axis=0)
    ways = places - middle
    return numpy.linalg.norm(numpy.cross(ways, numpy.roll(ways, -1, axis=0)).sum(axis=0)) / 2


def judge_folded(card, frame):
    """fld-06, and the folded frame against the card folded here. Gives how far they are apart."""
    said = numpy.array(frame["vertices_coords"], dtype=float)
    if not demand(said.shape == (len(card.flat), 3), "has a folded form with other vertices"):
        return math.nan
    for edge, ends in enumerate(card.edges):
        long, stands = (numpy.linalg.norm(places[ends[0]] - places[ends[1]]) for places in (card.flat, said))
        demand(abs(long - stands) < RIGID, f"edge {edge} is {long} long and stands {stands} long")
    apart = 0.0
    for face, places in fold(card).items():
        corners = card.faces[face]
        area, stands = card.polygon(face).area, polygon_area(said[corners])
        demand(abs(area - stands) <= RIGID * area, f"face {face} has {area} mm² and stands with {stands}")
        apart = max(apart, numpy.abs(places[corners] - said[corners]).max())
    demand(apart < FOLDED, f"folds up {apart} mm beside its folded form")
    return float(apart)


def judge_apart(card, frame):
    """A folded form of its own: the same faces, each free, and rigid where the card folded here puts it."""
    said = numpy.array(frame["vertices_coords"], dtype=float)
    faces, names = frame["faces_vertices"], frame["faces_traywright:name"]
    if not demand([len(face) for face in faces] == [len(face) for face in card.faces], "has a folded form with other faces"):
        return math.nan
    demand(names == card.names, "has a folded form with other names")
    used = [vertex for face in faces for vertex in face]
    demand(sorted(used) == list(range(len(said))), "has a folded form whose faces share vertices")
    own = Counter(frozenset(side) for face in faces for side in sides(face))
    demand(own == Counter(map(frozenset, frame["edges_vertices"])), "has a folded form with other edges")
    demand(frame["edges_assignment"] == ["B"] * len(own), "has a folded form with an edge that is no border")
    demand(frame["edges_foldAngle"] == [0] * len(own), "has a folded form with an edge that turns")
    apart = max(
        numpy.abs(places[card.faces[face]] - said[faces[face]]).max() for face, places in fold(card).items()
    )
    demand(apart < FOLDED, f"folds up {apart} mm beside its folded form")
    return float(apart)


def judge(words):
    judge_head(words)
    card = Card(words)
    judge_edges(card)
    area = judge_faces(card)
    judge_junctions(card)
    used = Counter(vertex for corners in card.faces for vertex in corners)
    demand(set(used) == set(range(len(card.flat))), "has vertices of no face")
    rim = rims(card)
    euler = len(card.flat) - len(card.edges) + len(card.faces)
    # Euler and Poincaré: a connected surface without handles, with so many rims.
    demand(euler == 2 - rim, f"V - E + F is {euler} with {rim} rims")
    frames = words.get("file_frames", [])
    apart = [(judge_apart if "faces_vertices" in frame else judge_folded)(card, frame) for frame in frames]
    letters = Counter(card.letters)
    creased = sum(math.dist(*card.flat[list(ends)]) for ends, letter in zip(card.edges, card.letters) if letter in "VM")
    return {
        "area": area, "creased": creased, "rims": rim, "apart": apart, "letters": letters,
        "first": card.names[0], "names": sorted(set(card.names)), "faces": len(card.faces),
    }  # fmt: skip


def main():
    global at
    seen = {}
    for path in sorted(Path(sys.argv[1]).glob("*.fold")):
        at = path.stem
        seen[at] = judge(json.loads(path.read_text()))
    print(json.dumps(seen))
    for fault in faults:
        print(fault, file=sys.stderr)
    sys.exit(1 if faults else 0)


main()
