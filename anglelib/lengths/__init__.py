"""Lengths: shop fractions, decimals, feet and millimetres, read and printed exactly.

A length is a :class:`~fractions.Fraction` of an inch everywhere in the library (1 in = 25.4 mm
exactly). This folder is the only one that reads a person's lengths and the only one that prints
them, so that a rounding always states its direction and what it lost.

>>> read('1 5/8'), read('1-5/8'), read('13/8'), read('1.625"')
(Fraction(13, 8), Fraction(13, 8), Fraction(13, 8), Fraction(13, 8))
>>> read("41.275 mm")
Fraction(13, 8)
>>> read("1,625")
Traceback (most recent call last):
    ...
anglelib.errors.LengthError: The length "1,625" has a comma: write the decimal with a point, 1.625.

Lengths are written in inches, or inside :func:`writing` in millimetres: a part that its plans give in
millimetres is carded, planned and read in them.

>>> show(85 * MM), both(85 * MM), fine(85 * MM)
('3 11/32', '3 11/32 (3.346)', '3.346')
>>> with writing("mm"):
...     show(85 * MM), both(85 * MM), fine(85 * MM), exact(read("1/16")), exact(read("1/16"), "mm")
('85 mm', '85 mm (3.346 in)', '85.00 mm', '1.59 mm', '1/16 in')

Where a head or a note says the unit, :func:`unit_in_head` leaves it out of the millimetres below; whatever is in inches
says so there too.
"""

from __future__ import annotations

from anglelib.lengths.as_given import about, given, in_one_unit, in_unit, own, own_spoken, spoken
from anglelib.lengths.numbers import GRADUATIONS, Printed, decimal, millimetres, printed, to_mm
from anglelib.lengths.plain import MOST_CHARACTERS
from anglelib.lengths.reading import LONGEST, inches, named_unit, number, read, typed
from anglelib.lengths.several import several
from anglelib.lengths.units import (
    MM,
    UNITS,
    apart,
    area,
    area_sign,
    area_word,
    head,
    labelled,
    unit_in_head,
    unit_word,
    unit_written,
    writing,
)
from anglelib.lengths.written import LAST_PLACE, both, exact, figure, fine, marked, marked_both, place, show, with_unit

__all__ = [
    "GRADUATIONS", "LAST_PLACE", "LONGEST", "MM", "MOST_CHARACTERS", "UNITS", "Printed", "about", "apart", "area", "area_sign", "area_word", "both",
    "decimal", "exact", "figure", "fine", "given", "head", "in_one_unit", "in_unit", "inches", "labelled", "marked",
    "marked_both", "millimetres", "named_unit", "number", "own", "own_spoken", "place", "printed", "read", "several", "show", "spoken", "to_mm", "typed",
    "unit_in_head", "unit_word", "unit_written", "with_unit", "writing",
]
