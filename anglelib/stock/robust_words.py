"""What a plan bears, in words; the numbers are data in :mod:`anglelib.stock.robust`.

>>> blade(None), blade(Fraction(235, 16)), blade(Fraction(3, 32))
('every blade that there is', 'every blade that there is', 'a blade of up to 3/32')
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import floor
from typing import TYPE_CHECKING

from anglelib.job import MOST_KERF
from anglelib.lengths import MM, about, decimal, exact, unit_written
from anglelib.stock import robust
from anglelib.stock.wording import and_

if TYPE_CHECKING:
    from anglelib.stock.robust import PartBears, Robustness, StickBears


def stick(bears: StickBears) -> str:
    """What one stick bears."""
    return f"{bears.stick.id} may be {_down(bears.short)} shorter than listed, and serves with {blade(bears.kerf)}."


def part(bears: PartBears) -> str:
    """Whether one piece of a part may be spoiled."""
    name = bears.part.id
    return {
        robust.LEFT: f"One {name} may be spoiled: what is left when all is sawn gives another.",
        robust.AGAIN: f"{name} can be replaced only if it is noticed at its cut and what is not sawn yet is planned again.",
        robust.NOT: f"{name} may not be spoiled: there is no metal for another.",
        robust.OPEN: f"Whether {name} could be replaced is not known: take it that it may not be spoiled.",
    }[bears.replaced]


def sentence(found: Robustness) -> str:
    """Which part may not be spoiled, then the blade and the tape."""
    return " ".join(_said(found))


def _said(found: Robustness) -> Iterator[str]:
    for how, said in (
        (robust.NOT, "{} may not be spoiled: there is no metal for another."),
        (robust.OPEN, "Whether {} could be replaced is not known: take it that it may not be spoiled."),
        (robust.AGAIN, "{} can be replaced only if it is noticed at the cut and what is not sawn yet is planned again."),
    ):
        if names := [bears.part.id for bears in found.parts if bears.replaced == how]:
            yield said.format(and_(names))
    if found.parts and all(bears.replaced == robust.LEFT for bears in found.parts):
        yield "Any one piece may be spoiled: what is left gives another."
    elif any(bears.replaced == robust.LEFT for bears in found.parts):
        yield "One piece of any other part can be replaced from what is left."
    if found.sticks:
        tightest = min(found.sticks, key=lambda bears: (bears.short, bears.stick.id))
        saw = f"The plan holds with {blade(found.kerf)}"
        if not tightest.short:
            yield f"{saw}; {tightest.stick.id} may not be shorter than listed: measure it first."
        elif len(found.sticks) == 1:
            yield f"{saw}, and its stick may be {_down(tightest.short)} shorter than listed."
        else:
            yield f"{saw}; every stick may be {_down(tightest.short)} shorter than listed, and {tightest.stick.id} no more than that."


def blade(kerf: Fraction | None) -> str:
    """How thick a blade may be; beyond the thickest that there is, any."""
    return "every blade that there is" if kerf is None or kerf > MOST_KERF else f"a blade of up to {_down(kerf)}"


def _down(value: Fraction) -> str:
    """A limit in words: as a rule shows it, or else a decimal that is not above it."""
    if unit_written() == "mm":
        return about(floor(value / MM * 100) * MM / 100)
    return exact(value) if 64 % value.denominator == 0 else decimal(Fraction(floor(value * 1000), 1000))
