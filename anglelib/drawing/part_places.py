"""The places of a part in space, seen from inside or from outside: pointed at, named, numbered, asked for.

>>> from anglelib.part import Taper
>>> from anglelib.section import Section
>>> stock = Section("1 1/2", "1 1/2", "3/16", fillet="3/16")
>>> bracket = Part("E2L", "Step bracket", stock, "6061-T6", "5 3/8", [Taper("A", 1, "9/16", run="2 7/8")])
>>> [item.kind for item in PartPlaces(bracket, "outside").pointed("heel")], PartPlaces(bracket, "inside").pointed("heel")[0].kind
(['mark'], 'hidden')
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache

from anglelib.drawing.checks import bounds
from anglelib.drawing.dimensions import leader, linear_dimension
from anglelib.drawing.face import Axis, Stretch, clip
from anglelib.drawing.outline import leg_outline, section_outline
from anglelib.drawing.pictorial import Projection, pictorial
from anglelib.drawing.place_names import FACES, LETTER, NUMBERED, WORDS, beside, marked, thick
from anglelib.drawing.sheet import Circle, Group, Hatch, Item, Label, Line, Point, move
from anglelib.drawing.solid_lines import Camera, Hider, Place, faces_of
from anglelib.geometry.taper import TaperLine, taper_lines
from anglelib.lengths import exact
from anglelib.part import Part
from anglelib.section import other_leg

_ROOM = {"inside": (134.0, 75.0, 228.0, 131.0), "outside": (134.0, 6.0, 228.0, 62.0)}
"""Where the part lies on the sheet: left, low, right, high [mm]."""


class PartPlaces:
    """The part in space from one side."""

    def __init__(self, part: Part, side: str) -> None:
        self.part, self.side = replace(part, holes=(), mirror_of=""), side
        self.line: TaperLine = taper_lines(part)[0]
        self.shape, self.view = _drawn(self.part, side)
        self.a, self.b = float(part.section.leg_a), float(part.section.leg_b)
        self.ta, self.tb = float(part.section.thickness_a), float(part.section.thickness("B"))
        self.r, self.long = float(part.section.fillet), float(part.length)
        self.s, self.run = float(self.line.width_left), float(self.line.run)

    def on_leg(self, x: float, h: float, depth: float) -> Place:
        """A place of the tapered leg: x along the heel, h from it, so deep behind the outer face."""
        return (x, h, depth) if self.line.leg == "A" else (x, depth, h)

    def _lines(self, id_: str) -> list[tuple[Place, Place]]:
        a, b, ta, tb, long = self.a, self.b, self.ta, self.tb, self.long
        start = {leg: self.run if leg == self.line.leg else 0.0 for leg in "AB"}
        r, k = self.r, self.r * (1 - math.sqrt(0.5))
        return {
            "heel": [((0, 0, 0), (long, 0, 0))],
            "toe-A": [((start["A"], a, d), (long, a, d)) for d in (0, ta)],
            "toe-B": [((start["B"], d, b), (long, d, b)) for d in (0, tb)],
            "fillet": [((0, y, z), (long, y, z)) for y, z in ((tb + r, ta), (tb + k, ta + k), (tb, ta + r))],
            "run": [(self.on_leg(0, self._wide, 0), self.on_leg(self.run, self._wide, 0))],
            "width-left": [(self.on_leg(0, 0, 0), self.on_leg(0, self.s, 0))],
        }.get(id_, [])

    @property
    def _wide(self) -> float:
        return self.a if self.line.leg == "A" else self.b

    def _faces(self, id_: str) -> list[Place]:
        part = self.part
        if id_ in ("end-1", "end-2"):
            outline = section_outline(part.section, 15)
            x = 0.0 if id_ == "end-1" else self.long
            if x == 0.0:
                tall = {leg: self.s if leg == self.line.leg else 9e9 for leg in "AB"}
                outline = clip(clip(outline, lambda y, z: tall["A"] - y), lambda y, z: tall["B"] - z)
            return [(x, y, z) for y, z in outline]
        if id_ == "taper":
            deep = float(part.section.thickness(self.line.leg))
            return [self.on_leg(*p) for p in ((0, self.s, 0), (self.run, self._wide, 0), (self.run, self._wide, deep), (0, self.s, deep))]
        if id_ in FACES:
            leg, inner = FACES[id_]
            other = float(part.section.thickness(other_leg(leg)))
            low = other + self.r if inner else 0.0
            deep = float(part.section.thickness(leg)) if inner else 0.0
            flat = clip(leg_outline(part, leg), lambda x, h: h - low)
            return [(x, h, deep) if leg == "A" else (x, deep, h) for x, h in flat]
        return []

    def pointed(self, id_: str) -> Group:
        """A place in the accent, dashed where metal hides it."""
        items: list[Item] = []
        if id_ == "vertex" or id_ == "width-left" and not self.s:
            return (Circle(*self.view.at((0, 0, 0)), 1.3, "", "accent", True),)
        for one, two in self._lines(id_):
            items += self._seen(one, two)
        face = self._faces(id_)
        if face:
            flat = tuple(self.view.at(place) for place in face)
            if self._faces_viewer(face):
                items.append(Hatch(flat, -45, 1.6, accent=True))
            for one, two in zip(face, [*face[1:], face[0]]):
                items += self._seen(one, two)
        return tuple(items)

    def _seen(self, one: Place, two: Place) -> Group:
        pieces = _hider(self.part, self.side).pieces(self.view.turned(one), self.view.turned(two))
        items: list[Item] = []
        for p, q, visible in pieces:
            items += thick([p, q]) if visible else [Line(*p, *q, "hidden", True)]
        return tuple(move(items, *self.shift))

    @property
    def shift(self) -> Point:
        """How far the drawing was moved to its place on the sheet."""
        x, y, _ = self.view.camera.paper(self.view.turned((0, 0, 0)))
        return self.view.at((0, 0, 0))[0] - x, self.view.at((0, 0, 0))[1] - y

    def _faces_viewer(self, face: list[Place]) -> bool:
        middle = [math.fsum(p[i] for p in face) / len(face) for i in range(3)]
        x, y, depth = self.view.camera.paper(self.view.turned((middle[0], middle[1], middle[2])))
        return not _hider(self.part, self.side).hides(x, y, depth + 1e-3)

    # --- names --------------------------------------------------------------------------------------
    def names(self, wanted: Sequence[str] | None) -> Group:
        """The names that are told best in space, each in the picture that shows its place."""
        items: list[Item] = []
        for id_, group in (self._inside(wanted is not None) if self.side == "inside" else self._outside()).items():
            if wanted is None or id_ in wanted:
                items += group
        return tuple(items)

    def _inside(self, few: bool) -> dict[str, Group]:
        at = self.view.at
        corner, top = at(self.on_leg(0, self._wide, 0)), at(self.on_leg(self.run, self._wide, 0))
        foot, left = at((0, 0, 0)), at(self.on_leg(0, self.s, 0))
        blank = (Line(*left, *corner, "blank"), Line(*corner, *top, "blank"))
        slope = math.atan2(top[1] - left[1], top[0] - left[0])
        middle = (0.58 * left[0] + 0.42 * top[0], 0.58 * left[1] + 0.42 * top[1])
        over = (middle[0] - 2.4 * math.sin(slope), middle[1] + 2.4 * math.cos(slope))
        run = linear_dimension(corner, top, 6, WORDS["run"] if few else f"{WORDS['run']} {exact(self.line.run)}", "line", letter=LETTER)
        width = beside(foot, left, f"{WORDS['width-left']} {exact(self.line.width_left)}")
        return {
            "run": (*blank, *run),
            "width-left": width if self.s else (),
            "taper": (Label(*over, WORDS["taper"], LETTER, rotation=math.degrees(slope)),),
        }

    def _outside(self) -> dict[str, Group]:
        at = self.view.at
        vertex, far = at((0, 0, 0)), at((self.long, 0.96 * self.a, 0))
        heel = at((0.62 * self.long, 0, 0))
        face = at((0, self.tb * 0.6, 0.6 * self.b))
        return {
            "end-1": leader(face, (vertex[0] - 18, vertex[1] + 1), f"{WORDS['end-1']}, the datum", letter=LETTER, end="dot"),
            "vertex": leader(vertex, (vertex[0] - 16, vertex[1] - 12), WORDS["vertex"], letter=LETTER),
            "heel": leader(heel, (heel[0] + 8, heel[1] - 8), WORDS["heel"], letter=LETTER),
            "end-2": leader(far, (far[0] - 5, far[1] - 9), WORDS["end-2"], letter=LETTER),
        }

    def numbers(self) -> Group:
        """The numbers of the four lines, where they can be seen."""
        a, b, r = self.a, self.b, self.r * (1 - math.sqrt(0.5))
        seen = {
            "toe-A": ("inside", (0.8 * self.long, a, self.ta / 2), (0, 1)),
            "fillet": ("inside", (0.86 * self.long, self.tb + r, self.ta + r), (-0.4, 0.8)),
            "toe-B": ("inside", (0.6 * self.long, self.tb / 2, b), (0, -1)),
            "heel": ("outside", (0.5 * self.long, 0, 0), (0.3, -1)),
        }
        items: list[Item] = []
        for number, id_ in enumerate(NUMBERED, start=1):
            side, place, way = seen[id_]
            if side == self.side:
                items += marked(self.view.at(place), way, str(number))
        return tuple(items)

    def question(self, id_: str) -> Group:
        """A question mark beside a place that only the part has."""
        at = self.view.at
        tips = {
            "end-1": at((0, 0.3 * self.s if self.line.leg == "A" else 0.3 * self.a, 0.1 * self.ta)),
            "taper": at(self.on_leg(self.run / 2, (self.s + self._wide) / 2, 0)),
            "run": at(self.on_leg(self.run / 2, self._wide, 0)),
            "width-left": at(self.on_leg(0, self.s / 2, 0)),
            "end-2": at((self.long, 0.8 * self.a, 0)),
        }
        ways = {"end-2": (1, 0)}
        return marked(tips[id_], ways.get(id_, (-1, 1)), "?") if id_ in tips else ()


@lru_cache(maxsize=64)
def _drawn(part: Part, side: str) -> tuple[Group, Projection]:
    """The part's lines on their place of the sheet, at a scale that fits, and how a place of it comes there."""
    left, low, right, high = _ROOM[side]
    unit = 20.0
    for _ in range(2):  # the drawing grows with the unit, so that the second one fits
        axis = Axis((Stretch(0.0, float(part.length), 0.0),), unit)
        shape = pictorial(part, axis, side=side)
        x1, y1, x2, y2 = bounds(shape)
        fit = min((right - left) / (x2 - x1), (high - low) / (y2 - y1), 40.0 / unit)
        unit *= fit
    dx, dy = left - x1 * fit, (low + high - (y1 + y2) * fit) / 2
    axis = Axis((Stretch(0.0, float(part.length), 0.0),), unit)
    return move(pictorial(part, axis, side=side), dx, dy), _Moved(axis, side, dx, dy)


class _Moved(Projection):
    """A projection whose picture has been moved on the sheet."""

    def __init__(self, axis: Axis, side: str, dx: float, dy: float) -> None:
        super().__init__(axis, side, Camera())
        self.dx, self.dy = dx, dy

    def at(self, place: Place) -> Point:
        x, y = super().at(place)
        return x + self.dx, y + self.dy


@lru_cache(maxsize=64)
def _hider(part: Part, side: str) -> Hider:
    view = _drawn(part, side)[1]
    return Hider([[view.turned(place) for place in face] for face in faces_of(part)], view.camera)
