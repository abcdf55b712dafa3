"""What the readings of a part are called at the bench, and from which edge they are taken.

>>> from anglelib.part import Taper
>>> from anglelib.section import Section
>>> from anglelib.inspection.reading_ids import chosen
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> bracket = Part("C1L", "Bracket", stock, "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")])
>>> for id_ in chosen(bracket)[:3]:
...     print(reading_words(id_, bracket))
toe A, taper to end 2
toe B, over broken edge
leg A width, 1 1/16 from taper start
"""

from __future__ import annotations

from anglelib.geometry.taper import TaperLine
from anglelib.inspection import reading_ids as ids
from anglelib.inspection.reading_edges import below_corner, sharp_start, stands
from anglelib.inspection.reading_ids import Origin, ReadingId, origin
from anglelib.lengths import exact, place, writing
from anglelib.part import ENDS, Part

__all__ = ["brief_words", "origin_words", "reading_words", "short_words"]


def reading_words(id_: str, part: Part) -> str:
    """A reading of a part in words: what is measured, and from where, in the part's unit."""
    with writing(part.unit):
        return _reading_words(ReadingId.of(id_), part)


def _reading_words(one: ReadingId, part: Part) -> str:
    leg, end = one.leg, one.end
    if one.kind == ids.HEEL:
        return "heel" + over if (over := _over(part)) else "length along the heel"
    if one.kind == ids.TOE:
        return f"toe {leg}{_toe(part, leg)}{_below(part, leg)}"
    if one.kind == ids.WIDTH:
        return f"leg {leg} width, {_at(part, leg, end)}"
    if one.kind == ids.INSIDE:
        return f"leg {leg} inside, end {end}" if end else f"leg {leg}, inside width"
    if one.kind == ids.START:
        return f"taper start {leg}, from end {end}"
    if one.kind == ids.MID:
        return f"leg {leg} width, {_half_way(part, leg, end)}"
    if one.kind == ids.PEAK:
        return f"leg {leg}, greatest width"
    if one.kind == ids.THICKNESS:
        return f"thickness of leg {leg}"
    if one.kind == ids.COPE:
        return f"cope {leg}, back from end {end}"
    if one.kind == ids.CORNER:
        return f"corner radius {leg}, end {end}"
    if one.kind == ids.WEIGHT:
        return "weight"
    return _hole(part, one)


def _over(part: Part) -> str:
    """That a length is read over a feather edge that was broken or blunted."""
    lost = [taper for taper in part.tapers if not stands(part, taper.end) and not taper.width_left]
    if not lost:
        return ""
    return ", over blunted edge" if all(taper.blunt is not None for taper in lost) else ", over broken edge"


def _toe(part: Part, leg: str) -> str:
    """From what to what the length of a toe is read."""
    cut = {end: "taper" if part.taper_at(leg, end) else "cope" if any((c.leg, c.end) == (leg, end) for c in part.copes) else "" for end in ENDS}
    if cut[1] and cut[1] == cut[2]:
        return f", between {cut[1]}s"
    if cut[1] or cut[2]:
        return ", " + " to ".join(cut[end] or f"end {end}" for end in sorted(ENDS, key=lambda end: not cut[end]))  # from the cut to the end
    return _over(part) or ", end to end"


def _below(part: Part, leg: str) -> str:
    return ", below the rounding" if any(below_corner(part, leg, end) is not None and part.taper_at(leg, end) is None for end in ENDS) else ""


def _at(part: Part, leg: str, end: int) -> str:
    """Where the width of a leg is read at an end."""
    if any((cope.leg, cope.end) == (leg, end) for cope in part.copes):
        return f"beside the cope, end {end}"
    rounded = any((corner.leg, corner.end) == (leg, end) for corner in part.corners) and part.taper_at(leg, end) is None
    return f"behind the rounding, end {end}" if rounded else f"end {end}"


def _half_way(part: Part, leg: str, end: int) -> str:
    """Where the width of a leg half-way along a taper is read."""
    half = place(TaperLine.of(part.section, part.taper_at(leg, end)).run / 2)  # type: ignore[arg-type]
    if not sharp_start(part, leg, end):
        return f"{half} from end {end}"
    both_ends = len({t.end for t in part.tapers if t.leg == leg}) > 1
    return f"{half} from taper start" + (f", end {end}" if both_ends else "")


def _hole(part: Part, one: ReadingId) -> str:
    hole = part.holes[one.number - 1]
    same_leg = [h for h in part.holes if h.leg == hole.leg]
    at = f" at {exact(hole.x)}" if len(same_leg) > 1 else ""
    if sum(h.x == hole.x for h in same_leg) > 1:
        at += f", {exact(hole.y)} up"
    name = f"hole {hole.leg}{at}"
    return f"{name}, from {origin_words(origin(part), part)}" if one.kind == ids.HOLE_X else f"{name}, from heel"


def origin_words(place: Origin, part: Part) -> str:
    """What places along the heel are read from, in words."""
    if place.kind == ids.END:
        return f"end {place.end}"
    if place.kind == ids.TOE_CORNER:
        return f"taper start {place.leg}, end {place.end}"
    if place.kind == ids.HOLE:
        with writing(part.unit):
            return f"the hole at {exact(part.holes[place.number - 1].x)}"
    return "the witness line"


def short_words(id_: str, part: Part) -> str:
    """A reading in two or three words, for a picture: "toe A length", "far hole x".

    >>> from anglelib.section import Section
    >>> short_words("toe.A", Part("A3", "Bar", Section("3/4", "3/4", "1/8"), "6061-T6", 17))
    'toe A length'
    """
    one = ReadingId.of(id_)
    if one.number:
        hole, xs = part.holes[one.number - 1], [h.x for h in part.holes]
        with writing(part.unit):
            place = "far" if hole.x == max(xs) else "near" if hole.x == min(xs) else exact(hole.x)
        return f"{place} hole {'x' if one.kind == ids.HOLE_X else 'y'}"
    if one.kind == ids.INSIDE and not one.end:
        return f"inside width {one.leg}"
    return _SHORT[one.kind].format(leg=one.leg, end=one.end)


def brief_words(id_: str, part: Part) -> str:
    """The same for a projector: without its end."""
    one = ReadingId.of(id_)
    return _BRIEF[one.kind].format(leg=one.leg) if one.kind in _BRIEF else short_words(id_, part)


_BRIEF = {
    ids.WIDTH: "width {leg}",
    ids.INSIDE: "inside {leg}",
    ids.START: "taper start {leg}",
    ids.MID: "mid-taper {leg}",
    ids.COPE: "cope {leg}",
    ids.CORNER: "corner {leg}",
}
_SHORT = {
    ids.HEEL: "heel length",
    ids.TOE: "toe {leg} length",
    ids.WIDTH: "width {leg}, end {end}",
    ids.INSIDE: "inside width {leg}, end {end}",
    ids.START: "taper start {leg}, end {end}",
    ids.MID: "mid-taper width {leg}, end {end}",
    ids.PEAK: "greatest width {leg}",
    ids.THICKNESS: "thickness {leg}",
    ids.COPE: "cope {leg}, end {end}",
    ids.CORNER: "corner radius {leg}, end {end}",
    ids.WEIGHT: "weight",
}
