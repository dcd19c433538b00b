"""Reads drawings.pdf of each folder with a PDF library's tools (poppler) and holds it against drawings.json.

Page sizes, bookmarks, embedded fonts and text; and the strokes that end dimension lines, in the PDF's own
coordinates: each stop of each chain lies where the model, the scale and the view's origin say, to 0.1 mm.
"""

import json
import math
import re
import subprocess
import sys
import xml.etree.ElementTree as tree
from pathlib import Path

from report import Report

POINT = 25.4 / 72.0
TOLERANCE = 0.1


def run(*command):
    return subprocess.run(command, check=True, capture_output=True, text=True).stdout


def matrix(text):
    numbers = [float(it) for it in re.findall(r"-?[\d.]+(?:e-?\d+)?", text or "")]
    return numbers if len(numbers) == 6 else [1.0, 0.0, 0.0, 1.0, 0.0, 0.0]


def segments(path, page, size):
    """Every straight stroke of a page, in millimetres from its upper left corner; `size` is the page's, in points."""
    drawn = tree.fromstring(run("pdftocairo", "-svg", "-f", str(page), "-l", str(page), str(path), "-"))
    # the tool draws onto a page of whole points and then shrinks it to its size, what is drawn included
    stretch = [math.ceil(own) / own * POINT for own in size]
    for shape in drawn.iter("{http://www.w3.org/2000/svg}path"):
        stroke = re.search(r"stroke:([^;]+)", shape.get("style", ""))
        if (stroke.group(1) if stroke else shape.get("stroke", "none")) == "none":
            continue
        a, b, c, d, e, f = matrix(shape.get("transform"))
        last = None
        for letter, numbers in re.findall(r"([MLCZ])([^MLCZ]*)", shape.get("d", "")):
            values = [float(it) for it in numbers.split()]
            if letter == "Z" or len(values) < 2:
                continue
            x, y = values[-2:]
            point = ((a * x + c * y + e) * stretch[0], (b * x + d * y + f) * stretch[1])
            if letter == "L" and last is not None:
                yield last, point
            last = point


def check_page(report, path, number, sheet):
    where = f"{path}, page {number}, {sheet['title']}"
    size = run("pdfinfo", "-f", str(number), "-l", str(number), str(path))
    width, height = re.search(r"Page +\d+ size: +([\d.]+) x ([\d.]+) pts", size).groups()
    for found, expected in zip((width, height), sheet["size"]):
        report.near(float(found) * POINT, expected, TOLERANCE, f"{where}: size")
    text = run("pdftotext", "-f", str(number), "-l", str(number), "-raw", str(path), "-")
    flat = re.sub(r"\s+", "", text)
    for words in sheet["texts"]:
        report.check(re.sub(r"\s+", "", words) in flat, f"{where}: {words!r} can be searched")
    drawn = list(segments(path, number, (float(width), float(height))))
    slants = [
        ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        for a, b in drawn
        if abs(abs(a[0] - b[0]) - 2.2) < 0.01 and abs(abs(a[1] - b[1]) - 2.2) < 0.01
    ]
    for axis, place in sheet["stops"]:
        near = min((abs(slant[axis] - place) for slant in slants), default=1e9)
        report.near(near, 0.0, TOLERANCE, f"{where}: stroke at {place} along {'xy'[axis]}")
    for long in sheet["bars"]:
        level = [abs(a[0] - b[0]) for a, b in drawn if abs(a[1] - b[1]) < 1e-3]
        near = min((abs(it - long) for it in level), default=1e9)
        report.near(near, 0.0, TOLERANCE, f"{where}: bar of {long} mm")


def main():
    report = Report("drawings")
    for argument in sys.argv[1:]:
        folder = Path(argument)
        if not (folder / "drawings.json").exists():
            continue
        path = folder / "drawings.pdf"
        sheets = json.loads((folder / "drawings.json").read_text(encoding="utf-8"))
        pages = int(re.search(r"Pages: +(\d+)", run("pdfinfo", str(path))).group(1))
        report.check(pages == len(sheets), f"{path}: {len(sheets)} pages, found {pages}")
        fonts = run("pdffonts", str(path)).splitlines()[2:]
        report.check(len(fonts) > 0, f"{path}: has fonts")
        for font in fonts:
            embedded, subset, unicode = font.split()[-5:-2]
            report.check((embedded, subset, unicode) == ("yes", "yes", "yes"), f"{path}: {font}: embedded")
        outline = run("pdftohtml", "-xml", "-i", "-stdout", str(path)).count("<item")
        report.check(outline == len(sheets), f"{path}: {outline} bookmarks")
        for number, sheet in enumerate(sheets, 1):
            check_page(report, path, number, sheet)
    report.finish()


if __name__ == "__main__":
    main()
