"""Looks for an order in which traywright trays can be folded, whatever their steps say, with solids alone.

Usage: solids_orders.py FOLDER, with documents of the wire in it (`NAME.json`). Prints one JSON object by NAME: the order
found, as names of panels, or null; and how many folds were turned. A fold that can be undone now could have been the last
one, so the order is sought from the end, with a way back. Nothing is turned twice in the same tray.
"""

import json
import math
import multiprocessing
import sys
from pathlib import Path

from solids import Tray
from solids_turning import Turn

# Folds that are turned for one tray before the search gives up.
MOST_TURNS = 1500


class Search:
    """The search in one tray; a state is the set of panels that are folded."""

    def __init__(self, path):
        self.tray = Tray(path)
        self.touch = min(0.05, self.tray.caliper / 4)
        self.hopeless, self.turns = set(), 0
        self.hung = [index for index, panel in enumerate(self.tray.panels) if panel.parent is not None]

    def can_fold(self, state, panel):
        """Whether the panel can be turned while those of the state stand and all others lie flat."""
        self.turns += 1
        folded = [index in state for index in range(len(self.tray.panels))]
        move = {"panel": panel, "to_deg": math.degrees(self.tray.panels[panel].fold)}
        met = Turn(self.tray, folded, [move], self.touch).meetings()
        return all(meeting["deep"] is None for meeting in met)

    def undone(self, state):
        """The panels in the order in which they can be undone, or none."""
        if not state:
            return []
        if state in self.hopeless:
            return None
        for panel in sorted(state, key=lambda panel: self.rank(state, panel)):
            if self.turns >= MOST_TURNS:
                return None
            rest = state - {panel}
            if rest not in self.hopeless and self.can_fold(rest, panel):
                if (before := self.undone(rest)) is not None:
                    return [panel, *before]
        self.hopeless.add(state)
        return None

    def rank(self, state, panel):
        """Flaps first, then what has nothing folded hanging on it, then what was hung last."""
        words = self.tray.panels
        hanging = sum(words[other].parent == panel for other in state)
        return not self.tray.cut_out(panel), hanging, -panel


def order(path):
    """The order found for one tray."""
    search = Search(path)
    found = search.undone(frozenset(search.hung))
    names = None if found is None else [search.tray.panels[panel].name for panel in reversed(found)]
    return {"order": names, "turns": search.turns, "given_up": search.turns >= MOST_TURNS}


def main():
    files = sorted(Path(sys.argv[1]).glob("*.json"))
    with multiprocessing.Pool(2) as pool:
        seen = pool.map(order, files, chunksize=1)
    print(json.dumps({file.stem: found for file, found in zip(files, seen)}))


if __name__ == "__main__":
    main()
