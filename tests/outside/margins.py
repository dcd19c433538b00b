"""Computes the margins of the worked designs a second time, from the parameter files alone.

Plain trade arithmetic on exact fractions of an inch, written without looking at the tool's own: every rule's
need and have, against the findings that the tool wrote. Usage: margins.py FOLDER_OF_BUILT_DEMOS FILE.toml ...
"""

import json
import math
import re
import sys
import tomllib
from fractions import Fraction
from pathlib import Path

from report import Report

DRESSED = {"2": "3/2", "4": "7/2", "6": "11/2", "8": "29/4"}  # DOC PS 20, dry
MARK = 1 / 32


def inches(text):
    """9' 4-1/2", 112 1/2 in, 3/4 in: feet, whole inches and a fraction."""
    if isinstance(text, (int, float)):
        return Fraction(text)
    if isinstance(text, dict):
        return inches(text["value"])
    feet, rest = re.fullmatch(r"\s*(?:(\d+)')?\s*(.*?)\s*(?:in|\")?\s*", text).groups()
    total = Fraction(feet or 0) * 12
    for word in re.split(r"[\s-]+", rest.strip()):
        total += Fraction(word) if word else 0
    return total


def slope(text):
    if isinstance(text, dict):
        return slope(text["value"])
    rise, run = text.split(":")
    return inches(rise) / inches(run)


# Steel members such as 362S125-33: hundredths of an inch of web and flange, cut off from eighths, and mils of steel,
# whose thickness for design is here (AISI S220-15, from memory).
MEMBER = re.compile(r"(\d+)S(\d+)-(\d+)")
SHEET = {"18": "0.0188", "27": "0.0283", "30": "0.0312", "33": "0.0346", "43": "0.0451", "54": "0.0566"}


def sheet(name):
    """Thickness of a member's steel; nothing for wood."""
    member = MEMBER.fullmatch(name)
    return Fraction(SHEET[member[3]]) if member else 0


def side(name, which):
    """Thickness or width of a stick; of steel the flange, or the depth of a wall in its tracks."""
    if member := MEMBER.fullmatch(name):
        size = Fraction(round(int(member[2 - which]) * 8 / 100), 8)
        return size + which * 2 * sheet(name)
    return Fraction(DRESSED[name.split("x")[which]])


def layer(text):
    if text.endswith("flat"):
        return side(text.split()[0], 0)
    if text.endswith("on edge"):
        return side(text.split()[0], 1)
    return inches(text.removesuffix("panel"))


def steepness(ceiling):
    """How much more height than its thickness a plate takes in the plane of the ceiling."""
    right = slope(ceiling.get("rise_right", "0:12"))
    out = slope(ceiling.get("rise_out", "0:12"))
    return math.sqrt(1 + float(right) ** 2 + float(out) ** 2)


def gable(p, right):
    """The ceiling so far from the left corner, under a ridge that runs out from the wall between two eaves."""
    ceiling, ridge = p["ceiling"], p["ridge"]
    at, far = inches(ridge["at"]), inches(ridge["far_height"])
    top = inches(ceiling["height"]) + at * slope(ceiling["rise_right"])
    if right <= at:
        return top - (at - right) * slope(ceiling["rise_right"])
    return top - (right - at) * (top - far) / (inches(p["room"]["width"]) - at)


class Chase:
    """The stack-ups of one parameter file; `out` from the wall, heights from the slab."""

    def __init__(self, p):
        self.p = p
        chase, skins, unit, vent = p["chase"], p["skins"], p["appliance"], p["vent"]
        front = p["front"]
        stud = chase.get("stud", "2x4")
        before = front.get("stud", stud)
        self.thick, self.deep = side(before, 0), side(stud, 1)
        self.plate = sheet(before) or self.thick
        self.width, self.depth = inches(chase["width"]), inches(chase["depth"])
        self.middle = inches(chase["left"]) + self.width / 2
        self.board = inches(skins.get("board", "1/2 in"))
        stepped = front["form"] == "stepped"
        ledge = side(front["ledge"], 1) if stepped else 0
        self.upper_stud = self.depth - ledge
        self.back = self.upper_stud - side(before, 1)
        upper = skins.get("upper_finish", 0) if stepped else skins["lower_finish"]
        self.upper_finished = self.upper_stud + self.board + inches(upper)
        self.platform = sum(layer(it) for it in p["platform"]["layers"])
        self.body_top = self.platform + inches(unit["body_height"])
        self.opening_top = self.platform + inches(unit["opening_top"])
        ease = inches(front.get("header_ease", 0))
        self.framing_top = self.body_top + inches(unit["top_clearance"]) + ease
        header = front.get("header", "2x4")
        # a header of steel is as high as its web, in a wall of steel with a track under and over it
        self.framing_top += side(header, 1) - 2 * sheet(header) + 2 * sheet(before)
        self.framing_top += side(front["ledge"], 0) if stepped else 0
        self.opening = inches(unit["body_width"]) + 2 * inches(unit["side_clearance"])
        self.opening += inches(front.get("opening_ease", 0))
        self.face = self.depth + inches(unit.get("face_offset", 0))
        self.radius = inches(vent["pipe_diameter"]) / 2
        self.pipe = self.face - inches(vent["collar_offset"])
        self.keep_out = self.pipe + self.radius + inches(vent["vertical_clearance"])
        # a vent by its path comes up by the first step; one through the roof passes every height
        path = vent.get("path")
        self.rise = inches(re.fullmatch("go (.*)", path[0])[1] if path else vent["rise"])
        self.by_roof = bool(path) and path[-1] == "through roof"
        elbow = self.body_top + self.rise
        self.run_top = elbow + self.pipe * slope(vent["slope"]) + self.radius + inches(vent["top_clearance"])
        self.elbow_top = elbow + self.radius + inches(vent["bend_clearance"])
        if self.by_roof:
            self.run_top = Fraction(10**6)

    def rows(self):
        """(rule, start of what it is about): (need, have)."""
        p, unit, vent, skins = self.p, self.p["appliance"], self.p["vent"], self.p["skins"]
        rows = {
            ("lip against skin", "finish"): (
                self.board + inches(skins["lower_finish"]),
                inches(unit["lip"]) + inches(unit.get("face_offset", 0)),
            ),
            ("unit in the chase", "gap behind"): (
                inches(unit["rear_clearance"]),
                self.face - inches(unit["body_depth"]),
            ),
            ("unit in the chase", "width"): (
                inches(unit["body_width"]) + 2 * inches(unit["side_clearance"]),
                self.width - 2 * self.deep,
            ),
            ("opening in the front", "left"): (0, (self.width - self.opening) / 2 - 3 * self.thick),
            ("pipe behind the front", "back"): (self.keep_out, self.back),
            ("pipe before the wall", "gap"): (inches(vent["vertical_clearance"]), self.pipe - self.radius),
            ("vent rise", "rise"): (inches(vent["least_rise"]), self.rise),
            ("pass in its bay", "clear bay"): (
                max(
                    2 * (self.radius + inches(vent["side_clearance"])),
                    inches(vent.get("firestop_width", 0)),
                )
                + 2 * inches(vent.get("pass_ease", 0)),
                inches(p["wall"].get("stud_spacing", "16 in")) - side(p["wall"].get("stud", "2x4"), 0),
            ),
        }
        if self.by_roof:
            del rows["pass in its bay", "clear bay"]
        ceiling = p["ceiling"]
        if "readings" in ceiling:
            pass  # `readings.py` lays that plane
        elif slope(ceiling.get("rise_right", "0:12")) == 0:
            rows["run under the ceiling", "ceiling"] = (self.run_top, inches(ceiling["height"]))
        elif "ridge" in p:
            half = self.radius + inches(vent["side_clearance"])
            sides = [gable(p, self.middle - half), gable(p, self.middle + half)]
            rows["run under the ceiling", "ceiling"] = (self.run_top, min(sides))
        if "mantel" in p:
            rows |= self.mantel_rows(p["mantel"])
        if "recess" in p:
            rows |= self.recess_rows(p["recess"])
        return rows

    def mantel_rows(self, mantel):
        projection, underside = inches(mantel["projection"]), inches(mantel["underside"])
        rule = mantel["rule"]
        if "steps" in rule:
            reach = min(inches(row[0]) for row in rule["steps"] if inches(row[0]) >= projection)
            height = next(inches(row[1]) for row in rule["steps"] if inches(row[0]) == reach)
        else:
            height = inches(rule["base"]) + inches(rule["factor"]) * projection
        return {
            ("mantel rule", "mantel"): (self.opening_top + height, underside),
            ("mantel on the framing", "mantel"): (self.framing_top, underside),
        }

    def recess_rows(self, recess):
        p = self.p
        width, height = inches(recess["width"]), inches(recess["height"])
        sill, depth = inches(recess["sill"]), inches(recess["depth"])
        rough = width + 2 * self.board
        plates = p["chase"].get("top_plates", 1) * float(self.plate) * steepness(p["ceiling"])
        stack = float(sill + height + self.board + self.plate) + plates
        stack += float(inches(p["ceiling"].get("gap", "1/4 in")))
        low_end = inches(p["ceiling"]["height"]) + self.back * slope(p["ceiling"].get("rise_out", "0:12"))
        header = rough / 2 + self.thick
        center = inches(p["chase"]["left"]) + self.width / 2
        aside = slope(p["ceiling"].get("rise_right", "0:12"))
        low_end += min((center - header) * aside, (center + header) * aside)
        if "ridge" in p:
            half = rough / 2 + self.thick
            low_end = min(gable(p, self.middle - half), gable(p, self.middle + half))
        rows = {
            # jacks and kings on both sides, between two end studs
            ("recess in the front", "wall between"): (rough + 4 * self.thick, self.width - 2 * self.thick),
            ("recess in the front", "left beside"): (0, (self.width - rough) / 2 - 3 * self.thick),
            ("recess under the ceiling", "ceiling"): (stack, low_end),
        }
        underside = sill - self.board - self.thick
        if max(self.run_top, self.elbow_top) <= underside:
            need = max(self.run_top, self.elbow_top)
            rows["recess and pipe", "recess's underside"] = (need, underside)
        else:
            framing = self.upper_finished - depth - self.board - self.thick
            rows["recess and pipe", "recess's framing"] = (self.keep_out, framing)
        if "mantel" in p:
            top = inches(p["mantel"]["underside"]) + inches(p["mantel"]["thickness"])
            rows["recess above the mantel", "recess"] = (top, sill)
        if "screen" in p:
            screen = p["screen"]
            air = 2 * inches(screen.get("air", "1 in"))
            rows["screen in the recess", "recess's width"] = (inches(screen["width"]) + air, width)
            rows["screen in the recess", "recess's height"] = (inches(screen["height"]) + air, height)
        return rows


def main():
    report = Report("margins")
    built = Path(sys.argv[1])
    for argument in sys.argv[2:]:
        file = Path(argument)
        parameters = tomllib.loads(file.read_text(encoding="utf-8"))
        if parameters["project"].get("unit", "inch") != "inch":
            continue
        findings = json.loads((built / file.stem / "findings.json").read_text(encoding="utf-8"))["findings"]
        if parameters["chase"].get("placement", "projecting") != "projecting":
            # the stack-ups here are those before a wall; tests/it/placements.rs has these by hand
            print(f"margins: {file.name}: not computed here")
            continue
        for (rule, about), (need, have) in Chase(parameters).rows().items():
            where = f"{file.name}: {rule}, {about}"
            found = [it for it in findings if it["rule"] == rule and it["about"].startswith(about)]
            report.check(len(found) == 1, f"{where}: one finding, found {len(found)}")
            for name, value, expected in (
                ("need", "required", need),
                ("have", "measured", have),
                ("margin", "margin", have - need),
            ):
                for it in found:
                    report.near(it[value] / 25.4, float(expected), MARK, f"{where}: {name}")
    report.finish()


main()
