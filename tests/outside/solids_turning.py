"""Folds traywright trays step by step, a quarter of a degree at a time, and tells which solids come into which.

Usage: solids_turning.py FOLDER, with documents of the wire in it (`NAME.json`). Prints one JSON object by NAME. The
panels of one action turn at once, each with all that hangs on it; panels folded before stand, the others lie flat. Left
out: panels that turn at once, a panel cut out of its parent's card against that, and the bar beside the turning crease.
Folding ends with the first action that brings two solids deeper into each other than `touch`.
"""

import json
import math
import multiprocessing
import sys
from pathlib import Path

import numpy

from solids import NOISE_DEPTH, NOISE_VOLUME, Tray, after, depth, moved

STEP_DEG = 0.25
# Depth from which two solids are said to be in each other at all.
SEEN = 1e-5


class Turn:
    """One action: all motions of all panels at each angle looked at."""

    def __init__(self, tray, folded, moves, touch):
        self.tray, self.moves, self.touch = tray, moves, touch
        panels = tray.panels
        most = max(abs(move["to_deg"]) for move in moves)
        self.count = math.ceil(most / STEP_DEG)
        self.angles = [most * step / self.count for step in range(self.count + 1)]
        goals = {move["panel"]: math.radians(move["to_deg"]) for move in moves}
        self.mover = {}
        for index, panel in enumerate(panels):
            self.mover[index] = index if index in goals else self.mover.get(panel.parent)
        still = tray.motions(lambda index: panels[index].fold if folded[index] and index not in goals else 0.0)
        self.still, self.paths = still, {}
        for index, mover in self.mover.items():
            if mover is None:
                continue
            panel = panels[mover]
            base = still[panel.parent]
            back = after(inverse(base), still[index])
            turns = [panel.turn(goals[mover] * step / self.count) for step in range(self.count + 1)]
            self.paths[index] = numpy.array([after(after(base, turn), back) for turn in turns])

    def meetings(self):
        """Every pair that is seen in each other: where first, where first deeper than `touch`, and how deep at most."""
        met, limit = [], self.count
        for turning, path in self.paths.items():
            for other in range(len(self.tray.panels)):
                if self.mover[other] is not None:
                    continue
                found = self.meeting(turning, other, path, limit)
                if found:
                    met.append(found)
                    if found["deep"] is not None:
                        # Nothing after this angle can be the first to meet; a little more is looked at, for near ties.
                        limit = min(limit, math.ceil(found["deep"] / STEP_DEG) + 2)
        return met

    def meeting(self, turning, other, path, limit):
        panel, still = self.tray.panels[turning], self.tray.panels[other]
        solid, corners = panel.solid, panel.corners
        if panel.parent == other:
            if self.tray.cut_out(turning):
                return None
            # As wide as the bar becomes on the way.
            bar = self.tray.sliver(panel.fold)[0]
            solid, corners = panel.beyond(bar)
            if solid.is_empty():
                return None
        near = self.near(path, panel.ways, corners, self.still[other], still)
        standing = still.solid.transform(self.still[other])
        found = {"turning": panel.name, "other": still.name, "panel": self.tray.panels[self.mover[turning]].name}
        first, deepest = None, 0.0
        for step in near[near <= limit]:
            common = solid.transform(path[step]) ^ standing
            deep = depth(common) if common.volume() > NOISE_VOLUME else 0.0
            deepest = max(deepest, deep)
            if first is None and deep > SEEN:
                first = self.angles[step]
            if deep > self.touch:
                return found | {"first": first, "deep": self.angles[step], "depth": deep}
        return found | {"first": first, "deep": None, "depth": deepest} if first is not None else None

    def near(self, path, ways, corners, motion, still):
        """The steps at which no face of either hull parts the two."""
        place = moved(motion, still.corners)
        around = numpy.einsum("kij,nj->kni", path[:, :, :3], corners) + path[:, None, :, 3]
        apart = parted(around @ (still.ways @ motion[:, :3].T).T, (place @ (still.ways @ motion[:, :3].T).T)[None])
        seen = numpy.einsum("kji,knj->kni", path[:, :, :3], place[None] - path[:, None, :, 3])
        apart |= parted(seen @ ways.T, (corners @ ways.T)[None])
        return numpy.flatnonzero(~apart)


def parted(one, other):
    """Whether two sets of places, seen along several directions, are apart along any of them."""
    over = numpy.minimum(one.max(axis=1), other.max(axis=1)) - numpy.maximum(one.min(axis=1), other.min(axis=1))
    return (over < NOISE_DEPTH).any(axis=1)


def inverse(motion):
    rows = motion[:, :3].T
    return numpy.column_stack([rows, -rows @ motion[:, 3]])


def fold(path):
    """Folds one tray in the order of its steps."""
    tray = Tray(path)
    touch = min(0.05, tray.caliper / 4)
    folded = [False] * len(tray.panels)
    seen = {"touch": touch, "turns": 0, "near": [], "hits": [], "action": None}
    for number, step in enumerate(tray.steps):
        action = step["action"]
        moves = action.get("fold", []) if isinstance(action, dict) else []
        if not moves:
            continue
        met = Turn(tray, folded, moves, touch).meetings()
        seen["turns"] += len(moves)
        hits = [meeting for meeting in met if meeting["deep"] is not None]
        seen["near"] += [meeting for meeting in met if meeting["deep"] is None]
        if hits:
            return seen | {"action": number, "hits": sorted(hits, key=lambda meeting: meeting["deep"])}
        for move in moves:
            folded[move["panel"]] = True
    return seen


def main():
    files = sorted(Path(sys.argv[1]).glob("*.json"))
    with multiprocessing.Pool(2) as pool:
        seen = pool.map(fold, files, chunksize=1)
    print(json.dumps({file.stem: trays for file, trays in zip(files, seen)}))


if __name__ == "__main__":
    main()
