"""Layout: the marks of a part, on which face, from which datum, and what rounding may do to them.

A mark that must not undercut is rounded away from the part. A line is struck with the square on the
part side: the edge of the ink next to the part is the dimension.

>>> from anglelib.section import Section
>>> from anglelib.part import Taper
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> bracket = Part("C1L", "Bracket", stock, "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")])
>>> [(mark.name, mark.text) for mark in taper_marks(taper_lines(bracket)[0], Shop())]
[('run', '2 1/8 (2.125)'), ('first flat mark', '27/64 (0.425)'), ('vertex-projection mark', '13/64 (0.213)')]
>>> witness_line(bracket)
Fraction(5, 2)
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from anglelib.geometry.taper import Number, TaperLine, taper_lines
from anglelib.job import Shop
from anglelib.lengths import both, exact
from anglelib.part import Part

BLUNT = Fraction(1, 32)
"""To what a feather edge is blunted [in]; common practice."""
CLEAR = Fraction(1, 8)
"""How far a witness line stays from the nearest cut [in]; common practice."""


@dataclass(frozen=True)
class Mark:
    """One mark on one face.

    ``at`` [in] is its distance from ``end`` along the heel, on the finished line; ``saw`` the same
    for the saw line, outside the sanding allowance (None where that line leaves through the end
    before it). ``y`` [in] is its height from the heel, None for a line square across the face.
    ``rounding`` is the direction that leaves metal on the part. A mark ``across`` the end is
    measured from the heel: its numbers are ``y``, and ``saw`` the saw line's height there.
    """

    name: str
    face: str
    end: int
    at: Number
    y: Number | None
    saw: Number | None
    rounding: str
    how: str
    across: bool = False

    @property
    def text(self) -> str:
        """The finished mark to 1/64, with its decimal."""
        return both(self.y if self.across else self.at, 64, self.rounding)

    @property
    def saw_text(self) -> str:
        """The saw line's mark to 1/64, with its decimal; a dash where there is none."""
        return "-" if self.saw is None else both(self.saw, 64, self.rounding)


def taper_marks(line: TaperLine, shop: Shop) -> tuple[Mark, ...]:
    """The marks of a taper, from the toe to where the line leaves, in lengths from the tapered end."""
    saw = line.offset(shop.allowance)
    a, b, end = f"leg {line.leg}", f"leg {line.other}", line.end
    # Rounding towards the end leaves metal: the part lies beyond the line.
    marks = [
        Mark("run", f"{a}, toe's edge", end, line.run, line.width, saw.toe, "down",
             f"on the toe's edge of {a}, carried to the face that is up")
    ]  # fmt: skip
    t, r = line.other_thickness, line.section.fillet
    if line.ends_in == "flat":
        marks.append(
            Mark("width left", f"{a}, outer face", end, Fraction(0), line.width_left, saw.end_height, "up",
                 f"on the end, from the heel across {a}", across=True)
        )  # fmt: skip
        return tuple(marks)
    if line.section.toe_radius and line.last_flat is not None:
        marks.append(
            Mark("last flat mark", f"{a}, inner face", end, line.last_flat, line.width - line.section.toe_radius,
                 saw.at(line.width - line.section.toe_radius), "down", "where the rounded toe begins")
        )  # fmt: skip
    marks.append(
        Mark("first flat mark", f"{a}, inner face", end, line.first_flat, t + r, saw.at(t + r), "down",
             f"beside the fillet, {exact(r)} from the inner face of {b}" if r else "in the inside corner")
    )  # fmt: skip
    if line.ends_in == "fillet":
        marks.append(
            Mark("width left", "fillet", end, Fraction(0), line.width_left, saw.end_height, "up",
                 f"on the end, inside the fillet, from the heel across {a}", across=True)
        )  # fmt: skip
    if line.vertex_projection is not None:
        name = "vertex-projection mark" if line.to_vertex else "mark on the other leg"
        marks.append(
            Mark(name, f"{b}, inner face", end, line.vertex_projection, None, saw.vertex_projection, "down",
                 f"square across the inner face of {b}")
        )  # fmt: skip
    return tuple(marks)


def datum_lost(part: Part, end: int) -> bool:
    """Whether a cut takes away the square end: a taper to the vertex leaves the other leg a feather edge."""
    return any(line.end == end and line.to_vertex for line in taper_lines(part))


def clear_zone(part: Part) -> tuple[Number, Number]:
    """From where to where along the heel no taper and no cope cuts into either leg: (first x, last x)."""
    first: Number = Fraction(0)
    last: Number = part.length
    for line in taper_lines(part):
        if line.end == 1:
            first = max(first, line.run)
        else:
            last = min(last, part.length - line.run)
    for cope in part.copes:
        if cope.end == 1:
            first = max(first, cope.length)
        else:
            last = min(last, part.length - cope.length)
    return first, last


def witness_line(part: Part) -> Fraction | None:
    """Where to strike the witness line: x from end 1, or None where both ends stay square to measure from.

    It is the first round number that is clear of all cuts, of both ends and of every hole; where
    the cuts leave no such place it raises nothing and gives the middle of what room there is.
    """
    if not (datum_lost(part, 1) or datum_lost(part, 2)):
        return None
    first, last = clear_zone(part)
    if first >= last:
        return None
    for clear in (CLEAR, CLEAR / 2):
        low, high = _exactly(first) + clear, _exactly(last) - clear
        for step in (Fraction(1, 2), Fraction(1, 4), Fraction(1, 8), Fraction(1, 16)):
            x = ceil(low / step) * step
            while x <= high:
                if all(abs(x - hole.x) > hole.diameter / 2 + Fraction(1, 16) for hole in part.holes):
                    return x
                x += step
    return Fraction(round((_exactly(first) + _exactly(last)) / 2 * 64), 64)


def _exactly(value: Number) -> Fraction:
    return value if isinstance(value, Fraction) else Fraction(value).limit_denominator(10**6)
