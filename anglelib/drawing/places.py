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
from dataclasses import dataclass

from anglelib.drawing.dimensions import leader
from anglelib.drawing.outline import section_outline
from anglelib.drawing.part_places import PartPlaces
from anglelib.drawing.pictorial import SIDES
from anglelib.drawing.place_names import LETTER, MEANINGS, NUMBERED, WORDS, called, marked, thick
from anglelib.drawing.sheet import Circle, Group, Hatch, Item, Label, Point, Sheet, polygon
from anglelib.part import Part

WIDTH, HEIGHT = 234.0, 143.0
_HEEL, _LEG = (27.0, 46.0), 58.0
"""Where the section's heel lies, and how wide its wider leg is drawn [mm]."""

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
    spaces = [PartPlaces(part, side) for side in SIDES]
    for space in spaces:
        items += [*space.shape, *space.pointed(naming.point_at)]
    if naming.names == "all":
        wanted = None if not naming.few else _few(naming.point_at)
        items += view.names(wanted)
        if naming.few and not naming.point_at:
            wanted = ("end-1", "vertex", "taper")  # the section has the others
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
        lines = "; ".join(f"{n}: {MEANINGS[id_]}" for n, id_ in enumerate(NUMBERED, start=1))
        return f"{words} Four lines that run along the part are numbered. {lines}."
    if not naming.point_at:
        return f"{words} Every place has its name, from the heel to the toes and from end 1, the datum, to end 2."
    if naming.asked:
        return f"{words} Pointed at, without its name: {MEANINGS[naming.point_at]}."
    nothing = " Here it is 0: the taper runs to the vertex." if naming.point_at == "width-left" and not part.tapers[0].width_left else ""
    return f"{words} Pointed at: {called(naming.point_at)}, {MEANINGS[naming.point_at]}.{nothing}"


def _few(point_at: str) -> tuple[str, ...]:
    """The names on a projector's picture."""
    return (point_at,) if point_at else ("heel", "toe-A", "toe-B", "fillet", "end-1", "vertex", "taper")


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

    def _strokes(self, id_: str) -> list[tuple[Point, ...]]:
        """Where a place is on the section: points are dots, and pairs or chains are lines."""
        a, b, ta, tb, r = self.a, self.b, self.ta, self.tb, self.r
        return {
            "heel": [((0, 0),)],
            "toe-A": [((a, 0), (a, ta))],
            "toe-B": [((0, b), (tb, b))],
            "outer-A": [((0, 0), (a, 0))],
            "inner-A": [((tb + r, ta), (a, ta))],
            "outer-B": [((0, 0), (0, b))],
            "inner-B": [((tb, ta + r), (tb, b))],
            "fillet": [tuple(p for p in section_outline(self.section) if tb <= p[0] <= tb + r and ta <= p[1] <= ta + r)],
            "vertex": [((0, 0),)],
        }.get(id_, [])

    def pointed(self, id_: str) -> Group:
        """A place in the accent."""
        items: list[Item] = []
        for stroke in self._strokes(id_):
            points = [self.at(*p) for p in stroke]
            items += [Circle(*points[0], 1.3, "", "accent", True)] if len(points) == 1 else thick(points)
        return tuple(items)

    def _tips(self) -> dict[str, Point]:
        k = self.r * (1 - math.sqrt(0.5))
        return {
            "toe-A": self.at(self.a, self.ta / 2),
            "inner-A": self.at(0.76 * self.a, self.ta),
            "fillet": self.at(self.tb + k, self.ta + k),
            "inner-B": self.at(self.tb, 0.5 * self.b),
            "toe-B": self.at(self.tb * 0.6, self.b),
            "heel": self.at(0, 0),
            "outer-A": self.at(0.5 * self.a, 0),
            "outer-B": self.at(0, 0.5 * self.b),
        }

    def names(self, wanted: Sequence[str] | None) -> Group:
        """The names round the section: all, or those wanted."""
        tips, items = self._tips(), []
        x, y = _HEEL
        a, b, ta, tb = (v * self.unit for v in (self.a, self.b, self.ta, self.tb))
        elbows = {
            "toe-A": (x + ta + 6, y + a + 5),
            "inner-A": (x + ta + 8, y + 0.76 * a),
            "fillet": (x + ta + 12, y + tb + 20),
            "inner-B": (x + 0.6 * b, y + tb + 9),
            "toe-B": (x + b + 4, y - 4),
            "heel": (x - 7, y - 8),
        }
        for id_, elbow in elbows.items():
            if wanted is None or id_ in wanted:
                items += leader(tips[id_], elbow, WORDS[id_], letter=LETTER)
        return (*items, *self._along(wanted))

    def _along(self, wanted: Sequence[str] | None) -> Group:
        """Names that stand along their face."""
        x, y = _HEEL
        a, b = self.a * self.unit, self.b * self.unit
        labels = {
            "outer-A": Label(x - 3, y + a / 2, WORDS["outer-A"], LETTER, "middle", "bottom", 90),
            "outer-B": Label(x + b / 2, y - 3, WORDS["outer-B"], LETTER, "middle", "top"),
        }
        return tuple(label for id_, label in labels.items() if wanted is None or id_ in wanted)

    def numbers(self) -> Group:
        """The numbers of the four lines that run along the part."""
        ways = {"toe-A": (0, 1), "fillet": (1, 1), "toe-B": (1, 0), "heel": (-1, -1)}
        items: list[Item] = []
        for number, id_ in enumerate(NUMBERED, start=1):
            items += marked(self._tips()[id_], ways[id_], str(number))
        return tuple(items)

    def question(self, id_: str) -> Group:
        """A question mark beside the place."""
        tip = self._tips().get(id_) or (self.at(0, 0) if id_ == "vertex" else None)
        ways = {"heel": (-1, -1), "vertex": (-1, -1), "outer-A": (-1, 0), "outer-B": (0, -1)}
        return marked(tip, ways.get(id_, (1, 1)), "?") if tip else ()
