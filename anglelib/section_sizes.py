"""The sizes that a stick of angle may have: asked wherever somebody gives a section, in a file, on the terminal or on a page.

A :class:`~anglelib.section.Section` itself may have any size, since shapes are scaled and thinned in computing.

>>> section_given("1 1/2", "1", "1/8").size
'1 1/2 x 1 x 1/8'
>>> section_given("30 mm", "1200 mm", "3 mm")
Traceback (most recent call last):
    ...
anglelib.errors.SectionError: The width of leg B is 1200 mm: angle is taken from 3 to 300 mm; check the number and its unit.
"""

from __future__ import annotations

from fractions import Fraction

from anglelib.errors import SectionError
from anglelib.lengths import LONGEST, MM, exact, inches, unit_written
from anglelib.section import Section

Size = Fraction | int | str

SMALLEST_LEG, LARGEST_LEG, THINNEST = 3 * MM, Fraction(12), Fraction(1, 4) * MM
"""What is taken [in], against a slip of the unit or of the decimal point. Published tables of aluminium angle have legs of 1/2 to
8 in. and thicknesses of 1/16 in. and more; what lies beyond is room, common practice."""

_LEGS, _THICK = {"in": "1/8 to 12 in.", "mm": "3 to 300 mm"}, {"in": "0.010 in. up", "mm": "0.25 mm up"}
_ASKED = {  # what each is called, its least and its most, what is said of them
    "leg_a": ("width of leg A", SMALLEST_LEG, LARGEST_LEG, _LEGS), "leg_b": ("width of leg B", SMALLEST_LEG, LARGEST_LEG, _LEGS),
    "thickness_a": ("thickness of leg A", THINNEST, LONGEST, _THICK), "thickness_b": ("thickness of leg B", THINNEST, LONGEST, _THICK),
}  # fmt: skip


def section_given(leg_a: Size, leg_b: Size, thickness_a: Size, thickness_b: Size | None = None, fillet: Size = 0, **radii: Size) -> Section:
    """The section that somebody describes, as :class:`~anglelib.section.Section` takes it.

    SectionError, with the size that is wrong, for legs and thicknesses [in] that no stick has, and for shapes that cannot be.
    """
    sizes = {"leg_a": leg_a, "leg_b": leg_b, "thickness_a": thickness_a} | ({} if thickness_b is None else {"thickness_b": thickness_b})
    for field, size in sizes.items():
        what, least, most, said = _ASKED[field]
        value = inches(size, what, zero=True)
        if value and not least <= value <= most:  # 0 is Section's to refuse
            _refuse(value, what, field, said)
    return Section(leg_a, leg_b, thickness_a, thickness_b, fillet, **radii)  # type: ignore[arg-type]


def _refuse(value: Fraction, what: str, field: str, sizes: dict[str, str]) -> None:
    """In the unit in which the size was written, as far as its number tells."""
    text = exact(value, unit_written())
    raise SectionError(f"The {what} is {text}: angle is taken from {sizes['mm' if text.endswith(' mm') else 'in']}; check the number and its unit.", field)
