"""Reads the scale models' STL and 3MF with a mesh library, and every body with a solid modeler, in 32 bits.

Each folder is what `chasewright scale` wrote. Every body has to be closed, of positive volume, in the positive
octant and, on a plate, inside the bed; the 3MF has to say its unit, names and colors; both forms hold the
same. Usage: printed.py BED_X BED_Y BED_Z FOLDER ...

Source: 3MF Core Specification 1.3: unit of the model, positive octant (2.3), base materials (5.1).
"""

import sys
import zipfile
from pathlib import Path
from xml.etree import ElementTree

import manifold3d
import numpy
import trimesh

from report import Report

CORE = "{http://schemas.microsoft.com/3dmanufacturing/core/2015/02}"
# What one step of 32 bits at 256 mm leaves of a size.
STEP = 2.0**-15


def read_stl(path):
    """An STL with equal corners merged, and its shells."""
    mesh = trimesh.load_mesh(path, process=False)
    mesh.merge_vertices(digits_vertex=12)
    return mesh, mesh.split(only_watertight=False, repair=False)


def check_shell(report, where, shell):
    report.check(shell.is_watertight, f"{where}: closed")
    report.check(shell.is_winding_consistent, f"{where}: oriented")


def check_body(report, where, body):
    """A body, hollows and all."""
    check_shell(report, where, body)
    report.check(body.volume > 0.0, f"{where}: positive volume, found {body.volume}")
    corners = numpy.ascontiguousarray(body.vertices, dtype=numpy.float32)
    triangles = numpy.ascontiguousarray(body.faces, dtype=numpy.uint32)
    solid = manifold3d.Manifold(manifold3d.Mesh(corners, triangles))
    report.check(solid.status() == manifold3d.Error.NoError, f"{where}: a solid, {solid.status()}")
    report.near(solid.volume() / body.volume, 1.0, 1e-4, f"{where}: the solid's volume")


def check_octant(report, path, bounds, bed):
    report.check((bounds[0] >= -STEP).all(), f"{path}: in the positive octant, found {bounds[0]}")
    if path.name.startswith("kit-plate"):
        report.near(bounds[0][2], 0.0, STEP, f"{path}: on the bed")
    if not path.name.startswith("look-clearances"):
        report.check((bounds[1] <= bed).all(), f"{path}: on the bed of {bed}, found {bounds[1]}")


def check_said(report, path):
    """What the 3MF itself says: unit, names, colors, and that these come before what bears them."""
    with zipfile.ZipFile(path) as container:
        model = ElementTree.fromstring(container.read("3D/3dmodel.model"))
    report.check(model.get("unit") == "millimeter", f"{path}: in millimetres")
    resources = list(model.find(f"{CORE}resources"))
    report.check(resources[0].tag == f"{CORE}basematerials", f"{path}: colors first")
    colors = [base.get("displaycolor") for base in resources[0]]
    report.check(all(len(color) == 9 and color[0] == "#" for color in colors), f"{path}: colors {colors}")
    objects = {it.get("id"): it for it in resources[1:]}
    names = [it.get("name") for it in objects.values()]
    report.check(all(names) and len(set(names)) == len(names), f"{path}: names of their own, found {names}")
    for it in objects.values():
        known = it.get("pid") == resources[0].get("id") and int(it.get("pindex")) < len(colors)
        report.check(known, f"{path}: {it.get('name')}: a color")
    built = [it.get("objectid") for it in model.find(f"{CORE}build")]
    report.check(sorted(built) == sorted(objects), f"{path}: every body is built once")
    return names


def check_3mf(report, path, bed):
    names = check_said(report, path)
    scene = trimesh.load_scene(path)
    report.check(scene.units in ("millimeter", "mm"), f"{path}: the mesh library reads {scene.units}")
    report.check(sorted(scene.geometry) == sorted(names), f"{path}: its names, read {sorted(scene.geometry)}")
    for name, body in scene.geometry.items():
        check_body(report, f"{path}: {name}", body)
    check_octant(report, path, scene.bounds, bed)
    return sum(body.volume for body in scene.geometry.values())


def check_folder(report, folder, bed):
    volumes = {}
    for path in sorted(folder.glob("*.stl")):
        whole, shells = read_stl(path)
        for number, shell in enumerate(shells):
            check_shell(report, f"{path}: shell {number}", shell)
        check_body(report, path, whole)
        check_octant(report, path, whole.bounds, bed)
        volumes[path.stem] = whole.volume
    report.check(len(volumes) >= 3, f"{folder}: looks and plates, found {sorted(volumes)}")
    for path in sorted(folder.glob("*.3mf")):
        volume = check_3mf(report, path, bed)
        expected = volumes[path.stem]
        if path.stem.startswith("look"):
            expected += volumes[path.stem.replace("look", "look-clearances")]
        report.near(volume / expected, 1.0, 1e-5, f"{path}: as much as the STL")


def main():
    report = Report("printed")
    bed = numpy.array([float(it) for it in sys.argv[1:4]])
    for argument in sys.argv[4:]:
        check_folder(report, Path(argument), bed)
    report.finish()


main()
