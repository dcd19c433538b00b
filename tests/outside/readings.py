"""Lays the plane through the readings of the parameter files a second time, with numpy's least squares.

Usage: readings.py FOLDER_OF_BUILT_DESIGNS FILE.toml ... Holds what the findings say lies off the plane, and where the
corners of the model's ceiling are, against it. Files without readings are passed over.
"""

import json
import sys
import tomllib
from fractions import Fraction
from pathlib import Path

import numpy
import trimesh

from report import Report


def mm(text, unit):
    """A bare number in the file's unit, or inches with a fraction, such as 98-3/4 in."""
    if isinstance(text, (int, float)):
        return float(text) * (25.4 if unit == "inch" else 1.0)
    words = text.removesuffix("in").strip().replace("-", " ").split()
    return float(sum(Fraction(word) for word in words)) * 25.4


def points(parameters):
    unit = parameters["project"].get("unit", "inch")
    rows = [{key: mm(value, unit) for key, value in row.items()} for row in parameters["ceiling"]["readings"]]
    # heights count from the floor's highest place, where the level line is nearest to it
    floor = [mm(down, unit) for _, _, down in parameters["room"].get("floor", [])]
    line = min([row["down"] for row in rows if "down" in row] + floor, default=0.0)
    height = lambda row: row["height"] if "height" in row else row["up"] + line
    return numpy.array([(row["right"], row["out"], height(row)) for row in rows])


def main():
    report = Report("readings")
    built = Path(sys.argv[1])
    for argument in sys.argv[2:]:
        file = Path(argument)
        parameters = tomllib.loads(file.read_text(encoding="utf-8"))
        if "readings" not in parameters["ceiling"]:
            continue
        read = points(parameters)
        design = numpy.column_stack([numpy.ones(len(read)), read[:, :2]])
        plane, *_ = numpy.linalg.lstsq(design, read[:, 2], rcond=None)
        off = read[:, 2] - design @ plane
        findings = json.loads((built / file.stem / "findings.json").read_text(encoding="utf-8"))["findings"]
        # what follows from another finding stands beneath that one
        findings += [it for cause in findings for it in cause["consequences"]]
        # two readings may lie off equally far, so the numbers count and not which of them is named
        found = {it["about"].split(" ")[0]: it for it in findings if it["rule"] == "ceiling readings"}
        worst = int(numpy.argmax(abs(off)))
        about = "reading"
        report.check(about in found, f"{file.name}: {about}")
        if about in found:
            report.near(found[about]["measured"], abs(off[worst]), 1e-6, f"{file.name}: the worst reading")
        lowest = int(numpy.argmin(off))
        about = "gap"
        # plates along the readings have a row for each wall instead
        on_plane = parameters["ceiling"].get("plates", "plane") == "plane"
        report.check((about in found) == on_plane, f"{file.name}: {about}")
        if on_plane and about in found:
            report.near(found[about]["required"], max(0.0, -off[lowest]), 1e-6, f"{file.name}: the lowest reading")
        scene = trimesh.load(built / file.stem / "model.glb")
        nodes = [name for name in scene.graph.nodes_geometry if name.startswith("room/ceiling/1")]
        bodies = [(scene.graph[name][0], scene.geometry[scene.graph[name][1]]) for name in nodes]
        bodies = [(place, body) for place, body in bodies if isinstance(body, trimesh.Trimesh)]
        report.check(len(bodies) == 1, f"{file.name}: the ceiling has one body")
        for transform, shape in bodies:
            # metres, y up, −z into the room's wall: right is x, out is z
            world = trimesh.transform_points(shape.vertices, transform) * 1000.0
            above = world[:, 1] - numpy.column_stack([numpy.ones(len(world)), world[:, 0], world[:, 2]]) @ plane
            report.near(above.min(), 0.0, 0.01, f"{file.name}: the ceiling's underside")
            report.near(above.max(), 12.7, 0.01, f"{file.name}: its upper side")
    report.finish()


main()
