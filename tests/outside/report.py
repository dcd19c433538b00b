"""Counts checks, prints those that fail, and ends with one line that `tests/run` adds up."""

import json
import sys
from pathlib import Path

import numpy

# A coordinate in 32 bits under 16,384 mm is off by half of 2^-10 mm at most, along each axis (IEEE 754).
SINGLE_STEP = 3**0.5 * 2.0**-11


class Report:
    def __init__(self, name):
        self.name = name
        self.passed = 0
        self.failed = 0

    def check(self, holds, message):
        if holds:
            self.passed += 1
        else:
            self.failed += 1
            print(f"{self.name}: FAILED: {message}")

    def near(self, found, expected, tolerance, message):
        holds = abs(found - expected) <= tolerance
        self.check(holds, f"{message}: found {found}, expected {expected} within {tolerance}")

    def finish(self):
        print(f"{self.name}: {self.passed} passed, {self.failed} failed")
        sys.exit(0 if self.failed == 0 and self.passed > 0 else 1)


class Item:
    """A part or clearance volume as the manifest knows it; millimetres in the world's frame."""

    def __init__(self, entry, shapes):
        self.id = entry["id"]
        self.group = entry["group"]
        self.is_part = entry["role"] == "part"
        self.volume = entry["volume"]
        self.shape = entry["shape"]
        self.attributes = entry["attributes"]
        shape = shapes[self.shape]
        self.is_round = shape["round"]
        origin, *axes = numpy.array(entry["frame"], dtype=float)
        self.vertices = origin + numpy.array(shape["vertices"], dtype=float) @ numpy.array(axes)
        self.triangles = numpy.array(shape["triangles"], dtype=int)
        corners = self.vertices[self.triangles]
        across = numpy.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
        self.area = float(numpy.linalg.norm(across, axis=1).sum() / 2)
        self.mesh_volume = float(
            numpy.einsum("ij,ij->i", corners[:, 0], numpy.cross(corners[:, 1], corners[:, 2])).sum()
            / 6
        )


def folders(arguments):
    """Each folder with its manifest and its items by id."""
    for argument in arguments:
        folder = Path(argument)
        manifest = json.loads((folder / "manifest.json").read_text(encoding="utf-8"))
        shapes = manifest["shapes"]
        items = {entry["id"]: Item(entry, shapes) for entry in manifest["items"]}
        yield folder, manifest, items


def rises(points):
    """Whether the highest of the rightmost points lies above the highest of the leftmost."""
    points = numpy.asarray(points)
    x, z = points[:, 0], points[:, 2]
    reach = (x.max() - x.min()) * 1e-3
    return z[x >= x.max() - reach].max() > z[x <= x.min() + reach].max()
