"""Lays the same pieces with another program for nesting.

Usage: nest_shortest.py FILE WIDTH SECONDS: FILE is a JSON list of outlines, each a list of [x, y] in mm. spyrrow, which runs
the search of its authors' paper, lays all of them on a strip of that width, in turns by quarters, for so many seconds.
Prints how much of the strip's length they take, as shapely measures it, and the area in which any two overlap.
"""

import itertools
import json
import sys

import spyrrow
from shapely import Polygon, affinity

path, width, seconds = sys.argv[1:]
with open(path) as file:
    outlines = json.load(file)
items = [spyrrow.Item(str(index), [tuple(corner) for corner in outline], 1, [0, 90, 180, 270]) for index, outline in enumerate(outlines)]
strip = spyrrow.StripPackingInstance("pieces", strip_height=float(width), items=items)
config = spyrrow.StripPackingConfig(early_termination=False, total_computation_time=int(seconds), num_workers=2, seed=1)
laid = []
for item in strip.solve(config).placed_items:
    turned = affinity.rotate(Polygon(outlines[int(item.id)]), item.rotation, origin=(0, 0))
    laid.append(affinity.translate(turned, *item.translation))
assert len(laid) == len(outlines)
reach = [shape.bounds for shape in laid]
overlap = sum(one.intersection(other).area for one, other in itertools.combinations(laid, 2))
print(json.dumps({"length": max(it[2] for it in reach) - min(it[0] for it in reach), "overlap": overlap}))
