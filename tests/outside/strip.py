"""Folds the strip that measures a card, as a maker would who creases beside the lines, and measures it.

Usage: strip.py FOLDER, with documents of the wire in it (`NAME.json`), and beside each of them `NAME.truth`: one JSON
object with `hinge`, the height of the fold lines over the middle of the card, and `beside`, how far either crease of
the U lies from its line along the strip. Prints one JSON object: the lengths that were measured, by NAME. The solids are
manifold3d's. It takes nothing from a document but flat outlines and the thickness of the card. Judges nothing.
"""

import json
import sys
from pathlib import Path

import manifold3d
import numpy

from solids import places, prism


def turned(solid, crease, height, sign):
    """The solid turned a quarter up about an axis across the strip."""
    quarter = numpy.array([[0.0, 0.0, sign], [0.0, 1.0, 0.0], [-sign, 0.0, 0.0]])
    place = numpy.array([crease, 0.0, height])
    return solid.transform(numpy.column_stack([quarter, place - quarter @ place]))


def reach(solid, axis):
    box = solid.bounding_box()
    return box[axis], box[axis + 3]


def measure(path):
    document = json.loads(path.read_text())["document"]
    truth = json.loads(path.with_suffix(".truth").read_text())
    half = document["board"]["caliper"] / 2
    panels = {panel["name"]: places(panel["outline"]) for panel in document["panels"]}
    legs = [name for name in panels if name.startswith("leg")]
    flat = manifold3d.Manifold()
    for name in ["base", *legs]:
        flat += prism([panels[name]], half)
    length = reach(flat, 0)
    along = [corner[0] for corner in panels["base"]]
    west, east = min(along) + truth["beside"][0], max(along) + truth["beside"][1]
    base = flat.trim_by_plane((1.0, 0.0, 0.0), west).trim_by_plane((-1.0, 0.0, 0.0), -east)
    parts = [
        turned(flat.trim_by_plane((-1.0, 0.0, 0.0), -west), west, truth["hinge"], 1.0),
        turned(flat.trim_by_plane((1.0, 0.0, 0.0), east), east, truth["hinge"], -1.0),
    ]
    under = reach(base, 2)[0]
    return {
        "flat": length[1] - length[0],
        "across": reach(parts[1], 0)[1] - reach(parts[0], 0)[0],
        "legs": [reach(part, 2)[1] - under for part in parts],
    }


def main():
    files = sorted(Path(sys.argv[1]).glob("*.json"))
    print(json.dumps({file.stem: measure(file) for file in files}))


if __name__ == "__main__":
    main()
