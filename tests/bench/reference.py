"""Times the job of `cargo bench --bench reach` in the reference kernel, and prints both and their ratios.

Run with the Python of tests/outside (`tests/run` installs it): tests/outside/.venv/bin/python tests/bench/reference.py
"""

import json
import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "tests" / "outside"))

from bodies import Placed  # noqa: E402
from OCP.BRepMesh import BRepMesh_IncrementalMesh  # noqa: E402
from OCP.BRepTools import BRepTools  # noqa: E402
from OCP.STEPControl import STEPControl_AsIs, STEPControl_Writer  # noqa: E402

RUNS = 5
CHORD_ERROR = 0.1


def median(job):
    times = []
    for _ in range(RUNS):
        start = time.perf_counter()
        job()
        times.append((time.perf_counter() - start) * 1000.0)
    return statistics.median(times)


def main():
    bench = ["cargo", "bench", "--quiet", "--locked", "--bench", "reach"]
    own = json.loads(subprocess.run(bench, cwd=ROOT, check=True, capture_output=True, text=True).stdout)
    parts = json.loads((ROOT / "target/tmp/reach/parts.json").read_text(encoding="utf-8"))

    def build():
        return [Placed(part).solid for part in parts]

    def step():
        writer = STEPControl_Writer()
        for solid in build():
            writer.Transfer(solid, STEPControl_AsIs)
        with tempfile.TemporaryDirectory() as folder:
            writer.Write(str(Path(folder) / "model.step"))

    solids = build()

    def mesh():
        for solid in solids:
            BRepTools.Clean_s(solid)
            BRepMesh_IncrementalMesh(solid, CHORD_ERROR, False, 0.5, False)

    print(f"load {os.getloadavg()[0]:.1f} on {os.cpu_count()} cores")
    for name, value in own.items():
        print(f"{name}: {value:.2f}")
    for name, job in (("build and step of 200", step), ("mesh of 200", mesh)):
        theirs = median(job)
        print(f"{name}: {own[name]:.2f} ms here, {theirs:.0f} ms in the kernel: {theirs / own[name]:.0f} times")


main()
