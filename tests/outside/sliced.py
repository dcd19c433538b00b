"""Slices every plate of a kit at 0.2 mm with a slicer from the distribution's packages: no warning, no empty plate.

Usage: sliced.py BED_X BED_Y FOLDER ...; each folder is what `chasewright scale` wrote. The slicer is slic3r.
"""

import re
import subprocess
import sys
import tempfile
from pathlib import Path

from report import Report

LAYER = 0.2
# A second slicing of a large plate with many small islands takes minutes on a slow machine.
LIMIT = 1200


def sliced(path, bed, folder):
    """The slicer's words, and its tool paths."""
    x, y = bed
    out = Path(folder) / "plate.gcode"
    out.unlink(missing_ok=True)
    command = ["slic3r", "--layer-height", str(LAYER), "--first-layer-height", str(LAYER)]
    command += ["--nozzle-diameter", "0.4", "--skirts", "0", "--dont-arrange"]
    command += ["--bed-shape", f"0x0,{x}x0,{x}x{y},0x{y}", "--output", str(out), str(path)]
    ended = subprocess.run(command, capture_output=True, text=True, timeout=LIMIT, check=False)
    return ended, out.read_text(encoding="utf-8") if out.exists() else ""


def main():
    report = Report("sliced")
    bed = sys.argv[1:3]
    with tempfile.TemporaryDirectory() as scratch:
        for argument in sys.argv[3:]:
            plates = sorted(Path(argument).glob("kit-plate-*.stl"))
            report.check(plates, f"{argument}: plates")
            for path in plates:
                ended, paths = sliced(path, bed, scratch)
                said = ended.stdout + ended.stderr
                report.check(ended.returncode == 0, f"{path}: the slicer ends well: {said}")
                words = re.search(r"warning|error|repair|degenerate|self.?intersect", said, re.IGNORECASE)
                report.check(words is None, f"{path}: without a warning: {said}")
                layers = {float(z) for z in re.findall(r"^G1 Z([0-9.]+)", paths, re.MULTILINE)}
                report.check(len(layers) > 3, f"{path}: layers, found {sorted(layers)}")
    report.finish()


main()
