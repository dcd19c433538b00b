"""Reads model.stl of each folder with a mesh library: every shell closed, outward and as large as its part."""

import sys

import trimesh

from report import SINGLE_STEP, Report, folders, rises


def main():
    report = Report("stl")
    for folder, manifest, items in folders(sys.argv[1:]):
        path = folder / "model.stl"
        scene = trimesh.load_scene(path)
        parts = [item.id for item in items.values() if item.is_part]
        names = sorted(scene.geometry)
        report.check(names == sorted(parts), f"{path}: a shell for each part, found {names}")
        for name, mesh in scene.geometry.items():
            item = items.get(name)
            if item is None:
                continue
            mesh.merge_vertices()
            report.check(mesh.is_watertight, f"{path}: {name}: closed")
            report.check(mesh.is_winding_consistent, f"{path}: {name}: oriented")
            report.check(mesh.volume > 0.0, f"{path}: {name}: positive volume")
            report.near(mesh.volume, item.mesh_volume, item.area * SINGLE_STEP, f"{path}: {name}: volume")
            if name in manifest["rises_to_the_right"]:
                report.check(rises(mesh.vertices), f"{path}: {name} rises to the right")
    report.finish()


main()
