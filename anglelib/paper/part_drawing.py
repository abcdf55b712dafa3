"""The finished part on its card: both outer faces, heel to heel, dimensioned from the datum.

Where a cut takes the datum end away, the running dimensions start from the witness line instead.

>>> from anglelib.section import Section
>>> from anglelib.part import Part
>>> bar = Part("A3", "Floor bar", Section("3/4", "3/4", "1/8"), "6061-T6", "17 1/4", holes=[])
>>> items, deep, scale = part_drawing(bar, 190, 70)
>>> scale, round(deep)
(Fraction(1, 1), 57)
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import cached_property

from anglelib.drawing.checks import bounds, overlaps, struck
from anglelib.drawing.dimensions import Stop, running_dimensions, upright_dimension
from anglelib.drawing.face import Axis, Face
from anglelib.drawing.frame import scale_text
from anglelib.drawing.outer_view import direction, features_along, outer_view
from anglelib.drawing.sheet import Group, Item, Label, Sheet, move
from anglelib.drawing.symbols import datum_sign
from anglelib.geometry.cuts import COPE, cuts_of
from anglelib.geometry.layout import datum_lost, witness_line
from anglelib.geometry.taper import Number, from_end_1
from anglelib.lengths import both, head, marked, marked_both, own, unit_in_head
from anglelib.paper.page import SMALL, clearest
from anglelib.part import Part
from anglelib.tolerances import Limits

SCALES = tuple(Fraction(s) for s in ("1", "3/4", "1/2", "3/8", "1/4", "1/5", "1/8"))
LEFT, RIGHTS = 44.0, (37.0, 46.0)
"""Room for figures and names left and right of the faces [mm]; the more where figures in millimetres stand aside of one another."""
LEAST = 6.5
"""The narrower leg is not drawn smaller than this [mm]."""
FIGURES = 14.5
"""Room for running dimensions beyond a toe [mm]."""


def part_drawing(
    part: Part, width: float, height: float, *, holes: bool = True, limits: Limits | None = None
) -> tuple[Group, float, Fraction] | None:
    """The two faces within a box whose top left corner is (0, 0), how deep they are [mm], and their scale.

    None where no usual scale gives a drawing that fits, can be read, and has no figure on another.
    Without ``holes`` they are drawn and have no figures: those are in a list then. What a rule has to show is written
    full or bare by the ``limits`` (else those usual for the part's unit).
    """
    return Drawings(part, width, limits or Limits.usual(part.unit)).fitting(height, holes)


class Drawings:
    """The drawings of a part in one width, each made once: a card is laid out again and again until all has room on it."""

    def __init__(self, part: Part, width: float, limits: Limits) -> None:
        self.part, self.width, self.limits = part, width, limits
        self._made: dict[tuple[Fraction, bool], _Drawing | None] = {}

    def fitting(self, height: float, holes: bool = True) -> tuple[Group, float, Fraction] | None:
        """The largest within this height, as :func:`part_drawing` gives it."""
        least = LEAST / 25.4 / float(min(self.part.section.leg_a, self.part.section.leg_b))
        for scale in SCALES:
            if float(scale) < least:
                return None
            drawing = self._at(scale, holes)
            if drawing is not None and drawing.deep <= height and drawing.clean:
                return move(drawing.items, 0, -drawing.top), drawing.deep, scale
        return None

    def _at(self, scale: Fraction, holes: bool) -> _Drawing | None:
        if (scale, holes) not in self._made:
            self._made[scale, holes] = self._drawn(scale, holes)
        return self._made[scale, holes]

    def _drawn(self, scale: Fraction, holes: bool) -> _Drawing | None:
        """None where it is too wide, or its figures run out of the box."""
        part, unit = self.part, 25.4 * float(scale)
        for beside in RIGHTS:
            room = self.width - LEFT - beside
            axis = Axis.fit(float(part.length), features_along(part), room, unit, LEFT)
            if axis.right - axis.left > room + 0.01:
                return None
            with unit_in_head():  # it stands beside the scale
                items = _views(part, axis, self.width, holes, self.limits)
            items += _scale(part, axis, scale, items, holes)
            left, bottom, right, top = bounds(items)
            if right <= self.width + 0.5:
                return _Drawing(items, top, top - bottom) if left >= -0.5 else None
        return None


class _Drawing:
    """A drawing with its top and how deep it is [mm]."""

    def __init__(self, items: Group, top: float, deep: float) -> None:
        self.items, self.top, self.deep = items, top, deep

    @cached_property
    def clean(self) -> bool:
        """Whether every figure can be read: none lies on another, none is struck through."""
        left, bottom, right, top = bounds(self.items)
        sheet = Sheet(right - left + 20, top - bottom + 20, move(self.items, 10 - left, 10 - bottom), "drawing", "A drawing to be checked.")
        return not overlaps(sheet, "paper") and not struck(sheet, "paper")


def origin(part: Part) -> Fraction | None:
    """x of the place that running dimensions start from: the witness line's, else 0; None where there is neither."""
    witness = witness_line(part)
    if witness is not None:
        return witness
    return None if datum_lost(part, 1) else Fraction(0)


def _views(part: Part, axis: Axis, width: float, holes: bool, limits: Limits) -> Group:
    items: list[Item] = []
    start = origin(part)
    faces = {leg: Face(axis, 0.0, direction(leg)) for leg in ("A", "B")}
    for leg, face in faces.items():
        items += outer_view(part, leg, axis, 0.0, dimensions=False)
        items += _along(part, leg, face, start or Fraction(0), width, holes, limits)
        items += _across(part, leg, face, holes, limits)
        items += _name(part, leg, face)
    if witness_line(part) is not None:
        for face in faces.values():
            x = float(start or 0)
            items += face.path([(x, 0.0), (x, float(part.section.leg("A" if face is faces["A"] else "B")))], "mark", True)
    elif start is not None:
        leg = next((leg for leg in ("B", "A") if part.taper_at(leg, 1) is None), "B")
        height = faces[leg].h(part.section.leg(leg) / 2)
        items += datum_sign(axis.left, height, "end 1, datum", letter=SMALL)
    items.append(Label(axis.right + 9.6, 0, "heel", SMALL, "start", "middle"))
    return tuple(items)


def _scale(part: Part, axis: Axis, scale: Fraction, drawn: Group, holes: bool) -> Group:
    """The scale, and the fastener of the holes, under the name of the lower face; several are named at their holes."""
    y = Face(axis, 0.0, direction("A")).h(part.section.leg("A")) - 3.0 - 4.0
    items: list[Item] = [Label(0, y, head(f"scale {scale_text(scale)}"), SMALL, "start", "middle")]
    kinds = sorted({(hole.diameter, hole.flush) for hole in part.holes if holes})
    if len(kinds) == 1:
        above = Face(axis, 0.0, direction("B")).h(part.section.leg("B")) + 3.0 + 4.0
        words = f"fastener {_fastener(*kinds[0])}"
        ways = [(Label(0, at, words, SMALL, "start", "middle"),) for at in (y - 4.0, above, above + 4.0, y - 8.0)]
        items += clearest((*drawn, *items), ways)
    elif kinds:
        for hole in part.holes:
            face = Face(axis, 0.0, direction(hole.leg))
            x, high = face.at(float(hole.x), float(hole.y))
            r = float(hole.diameter) / 2 * axis.unit
            items.append(Label(x + r + 0.9, high + r + 0.6, _fastener(hole.diameter, hole.flush), SMALL, "start"))
    return tuple(items)


def _fastener(diameter: Fraction, flush: bool) -> str:
    return f"{own(diameter)}{' flush' if flush else ''}"


def _name(part: Part, leg: str, face: Face) -> Group:
    y = face.h(part.section.leg(leg)) + face.up * 3.0
    return (Label(0, y, f"leg {leg}, outer face", SMALL, "start", "middle"),)


def along(part: Part, leg: str, holes: bool = True) -> dict[Number, float]:
    """The places along a leg that are dimensioned: x from end 1 -> height from the heel."""
    width = float(part.section.leg(leg))
    at: dict[Number, float] = {}

    def add(x: Number, h: float) -> None:
        if 0 <= float(x) <= float(part.length):
            at[x] = max(h, at.get(x, 0.0))

    for cut in cuts_of(part, leg):
        add(from_end_1(part, cut.end, cut.reach), width)
    for hole in part.holes_in(leg) if holes else ():
        add(hole.x, float(hole.y + hole.diameter / 2))
    return at


def _along(part: Part, leg: str, face: Face, start: Fraction, width: float, holes: bool, limits: Limits) -> Group:
    """Running dimensions of a leg from the datum; the length stands with leg A."""
    places = along(part, leg, holes)
    leg_width = float(part.section.leg(leg))
    if leg == "A" or places:
        two = part.taper_at(leg, 2)
        places[part.length] = float(two.width_left) if two else leg_width
        if start:
            one = part.taper_at(leg, 1)
            places[Fraction(0)] = float(one.width_left) if one else leg_width
    if not places:
        return ()
    at = face.h(leg_width) + face.up * 3.4
    foot = None if start else face.h(_height_at_start(part, leg))
    for words in (marked_both, marked):  # the fraction alone where both are too many
        stops = [
            Stop(face.axis.at(float(x)), face.h(h), words(abs(x - start), limits.length(abs(x - start)))) for x, h in places.items() if x != start
        ]
        if start:
            stops.append(Stop(face.axis.at(float(start)), face.h(leg_width), "witness line (datum)"))
        items = running_dimensions(
            face.axis.at(float(start)), stops, at, letter=SMALL, low=LEFT - 14, high=width, foot=foot
        )
        if not any(isinstance(item, Label) and item.rotation for item in items):
            break
    return items


def _height_at_start(part: Part, leg: str) -> Fraction:
    one = part.taper_at(leg, 1)
    return one.width_left if one else part.section.leg(leg)


def _across(part: Part, leg: str, face: Face, holes: bool, limits: Limits) -> Group:
    """Heights from the heel: holes and the toe at the right, the width left at its end."""
    axis = face.axis
    items: list[Item] = []
    heights: dict[Fraction, str] = {}
    for hole in part.holes_in(leg) if holes else ():
        heights.setdefault(hole.y, both(hole.y))
    heights[part.section.leg(leg)] = both(part.section.leg(leg))
    for cut in cuts_of(part, leg):
        if cut.left and (cut.kind == COPE or cut.end == 2):
            heights.setdefault(cut.left, marked_both(cut.left, limits.length(cut.left)))
    stops = [Stop(face.h(y), axis.right, text) for y, text in heights.items()]
    low, high = (face.h(0) + 4.4, 1e9) if face.up > 0 else (-1e9, face.h(0) - 4.4)  # clear of the heel's name
    dimensions = running_dimensions(face.h(0), stops, axis.right + 6.5, "y", letter=SMALL, low=low, high=high)
    # close figures would clear parts of one another
    items += [replace(item, halo=False) if isinstance(item, Label) else item for item in dimensions]
    one = part.taper_at(leg, 1)
    if one is not None and one.width_left:
        p, q = (axis.left, face.h(0)), (axis.left, face.h(one.width_left))
        low, high = (p, q) if p[1] < q[1] else (q, p)
        items += upright_dimension(low, high, axis.left - 5, marked_both(one.width_left, limits.length(one.width_left)), -1, SMALL)
    return tuple(items)


def hole_words(part: Part) -> str:
    """The holes by their fasteners: which diameters, how many, flush or not."""
    counts: dict[tuple[Fraction, bool], int] = {}
    for hole in part.holes:
        counts[(hole.diameter, hole.flush)] = counts.get((hole.diameter, hole.flush), 0) + 1
    return ", ".join(
        f"{count} x {own(diameter)}{' flush' if flush else ''}" for (diameter, flush), count in sorted(counts.items())
    )

