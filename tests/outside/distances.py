"""Distances of random pairs of bodies in a geometry kernel, against the tool's own.

Usage: distances.py PAIRS.json. Straight bodies agree within 1e-6 mm, bends within 1e-4 mm. Where the kernel and the
tool disagree over a bend, the bend's own surface is searched for its nearest point to the other body: the kernel
may stop in a local minimum of a torus, and the least that anybody finds is the distance.
"""

import itertools
import json
import math
import sys

from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeVertex
from OCP.BRepExtrema import BRepExtrema_DistShapeShape
from scipy.optimize import minimize

from bodies import Placed
from report import Report

STRAIGHT = 1e-6
BENT = 1e-4


def kernel_distance(first, second):
    found = BRepExtrema_DistShapeShape(first, second)
    if not found.IsDone():
        return math.inf
    return 0.0 if found.InnerSolution() else found.Value()


def searched(bend, other):
    """The least distance from points of a bend to another body, from many starts."""
    turn, radius = bend.shape["turn"], bend.shape["radius"]
    bounds = [(0.0, turn), (0.0, radius), (-4.0, 8.0)]

    def away(values):
        values = [min(max(value, low), high) for value, (low, high) in zip(values, bounds)]
        vertex = BRepBuilderAPI_MakeVertex(bend.on_bend(*values)).Vertex()
        return kernel_distance(vertex, other.solid)

    shares = itertools.product((0.0, 0.25, 0.5, 0.75, 1.0), (1.0,), (0.0, 1.05, 2.1, 3.15, 4.2, 5.25))
    starts = sorted(((away((a * turn, b * radius, c)), (a * turn, b * radius, c)) for a, b, c in shares))
    ends = (
        minimize(away, start, method="Nelder-Mead", bounds=bounds, options={"xatol": 1e-9, "fatol": 1e-10})
        for _, start in starts[:4]
    )
    return min(end.fun for end in ends)


def main():
    report = Report("distances")
    settled = 0
    with open(sys.argv[1], encoding="utf-8") as file:
        pairs = json.load(file)
    for number, pair in enumerate(pairs):
        first, second = Placed(pair["first"]), Placed(pair["second"])
        tolerance = BENT if first.is_bend or second.is_bend else STRAIGHT
        found = kernel_distance(first.solid, second.solid)
        if abs(found - pair["distance"]) > tolerance and (first.is_bend or second.is_bend):
            bend, other = (first, second) if first.is_bend else (second, first)
            found = min(found, searched(bend, other))
            settled += 1
        report.near(pair["distance"], found, tolerance, f"pair {number}: {first.shape}, {second.shape}")
    report.check(len(pairs) >= 1000, f"{len(pairs)} pairs")
    print(f"distances: of {len(pairs)} pairs {settled} were settled by a search")
    report.finish()


main()
