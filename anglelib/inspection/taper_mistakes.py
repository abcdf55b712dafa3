"""Mistakes in laying out a taper: right formulas with wrong numbers in them.

Each function takes the line as it should be and gives the line, or the mark [in from the tapered
end], that the mistake leads to; None where the mistake cannot be made on this line.

>>> from anglelib.section import Section
>>> from anglelib.part import Taper
>>> stock = Section("1 1/2", "1 1/2", "3/16", "1/8", fillet="3/16")
>>> line = TaperLine.of(stock, Taper("A", 1, angle=25))
>>> round(line.vertex_projection, 5), round(own_thickness(line), 5)
(0.26806, 0.4021)
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import sqrt

from anglelib.geometry.lazy import formulas
from anglelib.geometry.taper import Number, TaperLine


# --- other slopes -----------------------------------------------------------------------------------
def with_run_along_slope(line: TaperLine) -> TaperLine | None:
    """The run measured along the sloping edge: the line comes out steeper."""
    height = float(line.width - line.width_left)
    if float(line.run) <= height:
        return None
    return replace(line, slope=sqrt(float(line.run) ** 2 - height**2) / height)


def with_run_and_height_exchanged(line: TaperLine) -> TaperLine:
    """The angle set from square instead of from the heel, or run and height exchanged."""
    return replace(line, slope=1 / line.slope)


def with_width_left_forgotten(line: TaperLine) -> TaperLine | None:
    """A line through the vertex although the taper leaves some width at the end."""
    if line.to_vertex:
        return None
    return replace(line, width_left=Fraction(0), slope=formulas().slope_from_run(X=line.run, W=line.width, s=0))


# --- other marks -------------------------------------------------------------------------------------
def own_thickness(line: TaperLine) -> Number:
    """The vertex-projection mark with the tapered leg's own thickness in place of the other leg's."""
    own = line.section.thickness(line.leg)
    return formulas().vertex_projection(t=own, s=line.width_left, c=line.slope)


def straight_over_fillet(line: TaperLine) -> float | None:
    """Where a straight line comes out on the other leg when it is carried on over the unrolled fillet."""
    if line.vertex_projection is None or not line.section.fillet:
        return None
    place = float(line.vertex_projection) - line.straight_wrap_error
    return place if place > 0 else None


def inside_corner_line(line: TaperLine) -> TaperLine:
    """A line from the toe mark to where the inside corner meets the end: it leaves the other leg's thickness there."""
    left = line.other_thickness
    return replace(line, width_left=left, slope=formulas().slope_from_run(X=line.run, W=line.width, s=left))
