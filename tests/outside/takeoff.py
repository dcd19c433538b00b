"""Measures the sticks of model.step with a geometry kernel and holds takeoff.json against it.

The kernel knows faces, edges and volumes only. A stick's axis is the direction of an edge square to which the solid
measures what the list calls its section; its long point is then the solid's extent along the axis, and the setting of the
saw follows from the angles between the end face, the wide face and the axis.
"""

import json
import re
import sys
from math import acos, degrees
from pathlib import Path

import numpy
from OCP.BRep import BRep_Tool
from OCP.BRepAdaptor import BRepAdaptor_Surface
from OCP.BRepGProp import BRepGProp
from OCP.GProp import GProp_GProps
from OCP.GeomAbs import GeomAbs_Plane
from OCP.STEPCAFControl import STEPCAFControl_Reader
from OCP.TCollection import TCollection_ExtendedString
from OCP.TDataStd import TDataStd_Name
from OCP.TDF import TDF_Label
from OCP.TDocStd import TDocStd_Document
from OCP.TopAbs import TopAbs_EDGE, TopAbs_FACE, TopAbs_VERTEX
from OCP.TopExp import TopExp, TopExp_Explorer
from OCP.TopLoc import TopLoc_Location
from OCP.TopoDS import TopoDS
from OCP.collections import Sequence_TDF_Label
from OCP.XCAFDoc import XCAFDoc_DocumentTool, XCAFDoc_ShapeTool

from report import Report

# Kilograms in a cubic metre: 29 and 35 lb/ft3 (common practice, no source), as the model's materials have them.
LUMBER, TREATED, STEEL = 465.0, 560.0, 7850.0
# What a steel member is called, such as 362S125-33.
MEMBER = re.compile(r"\d+[ST]\d+-\d+")
# Millimetres and degrees: the list is exact, the file to nine decimals.
NEAR, TURN = 1e-4, 1e-5


def explore(shape, kind):
    explorer = TopExp_Explorer(shape, kind)
    while explorer.More():
        yield explorer.Current()
        explorer.Next()


def name_of(label):
    name = TDataStd_Name()
    return name.Get().ToExtString() if label.FindAttribute(TDataStd_Name.GetID_s(), name) else ""


def leaves(label, location):
    components = Sequence_TDF_Label()
    XCAFDoc_ShapeTool.GetComponents_s(label, components)
    for place in range(1, components.Length() + 1):
        component = components.Value(place)
        product = TDF_Label()
        XCAFDoc_ShapeTool.GetReferredShape_s(component, product)
        here = location.Multiplied(XCAFDoc_ShapeTool.GetLocation_s(component))
        if XCAFDoc_ShapeTool.IsAssembly_s(product):
            yield from leaves(product, here)
        else:
            yield name_of(component), XCAFDoc_ShapeTool.GetShape_s(product).Located(here)


def read(path):
    document = TDocStd_Document(TCollection_ExtendedString("XmlXCAF"))
    reader = STEPCAFControl_Reader()
    reader.SetNameMode(True)
    reader.ReadFile(str(path))
    reader.Transfer(document)
    roots = Sequence_TDF_Label()
    XCAFDoc_DocumentTool.ShapeTool_s(document.Main()).GetFreeShapes(roots)
    return dict(leaves(roots.Value(1), TopLoc_Location())), document


def vector(it):
    return numpy.array([it.X(), it.Y(), it.Z()])


def unit(it):
    return it / numpy.linalg.norm(it)


class Solid:
    def __init__(self, shape):
        points = [vector(BRep_Tool.Pnt_s(TopoDS.Vertex(v))) for v in explore(shape, TopAbs_VERTEX)]
        self.points = numpy.array(points)
        self.edges = []
        for edge in explore(shape, TopAbs_EDGE):
            edge = TopoDS.Edge(edge)
            ends = [TopExp.FirstVertex_s(edge), TopExp.LastVertex_s(edge)]
            a, b = (vector(BRep_Tool.Pnt_s(end)) for end in ends)
            if numpy.linalg.norm(b - a) > NEAR:
                self.edges.append(unit(b - a))
        self.normals, bored = [], 0.0
        for face in explore(shape, TopAbs_FACE):
            surface = BRepAdaptor_Surface(TopoDS.Face(face))
            if surface.GetType() == GeomAbs_Plane:
                self.normals.append(vector(surface.Plane().Axis().Direction()))
            else:
                # a bore: of a cylinder's wall, half its radius times its area is its volume
                wall = GProp_GProps()
                BRepGProp.SurfaceProperties_s(TopoDS.Face(face), wall)
                bored += wall.Mass() * surface.Cylinder().Radius() / 2.0
        found = GProp_GProps()
        BRepGProp.VolumeProperties_s(shape, found)
        # a stick is weighed as it is cut, before it is bored
        self.volume = found.Mass() + bored

    def extent(self, direction):
        along = self.points @ direction
        return along.max() - along.min()

    def lying(self, section):
        """Every axis, and direction through the thickness, for which the section measures as listed.

        A stick whose section is a square or a rhombus measures the same on either of its faces.
        """
        width, thickness = section
        found = []
        for axis in self.edges:
            for through in self.normals:
                if abs(axis @ through) > 1e-9:
                    continue
                across = numpy.cross(through, axis)
                off = abs(self.extent(across) - width) + abs(self.extent(through) - thickness)
                if off < NEAR:
                    found.append((self.extent(axis), axis, through, across))
        longest = max((it[0] for it in found), default=0.0)
        return [it for it in found if it[0] > longest - NEAR]

    def settings(self, axis, down, across):
        """Turn of the table and tilt of the blade for each end, with `down` square to the table."""
        for normal in self.normals:
            lean = abs(normal @ axis)
            if lean < 1e-9:
                continue
            # the angle between the end face and the face on the table, less a right angle
            tilt = 90.0 - degrees(acos(min(1.0, abs(normal @ down))))
            trace = numpy.cross(normal, down)
            turn = degrees(acos(min(1.0, abs(unit(trace) @ across))))
            yield turn, tilt


def distance(found, expected):
    """The farthest that two lists of angles are apart."""
    pairs = zip(found, expected)
    return max((abs(a - b) for ours, theirs in pairs for a, b in zip(ours, theirs)), default=0.0)


def in_order(settings):
    """Sorted, with turns that differ by rounding only as one."""
    return sorted(settings, key=lambda it: (round(it[0], 5), it[1]))


def check_row(report, row, solid, name):
    lying = solid.lying(row["section_mm"])
    report.check(bool(lying), f"{name}: a section of {row['section_mm']}")
    if not lying:
        return
    report.near(row["long_point_mm"], lying[0][0], NEAR, f"{name}: long point")
    # a peak under a ridge is two cuts of one end
    cuts = [cut for end in row["ends"] for cut in (end, end["second"]) if cut]
    found = in_order((cut["miter_degrees"], cut["bevel_degrees"]) for cut in cuts)
    ways = []
    for _, axis, through, across in lying:
        down, beside = (across, through) if row["lies"] == "on edge" else (through, across)
        ways.append(in_order(solid.settings(axis, down, beside)))
    expected = min(ways, key=lambda way: distance(found, way))
    report.check(len(expected) == len(found), f"{name}: {len(found)} cuts, found {len(expected)}")
    for (miter, bevel), (turn, tilt) in zip(found, expected):
        report.near(miter, turn, TURN, f"{name}: miter")
        report.near(bevel, tilt, TURN, f"{name}: bevel")
    density = STEEL if MEMBER.fullmatch(row["stock"]) else TREATED if row["treated"] else LUMBER
    report.near(row["kilograms"], solid.volume * 1e-9 * density, 1e-6, f"{name}: mass")


def main():
    report = Report("takeoff")
    for argument in sys.argv[1:]:
        folder = Path(argument)
        takeoff = json.loads((folder / "takeoff.json").read_text(encoding="utf-8"))
        solids, document = read(folder / "model.step")
        for row in takeoff["cut_list"]:
            for part in row["parts"]:
                name = f"{folder.name}: {row['mark']} {part}"
                report.check(part in solids, f"{name}: in the model")
                if part in solids:
                    check_row(report, row, Solid(solids[part]), name)
        del document
    report.finish()


main()
