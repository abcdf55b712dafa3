"""The places of an angle and their names: on the section, and on a part in space, inside and outside.

The section is drawn as one sees it when looking at end 1 of the part in the upper picture. A place may
be pointed at (it is then drawn in the accent, dashed where metal hides it), or carry a number or a
question mark in place of its name.

>>> from anglelib.part import Taper
>>> from anglelib.section import Section
>>> stock = Section("1 1/2", "1 1/2", "3/16", fillet="3/16")
>>> bracket = Part("E2L", "Step bracket", stock, "6061-T6", "5 3/8", [Taper("A", 1, "9/16", run="2 7/8")])
>>> print(places_sheet(bracket, Naming(point_at="vertex")).sentence)
The section of a step bracket, 1 1/2 x 1 1/2 x 3/16, and the part in space, from the inside and from the outside. Pointed at: the vertex, the one point of an end that lies on the heel.
>>> print(places_sheet(bracket, Naming(names="", point_at="vertex", asked=True)).sentence)
The section of a step bracket, 1 1/2 x 1 1/2 x 3/16, and the part in space, from the inside and from the outside. Pointed at, without its name: the one point of an end that lies on the heel.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from anglelib.drawing.checks import bounds
from anglelib.drawing.dimensions import leader, linear_dimension
from anglelib.drawing.face import Axis, Stretch, clip
from anglelib.drawing.outline import leg_outline, section_outline
from anglelib.drawing.pictorial import SIDES, Projection, pictorial
from anglelib.drawing.sheet import Circle, Group, Hatch, Item, Label, Line, Point, Sheet, move, polygon
from anglelib.drawing.solid_lines import Camera, Hider, Place, faces_of
from anglelib.geometry.taper import TaperLine, taper_lines
from anglelib.lengths import exact
from anglelib.part import Part
from anglelib.section import other_leg

WIDTH, HEIGHT = 234.0, 143.0
LETTER = 3.5
_HEEL, _LEG = (27.0, 46.0), 58.0
"""Where the section's heel lies, and how wide its wider leg is drawn [mm]."""
_ROOM = {"inside": (134.0, 75.0, 228.0, 131.0), "outside": (134.0, 6.0, 228.0, 62.0)}
"""Where the part lies on the sheet: left, low, right, high [mm]."""

MEANINGS = {
    "heel": "the outside corner line, where the two outer faces meet",
    "toe of leg A": "the free edge of leg A, the one furthest from the heel",
    "toe of leg B": "the free edge of leg B, the one furthest from the heel",
    "leg A, outer face": "the flat outside of leg A, from the heel to the toe",
    "leg A, inner face": "the flat inside of leg A, from the toe to where the rounding begins",
    "leg B, outer face": "the flat outside of leg B, from the heel to the toe",
    "leg B, inner face": "the flat inside of leg B, from the toe to where the rounding begins",
    "fillet": "the rounded inside corner, between the two inner faces",
    "end 1": "the datum: the end that all lengths of this part are measured from, x = 0",
    "end 2": "the far end of the part",
    "vertex": "the one point of an end that lies on the heel",
    "taper": "the sloping cut that narrows a leg towards an end",
    "run": "how long the taper is, measured along the toe and not along the slope",
    "width left": "how wide the tapered leg still is at the end, measured from the heel",
}
"""What each place is on the metal; no sentence has the word that it explains."""
NUMBERED = ("toe of leg A", "fillet", "toe of leg B", "heel")
"""The four lines that run along the part, in the order of their numbers."""


def called(word: str) -> str:
    """The word with its article: 'the heel', 'leg A, outer face', 'end 1'."""
    return word if word.startswith(("leg", "end")) else f"the {word}"


@dataclass(frozen=True)
class Naming:
    """What is named: ``names`` is "all", "numbers" (of the four lines along the part) or "" (none).

    ``point_at`` is the place drawn in the accent; ``asked``: it carries a question mark, and its
    sentence says where it is without its name. ``few``: at most seven labels, for a projector.
    """

    names: str = "all"
    point_at: str = ""
    asked: bool = False
    few: bool = False

    def __post_init__(self) -> None:
        if self.point_at and self.point_at not in MEANINGS:
            raise ValueError(f"no place {self.point_at!r}; the places are {', '.join(MEANINGS)}")


def places_sheet(part: Part, naming: Naming = Naming()) -> Sheet:
    """The section, and the part from both sides; the part has one taper, on either leg at end 1."""
    view = _Section(part)
    items: list[Item] = [*view.shape(), *view.pointed(naming.point_at)]
    spaces = [_Space(part, side) for side in SIDES]
    for space in spaces:
        items += [*space.shape, *space.pointed(naming.point_at)]
    if naming.names == "all":
        wanted = None if not naming.few else _few(naming.point_at)
        items += view.names(wanted)
        if naming.few and not naming.point_at:
            wanted = ("end 1", "vertex", "taper")  # the section has the others
        for space in spaces:
            items += space.names(wanted)
    elif naming.names == "numbers":
        items += view.numbers()
        for space in spaces if not naming.few else ():
            items += space.numbers()
    if naming.asked:
        items += view.question(naming.point_at) or spaces[0].question(naming.point_at)
    if not naming.few:
        items += _titles()
    return Sheet(WIDTH, HEIGHT, tuple(items), "The places of an angle", places_sentence(part, naming))


def places_sentence(part: Part, naming: Naming) -> str:
    """What the picture shows, in words."""
    name = (part.name[:1].lower() + part.name[1:]).partition(",")[0]
    words = (
        f"The section of {'an' if name[0] in 'aeiou' else 'a'} {name}, {part.section.size}, and the part in space, from the "
        "inside and from the outside."
    )
    if naming.names == "numbers":
        lines = "; ".join(f"{n}: {MEANINGS[word]}" for n, word in enumerate(NUMBERED, start=1))
        return f"{words} Four lines that run along the part are numbered. {lines}."
    if not naming.point_at:
        return f"{words} Every place has its name, from the heel to the toes and from end 1, the datum, to end 2."
    if naming.asked:
        return f"{words} Pointed at, without its name: {MEANINGS[naming.point_at]}."
    nothing = " Here it is 0: the taper runs to the vertex." if naming.point_at == "width left" and not part.tapers[0].width_left else ""
    return f"{words} Pointed at: {called(naming.point_at)}, {MEANINGS[naming.point_at]}.{nothing}"


def _few(point_at: str) -> tuple[str, ...]:
    """The names on a projector's picture."""
    return (point_at,) if point_at else ("heel", "toe of leg A", "toe of leg B", "fillet", "end 1", "vertex", "taper")


def _titles() -> Group:
    return (
        Label(6, HEIGHT - 5, "the section, seen on end 1", LETTER, "start", "top"),
        Label(112, HEIGHT - 5, "the part, seen from inside", LETTER, "start", "top"),
        Label(112, 64, "rolled over, from outside", LETTER, "start", "top"),
    )


# --- the section --------------------------------------------------------------------------------------
class _Section:
    """The section as seen on end 1 in the upper picture: leg A up, leg B to the right, the heel at the lower left."""

    def __init__(self, part: Part) -> None:
        self.section = part.section
        self.unit = _LEG / float(max(self.section.leg_a, self.section.leg_b))
        self.a, self.b = float(self.section.leg_a), float(self.section.leg_b)
        self.ta, self.tb = float(self.section.thickness_a), float(self.section.thickness("B"))
        self.r = float(self.section.fillet)

    def at(self, y: float, z: float) -> Point:
        """A place of the section on the paper: y goes up, z to the right."""
        return _HEEL[0] + z * self.unit, _HEEL[1] + y * self.unit

    def shape(self) -> Group:
        """The cut metal."""
        points = tuple(self.at(y, z) for y, z in section_outline(self.section))
        return (Hatch(points, 45, 2.0), polygon(points, "outline"))

    def _strokes(self, word: str) -> list[tuple[Point, ...]]:
        """Where a place is on the section: points are dots, and pairs or chains are lines."""
        a, b, ta, tb, r = self.a, self.b, self.ta, self.tb, self.r
        return {
            "heel": [((0, 0),)],
            "toe of leg A": [((a, 0), (a, ta))],
            "toe of leg B": [((0, b), (tb, b))],
            "leg A, outer face": [((0, 0), (a, 0))],
            "leg A, inner face": [((tb + r, ta), (a, ta))],
            "leg B, outer face": [((0, 0), (0, b))],
            "leg B, inner face": [((tb, ta + r), (tb, b))],
            "fillet": [tuple(p for p in section_outline(self.section) if tb <= p[0] <= tb + r and ta <= p[1] <= ta + r)],
            "vertex": [((0, 0),)],
        }.get(word, [])

    def pointed(self, word: str) -> Group:
        """A place in the accent."""
        items: list[Item] = []
        for stroke in self._strokes(word):
            points = [self.at(*p) for p in stroke]
            items += [Circle(*points[0], 1.3, "", "accent", True)] if len(points) == 1 else _thick(points)
        return tuple(items)

    def _tips(self) -> dict[str, Point]:
        k = self.r * (1 - math.sqrt(0.5))
        return {
            "toe of leg A": self.at(self.a, self.ta / 2),
            "leg A, inner face": self.at(0.76 * self.a, self.ta),
            "fillet": self.at(self.tb + k, self.ta + k),
            "leg B, inner face": self.at(self.tb, 0.5 * self.b),
            "toe of leg B": self.at(self.tb * 0.6, self.b),
            "heel": self.at(0, 0),
            "leg A, outer face": self.at(0.5 * self.a, 0),
            "leg B, outer face": self.at(0, 0.5 * self.b),
        }

    def names(self, wanted: Sequence[str] | None) -> Group:
        """The names round the section: all, or those wanted."""
        tips, items = self._tips(), []
        x, y = _HEEL
        a, b, ta, tb = (v * self.unit for v in (self.a, self.b, self.ta, self.tb))
        elbows = {
            "toe of leg A": (x + ta + 6, y + a + 5),
            "leg A, inner face": (x + ta + 8, y + 0.76 * a),
            "fillet": (x + ta + 12, y + tb + 20),
            "leg B, inner face": (x + 0.6 * b, y + tb + 9),
            "toe of leg B": (x + b + 4, y - 4),
            "heel": (x - 7, y - 8),
        }
        for word, elbow in elbows.items():
            if wanted is None or word in wanted:
                items += leader(tips[word], elbow, word, letter=LETTER)
        return (*items, *self._along(wanted))

    def _along(self, wanted: Sequence[str] | None) -> Group:
        """Names that stand along their face."""
        x, y = _HEEL
        a, b = self.a * self.unit, self.b * self.unit
        labels = {
            "leg A, outer face": Label(x - 3, y + a / 2, "leg A, outer face", LETTER, "middle", "bottom", 90),
            "leg B, outer face": Label(x + b / 2, y - 3, "leg B, outer face", LETTER, "middle", "top"),
        }
        return tuple(label for word, label in labels.items() if wanted is None or word in wanted)

    def numbers(self) -> Group:
        """The numbers of the four lines that run along the part."""
        ways = {"toe of leg A": (0, 1), "fillet": (1, 1), "toe of leg B": (1, 0), "heel": (-1, -1)}
        items: list[Item] = []
        for number, word in enumerate(NUMBERED, start=1):
            items += _numbered(self._tips()[word], ways[word], number)
        return tuple(items)

    def question(self, word: str) -> Group:
        """A question mark beside the place."""
        tip = self._tips().get(word) or (self.at(0, 0) if word == "vertex" else None)
        ways = {"heel": (-1, -1), "vertex": (-1, -1), "leg A, outer face": (-1, 0), "leg B, outer face": (0, -1)}
        return _marked(tip, ways.get(word, (1, 1)), "?") if tip else ()


# --- the part in space --------------------------------------------------------------------------------
class _Space:
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

    def _lines(self, word: str) -> list[tuple[Place, Place]]:
        a, b, ta, tb, long = self.a, self.b, self.ta, self.tb, self.long
        start = {leg: self.run if leg == self.line.leg else 0.0 for leg in "AB"}
        r, k = self.r, self.r * (1 - math.sqrt(0.5))
        return {
            "heel": [((0, 0, 0), (long, 0, 0))],
            "toe of leg A": [((start["A"], a, d), (long, a, d)) for d in (0, ta)],
            "toe of leg B": [((start["B"], d, b), (long, d, b)) for d in (0, tb)],
            "fillet": [((0, y, z), (long, y, z)) for y, z in ((tb + r, ta), (tb + k, ta + k), (tb, ta + r))],
            "run": [(self.on_leg(0, self._wide, 0), self.on_leg(self.run, self._wide, 0))],
            "width left": [(self.on_leg(0, 0, 0), self.on_leg(0, self.s, 0))],
        }.get(word, [])

    @property
    def _wide(self) -> float:
        return self.a if self.line.leg == "A" else self.b

    def _faces(self, word: str) -> list[Place]:
        part = self.part
        if word in ("end 1", "end 2"):
            outline = section_outline(part.section, 15)
            x = 0.0 if word == "end 1" else self.long
            if x == 0.0:
                tall = {leg: self.s if leg == self.line.leg else 9e9 for leg in "AB"}
                outline = clip(clip(outline, lambda y, z: tall["A"] - y), lambda y, z: tall["B"] - z)
            return [(x, y, z) for y, z in outline]
        if word == "taper":
            deep = float(part.section.thickness(self.line.leg))
            return [self.on_leg(*p) for p in ((0, self.s, 0), (self.run, self._wide, 0), (self.run, self._wide, deep), (0, self.s, deep))]
        if word.endswith("face"):
            leg, inner = word[4], "inner" in word
            other = float(part.section.thickness(other_leg(leg)))
            low = other + self.r if inner else 0.0
            deep = float(part.section.thickness(leg)) if inner else 0.0
            flat = clip(leg_outline(part, leg), lambda x, h: h - low)
            return [(x, h, deep) if leg == "A" else (x, deep, h) for x, h in flat]
        return []

    def pointed(self, word: str) -> Group:
        """A place in the accent, dashed where metal hides it."""
        items: list[Item] = []
        if word == "vertex" or word == "width left" and not self.s:
            return (Circle(*self.view.at((0, 0, 0)), 1.3, "", "accent", True),)
        for one, two in self._lines(word):
            items += self._seen(one, two)
        face = self._faces(word)
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
            items += _thick([p, q]) if visible else [Line(*p, *q, "hidden", True)]
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
        for word, group in (self._inside(wanted is not None) if self.side == "inside" else self._outside()).items():
            if wanted is None or word in wanted:
                items += group
        return tuple(items)

    def _inside(self, few: bool) -> dict[str, Group]:
        at = self.view.at
        corner, top = at(self.on_leg(0, self._wide, 0)), at(self.on_leg(self.run, self._wide, 0))
        foot, left = at((0, 0, 0)), at(self.on_leg(0, self.s, 0))
        blank = (Line(*left, *corner, "blank"), Line(*corner, *top, "blank"))
        slope = math.atan2(top[1] - left[1], top[0] - left[0])
        middle = (0.55 * left[0] + 0.45 * top[0], 0.55 * left[1] + 0.45 * top[1])
        over = (middle[0] - 2.4 * math.sin(slope), middle[1] + 2.4 * math.cos(slope))
        run = linear_dimension(corner, top, 6, "run" if few else f"run {exact(self.line.run)}", "line", letter=LETTER)
        width = _beside(foot, left, f"width left {exact(self.line.width_left)}")
        return {
            "run": (*blank, *run),
            "width left": width if self.s else (),
            "taper": (Label(*over, "taper", LETTER, rotation=math.degrees(slope)),),
        }

    def _outside(self) -> dict[str, Group]:
        at = self.view.at
        vertex, far = at((0, 0, 0)), at((self.long, 0.96 * self.a, 0))
        heel = at((0.62 * self.long, 0, 0))
        face = at((0, self.tb * 0.6, 0.6 * self.b))
        return {
            "end 1": leader(face, (vertex[0] - 18, vertex[1] + 1), "end 1, the datum", letter=LETTER, end="dot"),
            "vertex": leader(vertex, (vertex[0] - 16, vertex[1] - 12), "vertex", letter=LETTER),
            "heel": leader(heel, (heel[0] + 8, heel[1] - 8), "heel", letter=LETTER),
            "end 2": leader(far, (far[0] - 5, far[1] - 9), "end 2", letter=LETTER),
        }

    def numbers(self) -> Group:
        """The numbers of the four lines, where they can be seen."""
        a, b, r = self.a, self.b, self.r * (1 - math.sqrt(0.5))
        seen = {
            "toe of leg A": ("inside", (0.8 * self.long, a, self.ta / 2), (0, 1)),
            "fillet": ("inside", (0.86 * self.long, self.tb + r, self.ta + r), (-0.4, 0.8)),
            "toe of leg B": ("inside", (0.6 * self.long, self.tb / 2, b), (0, -1)),
            "heel": ("outside", (0.5 * self.long, 0, 0), (0.3, -1)),
        }
        items: list[Item] = []
        for number, word in enumerate(NUMBERED, start=1):
            side, place, way = seen[word]
            if side == self.side:
                items += _numbered(self.view.at(place), way, number)
        return tuple(items)

    def question(self, word: str) -> Group:
        """A question mark beside a place that only the part has."""
        at = self.view.at
        tips = {
            "end 1": at((0, 0.3 * self.s if self.line.leg == "A" else 0.3 * self.a, 0.1 * self.ta)),
            "taper": at(self.on_leg(self.run / 2, (self.s + self._wide) / 2, 0)),
            "run": at(self.on_leg(self.run / 2, self._wide, 0)),
            "width left": at(self.on_leg(0, self.s / 2, 0)),
            "end 2": at((self.long, 0.8 * self.a, 0)),
        }
        ways = {"end 2": (1, 0)}
        return _marked(tips[word], ways.get(word, (-1, 1)), "?") if word in tips else ()


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


# --- signs --------------------------------------------------------------------------------------------
def _thick(points: list[Point]) -> Group:
    """A line in the accent."""
    return tuple(Line(*p, *q, "mark", True) for p, q in zip(points, points[1:]))


def _marked(tip: Point, way: tuple[float, float], text: str) -> Group:
    """A sign in a ring beside a place, with a line to it."""
    x, y = tip[0] + way[0] * 8, tip[1] + way[1] * 8
    long = math.hypot(x - tip[0], y - tip[1])
    ux, uy = (x - tip[0]) / long, (y - tip[1]) / long
    return (
        Line(*tip, x - ux * 3.2, y - uy * 3.2, "dimension"),
        Circle(x, y, 3.2, "narrow", "paper"),
        Label(x, y, text, LETTER, "middle", "middle"),
    )


def _numbered(tip: Point, way: tuple[float, float], number: int) -> Group:
    return _marked(tip, way, str(number))


def _beside(one: Point, two: Point, text: str) -> Group:
    """A short upright dimension with its words level at its left."""
    x = one[0] - 8
    lines = tuple(i for i in linear_dimension(one, two, x, "", "y", letter=LETTER) if not isinstance(i, Label))
    return (*lines, Label(x - 2, (one[1] + two[1]) / 2, text, LETTER, "end", "middle"))
