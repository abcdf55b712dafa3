"""Layout: the marks of a part as data: what is struck on which face, from which datum, where the finished and the saw line lie.

A line is struck with the square on the part side: the edge of the ink next to the part is the dimension. What a mark is
called, where it is and how it is written is looked up in :mod:`anglelib.geometry.mark_words`.

>>> from anglelib.section import Section
>>> from anglelib.part import Taper
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> bracket = Part("C1L", "Bracket", stock, "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")])
>>> [(mark.kind, mark.face, str(mark.wanted)) for mark in taper_marks(taper_lines(bracket)[0], Shop())]
[('run', 'A-toe', '17/8'), ('first-flat', 'A-inner', '17/40'), ('vertex', 'B-inner', '17/80')]
>>> witness_line(bracket)
Fraction(5, 2)
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from anglelib.geometry.taper import Number, TaperLine, from_end_1, taper_lines
from anglelib.job import Shop
from anglelib.lengths import MM
from anglelib.part import Cope, Part

CLEAR = Fraction(1, 8)
"""How far a witness line stays from the nearest cut [in]; common practice."""
ROUND_STEPS = {"in": tuple(Fraction(1, n) for n in (2, 4, 8, 16)), "mm": tuple(MM * n for n in (10, 5, 2, 1))}
"""Steps of a rule by the unit of a part [in]: a witness line is struck at a multiple of the coarsest that finds room; common practice."""
FINEST = {"in": Fraction(1, 64), "mm": MM / 2}
"""The finest graduation of a rule [in]."""

RUN, WIDTH_LEFT, FIRST_FLAT, LAST_FLAT, VERTEX, OTHER_LEG = "run", "width-left", "first-flat", "last-flat", "vertex", "other-leg"
WITNESS, LENGTH = "witness", "length"
COPE_LENGTH, COPE_LEFT, COPE_CENTRE, ROUND = "cope-length", "cope-left", "cope-centre", "round"
KINDS = (RUN, WIDTH_LEFT, FIRST_FLAT, LAST_FLAT, VERTEX, OTHER_LEG, WITNESS, LENGTH, COPE_LENGTH, COPE_LEFT, COPE_CENTRE, ROUND)
"""What a mark is; VERTEX is the vertex-projection mark, OTHER_LEG the same where the taper leaves some width."""
FILLET, BOTH_OUTER = "fillet", "both-outer"
FROM_END, FROM_WITNESS, FROM_HEEL = "end", "witness", "heel"


def face(leg: str, inner: bool = False) -> str:
    """The id of a face of a leg.

    >>> face("A"), face("B", inner=True)
    ('A-outer', 'B-inner')
    """
    return f"{leg}-{'inner' if inner else 'outer'}"


def toe_edge(leg: str) -> str:
    """The id of the toe's edge of a leg, where a mark goes that is carried to the face that is up.

    >>> toe_edge("A")
    'A-toe'
    """
    return f"{leg}-toe"


@dataclass(frozen=True)
class Mark:
    """One mark on one face, for a cut at ``end``.

    ``at`` [in] is its distance along the heel from where it is measured (``origin``: "end", that is ``end`` itself;
    "other-end"; "witness"), on the finished line; ``saw`` the same for the saw line, outside the sanding allowance
    (None where there is none). ``y`` [in] is its height from the heel, None for a line square across the face. A mark
    ``across`` the end is measured from the heel: its numbers are ``y``, and ``saw`` the saw line's height there.
    ``leg`` is the leg that the cut is for; ``radius`` [in] that of a corner that is drilled or rounded here.
    """

    kind: str
    face: str
    end: int
    at: Number
    y: Number | None
    saw: Number | None
    across: bool = False
    leg: str = ""
    origin: str = FROM_END
    radius: Fraction | None = None

    @property
    def wanted(self) -> Number:
        """The number that is laid off: from the heel for a mark across the end, else along the heel [in]."""
        assert self.y is not None or not self.across
        return self.y if self.across else self.at  # type: ignore[return-value]


# --- tapers -----------------------------------------------------------------------------------------------
def taper_marks(line: TaperLine, shop: Shop) -> tuple[Mark, ...]:
    """The marks of a taper, from the toe to where the line leaves, in lengths from the tapered end."""
    saw, end, leg = line.offset(shop.allowance), line.end, line.leg
    marks = [Mark(RUN, toe_edge(leg), end, line.run, line.width, saw.toe, leg=leg)]
    t, r = line.other_thickness, line.section.fillet
    if line.ends_in == "flat":
        marks.append(Mark(WIDTH_LEFT, face(leg), end, Fraction(0), line.width_left, saw.end_height, True, leg))
        return tuple(marks)
    if line.section.toe_radius and line.last_flat is not None:
        high = line.width - line.section.toe_radius
        marks.append(Mark(LAST_FLAT, face(leg, True), end, line.last_flat, high, _on_metal(saw.at(high)), leg=leg))
    marks.append(Mark(FIRST_FLAT, face(leg, True), end, line.first_flat, t + r, _on_metal(saw.at(t + r)), leg=leg))  # type: ignore[arg-type]
    if line.ends_in == "fillet":
        marks.append(Mark(WIDTH_LEFT, FILLET, end, Fraction(0), line.width_left, saw.end_height, True, leg))
    if line.vertex_projection is not None:
        kind = VERTEX if line.to_vertex else OTHER_LEG
        marks.append(Mark(kind, face(line.other, True), end, line.vertex_projection, None, saw.vertex_projection, leg=leg))
    return tuple(marks)


def _on_metal(distance: Number) -> Number | None:
    """A distance from the end, None where it is beyond it: there the saw line misses the face."""
    return distance if distance >= 0 else None


# --- copes and rounded corners ------------------------------------------------------------------------------
def cope_marks(cope: Cope, shop: Shop) -> tuple[Mark, ...]:
    """The marks of a cope on its leg's outer face: the line square to the heel, the line along it, the inside corner's centre.

    >>> [(mark.kind, str(mark.wanted), str(mark.saw)) for mark in cope_marks(Cope("A", 1, 1, "3/8", "1/8"), Shop())]
    [('cope-length', '1', '31/32'), ('cope-left', '3/8', '13/32'), ('cope-centre', '7/8', 'None')]
    """
    on, end, leg, r = face(cope.leg), cope.end, cope.leg, cope.radius
    return (
        Mark(COPE_LENGTH, on, end, cope.length, None, max(Fraction(0), cope.length - shop.allowance), leg=leg),
        Mark(COPE_LEFT, on, end, Fraction(0), cope.width_left, cope.width_left + shop.allowance, True, leg),
        Mark(COPE_CENTRE, on, end, cope.length - r, cope.width_left + r, None, leg=leg, radius=r),
    )


def round_marks(part: Part) -> tuple[Mark, ...]:
    """Where the arcs of the rounded corners begin on the toe, in lengths from their own end. PartError where an arc does not fit."""
    from anglelib.geometry.rounding import rounded_corners

    marks = []
    for corner, arc in zip(part.corners, rounded_corners(part), strict=True):
        x = arc.starts[0][0]
        at = x if corner.end == 1 else float(part.length) - x
        taper = part.taper_at(corner.leg, corner.end)
        exactly: Number = corner.radius if taper is None else at  # at a square end the arc begins a radius from it
        marks.append(Mark(ROUND, toe_edge(corner.leg), corner.end, exactly, part.section.leg(corner.leg), None, leg=corner.leg, radius=corner.radius))
    return tuple(marks)


def length_mark(part: Part, end: int, shop: Shop) -> Mark:
    """The mark of the cut to length, at ``end``: from the other end, or from the witness line where a cut takes a square end away."""
    witness = witness_line(part)
    if witness is None:
        reading, origin = part.length, "other-end"
    else:
        reading, origin = (part.length - witness if end == 2 else witness), FROM_WITNESS
    return Mark(LENGTH, BOTH_OUTER, end, reading, None, reading + shop.allowance, origin=origin)


def witness_mark(part: Part, first: int) -> Mark | None:
    """The witness line, laid off from the end that is squared first; None where both ends stay to measure from."""
    witness = witness_line(part)
    return None if witness is None else Mark(WITNESS, BOTH_OUTER, first, from_end_1(part, first, witness), None, None)


def plan_line(part: Part, shop: Shop) -> Fraction:
    """The saw line of the cut to length from the near end of its blank as the plan lays it out, before that end is squared [in].

    It is one line with :func:`saw_line`: squaring takes the sanding allowance off the near end.
    """
    # The formula ``blank_length``; a plan is made without the formulas' import, and a test holds the two equal.
    return part.length + 2 * shop.allowance


def saw_line(part: Part, shop: Shop) -> Fraction:
    """The same line from the near end once it is squared [in].

    >>> from anglelib.section import Section
    >>> bar = Part("P1", "Bar", Section(1, 1, "1/8"), "6061-T6", 2)
    >>> plan_line(bar, Shop()) - saw_line(bar, Shop()) == Shop().allowance
    True
    """
    return part.length + shop.allowance


# --- datum --------------------------------------------------------------------------------------------------
def datum_lost(part: Part, end: int) -> bool:
    """Whether a cut takes away the square end: a taper to the vertex leaves the other leg a feather edge."""
    return any(taper.end == end and not taper.width_left for taper in part.tapers)


def clear_zone(part: Part) -> tuple[Number, Number]:
    """From where to where along the heel no taper and no cope cuts into either leg: (first x, last x)."""
    first: Number = Fraction(0)
    last: Number = part.length
    for end, reach in (*((line.end, line.run) for line in taper_lines(part)), *((cope.end, cope.length) for cope in part.copes)):
        if end == 1:
            first = max(first, reach)
        else:
            last = min(last, part.length - reach)
    return first, last


def witness_line(part: Part) -> Fraction | None:
    """Where to strike the witness line: x from end 1, or None where both ends stay square to measure from.

    It is the first number, round in the part's unit, that is clear of all cuts, of both ends and of every hole; where
    the cuts leave no such place it raises nothing and gives the middle of what room there is. The line and its place are common
    practice; that all is marked from one datum is taught so (the source is beside :data:`anglelib.job.ALLOWANCE`).
    """
    if not (datum_lost(part, 1) or datum_lost(part, 2)):
        return None
    first, last = clear_zone(part)
    if first >= last:
        return None
    for clear in (CLEAR, CLEAR / 2):
        low, high = _exactly(first) + clear, _exactly(last) - clear
        for step in ROUND_STEPS[part.unit]:
            x = ceil(low / step) * step
            while x <= high:
                if all(abs(x - hole.x) > hole.diameter / 2 + Fraction(1, 16) for hole in part.holes):
                    return x
                x += step
    finest = FINEST[part.unit]
    return round((_exactly(first) + _exactly(last)) / 2 / finest) * finest


def _exactly(value: Number) -> Fraction:
    return value if isinstance(value, Fraction) else Fraction(value).limit_denominator(10**6)
