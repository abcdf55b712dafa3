"""Two ways to say one edge distance: from the hole's centre, and the metal that is left beyond the hole's edge.

>>> print(trap_sheet(Trap(Fraction(1, 8), Fraction(1, 4))).sentence)
A hole for a 1/8 rivet near an edge. From its centre to the edge 1/4 (0.250): 2.00 diameters, edge kept. From the hole's own edge it is half a diameter less, 3/16 (0.188): 1.50 diameters of metal.
>>> trap_sheet(Trap(Fraction(1, 8), Fraction(3, 16))).sentence.split(": ")[1]
"1.50 diameters, EDGE SHORT by 1/16. From the hole's own edge it is half a diameter less, 1/8 (0.125)"
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import cos, pi, sin

from anglelib.drawing.dimensions import linear_dimension
from anglelib.drawing.letters import text_width
from anglelib.drawing.sheet import Circle, Hatch, Item, Label, Line, Polyline, Sheet
from anglelib.drawing.symbols import hole, zigzag
from anglelib.drawing.warning import warning_sign
from anglelib.geometry.holes import PLAIN
from anglelib.lengths import about, both, exact, own, show

WIDTH, HEIGHT = 234.0, 108.0
LETTER = 3.5
CENTRE, MIDDLE, HALF = 70.0, 56.0, 26.0
DIAMETER, LONGEST = 32.0, 84.0
"""A rivet's diameter on the paper, smaller where the edge would lie further off than the second [mm]."""


@dataclass(frozen=True)
class Trap:
    """A rivet's diameter and how far from its centre the edge is [in]."""

    diameter: Fraction
    edge: Fraction

    @property
    def diameters(self) -> Fraction:
        """From the centre, in diameters."""
        return self.edge / self.diameter

    @property
    def short_by(self) -> Fraction:
        """By how much it is less than 2 diameters [in]; 0 where it is not."""
        return max(Fraction(0), PLAIN * self.diameter - self.edge)


def trap_sheet(trap: Trap, answer: bool = True, few: bool = False) -> Sheet:
    """The hole and its edge; the metal beyond the hole's edge only with the answer."""
    size = min(DIAMETER, LONGEST / float(trap.diameters))
    reach = float(trap.diameters) * size
    edge = CENTRE + reach
    radius = size / 2
    low, high = MIDDLE - HALF, MIDDLE + HALF
    items: list[Item] = [
        Polyline(((14, low), (edge, low), (edge, high), (14, high)), "outline"),
        zigzag(14, low, high),
        *hole(CENTRE, MIDDLE, radius),
        *_bare((CENTRE, high), (edge, high), high + 12),
        Label(edge + 10, high + 12, f"{exact(trap.edge)} = {float(trap.diameters):.2f} D", LETTER, "start", "middle"),
        Line(edge, low, edge, high, "outline"),
    ]
    if answer:
        circle = Circle(CENTRE, MIDDLE, float(PLAIN) * size, "fine-mark", "", True)
        text = f"{about(trap.edge - trap.diameter / 2)} = {float(trap.diameters) - 0.5:.2f} D of metal"
        items += _bare((CENTRE + radius, MIDDLE - radius), (edge, low), low - 12, True)
        items.append(Label(edge + 10, low - 12, text, LETTER, "start", "middle", accent=True))
        strip = ((CENTRE + radius, MIDDLE - 3), (edge, MIDDLE - 3), (edge, MIDDLE + 3), (CENTRE + radius, MIDDLE + 3))
        if reach - radius > 0.5:
            items.append(Hatch(strip, 45, 2.0, accent=True))
        arc = [p for p in _circle(circle) if 0 < p[0] and low < p[1] < high and p[0] > CENTRE]
        items.append(Polyline(tuple(arc), "fine-mark", accent=True))
        verdict, short = _verdict(trap), trap.short_by > 0
        items.append(Label(WIDTH - 4, 6, verdict, 5.0, "end", accent=short))
        items += warning_sign(WIDTH - 15 - text_width(verdict, 5.0), 5.5) if short else ()
    if not few:
        items.append(Label(4, 4, f"hole for a {own(trap.diameter)} rivet, D", LETTER, "start"))
    return Sheet(WIDTH, HEIGHT, tuple(items), "From the centre, or from the hole's edge", trap_sentence(trap, answer))


def _bare(one: tuple[float, float], two: tuple[float, float], at: float, accent: bool = False) -> tuple[Item, ...]:
    """A dimension line without its figures, which stand beside it."""
    return tuple(item for item in linear_dimension(one, two, at, "", letter=LETTER, accent=accent) if not isinstance(item, Label))


def _verdict(trap: Trap) -> str:
    return f"EDGE SHORT by {show(trap.short_by, 64, 'up')}" if trap.short_by else "edge kept"


def _circle(circle: Circle) -> list[tuple[float, float]]:
    return [(circle.x + circle.radius * cos(a * pi / 90), circle.y + circle.radius * sin(a * pi / 90)) for a in range(-60, 61)]


def trap_sentence(trap: Trap, answer: bool = True) -> str:
    """What the picture shows, in words."""
    words = f"A hole for a {own(trap.diameter)} rivet near an edge. From its centre to the edge {both(trap.edge)}"
    if not answer:
        return f"{words}, {float(trap.diameters):.2f} diameters. How much metal is left beyond the hole's edge is not shown yet."
    return (
        f"{words}: {float(trap.diameters):.2f} diameters, {_verdict(trap)}. From the hole's own edge it is half a diameter less, "
        f"{both(trap.edge - trap.diameter / 2)}: {float(trap.diameters) - 0.5:.2f} diameters of metal."
    )
