"""Computes the margins of the worked designs a second time, from the parameter files alone.

Plain trade arithmetic on exact fractions of an inch and plane geometry, written without looking at the tool's own:
every rule's need and have, against the findings that the tool wrote.
Usage: margins.py FOLDER_OF_BUILT_DEMOS FILE.toml ...
"""

import json
import math
import re
import sys
import tomllib
from fractions import Fraction
from pathlib import Path

import numpy
from scipy.integrate import solve_bvp

from report import Report

DRESSED = {"2": "3/2", "4": "7/2", "6": "11/2", "8": "29/4"}  # DOC PS 20, dry
CLOSE = 1e-6  # inches; both sides are exact, not rounded to a mark
MM = Fraction(10, 254)
HALF = math.sqrt(0.5)  # sine and cosine of 45 degrees
COUNTS = ("top_plates", "factor", "wall_plates")  # bare numbers that are no lengths


def told(value, metric, key=""):
    """A parameter file's values; in a metric file the bare lengths say their unit."""
    if isinstance(value, dict):
        return {name: told(it, metric, name if name != "value" else key) for name, it in value.items()}
    if isinstance(value, list):
        return [told(it, metric, key) for it in value]
    if not metric:
        return value
    if key == "path":
        return re.sub(r"^go ([\d.]+)$", r"go \1 mm", value)
    bare = isinstance(value, (int, float)) and not isinstance(value, bool)
    return f"{value} mm" if bare and key not in COUNTS else value


def inches(text):
    """9' 4-1/2", 112 1/2 in, 3/4 in: feet, whole inches and a fraction; or 620 mm."""
    if isinstance(text, (int, float, Fraction)):
        return Fraction(text)
    if isinstance(text, dict):
        return inches(text["value"])
    if text.endswith("mm"):
        return Fraction(text.removesuffix("mm").strip()) * MM
    if text.endswith("ft"):
        return inches(text.removesuffix("ft")) * 12
    feet, rest = re.fullmatch(r"\s*(?:(\d+)')?\s*(.*?)\s*(?:in|\")?\s*", text).groups()
    total = Fraction(feet or 0) * 12
    for word in re.split(r"[\s-]+", rest.strip()):
        total += Fraction(word) if word else 0
    return total


def slope(text):
    """Rise over run: 3-1/2:12, 12 deg or 2 %."""
    if isinstance(text, dict):
        return slope(text["value"])
    if text == 0:
        return Fraction(0)
    if text.endswith("deg"):
        return math.tan(math.radians(float(text.removesuffix("deg"))))
    if text.endswith("%"):
        return Fraction(text.removesuffix("%").strip()) / 100
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
    size = name.removesuffix("mm").strip().split("x")[which]
    return Fraction(size) * MM if name.endswith("mm") else Fraction(DRESSED[size])


def layer(text):
    if text.endswith("flat"):
        return side(text.removesuffix("flat").strip(), 0)
    if text.endswith("on edge"):
        return side(text.removesuffix("on edge").strip(), 1)
    return inches(text.removesuffix("panel").strip())


def line(rows):
    """The straight line of least squares through rows of (along, across): where it begins and how it leans."""
    along, across = numpy.array([[float(inches(it)) for it in row] for row in rows]).T
    lean, begin = numpy.polyfit(along, across, 1)
    return begin, lean


class Ceiling:
    """How high the ceiling is over a place of the room; right and out from the left corner of the fireplace wall."""

    def __init__(self, p):
        ceiling = p["ceiling"]
        self.gap = inches(ceiling.get("gap", "1/4 in"))
        self.ridge = None
        if "readings" in ceiling:
            rows = [{key: inches(value) for key, value in row.items()} for row in ceiling["readings"]]
            floor = [inches(down) for _, _, down in p["room"].get("floor", [])]
            # heights count from the floor's highest place, where the level line is nearest to it
            level = min([row["down"] for row in rows if "down" in row] + floor, default=0)
            read = [(1, row["right"], row["out"], row.get("height", row.get("up", 0) + level)) for row in rows]
            read = numpy.array(read, dtype=float)
            (self.low, self.right, self.out), *_ = numpy.linalg.lstsq(read[:, :3], read[:, 3], rcond=None)
            return
        self.low = inches(ceiling["height"])
        self.right = slope(ceiling.get("rise_right", "0:12"))
        self.out = slope(ceiling.get("rise_out", "0:12"))
        if "ridge" in p:
            # it runs out from the wall, between two eaves
            at, far = inches(p["ridge"]["at"]), inches(p["ridge"]["far_height"])
            top = self.low + at * self.right
            self.ridge = (at, top, (top - far) / (inches(p["room"]["width"]) - at))

    def over(self, right, out):
        if self.ridge and right > self.ridge[0]:
            at, top, fall = self.ridge
            return top - (right - at) * fall
        return self.low + right * self.right + out * self.out

    def steepness(self):
        """How much more height than its thickness a plate takes in the plane of the ceiling."""
        return math.sqrt(1 + float(self.right) ** 2 + float(self.out) ** 2)


class Vent:
    """Where the center line goes: level way and rise of what follows the first straight, and its end."""

    def __init__(self, vent):
        self.steps = list(vent.get("path", [f"go {vent.get('rise')}", "turn 90 deg toward back", "through back wall"]))
        self.end = self.steps.pop().removeprefix("through ")
        self.up = inches(self.steps.pop(0).removeprefix("go ")) if self.steps else None
        self.aside = 0  # degrees to the right of straight back
        self.offset = None
        if self.steps and (it := re.fullmatch(r"turn 90 deg toward (?:(\d+) deg (right|left) of )?back", self.steps[0])):
            self.aside = int(it[1] or 0) * (-1 if it[2] == "left" else 1)
        elif self.steps:
            # an offset aside: two elbows of 45 degrees, so it rises as much as it goes to the left
            self.offset = inches(re.fullmatch("offset (.*) toward left with 45 deg", self.steps[0])[1])


class Chase:
    """The stack-ups of one parameter file; `out` from the chase's back or from the corner, heights from the slab."""

    def __init__(self, p):
        self.p = p
        chase, skins, unit, vent = p["chase"], p["skins"], p["appliance"], p["vent"]
        front = p["front"]
        self.placement = chase.get("placement", "projecting")
        self.corner = self.placement.endswith("corner")
        self.flush = self.placement == "flush"
        stud = chase.get("stud", "2x4")
        # a flush chase's front stands in the room's wall, with its sheathing behind the studs
        before = p["wall"].get("stud", "2x4") if self.flush else front.get("stud", stud)
        self.thick, self.deep = side(before, 0), side(stud, 1)
        self.plate = sheet(before) or self.thick
        self.width, self.depth = inches(chase["width"]), inches(chase["depth"])
        self.middle = inches(chase.get("left", 0)) + self.width / 2
        self.board = inches(skins.get("board", "1/2 in"))
        stepped = front["form"] == "stepped"
        ledge = side(front["ledge"], 1) if stepped else 0
        self.upper_stud = self.depth - ledge
        self.back = self.upper_stud - side(before, 1)
        self.back -= inches(p["wall"].get("sheathing", "1/2 in")) if self.flush else 0
        upper = skins.get("upper_finish", 0) if stepped else skins["lower_finish"]
        self.upper_finished = self.upper_stud + self.board + inches(upper)
        self.finished = self.depth + self.board + inches(skins["lower_finish"])
        self.platform = sum(layer(it) for it in p["platform"]["layers"])
        self.body_top = self.platform + inches(unit["body_height"])
        self.opening_top = self.platform + inches(unit["opening_top"])
        ease = inches(front.get("header_ease", 0))
        self.framing_top = self.body_top + inches(unit["top_clearance"]) + ease
        header = front.get("header", "2x4")
        # a header of steel is as high as its web, in a wall of steel with a track under and over it
        self.framing_top += side(header, 1) - 2 * sheet(header) + 2 * sheet(before)
        self.framing_top += side(front["ledge"], 0) if stepped else 0
        self.follow()
        self.needed = inches(unit["body_width"]) + 2 * inches(unit["side_clearance"])
        self.opening = self.needed + inches(front.get("opening_ease", 0))
        offset = inches(unit.get("face_offset", 0))
        self.face = self.depth + offset
        self.radius = inches(vent["pipe_diameter"]) / 2
        self.pipe = self.face - inches(vent["collar_offset"])
        self.clear = self.radius + inches(vent["vertical_clearance"])
        self.keep_out = self.pipe + self.clear
        # a divider has a framed back, a flush chase's back is lined, and the inside counts from there
        self.inside = self.deep if self.placement == "divider" else 0
        outdoors = self.flush and p["behind"]["space"] == "outdoors"
        self.lining = inches(p["behind"].get("lining", "1/2 in")) if outdoors else 0
        self.vent = Vent(vent)
        self.ceiling = Ceiling(p)
        # a flat ceiling of its own behind the wall that a flush chase is set into
        own = p["behind"].get("ceiling") if self.flush else None
        self.ceiling_behind = None if own is None else inches(own)
        # the outside wall that an enclosure indoors reaches
        self.far_wall = p.get("far_wall")

    def follow(self):
        """Heights that are written from another thing, as numbers; the mantel comes before what follows it."""
        mantel = self.p.get("mantel")
        for table, key in (("mantel", "underside"), ("skins", "noncombustible_to"), ("recess", "sill")):
            text = self.p.get(table, {}).get(key)
            words = re.fullmatch(r"(?:on|(.*) (above|below)) the (ledge|mantel)", text) if isinstance(text, str) else None
            if words:
                thing = self.framing_top
                if words[3] == "mantel":
                    thing = inches(mantel["underside"]) + inches(mantel["thickness"])
                by = inches(words[1]) if words[1] else 0
                self.p[table][key] = thing - by if words[2] == "below" else thing + by

    def over(self, right, out):
        """The ceiling over a place so far right of the chase's middle and so far out from its back."""
        if self.ceiling_behind is not None and out <= self.back:
            return self.ceiling_behind
        return self.ceiling.over(*self.room_place(right, out))

    def ends(self, out):
        """Half of the chase's framing so far out: the walls of a corner stand at 45 degrees to its face."""
        if self.corner and self.width == self.depth * 2:
            return out  # from wall to wall
        return min(self.width / 2, out) if self.corner else self.width / 2

    def behind(self, half):
        """How far out the wall behind comes, over so much to either side of the middle."""
        return half if self.corner else self.inside

    def between(self, out_at_back):
        """Half of the room between the end studs; in a corner the stud lies flat on the room's wall."""
        own = self.width / 2 - self.thick
        return min(own, float(out_at_back) - float(self.thick) / HALF) if self.corner else own

    def room_place(self, right, out):
        """A place so far right of the chase's middle and so far out, in the room: right and out."""
        if self.corner:
            along, away = (out + right) * HALF, (out - right) * HALF
            width = float(inches(self.p["room"]["width"]))
            return (along, away) if self.placement == "left_corner" else (width - away, along)
        if self.placement == "divider":
            out += inches(self.p["chase"]["way_behind"])
        if self.flush:
            out -= self.depth + inches(self.p["wall"].get("board", "1/2 in"))
        return self.middle + right, out

    def crossing(self):
        """The angle, from square, at which the run meets the wall."""
        return math.radians(abs(abs(self.vent.aside) - (45 if self.corner else 0)))

    def way_to_wall(self):
        """From the riser's middle, level, along the run to the wall's finished face."""
        way = self.pipe - self.inside
        return float(way) * (HALF if self.corner else 1) / math.cos(self.crossing())

    def run(self):
        """The top corners of the run's clearance: (height, ceiling) where the least is left under the ceiling.

        Right, out and up. The elbow before it turns from plumb to the run's own rise and takes so much of both its legs
        as its radius times the tangent of half the turn; the wall cuts the volume along its finished face.
        """
        vent, offset = self.p["vent"], self.vent.offset
        top, beside = inches(vent["top_clearance"]), inches(vent["side_clearance"])
        if offset is not None:
            # neither plumb nor a run, it keeps the larger of both numbers
            top, beside = (max(it, inches(vent["vertical_clearance"])) for it in (top, beside))
            along = numpy.array([-HALF, 0, HALF])
        else:
            aside = math.radians(self.vent.aside)
            along = numpy.array([math.sin(aside), -math.cos(aside), float(slope(vent["slope"]))])
            along /= numpy.linalg.norm(along)
        meets = numpy.array([0, float(self.pipe), float(self.body_top + self.vent.up)])
        leg = float(inches(vent["bend_radius"])) * math.tan(math.acos(along[2]) / 2)
        above = numpy.array([0, 0, 1]) - along * along[2]
        above *= float(self.radius + top) / numpy.linalg.norm(above)
        across = numpy.array([along[1], -along[0], 0])
        across *= float(self.radius + beside) / numpy.linalg.norm(across)
        corners = []
        for edge in (above - across, above + across):
            begin = meets + along * leg + edge
            if offset is not None:
                length = float(offset) / HALF - 2 * leg
            else:
                # into the wall, level
                inward = numpy.array([math.copysign(HALF, self.vent.aside), -HALF, 0] if self.corner else [0, -1, 0])
                level = math.hypot(along[0], along[1])
                at_wall = meets + along * self.way_to_wall() / level
                length = inward @ (at_wall - begin) / (inward @ along)
            corners += [begin, begin + along * length]
        rows = [(up, self.over(right, out)) for right, out, up in (it.tolist() for it in corners)]
        return min(rows, key=lambda row: row[1] - row[0])

    def wall_thickness(self):
        if self.flush and not self.far_wall:
            # an own back: lining, studs, cover
            return self.lining + self.deep + inches(self.p["behind"]["cover"])
        wall = self.far_wall or self.p["wall"]
        layers = inches(wall.get("board", "1/2 in")) + inches(wall.get("sheathing", "1/2 in"))
        return layers + side(wall.get("stud", "2x4"), 1)

    def hole(self):
        """Width of the hole through the wall, where the pipe crosses it at its angle."""
        vent, aside = self.p["vent"], self.crossing()
        pipe = 2 * (self.radius + inches(vent["side_clearance"])) / math.cos(aside)
        pipe += math.tan(aside) * float(self.wall_thickness())
        return max(pipe, inches(vent.get("firestop_width", 0))) + 2 * inches(vent.get("pass_ease", 0))

    def bay(self):
        wall, chase = self.p["wall"], self.p["chase"]
        own = self.far_wall or (chase if self.flush else wall)
        return inches(own.get("stud_spacing", "16 in")) - side(own.get("stud", "2x4"), 0)

    def rows(self):
        """(rule, start of what it is about): (need, have)."""
        p, unit, vent, skins = self.p, self.p["appliance"], self.p["vent"], self.p["skins"]
        body_back = self.face - inches(unit["body_depth"])
        body_behind = self.behind(self.needed / 2)
        rear = inches(unit["rear_clearance"])
        inside = self.width - 2 * (self.deep + self.lining)
        inside = min(inside, 2 * body_back) if self.corner else inside
        opening = self.between(self.back) - self.opening / 2 - 2 * self.thick
        rise = self.vent.up
        if rise is None:
            # straight up, to the cap: so far over the roof, which is level here
            roof = p["roof"]
            rise = self.ceiling.low + inches(roof["thickness"]) + inches(roof["cap_above"]) - self.body_top
        to_wall = (self.pipe - self.inside) * (Fraction(HALF) if self.corner else 1)
        rows = {
            ("lip against skin", "finish"): (
                self.board + inches(skins["lower_finish"]),
                inches(unit["lip"]) + inches(unit.get("face_offset", 0)),
            ),
            ("unit in the chase", "gap behind"): (rear, body_back - body_behind),
            ("unit in the chase", "width"): (self.needed, inside),
            ("opening in the front", "left"): (0, opening),
            ("pipe behind the front", "back"): (self.keep_out, self.back),
            ("pipe before the wall", "gap"): (inches(vent["vertical_clearance"]), to_wall - self.radius),
            ("vent rise", "rise"): (inches(vent["least_rise"]), rise),
            ("walkway", "clear walkway"): self.walkway(),
            ("unit through the opening", "opening's width"): (inches(unit["body_width"]), self.opening),
            ("unit through the opening", "opening's height"): (
                inches(unit["body_height"]) + inches(unit.get("standoff", 0)),
                inches(unit["body_height"]) + inches(unit["top_clearance"]) + inches(p["front"].get("header_ease", 0)),
            ),
            # IRC R302.11: hollows of 10 ft
            ("fireblocking", "longest horizontal run of hollow"): (self.hollow(), 120),
        }
        if self.vent.end == "back wall":
            rows["pass in its bay", "clear bay"] = (self.hole(), self.bay())
        if self.vent.steps:
            rows["run under the ceiling", "ceiling"] = self.run()
        if "longest_run" in vent:
            way = self.way_to_wall() + float(self.wall_thickness()) if self.vent.end == "back wall" else 0
            rows["vent limits", "run from"] = (way + self.leaning(), inches(vent["longest_run"]))
        need, half = inches(unit["side_wall"]), inches(unit["opening_width"]) / 2
        for side, way in zip(("left", "right"), self.beside()):
            rows["near side wall", f"the room's wall to the {side}"] = (need, way - half)
        if self.corner and self.width == self.depth * 2:
            # each wall's board at 45 degrees to the plumb edge where the clearances behind and beside the body meet
            edge = float(body_back - rear - self.needed / 2) * HALF
            rows["clearance", "room/side wall/1 to unit back"] = (rear, float(rear) + edge)
        if "gas" in p and not self.corner:
            rows["gas stub", "end of the gas stub"] = (0, self.within(p["gas"]["stub_right"], p["gas"]["stub_out"]))
        if "mantel" in p:
            rows |= self.mantel_rows(p["mantel"])
        if "recess" in p:
            rows |= self.recess_rows(p["recess"])
        return rows | self.crooked_rows()

    def within(self, right, out):
        """How far a place so far from the room's left corner and so far out lies within the finished faces."""
        skins = [0 if it else self.board + inches(self.p["skins"].get("side_finish", 0)) for it in self.at_walls()]
        left, right_side = self.middle - self.width / 2 - skins[0], self.middle + self.width / 2 + skins[1]
        return min(inches(right) - left, right_side - inches(right), self.finished - inches(out))

    def hollow(self):
        """How wide the chase is inside; from wall to wall of a corner behind its front."""
        if self.corner and self.width == self.depth * 2:
            return 2 * self.back
        return self.width - 2 * (self.deep + self.lining)

    def at_walls(self):
        """Whether a wall of the room stands at the left and at the right end of the front."""
        if self.flush:
            return [False, False]
        if self.corner:
            return [self.width == self.depth * 2] * 2
        ends = self.middle - self.width / 2, inches(self.p["room"]["width"]) - self.middle - self.width / 2
        return [it == 0 for it in ends]

    def beside(self):
        """From the unit's center to the room's walls at its left and its right, at the finished face."""
        if self.corner:
            return [self.finished] * 2
        center = inches(self.p["appliance"].get("center", self.middle))
        return [center, inches(self.p["room"]["width"]) - center]

    def walkway(self):
        """From the mantel's front, or the finished face, square to the walls of the room that it looks at."""
        p = self.p
        room = inches(p["room"]["width"]), inches(p["room"]["depth"])
        front = self.finished + inches(p.get("mantel", {}).get("projection", 0))
        ends = front
        if self.corner and not any(self.at_walls()):
            # wings are boarded and finished, and the mantel ends with them
            ends = self.width / 2 + self.board + inches(p["skins"].get("side_finish", 0))
        needed = inches(p["room"].get("walkway", "36 in" if p["project"].get("unit", "inch") == "inch" else "900 mm"))
        if self.corner:
            return needed, min(room) - float(front + ends) * HALF
        return needed, room[1] - self.room_place(0, front)[1]

    def mantel_rows(self, mantel):
        projection, underside = inches(mantel["projection"]), inches(mantel["underside"])
        rule = mantel["rule"]
        if "steps" in rule:
            reach = min(inches(row[0]) for row in rule["steps"] if inches(row[0]) >= projection)
            height = next(inches(row[1]) for row in rule["steps"] if inches(row[0]) == reach)
        else:
            height = inches(rule["base"]) + inches(rule["factor"]) * projection
        rows = {
            ("mantel rule", "mantel"): (self.opening_top + height, underside),
            ("mantel on the framing", "mantel"): (self.framing_top, underside),
        }
        if mantel.get("extent") == "room" and not self.corner:
            width = inches(self.p["room"]["width"])
            long = width - inches(mantel.get("end_ease", 0))
            # let in between the walls with one end low: its diagonal, with the less of thickness and depth
            slant = math.hypot(long, min(inches(mantel["thickness"]), self.mantel_depth(projection)))
            rows["mantel way in", "mantel's diagonal"] = (slant, width)
            rows["mantel way in", "mantel's length"] = (long, inches(self.p["room"]["way_in"]))  # at most
        return rows

    def mantel_depth(self, projection):
        return self.finished + projection - self.upper_stud

    def recess_rows(self, recess):
        p = self.p
        width, height = inches(recess["width"]), inches(recess["height"])
        sill, depth = inches(recess["sill"]), inches(recess["depth"])
        rough = width + 2 * self.board
        plates = p["chase"].get("top_plates", 1) * float(self.plate) * self.ceiling.steepness()
        on_edge = recess.get("header_form") == "on_edge"
        stock = recess.get("header", p["front"].get("header", "2x4"))
        over = side(stock, 1) if on_edge else self.plate
        stack = float(sill + height + self.board + over + self.ceiling.gap) + plates
        header = rough / 2 + self.thick
        places = [self.room_place(right, self.back) for right in (-header, header)]
        between = self.between(self.back)
        rows = {
            # jacks and kings on both sides, between two end studs
            ("recess in the front", "wall between"): (rough + 4 * self.thick, 2 * between),
            ("recess in the front", "left beside"): (0, between - rough / 2 - 2 * self.thick),
            ("recess under the ceiling", "ceiling"): (stack, min(self.ceiling.over(*it) for it in places)),
        }
        if not on_edge:
            # IRC R602.7.4: an opening of 8 ft under a flat stick
            rows["recess header", "opening under"] = (rough, 96)
        underside = sill - self.board - self.thick
        top = self.vent_top()
        if top <= underside:
            rows["recess and pipe", "recess's underside"] = (top, underside)
        else:
            framing = self.upper_finished - depth - self.board - self.thick
            rows["recess and pipe", "recess framing"] = (self.keep_out, framing)
        if "mantel" in p:
            top = inches(p["mantel"]["underside"]) + inches(p["mantel"]["thickness"])
            rows["recess above the mantel", "recess"] = (top, sill)
        if "screen" in p:
            screen = p["screen"]
            air = 2 * inches(screen.get("air", "1 in" if p["project"].get("unit", "inch") == "inch" else "25 mm"))
            rows["screen in the recess", "recess's width"] = (inches(screen["width"]) + air, width)
            rows["screen in the recess", "recess's height"] = (inches(screen["height"]) + air, height)
            mount = inches(screen["thickness"]) + inches(screen["mount"])
            rows["screen in the recess", "recess's depth"] = (mount, depth)
        return rows

    def vent_top(self):
        """The highest that the vent's clearances reach before the wall; one through the roof passes every height."""
        if self.vent.end == "roof":
            return math.inf
        vent = self.p["vent"]
        elbow = self.body_top + self.vent.up
        rise = self.way_to_wall() * float(slope(vent["slope"]))
        run = elbow + rise + self.radius + inches(vent["top_clearance"])
        return max(run, elbow + self.radius + inches(vent["bend_clearance"]))

    def leaning(self):
        """How much farther the pipe goes where a wall leans away from its place farthest into the room, at the slab.

        Its center line, z up where it would leave an upright wall, goes on t to where the wall is: with a rise of s
        and a lean of l, t = l (z + s t)."""
        if not self.p["wall"].get("plumb"):
            return 0
        _, lean = line(self.p["wall"]["plumb"])
        rise = float(slope(self.p["vent"]["slope"]))
        height = float(self.body_top + self.vent.up) + rise * (self.way_to_wall() + float(self.wall_thickness()))
        return lean * height / (1 - lean * rise)

    def crooked_rows(self):
        """What was read of a room that is not straight, against what a builder may be off."""
        p, rows = self.p, {}
        room, allowance = p["room"], inches(p["project"].get("build_allowance", "1/4 in"))
        if p["wall"].get("plumb"):
            read = p["wall"]["plumb"]
            begin, lean = line(read)
            # this wall leans away from the room, so it comes farthest in at the slab
            most = max(float(inches(across)) for _, across in read) - begin
            off = max(abs(float(inches(z)) * lean + begin - float(inches(across))) for z, across in read)
            rows["wall plumb", "gap at the back wall"] = (most, allowance)
            rows["wall plumb", "plumb reading"] = (off, Fraction(1, 4))
        if inches(room.get("left_corner", 60)) not in (60, 1500 * MM):
            # the law of cosines in the triangle of 3 ft on one wall and 4 ft on the other
            cosine = (36**2 + 48**2 - float(inches(room["left_corner"])) ** 2) / (2 * 36 * 48)
            gap = float(self.finished) * math.tan(math.asin(-cosine))
            rows["corner square", "gap at the left wall"] = (gap, allowance)
        if room.get("floor"):
            read = [(inches(right), inches(out), inches(down)) for right, out, down in room["floor"]]
            ceiling = [row for row in p["ceiling"].get("readings", []) if "down" in row]
            read += [(inches(row["right"]), inches(row["out"]), inches(row["down"])) for row in ceiling]
            left = self.middle - self.width / 2
            under = [it for it in read if left <= it[0] <= left + self.width and it[1] <= self.depth]
            fall = max(it[2] for it in under) - min(it[2] for it in read)
            rows["floor readings", "floor"] = (fall, allowance)
        return rows


def middle_of_a_beam():
    """Deflection and moment in the middle of a simple beam of length, stiffness and load 1, by solving its equation."""
    at = numpy.linspace(0, 1, 41)
    solved = solve_bvp(
        lambda _, y: numpy.vstack((y[1], y[2], y[3], numpy.ones_like(y[0]))),
        lambda a, b: numpy.array([a[0], a[2], b[0], b[2]]),
        at,
        numpy.zeros((4, at.size)),
        tol=1e-9,
    )
    deflection, _, curvature, _ = solved.sol(0.5)
    return deflection, -curvature


def carries(span, width, depth, stone):
    """Pounds over a span that bend a beam by 1/600 of it under stone or tile, else 1/360, or reach its strength.

    Stud grade up to 5-1/2 in, No. 3 above, for a permanent load; half as much again in time (NDS 2018, from memory)."""
    span, width, depth = float(span), float(width), float(depth)
    deflection, moment = middle_of_a_beam()
    inertia = width * depth**3 / 12
    stiff = span / (600 if stone else 360) * 1.2e6 * inertia / (deflection * 1.5 * span**3)
    strong = 0.9 * (675 if depth <= 5.5 else 500) * inertia / (depth / 2) / (moment * span)
    return min(stiff, strong)


def header_rows(chase):
    """What each header of wood on edge carries, in pounds, by its rule and what it is said about."""
    p, front = chase.p, chase.p["front"]
    stud = p["wall"].get("stud", "2x4") if chase.flush else front.get("stud", p["chase"].get("stud", "2x4"))
    stock = front.get("header", "2x4")
    if sheet(stock) or sheet(stud):
        return

    def plies(stock, stud):
        return side(stock, 0) * math.floor(side(stud, 1) / side(stock, 0)), side(stock, 1)

    skins = p["skins"]

    def is_stone(face):
        return inches(skins.get(f"{face}_finish", 0)) > 0 and skins[f"{face}_material"] in ("stone", "tile", "brick")

    stone = is_stone("lower")
    if front["form"] == "stepped":
        frame = front.get("bump_out_stud", p["chase"].get("stud", "2x4"))
        own = front.get("bump_out_header", stock)
        yield "unit header", "in the bump-out wall", carries(chase.opening, *plies(own, frame), stone)
        stone = is_stone("upper")
        yield "unit header", "in the set-back wall", carries(chase.opening, *plies(stock, stud), stone)
    elif chase.placement != "flush":
        yield "unit header", "in the front wall", carries(chase.opening, *plies(stock, stud), stone)
    recess = p.get("recess", {})
    if recess.get("header_form") == "on_edge":
        span = inches(recess["width"]) + 2 * chase.board
        # one that would end on the unit's kings is framed wider; then the span is another
        past = (span - chase.opening) / 2
        if past < -side(stud, 0) or past >= 2 * side(stud, 0):
            yield "recess header", "", carries(span, *plies(recess.get("header", stock), stud), stone)


# Limits: what the design has may be at most what is asked.
AT_MOST = {
    "floor",
    "gap at the back wall",
    "gap at the left wall",
    "longest horizontal run of hollow",
    "mantel's length",
    "opening under",
    "plumb reading",
    "run from",
}


def main():
    report = Report("margins")
    built, headers = Path(sys.argv[1]), 0
    for argument in sys.argv[2:]:
        file = Path(argument)
        parameters = tomllib.loads(file.read_text(encoding="utf-8"))
        parameters = told(parameters, parameters["project"].get("unit", "inch") == "mm")
        findings = json.loads((built / file.stem / "findings.json").read_text(encoding="utf-8"))["findings"]
        chase = Chase(parameters)
        for (rule, about), (need, have) in chase.rows().items():
            where = f"{file.name}: {rule}, {about}"
            found = [it for it in findings if it["rule"] == rule and it["about"].startswith(about)]
            report.check(len(found) == 1, f"{where}: one of it, found {len(found)}")
            limit, own = (have, need) if about in AT_MOST else (need, have)
            for name, value, expected in (
                ("need", "required", limit),
                ("have", "measured", own),
                ("margin", "margin", have - need),
            ):
                for it in found:
                    report.near(it[value] / 25.4, float(expected), CLOSE, f"{where}: {name}")
        for rule, about, most in header_rows(chase):
            found = [
                it for it in findings
                if it["rule"] == rule and it["about"].startswith("load on") and about in it["about"] and "required" in it
            ]
            where = f"{file.name}: {rule} {about}"
            for it in found:
                report.near(it["required"] / 0.45359237, most, 1e-5 * most, where)
            headers += len(found)
    report.check(headers >= len(sys.argv[2:]), f"{headers} headers judged")
    report.finish()


main()
