"""Reads model.glb and section.glb of each folder with a mesh library.

Every node's mesh is closed, placed and as large as its part; in the section every mesh is what the library's own
cut leaves of the part.
"""

import sys

import manifold3d
import numpy
import trimesh

from report import SINGLE_STEP, Report, folders, rises


def world_meshes(scene):
    """Each node's triangles in the world's frame and millimetres, by the node's name."""
    meshes = {}
    for node in scene.graph.nodes_geometry:
        transform, geometry = scene.graph[node]
        body = scene.geometry[geometry]
        if isinstance(body, trimesh.Trimesh):
            name = scene.graph.transforms.parents[node]
            mesh = trimesh.Trimesh(body.vertices, body.faces, process=False)
            mesh.apply_transform(transform)
            x, y, z = mesh.vertices.T * 1000.0
            mesh.vertices = numpy.column_stack([x, -z, y])
            mesh.merge_vertices()
            meshes[name] = mesh
    return meshes


def path_to(scene, node):
    steps = []
    while node in scene.graph.transforms.parents:
        node = scene.graph.transforms.parents[node]
        steps.insert(0, node)
    return steps


def check_section(report, folder, manifest, items):
    """Every part right of the cut, closed at the cut and with the volume that the solid modeler's cut leaves."""
    path = folder / "section.glb"
    meshes = world_meshes(trimesh.load_scene(path))
    axis = manifest["section"]
    for name, item in items.items():
        low, high = item.vertices[:, 0].min(), item.vertices[:, 0].max()
        mesh = meshes.pop(name, None)
        if mesh is None:
            report.check(high <= axis + 1e-3, f"{path}: {name} is there")
            continue
        report.check(mesh.is_watertight, f"{path}: {name}: closed")
        report.check(mesh.bounds[0][0] >= axis - 1e-2, f"{path}: {name}: right of the cut")
        expected = item.mesh_volume
        if low < axis:
            whole = solid(item.vertices, item.triangles)
            expected = whole.trim_by_plane((1.0, 0.0, 0.0), axis).volume()
        report.near(mesh.volume, expected, item.area * SINGLE_STEP + 1e-6, f"{path}: {name}: volume")
    rest = [name for name in meshes if not name.startswith("overlap/")]
    report.check(not rest, f"{path}: nothing else, found {rest}")


def solid(vertices, triangles):
    return manifold3d.Manifold(
        manifold3d.Mesh64(
            vert_properties=numpy.ascontiguousarray(vertices),
            tri_verts=numpy.ascontiguousarray(triangles.astype(numpy.uint64)),
        )
    )


def round_area(ends, chord_error):
    """Surface of what two parts have in common, as large as it can be.

    The corners of a round part's mesh lie on its surface and its facets as much inside as the chord error. So the
    volumes of the two differ by no more than that times the surface that lies in the other part, and this surface
    lies in what the meshes have in common when each round one's corners are moved out twice as far: a sliver may
    be in no facet at all.
    """
    solids = []
    for item in ends:
        vertices = item.vertices
        if item.is_round:
            mesh = trimesh.Trimesh(vertices, item.triangles, process=False)
            vertices = vertices + mesh.vertex_normals * 2 * chord_error
        solids.append(solid(vertices, item.triangles))
    return (solids[0] ^ solids[1]).surface_area()


def main():
    report = Report("glb")
    for folder, manifest, items in folders(sys.argv[1:]):
        check_section(report, folder, manifest, items)
        path = folder / "model.glb"
        scene = trimesh.load_scene(path)
        meshes = world_meshes(scene)
        bodies = {name: meshes.pop(name) for name in list(meshes) if name.startswith("overlap/")}
        stands = ("room", "fixed")
        built = [o for o in manifest["overlaps"] if not all(items[o[end]].group in stands for end in "ab")]
        report.check(len(bodies) == len(built), f"{path}: a body for each overlap, found {sorted(bodies)}")
        # Shells of one body share faces, so it is judged by its volume; the tool's own volume is exact. A sliver's
        # corners are rounded to single precision as any others.
        in_order = sorted(bodies, key=lambda name: int(name.split("/")[1]))
        for name, pair in zip(in_order, built):
            body, volume = bodies[name], pair["volume"]
            ends = [items[pair[end]] for end in "ab"]
            error = volume * 2e-3 + body.area * SINGLE_STEP
            if any(item.is_round for item in ends):
                error += manifest["chord_error"] * round_area(ends, manifest["chord_error"])
            report.near(body.volume, volume, error, f"{path}: {name}, {pair['a']} in {pair['b']}")
        report.check(sorted(meshes) == sorted(items), f"{path}: a node for each part, found {sorted(meshes)}")
        for name, mesh in meshes.items():
            item = items.get(name)
            if item is None:
                continue
            groups = path_to(scene, name)
            report.check(item.group in groups, f"{path}: {name}: under its group, found {groups}")
            report.check(mesh.is_watertight, f"{path}: {name}: closed")
            report.check(mesh.is_winding_consistent, f"{path}: {name}: oriented")
            error = item.area * SINGLE_STEP
            report.near(mesh.volume, item.mesh_volume, error, f"{path}: {name}: volume of its mesh")
            if item.is_round:
                error += item.area * manifest["chord_error"]
            report.near(mesh.volume, item.volume, error, f"{path}: {name}: exact volume")
            low = numpy.abs(mesh.bounds[0] - item.vertices.min(axis=0)).max()
            high = numpy.abs(mesh.bounds[1] - item.vertices.max(axis=0)).max()
            report.near(max(low, high), 0.0, 1e-2, f"{path}: {name}: bounds")
            if name in manifest["rises_to_the_right"]:
                report.check(rises(mesh.vertices), f"{path}: {name} rises to the right")
    report.finish()


main()
