"""How far a taper may go before it takes a hole's edge distance, its run or its angle kept as the plans have it.

:func:`anglelib.geometry.holes.largest_run` keeps the width left; here the mark on the toe stays and the
angle grows, or the angle stays and the run grows. Either way less width is left at the end, down to
nothing, where the line runs to the vertex. What is measured is the distance to the taper's line, and
behind it on the other leg to the bevel; that the hole keeps its distance to the toe and to the end is
for other checks to say.

>>> from anglelib.section import Section
>>> from anglelib.part import Hole, Taper
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> cleat = Part("A1L", "Cleat", stock, "6061-T6", "2 1/8", [Taper("A", 1, "3/8", run="1 1/4")], [Hole("A", "1 1/8", "7/16", "1/8")])
>>> line = TaperLine.of(stock, cleat.tapers[0])
>>> round(line.angle, 2), round(largest_angle(cleat, line), 2), round(largest_run_at_angle(cleat, line), 4)
(16.7, 20.23, 1.2966)
"""

from __future__ import annotations

from collections.abc import Iterator
from math import hypot

from anglelib.errors import PartError
from anglelib.geometry.holes import HAIR, least_edge
from anglelib.geometry.lazy import formulas
from anglelib.geometry.taper import TaperLine
from anglelib.lengths import exact, own
from anglelib.part import Hole, Part


def largest_angle(part: Part, line: TaperLine) -> float | None:
    """The largest angle from the heel that keeps the edge distance of every hole, the run unchanged [deg].

    None where no hole limits it: then the line may run to the vertex. PartError where no angle keeps it.
    """
    f = formulas()
    run, width = float(line.run), float(line.width)
    found = [f.angle_from_run(X=run, W=width, s=0.0)]
    whole = found[0]
    for hole, x, reach in _holes(part, line):
        if hole.leg != line.leg:
            slope = f.run_before_bevel.solved_for("c")(X=run, x_n=x, e=reach, W=width, t=float(line.other_thickness))
            if slope <= 0:  # no bevel comes so far: the mark on the toe lies before it
                continue
            angle = f.angle_from_slope(c=slope)
        else:
            y = float(hole.y)
            away = hypot(x - run, width - y)
            if away < reach - HAIR:
                raise PartError(
                    f"{_place(hole)} is nearer than its edge distance to the taper's mark on the toe: no angle keeps its edge. "
                    "Shorten the run, or move the hole."
                )
            angle = f.greatest_angle(x=x, X=run, W=width, y=y, e=min(reach, away))
        if angle <= 0:
            raise PartError(f"{_place(hole)} is nearer than its edge distance to the toe before the taper: no angle keeps its edge. Move the hole.")
        found.append(angle)
    least = min(found)
    return None if least >= whole else least


def largest_run_at_angle(part: Part, line: TaperLine) -> float | None:
    """The longest run that keeps the edge distance of every hole, the angle unchanged [in].

    None where no hole limits it: then the line may run to the vertex. PartError where no run keeps it.

    >>> from anglelib.part import Hole, Taper
    >>> from anglelib.section import Section
    >>> cleat = Part("A1L", "Cleat", Section("3/4", "3/4", "1/8"), "6061-T6", 2, [Taper("A", 1, "3/8", angle=20)], [Hole("A", "1/8", "11/16", "1/8")])
    >>> largest_run_at_angle(cleat, TaperLine.of(cleat.section, cleat.tapers[0]))
    Traceback (most recent call last):
        ...
    anglelib.errors.PartError: The 1/8 hole of leg A at x = 1/8 leaves no room for a taper at 20.0 degrees: move the hole away from the end and from the toe.
    """
    f = formulas()
    width, slope = float(line.width), float(line.slope)
    whole = f.run_from_slope(W=width, s=0.0, c=slope)
    found = [whole]
    for hole, x, reach in _holes(part, line):
        if hole.leg != line.leg:
            run = f.run_before_bevel(x_n=x, e=reach, W=width, t=float(line.other_thickness), c=slope)
        else:
            run = f.run_at_angle(x=x, W=width, y=float(hole.y), e=reach, theta=line.angle)
        if run <= 0:
            raise PartError(
                f"{_place(hole)} leaves no room for a taper at {line.angle:.1f} degrees: move the hole away from the end and from the toe."
            )
        found.append(run)
    least = min(found)
    return None if least >= whole else least


def _holes(part: Part, line: TaperLine) -> Iterator[tuple[Hole, float, float]]:
    """Every hole, its distance from the taper's end, and its least edge distance [in].

    A hole of the other leg that is too near to the end already is taken to be just far enough: it bars every bevel, and no more.
    """
    for hole in part.holes:
        x, reach = float(hole.x if line.end == 1 else part.length - hole.x), float(least_edge(hole))
        yield hole, x if hole.leg == line.leg else max(x, reach), reach


def _place(hole: Hole) -> str:
    return f"The {own(hole.diameter)} hole of leg {hole.leg} at x = {exact(hole.x)}"
