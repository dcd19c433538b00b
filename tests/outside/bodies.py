"""Sticks, pipes and bends as the tests write them, made in a geometry kernel."""

import math

import numpy
from OCP.BRepBuilderAPI import (
    BRepBuilderAPI_MakeFace,
    BRepBuilderAPI_MakePolygon,
    BRepBuilderAPI_MakeSolid,
    BRepBuilderAPI_Sewing,
)
from OCP.BRepPrimAPI import BRepPrimAPI_MakeCylinder, BRepPrimAPI_MakeTorus
from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt
from OCP.TopoDS import TopoDS


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
