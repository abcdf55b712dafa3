"""Which cuts of a part this saw can make, a row each, in words.

>>> from anglelib.job import Shop
>>> from anglelib.part import Cope, Part, Taper
>>> from anglelib.saw import Saw
>>> from anglelib.section import Section
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> cleat = Part("T1", "Cleat", stock, "6061-T6", "12 1/4", [Taper("A", 1, 0, run="1 1/4")], copes=[Cope("B", 2, 1, "1/4", "1/8")])
>>> for _, what, words in part_at_saw(cleat, Shop(saw=Saw("9"))): print(what, "|", words)
cut to length | rough cut by hacksaw, 1/16 outside the line, then file or disc to the line, but where no more than 9 of the stick stays
taper, leg A, end 1 | turned round, toe first, past the column at 9: up to 5/8 of it lies on that side
cope, leg B, end 2 | rough cut by hacksaw, 1/16 outside the line, then file or disc to the line: from the toe it does not pass the column, 9 from the blade
>>> part_at_saw(cleat, Shop())
()
"""

from __future__ import annotations

from fractions import Fraction

from anglelib.geometry.ends import first_end
from anglelib.geometry.rough_words import ROUGH, outside_by_hacksaw, past_the_column
from anglelib.geometry.taper import taper_lines
from anglelib.geometry.throat import AtSaw, cope_at_saw, piece_length, taper_at_saw
from anglelib.job import Shop
from anglelib.lengths import own, show
from anglelib.part import Part


def part_at_saw(part: Part, shop: Shop) -> tuple[tuple[str, str, str], ...]:
    """The id of each cut, what is cut, and how it passes the saw's column; () where no saw is known."""
    if shop.saw is None:
        return ()
    rows = [("length", "cut to length", _across(part, shop))]
    for line in taper_lines(part):
        at_saw = taper_at_saw(line, shop, piece_length(part, line.end == first_end(part)))
        assert at_saw is not None
        rows.append((f"taper-{line.leg}-{line.end}", f"taper, leg {line.leg}, end {line.end}", _said(at_saw, shop, False)))
    for cope in part.copes:
        at_saw = cope_at_saw(cope, part, shop, piece_length(part, cope.end == first_end(part)))
        assert at_saw is not None
        rows.append((f"cope-{cope.leg}-{cope.end}", f"cope, leg {cope.leg}, end {cope.end}", _said(at_saw, shop, True)))
    return tuple(rows)


def _across(part: Part, shop: Shop) -> str:
    assert shop.saw is not None
    blank, throat = part.length + 2 * shop.allowance, own(shop.saw.throat)
    if blank <= shop.saw.throat:
        return f"sawn: the blank, {show(blank)} long, goes into the throat of {throat}"
    return f"{ROUGH}, {outside_by_hacksaw(shop)}, but where no more than {throat} of the stick stays"


def _said(at_saw: AtSaw, shop: Shop, cope: bool) -> str:
    assert shop.saw is not None
    if at_saw.rough:
        return f"{ROUGH}, {outside_by_hacksaw(shop)}: {past_the_column(shop, cope)}"
    reach = show(Fraction(max(way.reach for way in at_saw.taken)).limit_denominator(10**6), 64, "up")
    how = "turned round, toe first, " if at_saw.turned else "" if cope else "end first, "
    fence = f"; the fence stands {show(Fraction(at_saw.fence).limit_denominator(10**6))} from the blade for the line along the heel" if at_saw.fence else ""
    return f"{how}past the column at {own(shop.saw.throat)}: up to {reach} of it lies on that side{fence}"
