"""The cuts of a part one like the other: what each takes of which leg at which end, whether taper or cope.

Whoever asks how far the cuts of a leg reach, what they leave, or where something is to be shown, asks here, so that a new
kind of cut reaches all of them at once.

>>> from anglelib.part import Cope, Taper
>>> from anglelib.section import Section
>>> stock = Section("1 1/2", "1 1/2", "1/8", fillet="3/16")
>>> part = Part("P1", "Trial", stock, "6061-T6", 6, tapers=[Taper("A", 1, run=3)], copes=[Cope("B", 2, 1, "3/4", "1/8")])
>>> [(cut.kind, cut.leg, cut.end, str(cut.reach), str(cut.left)) for cut in cuts_of(part)]
[('taper', 'A', 1, '3', '0'), ('cope', 'B', 2, '1', '3/4')]
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from anglelib.geometry.taper import Number, taper_lines
from anglelib.part import Part

TAPER, COPE = "taper", "cope"


class Cut(NamedTuple):
    """One cut: its kind, leg and end; how far it reaches along the heel from that end, and the width of the leg that it leaves there [in]."""

    kind: str
    leg: str
    end: int
    reach: Number
    left: Fraction


def cuts_of(part: Part, leg: str = "", end: int = 0) -> tuple[Cut, ...]:
    """The cuts of a part, or of one leg, or at one end: tapers first, end 1 first."""
    found = [Cut(TAPER, line.leg, line.end, line.run, line.width_left) for line in taper_lines(part)]
    found += [Cut(COPE, cope.leg, cope.end, cope.length, cope.width_left) for cope in part.copes]
    return tuple(cut for cut in found if leg in ("", cut.leg) and end in (0, cut.end))


def stretch(cut: Cut, length: Fraction) -> tuple[float, float]:
    """From where to where along the heel a cut reaches, from end 1 [in].

    >>> stretch(Cut(COPE, "A", 2, Fraction(1), Fraction(1, 2)), Fraction(6))
    (5.0, 6.0)
    """
    return (0.0, float(cut.reach)) if cut.end == 1 else (float(length - cut.reach), float(length))
