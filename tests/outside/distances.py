"""Distances of random pairs of bodies in a geometry kernel, against the tool's own.

Usage: distances.py PAIRS.json. Straight bodies agree within 1e-6 mm, bends within 1e-4 mm. Where the kernel and the
tool disagree over a bend, the bend's own surface is searched for its nearest point to the other body: the kernel
may stop in a local minimum of a torus, and the least that anybody finds is the distance.
"""

import itertools
import json
import math
import sys

import numpy
from OCP.BRepBuilderAPI import (
    BRepBuilderAPI_MakeFace,
    BRepBuilderAPI_MakePolygon,
    BRepBuilderAPI_MakeSolid,
    BRepBuilderAPI_MakeVertex,
    BRepBuilderAPI_Sewing,
)
from OCP.BRepExtrema import BRepExtrema_DistShapeShape
from OCP.BRepPrimAPI import BRepPrimAPI_MakeCylinder, BRepPrimAPI_MakeTorus
from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt
from OCP.TopoDS import TopoDS
from scipy.optimize import minimize

from report import Report

STRAIGHT = 1e-6
BENT = 1e-4


class Placed:
    """A body of the file; points of its own frame in the world."""

    def __init__(self, entry):
        self.shape = entry["shape"]
        self.origin = numpy.array(entry["origin"])
        x, z = numpy.array(entry["x"]), numpy.array(entry["z"])
        self.axes = numpy.array([x, numpy.cross(z, x), z])
        self.is_bend = "bend" in self.shape
        self.solid = self.made()

    def point(self, *local):
        return gp_Pnt(*(self.origin + numpy.array(local) @ self.axes))

    def direction(self, *local):
        return gp_Dir(*(numpy.array(local) @ self.axes))

    def made(self):
        if "stick" in self.shape:
            return self.stick()
        if self.is_bend:
            # The bend turns toward +x about a circle's middle at (bend, 0, 0).
            axis = gp_Ax2(self.point(self.shape["bend"], 0, 0), self.direction(0, 1, 0), self.direction(-1, 0, 0))
            return BRepPrimAPI_MakeTorus(
                axis, self.shape["bend"], self.shape["radius"], self.shape["turn"]
            ).Shape()
        axis = gp_Ax2(self.point(0, 0, 0), self.direction(0, 0, 1), self.direction(1, 0, 0))
        return BRepPrimAPI_MakeCylinder(axis, self.shape["pipe"], self.shape["length"]).Shape()

    def stick(self):
        width, depth = self.shape["stick"]
        (ax, ay), (bx, by) = self.shape["slopes"]
        plan = [(0, 0), (width, 0), (width, depth), (0, depth)]
        low = [self.point(x, y, ax * x + ay * y) for x, y in plan]
        high = [self.point(x, y, self.shape["height"] + bx * x + by * y) for x, y in plan]
        sewing = BRepBuilderAPI_Sewing(1e-9)
        faces = [low[::-1], high]
        faces += [[low[i], low[(i + 1) % 4], high[(i + 1) % 4], high[i]] for i in range(4)]
        for corners in faces:
            polygon = BRepBuilderAPI_MakePolygon(*corners, True)
            sewing.Add(BRepBuilderAPI_MakeFace(polygon.Wire(), True).Face())
        sewing.Perform()
        return BRepBuilderAPI_MakeSolid(TopoDS.Shell(sewing.SewedShape())).Solid()

    def on_bend(self, turn, across, around):
        """A point in or on a bend: how far along, how far from its axis, and in which direction there."""
        bend = self.shape["bend"] - across * math.cos(around)
        x = self.shape["bend"] - bend * math.cos(turn)
        return self.point(x, across * math.sin(around), bend * math.sin(turn))


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
