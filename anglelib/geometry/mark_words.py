"""Marks in words and numbers as a rule shows them: what :mod:`anglelib.geometry.layout` knows by ids.

>>> from anglelib.geometry.layout import taper_lines, taper_marks
>>> from anglelib.job import Shop
>>> from anglelib.part import Part, Taper
>>> from anglelib.section import Section
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> bracket = Part("C1L", "Bracket", stock, "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")])
>>> for mark in taper_marks(taper_lines(bracket)[0], Shop()):
...     print(name(mark), "|", face_words(mark.face), "|", written(mark, Limits()))
run | leg A, toe's edge | 2 1/8 (2.125)
first flat mark | leg A, inner face | 27/64 (0.425)
vertex-projection mark | leg B, inner face | 7/32 (0.213)
"""

from __future__ import annotations

from fractions import Fraction

from anglelib.geometry import layout
from anglelib.geometry.layout import Mark
from anglelib.geometry.taper import Number
from anglelib.lengths import exact, marked, marked_both, own
from anglelib.part import other_end
from anglelib.section import Section, other_leg
from anglelib.tolerances import Limits

_NAMES = {
    layout.RUN: "run",
    layout.WIDTH_LEFT: "width left",
    layout.FIRST_FLAT: "first flat mark",
    layout.LAST_FLAT: "last flat mark",
    layout.VERTEX: "vertex-projection mark",
    layout.OTHER_LEG: "mark on the other leg",
    layout.WITNESS: "witness line",
    layout.LENGTH: "length, end {end}",
    layout.COPE_LENGTH: "cope, back from the end",
    layout.COPE_LEFT: "cope, width left",
    layout.COPE_CENTRE: "cope, centre of its corner",
    layout.ROUND: "round, start of the arc",
}
_BRIEF = {layout.FIRST_FLAT: "first flat", layout.LAST_FLAT: "last flat", layout.VERTEX: "vertex projection", layout.OTHER_LEG: "on the other leg"}
_HOW = {
    layout.RUN: "on the toe's edge of leg {leg}, carried to the face that is up",
    layout.LAST_FLAT: "where the rounded toe begins",
    layout.VERTEX: "square across the inner face of leg {other}",
    layout.OTHER_LEG: "square across the inner face of leg {other}",
    layout.WITNESS: "square across both outer faces",
    layout.LENGTH: "from {origin}, square across both outer faces",
    layout.COPE_LENGTH: "square to the heel, from the toe down",
    layout.COPE_LEFT: "along the heel, from the end in",
    layout.COPE_CENTRE: "punched: the corner is drilled here, radius {radius}",
    layout.ROUND: "on the toe's edge: radius {radius}",
}


def name(mark: Mark) -> str:
    """What a mark is called."""
    return name_of(mark.kind, mark.end)


def name_of(kind: str, end: int = 0) -> str:
    """What a kind of mark is called; that of the length by its end.

    >>> name_of("witness"), name_of("length", 2)
    ('witness line', 'length, end 2')
    """
    return _NAMES[kind].format(end=end)


def brief(mark: Mark) -> str:
    """The same in few words, for a projector."""
    return _BRIEF.get(mark.kind) or name(mark)


def face_words(face: str) -> str:
    """The name of a face.

    >>> face_words("B-inner"), face_words("A-toe"), face_words("both-outer"), face_words("fillet")
    ('leg B, inner face', "leg A, toe's edge", 'both outer faces', 'fillet')
    """
    if face == layout.FILLET:
        return "fillet"
    if face == layout.BOTH_OUTER:
        return "both outer faces"
    leg, _, side = face.partition("-")
    return f"leg {leg}, toe's edge" if side == "toe" else f"leg {leg}, {side} face"


def origin(mark: Mark) -> str:
    """What a mark is measured from: an end, the witness line, or the heel."""
    if mark.across:
        return f"heel, at end {mark.end}"
    if mark.origin == layout.FROM_WITNESS:
        return "witness line"
    return f"end {other_end(mark.end) if mark.origin == 'other-end' else mark.end}"


def how(mark: Mark, section: Section) -> str:
    """Where and how a mark is struck."""
    other = other_leg(mark.leg) if mark.leg else ""
    if mark.kind == layout.FIRST_FLAT:
        r = section.fillet
        return f"beside the fillet, {exact(r)} from the inner face of leg {other}" if r else "in the inside corner"
    if mark.kind == layout.WIDTH_LEFT:
        inside = "inside the fillet, " if mark.face == layout.FILLET else ""
        return f"on the end, {inside}from the heel across leg {mark.leg}"
    radius = "" if mark.radius is None else own(mark.radius) if mark.kind == layout.COPE_CENTRE else exact(mark.radius)  # a drill's
    from_ = f"the {origin(mark)}" if mark.origin == layout.FROM_WITNESS else origin(mark)
    return _HOW[mark.kind].format(leg=mark.leg, other=other, origin=from_, radius=radius)


# --- numbers --------------------------------------------------------------------------------------------------
def off(value: Number, limits: Limits) -> Fraction:
    """How far off a mark may be, either way [in]."""
    return limits.length(value if isinstance(value, float) else Fraction(value))


def written(mark: Mark, limits: Limits) -> str:
    """The finished line as a rule shows it, with its decimal; the centre of a corner by both its numbers."""
    if mark.kind == layout.COPE_CENTRE:
        assert mark.y is not None
        return f"{marked(mark.at, off(mark.at, limits))}, {marked(mark.y, off(mark.y, limits))} high"
    return marked_both(mark.wanted, off(mark.wanted, limits))


def saw_written(mark: Mark, limits: Limits) -> str:
    """The saw line as a rule shows it, with its decimal; a dash where there is none."""
    return "-" if mark.saw is None else marked_both(mark.saw, off(mark.wanted, limits))


def saw_short(mark: Mark, limits: Limits) -> str:
    """The saw line as a rule shows it, without its decimal."""
    return "-" if mark.saw is None else marked(mark.saw, off(mark.wanted, limits))


def short_number(value: Number, limits: Limits) -> str:
    """A number of a mark as a rule shows it, without its decimal."""
    return marked(value, off(value, limits))


