"""Every part against every other of each folder with a mesh library, pair by pair, against the manifest's overlaps.

Units: cubic millimetres. Round parts are meshes there, so their overlaps may differ by the chord error
times the surface of what the two have in common.
"""

import sys

import manifold3d
import numpy

from report import Report, folders

# Below this, in mm³, two parts touch: a square foot of face, overlapping by the one tolerance.
NOTHING = 0.1
# mm2: the area over which a pipe may touch a stick
SLIVER_AREA = 100.0


def solid(item):
    mesh = manifold3d.Mesh64(
        vert_properties=numpy.ascontiguousarray(item.vertices),
        tri_verts=numpy.ascontiguousarray(item.triangles.astype(numpy.uint64)),
    )
    return manifold3d.Manifold(mesh)


def near_pairs(parts):
    """Pairs whose boxes touch, the room's own left out."""
    low = numpy.array([item.vertices.min(axis=0) for item in parts])
    high = numpy.array([item.vertices.max(axis=0) for item in parts])
    room = numpy.array([item.group == "room" for item in parts])
    for i in range(len(parts)):
        near = ((low[i] <= high) & (low <= high[i])).all(axis=1) & ~(room & room[i])
        yield from ((i, j) for j in numpy.flatnonzero(near) if j > i)


def check_folder(report, folder, manifest, items):
    parts = [item for item in items.values() if item.is_part]
    room = {item.id for item in parts if item.group == "room"}
    solids = [solid(item) for item in parts]
    for item, body in zip(parts, solids):
        report.near(body.volume() / item.mesh_volume, 1.0, 1e-9, f"{folder}: {item.id}: taken whole")
    expected = {
        frozenset((o["a"], o["b"])): o["volume"]
        for o in manifest["overlaps"]
        if not {o["a"], o["b"]} <= room
    }
    for i, j in near_pairs(parts):
        a, b = parts[i], parts[j]
        volume = expected.pop(frozenset((a.id, b.id)), 0.0)
        common = solids[i] ^ solids[j]
        error = NOTHING + 1e-6 * volume
        if a.is_round or b.is_round:
            error += manifest["chord_error"] * common.surface_area()
        report.near(common.volume(), volume, error, f"{folder}: {a.id} in {b.id}")
    # facets lie inside the true surface, so two of them may stay apart where round parts share a sliver
    # no deeper than the chord error
    round_ones = {item.id for item in parts if item.is_round}
    sliver = manifest["chord_error"] * SLIVER_AREA
    expected = {pair for pair, volume in expected.items() if not (pair & round_ones and volume <= sliver)}
    report.check(not expected, f"{folder}: overlaps of parts that are apart: {list(expected)}")


def main():
    report = Report("overlaps")
    for folder, manifest, items in folders(sys.argv[1:]):
        check_folder(report, folder, manifest, items)
    report.finish()


main()
