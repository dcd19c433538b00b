"""Reads model.stl of each folder with a mesh library: every shell closed, outward and as large as its part."""

import sys

import numpy
import trimesh

from report import SINGLE_STEP, Report, folders, rises


def shells(triangles):
    """The triangles in shells: the file has one closed shell after the other, so one ends where no edge is open."""
    open_edges = {}
    start = 0
    for place, corners in enumerate(map(tuple, triangles), 1):
        for a, b in zip(corners, corners[1:] + corners[:1]):
            if a == b:
                continue
            # An edge is closed by its like in the other direction.
            if open_edges.get((b, a)):
                open_edges[b, a] -= 1
                if not open_edges[b, a]:
                    del open_edges[b, a]
            else:
                open_edges[a, b] = open_edges.get((a, b), 0) + 1
        if not open_edges:
            yield triangles[start:place]
            start = place
    if start < len(triangles):
        yield triangles[start:]


def main():
    report = Report("stl")
    for folder, manifest, items in folders(sys.argv[1:]):
        path = folder / "model.stl"
        whole = trimesh.load_mesh(path)
        whole.merge_vertices(digits_vertex=9)
        parts = [item for item in items.values() if item.is_part]
        found = list(shells(whole.faces))
        report.check(len(found) == len(parts), f"{path}: a shell for each of {len(parts)} parts, found {len(found)}")
        for item, faces in zip(parts, found):
            mesh = trimesh.Trimesh(whole.vertices, faces, process=False)
            mesh.remove_unreferenced_vertices()
            name = item.id
            report.check(mesh.is_watertight, f"{path}: {name}: closed")
            report.check(mesh.is_winding_consistent, f"{path}: {name}: oriented")
            report.check(mesh.volume > 0.0, f"{path}: {name}: positive volume")
            report.near(mesh.volume, item.mesh_volume, item.area * SINGLE_STEP, f"{path}: {name}: volume")
            off = numpy.abs(mesh.bounds - [item.vertices.min(axis=0), item.vertices.max(axis=0)]).max()
            report.near(off, 0.0, SINGLE_STEP, f"{path}: {name}: bounds")
            if name in manifest["rises_to_the_right"]:
                report.check(rises(mesh.vertices), f"{path}: {name} rises to the right")
    report.finish()


main()
