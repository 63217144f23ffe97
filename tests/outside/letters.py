"""Looks whether the letters of the parts stand where a reader finds them, with a library that knows nothing of traywright.

Usage: letters.py FILE    FILE is JSON: panels, each with its rings, its part and its name; letters and other words, each
with its text, the middle of its foot and its height; lines, each a list of places. All in mm.

Prints one JSON object: how many letters stand there, and which letter each part has. A letter that does not lie within a
panel of one part, or on a line, or on other words, goes to standard error, and the script ends with 1.
"""

import json
import pathlib
import sys

from shapely.geometry import LineString, Polygon, box

# Source: DejaVu Sans, horizontal metrics: M is 1.18 of a capital's height wide, W 1.36, every other capital 1.09 at most.
WIDE = {"M": 1.18, "W": 1.36}
OTHERS = 1.09

faults = []


def demand(truth, words):
    if not truth:
        faults.append(words)


def around(word):
    half = sum(WIDE.get(letter, OTHERS) for letter in word["text"]) * word["height"] / 2
    x, y = word["at"]
    return box(x - half, y, x + half, y + word["height"])


def main():
    told = json.loads(pathlib.Path(sys.argv[1]).read_text(encoding="utf-8"))
    panels = [(panel, Polygon(panel["rings"][0], panel["rings"][1:]).buffer(0)) for panel in told["panels"]]
    lines = [LineString(line) for line in told["lines"]]
    letters = [(letter["text"], around(letter)) for letter in told["letters"]]
    words = [(word["text"], around(word)) for word in told["words"]]
    parts, taken = {}, set()
    for index, (text, area) in enumerate(letters):
        within = [panel for panel, shape in panels if shape.contains(area)]
        demand(len(within) == 1, f"{text} lies within {[panel['name'] for panel in within]}")
        for panel in within:
            demand(panel["name"] not in taken, f"{panel['name']} has two letters")
            taken.add(panel["name"])
            parts.setdefault(panel["part"], set()).add(text)
        demand(not any(line.intersects(area) for line in lines), f"a line runs through {text}")
        for other, place in words + letters[index + 1 :]:
            demand(not place.intersects(area), f"{text} stands on {other}")
    demand(all(len(letters) == 1 for letters in parts.values()), f"a part has two letters: {parts}")
    each = [next(iter(letters)) for letters in parts.values()]
    demand(len(set(each)) == len(each), f"two parts have one letter: {parts}")
    print(json.dumps({"letters": len(letters), "parts": {part: next(iter(own)) for part, own in parts.items()}}))
    if faults:
        raise SystemExit("\n".join(faults[:40]))


main()
