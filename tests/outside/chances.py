"""Draws errors of lengths at random and counts how often nothing is left of a clearance.

Usage: chances.py FILE, a JSON list of cases: `to_spare`, and `limits`, the greatest error of each length. Every error is
drawn evenly between plus and minus its limit, independently of the others. Prints a JSON list: of each case how often the
sum of errors is more than what there is to spare, and the standard deviation of the sum. Knows no formula.
"""

import json
import sys
from pathlib import Path

import numpy

# Draws of each case: the share found is then within 0.3 points of the true one in all but 1 of 100,000 cases.
DRAWS = 400_000


def main():
    cases = json.loads(Path(sys.argv[1]).read_text())
    draw = numpy.random.default_rng(17)
    answers = []
    for case in cases:
        total = numpy.zeros(DRAWS)
        for limit in case["limits"]:
            total += draw.uniform(-limit, limit, DRAWS)
        fails = float(numpy.mean(total + case["to_spare"] < 0.0))
        answers.append({"fails": fails, "deviation": float(total.std())})
    print(json.dumps(answers))


main()
