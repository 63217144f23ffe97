"""Holds the glTF files of traywright against its FOLD files with readers that know nothing of traywright.

Usage: glb.py pairs FOLDER judges every NAME.glb beside its NAME.fold and prints one JSON object by name; glb.py picture
FILE.glb FILE.png draws both scenes. What is wrong goes to standard error, one sentence a line, and the script ends with 1.
trimesh reads the glTF and tells whether a mesh is closed, manifold3d unites the solids; shapely cuts the strips at the
creases from the faces of the FOLD file, numpy places them. Lengths in mm, unless they are named metres.
"""

import json
import math
import struct
import sys
from collections import defaultdict
from pathlib import Path

import manifold3d
import numpy
import shapely
import trimesh

# Source: core/CONTRACT.md, "Files: glTF".
CHORD, VOLUME = 0.005, 0.001
# Source: core/CONTRACT.md, "Files: FOLD": chords of its own.
FOLD_CHORD = 0.01
# Derived: single precision gives 3e-5 mm at half a metre.
NEAR = 5e-4
# Source: core/CONTRACT.md, "Files: glTF": a crease folded farther has no bend.
FARTHEST = 150.0
faults = []


def demand(truth, words):
    if not truth:
        faults.append(words)


def json_of(path):
    """The JSON chunk of a binary glTF file."""
    data = path.read_bytes()
    magic, version, length = struct.unpack_from("<4sII", data)
    demand((magic, version, length) == (b"glTF", 2, len(data)), f"{path.stem}: the head of the file is {magic, version, length}")
    size, kind = struct.unpack_from("<I4s", data, 12)
    demand(kind == b"JSON", f"{path.stem}: the first chunk is {kind}")
    return json.loads(data[20 : 20 + size])


class Card:
    """The flat faces of a FOLD file by panel, their place in the folded tray, and the creases."""

    def __init__(self, words):
        self.caliper = words["traywright:caliper"]
        self.hinge = words.get("traywright:hinge", 0.0)
        flat = numpy.array(words["vertices_coords"], dtype=float)[:, :2]
        folded = words["file_frames"][0]
        places = numpy.array(folded["vertices_coords"], dtype=float)
        names, faces = words["faces_traywright:name"], words["faces_vertices"]
        stands = folded.get("faces_vertices", faces)
        self.shape, self.pose, corners = defaultdict(list), {}, defaultdict(set)
        for name, face, there in zip(names, faces, stands):
            self.shape[name].append(shapely.Polygon(flat[face]))
            corners[name].update(face)
            if name not in self.pose:
                self.pose[name] = pose(flat[face], places[there])
        self.shape = {name: shapely.union_all(parts) for name, parts in self.shape.items()}
        beside = defaultdict(list)
        for name, face in zip(names, faces):
            for one, other in zip(face, face[1:] + face[:1]):
                beside[frozenset((one, other))].append((name, one))
        # By the pair of panels: fold angle, and the lines of the crease.
        self.creases = {}
        for ends, letter, angle in zip(words["edges_vertices"], words["edges_assignment"], words["edges_foldAngle"]):
            if letter in "MV":
                pair = frozenset(name for name, _ in beside[frozenset(ends)])
                self.creases.setdefault(pair, (angle, []))[1].append(flat[list(ends)])

    def strip(self, angle):
        """Width of the strip beside a crease. Derived: inside faces t/2 - h inside the axis meet there."""
        overlap = max(0.0, self.caliper / 2 - self.hinge)
        return overlap * math.tan(math.radians(abs(angle)) / 2) if abs(angle) <= FARTHEST else 0.0

    def rest(self, name):
        """A panel without the strips at its creases."""
        shape = self.shape[name]
        for pair, (angle, lines) in self.creases.items():
            width = self.strip(angle)
            if name in pair and width > 0:
                strips = [shapely.LineString(line).buffer(width, cap_style="flat") for line in lines]
                shape = shape.difference(shapely.union_all(strips))
        return shape


def pose(flat, places):
    """The rigid motion from flat points to places, by three corners that make the largest triangle."""
    far = max(range(len(flat)), key=lambda at: numpy.hypot(*(flat[at] - flat[0])))
    x = flat[far] - flat[0]
    aside = [abs(x[0] * (p - flat[0])[1] - x[1] * (p - flat[0])[0]) for p in flat]
    third = int(numpy.argmax(aside))
    frames = []
    for origin, one, two in ((flat[0], flat[far], flat[third]), (places[0], places[far], places[third])):
        u, v = (numpy.pad(way, (0, 3 - len(way))) for way in (one - origin, two - origin))
        u, w = u / numpy.linalg.norm(u), numpy.cross(u, v)
        w /= numpy.linalg.norm(w)
        frames.append(numpy.array([u, numpy.cross(w, u), w]).T)
    # The triangle may run either way round: its normal is that of the card only if it runs counter-clockwise on both.
    turned = frames[1] @ frames[0].T
    return turned, places[0] - turned @ numpy.pad(flat[0], (0, 1))


def judge_panel(name, card, panel, mesh):
    """A panel is its flat figure without strips, half a caliper thick to both sides of where FOLD places it."""
    if panel not in card.shape:
        return demand(False, f"{name}: FOLD has no panel {panel}")
    rest = card.rest(panel)
    wanted, found = rest.area * card.caliper, mesh.volume
    demand(abs(found - wanted) < VOLUME * wanted, f"{name}: {panel} holds {found} mm3, not {wanted}")
    turned, shift = card.pose[panel]
    flat = (mesh.vertices - shift) @ turned
    demand(abs(abs(flat[:, 2]) - card.caliper / 2).max() < NEAR, f"{name}: {panel} lies elsewhere than in FOLD, or is not as thick as its card")
    rim = rest.boundary
    off = shapely.distance(rim, shapely.points(flat[:, :2])).max()
    demand(off < CHORD + FOLD_CHORD + NEAR, f"{name}: a corner of {panel} is {off} off the edge that FOLD has")
    rings = [ring for part in getattr(rest, "geoms", [rest]) for ring in (part.exterior, *part.interiors)]
    for corner in (corner for ring in rings for corner in sharp(ring)):
        for z in (-card.caliper / 2, card.caliper / 2):
            off = numpy.linalg.norm(flat - [*corner, z], axis=1).min()
            demand(off < NEAR, f"{name}: {panel} has no corner within {off} of {corner}, {z}")


def sharp(ring):
    """The corners of a ring that are no joints of chords."""
    places = numpy.array(ring.simplify(1e-6).coords)[:-1]
    ways = numpy.roll(places, -1, axis=0) - places
    for at, corner in enumerate(places):
        one, other = ways[at - 1], ways[at]
        turn = math.atan2(one[0] * other[1] - one[1] * other[0], one @ other)
        if abs(turn) > math.radians(30) and min(numpy.hypot(*one), numpy.hypot(*other)) > 0.05:
            yield corner


def judge_bend(name, card, extras, mesh):
    """A bend is a sector of a cylinder over the crease, as thick as the card, and stands on the ends of both its panels."""
    pair = frozenset((extras["panel"], extras["parent"]))
    if pair not in card.creases:
        return demand(False, f"{name}: FOLD has no crease between {set(pair)}")
    angle, lines = card.creases[pair]
    length = sum(numpy.hypot(*(one - other)) for one, other in lines)
    demand(abs(extras["angle"] - angle) < 1e-9, f"{name}: the crease of {extras['panel']} is folded by {extras['angle']}, in FOLD by {angle}")
    demand(abs(extras["length"] - length) < 1e-6, f"{name}: the crease of {extras['panel']} is {extras['length']} long, in FOLD {length}")
    sweep = math.radians(abs(angle))
    # Source: area of a sector. Derived: chords that leave their arc by at most CHORD take less than CHORD times its length.
    wanted = sweep / 2 * card.caliper**2 * length
    less = CHORD * sweep * card.caliper * length
    found = mesh.volume
    demand(wanted - less < found < wanted * (1 + VOLUME), f"{name}: the bend of {extras['panel']} holds {found} mm3, not {wanted}")
    demand(abs(found - extras["volume"]) < VOLUME * wanted, f"{name}: the bend of {extras['panel']} says {extras['volume']} mm3 and holds {found}")
    width = card.strip(angle)
    for panel in pair:
        turned, shift = card.pose[panel]
        flat = (mesh.vertices - shift) @ turned
        # FOLD splits a crease where another edge ends on it.
        rims = shapely.line_merge(shapely.MultiLineString(lines))
        rims = list(getattr(rims, "geoms", [rims]))
        ends = [point for point in flat if abs(abs(point[2]) - card.caliper / 2) < NEAR and abs(min(rim.distance(shapely.Point(point[:2])) for rim in rims) - width) < NEAR]
        demand(len(ends) >= 4 * len(rims), f"{name}: the bend of {extras['panel']} does not stand on the end of {panel}")
    return found


def solid(mesh):
    body = manifold3d.Manifold(manifold3d.Mesh64(numpy.array(mesh.vertices, dtype=float), numpy.array(mesh.faces, dtype=numpy.uint64)))
    demand(body.status() == manifold3d.Error.NoError, f"manifold3d says {body.status()}")
    return body


def read(path, scene=0):
    """The meshes of a scene by the name of their node, in metres."""
    words = trimesh.load(path, merge_primitives=True, force="scene")
    meshes = {}
    for node in words.graph.nodes_geometry:
        matrix, geometry = words.graph[node]
        mesh = words.geometry[geometry]
        # The corners of one place are one corner, whatever the surface; triangles stay as they are.
        mesh = trimesh.Trimesh(mesh.vertices, mesh.faces, process=False).apply_transform(matrix)
        mesh.merge_vertices()
        meshes[node] = mesh
    return meshes


def judge(path):
    name, words = path.stem, json_of(path)
    card = Card(json.loads(path.with_suffix(".fold").read_text()))
    root = words["nodes"][words["scenes"][words["scene"]]["nodes"][0]]
    told = root["extras"]
    frame = numpy.array(told["from_folded"])
    turn = frame[:, :3] * 1000
    demand(numpy.allclose(turn @ turn.T, numpy.eye(3)) and numpy.linalg.det(turn) > 0, f"{name}: {turn} is no rotation from mm to metres")
    nodes = {node["name"]: node for node in (words["nodes"][child] for child in root["children"])}
    meshes = read(path)
    demand(set(meshes) == {node for node, what in nodes.items() if "mesh" in what}, f"{name}: the scene has {sorted(meshes)}")
    lowest = min(mesh.vertices[:, 1].min() for mesh in meshes.values())
    demand(-NEAR / 1000 < lowest, f"{name}: the tray reaches {lowest} m under the floor of its box")
    bends, parts = 0.0, []
    for node, mesh in meshes.items():
        demand(mesh.is_watertight and mesh.is_winding_consistent, f"{name}: {node} is not closed")
        mesh.vertices = (mesh.vertices - frame[:, 3]) * 1000 @ turn
        parts.append(solid(mesh))
        if "extras" in nodes[node]:
            bends += judge_bend(name, card, nodes[node]["extras"], mesh) or 0.0
        else:
            judge_panel(name, card, node, mesh)
    demand(set(card.shape) <= set(nodes), f"{name}: {set(card.shape) - set(nodes)} are missing")
    area = sum(shape.area for shape in card.shape.values())
    whole = area * card.caliper
    strips = whole - sum(card.rest(panel).area for panel in card.shape) * card.caliper
    sum_of_all = sum(part.volume() for part in parts)
    wanted = whole - strips + bends
    demand(abs(sum_of_all - wanted) < VOLUME * whole, f"{name}: the solids hold {sum_of_all} mm3, not {wanted}")
    for key, value in (("card", whole), ("strips", strips), ("bends", bends)):
        demand(abs(told["volume"][key] - value) < VOLUME * whole, f"{name}: {key} says {told['volume'][key]} mm3, not {value}")
    united = manifold3d.Manifold.batch_boolean(parts, manifold3d.OpType.Add).volume()
    demand(sum_of_all - united < VOLUME * whole, f"{name}: the solids reach into one another by {sum_of_all - united} mm3")
    return {"parts": len(parts), "card": whole, "solids": sum_of_all, "strips": strips, "bends": bends, "common": sum_of_all - united}


def picture(path, into):
    """Both scenes, seen from above and aside."""
    import matplotlib

    matplotlib.use("Agg")
    import matplotlib.pyplot as plot
    from mpl_toolkits.mplot3d.art3d import Poly3DCollection

    words = json_of(path)
    data = path.read_bytes()
    size = struct.unpack_from("<I", data, 12)[0]
    chunk = data[20 + size + 8 :]

    def numbers(index, kind, width):
        what = words["accessors"][index]
        start = words["bufferViews"][what["bufferView"]].get("byteOffset", 0) + what["byteOffset"]
        return numpy.frombuffer(chunk, kind, what["count"] * width, start).reshape(-1, width)

    drawing = plot.figure(figsize=(16, 9 * len(words["scenes"])))
    for at, scene in enumerate(words["scenes"]):
        axes = drawing.add_subplot(len(words["scenes"]), 1, at + 1, projection="3d")
        waiting, everything = list(scene["nodes"]), []
        while waiting:
            node = words["nodes"][waiting.pop()]
            waiting += node.get("children", [])
            for part in words["meshes"][node["mesh"]]["primitives"] if "mesh" in node else []:
                places = numbers(part["attributes"]["POSITION"], "<f4", 3)[:, [0, 2, 1]] * [1, -1, 1]
                corners = places[numbers(part["indices"], "<u4", 1).ravel()].reshape(-1, 3, 3)
                colour = numpy.array(words["materials"][part["material"]]["pbrMetallicRoughness"]["baseColorFactor"][:3]) ** (1 / 2.2)
                normals = numpy.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
                normals /= numpy.linalg.norm(normals, axis=1)[:, None] + 1e-30
                light = 0.65 + 0.35 * normals @ numpy.array([0.3, -0.5, 0.81])
                clear = 0.25 if node["name"].startswith("box ") else 1.0
                axes.add_collection3d(Poly3DCollection(corners, facecolors=numpy.c_[colour * light[:, None].clip(0, 1.2), numpy.full(len(light), clear)].clip(0, 1)))
                everything.append(places)
        least, most = numpy.vstack(everything).min(0), numpy.vstack(everything).max(0)
        middle, half = (least + most) / 2, (most - least).max() / 2
        axes.set(xlim=(middle[0] - half, middle[0] + half), ylim=(middle[1] - half, middle[1] + half), zlim=(middle[2] - half, middle[2] + half), title=scene["name"])
        axes.view_init(elev=35, azim=-60)
    drawing.savefig(into, dpi=60)


def main():
    if sys.argv[1] == "picture":
        return picture(Path(sys.argv[2]), sys.argv[3])
    told = {path.stem: judge(path) for path in sorted(Path(sys.argv[2]).glob("*.glb"))}
    if faults:
        sys.exit("\n".join(faults[:40]))
    print(json.dumps(told))


main()
