"""A blank as it lies in its stick, for the elevation of a stick: which leg is towards you, where its cuts will be.

A stick is seen from outside, the heel down. A blank with end 1 at the left then shows leg B's outer face, and leg A is
edge on behind the heel; with end 2 at the left it shows leg A's. What is cut from the leg towards you is a line on it;
a cut of the leg behind is square to that leg, so that its edges are seen as upright lines in the leg's thickness.

>>> from anglelib.part import Taper
>>> from anglelib.section import Section
>>> strut = Part("P3", "Strut", Section(1, 1, "1/8"), "6061-T6", 6, [Taper("B", 2, "1/2", run=2), Taper("A", 1, "1/2", run=1)])
>>> lies = on_stick(strut, "P3", Fraction(0), Fraction(97, 16), 1, Fraction(1, 32))
>>> lies.leg, [(round(x, 3), round(y, 3)) for x, y in lies.seen[0]], lies.behind
('B', [(6.031, 0.5), (4.031, 1.0)], (1.03125,))
>>> on_stick(strut, "P3", Fraction(0), Fraction(97, 16), 2, Fraction(1, 32)).leg
'A'
"""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache

from anglelib.drawing.rack_view import Cut
from anglelib.geometry.cuts import cuts_of
from anglelib.geometry.edges import points_along
from anglelib.geometry.leg_shape import LegShape
from anglelib.geometry.outlines import flank, top_of
from anglelib.part import ENDS, Part
from anglelib.section import other_leg

Line = tuple[tuple[float, float], ...]
"""Points on the leg towards you: along the stick [in], and from the heel as a share of the leg's width."""
ARC_STEP = 15.0
"""How finely an arc is drawn [deg]: a stick is small on its paper."""


def leg_seen(left: int) -> str:
    """The leg towards you, where that end of a part lies at the left."""
    return "B" if left == 1 else "A"


def on_stick(
    part: Part, name: str, start: Fraction, end: Fraction, left: int, allowance: Fraction, sawn: bool = True, turned: bool = False, leg: str = ""
) -> Cut:
    """A blank from ``start`` to ``end`` along its stick as seen [in], the part's end ``left`` at the left.

    Its end at the datum has an ``allowance`` before the part begins. ``turned``: the datum is at the right. ``leg`` is the one
    towards you where the stick says so: a part that is its own mirror image may lie either way.
    """
    leg = leg or leg_seen(left)
    zero = start + allowance if not turned else end - allowance - part.length  # where the part's left end is

    def along(x: float) -> float:
        return float(zero) + (x if left == 1 else float(part.length) - x)

    seen, behind = _edges(part, leg)
    return Cut(
        name,
        start,
        end,
        sawn,
        left,
        leg,
        tuple(tuple((along(x), y) for x, y in line) for line in seen),
        tuple(sorted(along(x) for x in behind)),
        turned,
    )


@lru_cache(maxsize=1024)
def _edges(part: Part, leg: str) -> tuple[tuple[Line, ...], tuple[float, ...]]:
    """The edges of a part's cuts, in x from end 1: those on a leg's outer face, and where those of the other leg begin."""
    width = float(part.section.leg(leg))
    shape = LegShape.of(part, leg) if part.tapers or part.copes or part.corners else None
    seen = []
    for end in ENDS:
        cut = bool(cuts_of(part, leg, end)) or any((corner.leg, corner.end) == (leg, end) for corner in part.corners)
        top = top_of(shape, 0.0, width) if cut and shape is not None else None
        if top is not None:
            points = points_along(flank(shape, end, 0.0, top), ARC_STEP)  # type: ignore[arg-type]
            while len(points) > 2 and points[1][0] == points[0][0]:  # what stays square of the end lies on the saw's line
                points.pop(0)
            seen.append(tuple((x, y / width) for x, y in points))
    behind = [float(cut.reach) if cut.end == 1 else float(part.length - cut.reach) for cut in cuts_of(part, other_leg(leg))]
    return tuple(seen), tuple(behind)
