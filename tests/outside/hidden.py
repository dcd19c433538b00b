"""Removes hidden lines with a geometry kernel's exact algorithm and holds the drawings' own lines against it.

Each folder's hidden.json names the bodies, and the lines that the drawings show of them in several views. The kernel
reads the same bodies from model.step. On each straight line of a view, what is seen of it by either is a union of
intervals: the two unions have to agree within 0.1 % of the length, and all lines together too.
"""

import json
import sys
from collections import defaultdict
from pathlib import Path

import numpy
from OCP.BRepAdaptor import BRepAdaptor_Curve
from OCP.BRepLib import BRepLib
from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt
from OCP.HLRAlgo import HLRAlgo_Projector
from OCP.HLRBRep import HLRBRep_Algo, HLRBRep_HLRToShape
from OCP.TopAbs import TopAbs_EDGE
from OCP.TopoDS import TopoDS

from report import Report
from step import explore, read_assembly

# Within this many millimetres lines are one line, and lengths are equal.
STEP = 0.02
SLACK = 0.05


def kernel_lines(shapes, right, back):
    algorithm = HLRBRep_Algo()
    for shape in shapes:
        algorithm.Add(shape)
    axes = gp_Ax2(gp_Pnt(0, 0, 0), gp_Dir(*back), gp_Dir(*right))
    algorithm.Projector(HLRAlgo_Projector(axes))
    algorithm.Update()
    algorithm.Hide()
    seen = HLRBRep_HLRToShape(algorithm)
    found = []
    for compound in [seen.VCompound(), seen.Rg1LineVCompound(), seen.OutLineVCompound()]:
        if compound is None or compound.IsNull():
            continue
        BRepLib.BuildCurves3d_s(compound)
        for edge in explore(compound, TopAbs_EDGE):
            curve = BRepAdaptor_Curve(TopoDS.Edge(edge))
            ends = [curve.Value(curve.FirstParameter()), curve.Value(curve.LastParameter())]
            found.append([[point.X(), point.Y()] for point in ends])
    return numpy.array(found, dtype=float).reshape(-1, 2, 2)


def carriers(lines):
    """Intervals by the straight line that carries them."""
    found = defaultdict(list)
    for a, b in lines:
        way = b - a
        long = numpy.hypot(*way)
        if long < 0.05:
            continue
        way = way / long
        if way[0] < -1e-6 or (abs(way[0]) <= 1e-6 and way[1] < 0.0):
            way = -way
        across = -way[1] * a[0] + way[0] * a[1]
        ends = sorted([float(way @ a), float(way @ b)])
        found[(round(float(way[0]), 3), round(float(way[1]), 3))].append((across, *ends))
    grouped = {}
    for way, entries in found.items():
        entries.sort()
        last = None
        for across, low, high in entries:
            if last is None or across - last > STEP:
                base = across
                grouped[(*way, base)] = []
            last = across
            grouped[(*way, base)].append((low, high))
    return grouped


def union(intervals):
    merged = []
    for low, high in sorted(intervals):
        if merged and low <= merged[-1][1] + STEP:
            merged[-1][1] = max(merged[-1][1], high)
        else:
            merged.append([low, high])
    return merged


def length(intervals):
    return sum(high - low for low, high in intervals)


def difference(a, b):
    """Length of what lies in one union and not in the other."""
    cuts = sorted({end for interval in a + b for end in interval})
    total = 0.0
    for low, high in zip(cuts, cuts[1:]):
        middle = (low + high) / 2
        inside = [any(x <= middle <= y for x, y in union) for union in (a, b)]
        if inside[0] != inside[1]:
            total += high - low
    return total


def compare(report, where, own, kernel):
    both = carriers([*own, *kernel])
    sides = []
    for lines in (own, kernel):
        grouped = defaultdict(list)
        for (x, y, across), intervals in carriers(lines).items():
            near = [key for key in both if key[:2] == (x, y) and abs(key[2] - across) <= 2 * STEP]
            grouped[min(near, key=lambda key: abs(key[2] - across))].extend(intervals)
        sides.append(grouped)
    total = off = 0.0
    for key in both:
        a, b = (union(side.get(key, [])) for side in sides)
        long = max(length(a), length(b))
        apart = difference(a, b)
        total += long
        off += apart
        report.check(
            apart <= max(long * 1e-3, SLACK),
            f"{where}: line {key}: {apart:.3f} of {long:.3f} mm differ: own {a}, kernel {b}",
        )
    report.check(total > 1000.0, f"{where}: {total} mm of lines")
    report.near(off / max(total, 1.0), 0.0, 1e-3, f"{where}: all lines together, share that differs")


def main():
    report = Report("hidden")
    for folder in map(Path, sys.argv[1:]):
        path = folder / "hidden.json"
        if not path.exists():
            continue
        asked = json.loads(path.read_text(encoding="utf-8"))
        _, _, found = read_assembly(report, folder / "model.step")
        shapes = {leaf.path[-1]: leaf.shape for leaf in found}
        for view in asked["views"]:
            bodies = [shapes[name] for name in view["bodies"]]
            kernel = kernel_lines(bodies, view["right"], view["back"])
            own = numpy.array(view["lines"], dtype=float).reshape(-1, 2, 2)
            compare(report, f"{folder.name}, {view['name']}", own, kernel)
    report.finish()


if __name__ == "__main__":
    main()
