"""Every part against every other of each folder with a mesh library, pair by pair, against the manifest's overlaps.

Units: cubic millimetres. Round parts are meshes there, so their overlaps may differ by the chord error
times the smaller part's surface.
"""

import sys

import manifold3d
import numpy

from report import Report, folders

# Below this, in mm³, two parts touch: a square foot of face, overlapping by the one tolerance.
NOTHING = 0.1


def solid(item):
    mesh = manifold3d.Mesh64(
        vert_properties=numpy.ascontiguousarray(item.vertices),
        tri_verts=numpy.ascontiguousarray(item.triangles.astype(numpy.uint64)),
    )
    return manifold3d.Manifold(mesh)


def main():
    report = Report("overlaps")
    for folder, manifest, items in folders(sys.argv[1:]):
        parts = [item for item in items.values() if item.is_part]
        solids = [solid(item) for item in parts]
        for item, body in zip(parts, solids):
            report.near(body.volume() / item.mesh_volume, 1.0, 1e-9, f"{folder}: {item.id}: taken whole")
        expected = {frozenset((o["a"], o["b"])): o["volume"] for o in manifest["overlaps"]}
        boxes = [(item.vertices.min(axis=0), item.vertices.max(axis=0)) for item in parts]
        for i, a in enumerate(parts):
            for j in range(i + 1, len(parts)):
                b = parts[j]
                volume = expected.pop(frozenset((a.id, b.id)), 0.0)
                if a.group == "room" and b.group == "room":
                    continue
                apart = (boxes[i][1] < boxes[j][0]).any() or (boxes[j][1] < boxes[i][0]).any()
                found = 0.0 if apart else (solids[i] ^ solids[j]).volume()
                error = max(NOTHING, 1e-6 * volume)
                if a.is_round or b.is_round:
                    error += manifest["chord_error"] * min(a.area, b.area)
                report.near(found, volume, error, f"{folder}: {a.id} in {b.id}")
        report.check(not expected, f"{folder}: overlaps of unknown parts: {list(expected)}")
    report.finish()


main()
