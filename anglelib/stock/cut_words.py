"""What a cut of the plan says at the bench, for the plan's pages and for the terminal.

>>> from anglelib.job import Job, Shop
>>> from anglelib.part import Part, Taper
>>> from anglelib.section import Section
>>> from anglelib.stock.planner import plan
>>> from anglelib.stock.rack import Rack, Stick
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> strut = Part("P3", "Seat strut", stock, "6061-T6", "7 1/2", [Taper("B", 2, "1/2", run="1 1/2")])
>>> cut = plan(Job("Demo", Shop(), [strut]), Rack([Stick("S-1", stock, "6061-T6", 40)])).sticks[0].cuts[0]
>>> made_first(cut), made_first_letters(cut), lies(cut)
('end 2 first: taper B', 'T2', 'reversed: end 2 at the datum end')
>>> squared_line(cut, Shop())
'7 17/32 from end 2, squared'
"""

from __future__ import annotations

from anglelib.geometry.ends import lies_reversed
from anglelib.geometry.layout import saw_line
from anglelib.job import Shop
from anglelib.lengths import in_unit, show
from anglelib.part import Part
from anglelib.stock.plan import Cut


def _legs(part: Part, end: int) -> tuple[list[str], list[str]]:
    """The legs that are tapered and that are coped at an end."""
    return [t.leg for t in part.tapers if t.end == end], [c.leg for c in part.copes if c.end == end]


def made_first(cut: Cut) -> str:
    """What is made of the part while it is still on the stick; "" where nothing is."""
    if not cut.made_first or cut.blank is None:
        return ""
    tapers, copes = _legs(cut.blank.part, cut.leading_end)
    named = [f"{word} {' and '.join(sorted(legs))}" for word, legs in (("taper", tapers), ("cope", copes)) if legs]
    return f"end {cut.leading_end} first: {', '.join(named)}"


def made_first_letters(cut: Cut) -> str:
    """The same in letters: T for a taper, C for a cope, and the end."""
    if not cut.made_first or cut.blank is None:
        return ""
    tapers, copes = _legs(cut.blank.part, cut.leading_end)
    return f"{'T' if tapers else ''}{'C' if copes else ''}{cut.leading_end}"


def lies(cut: Cut) -> str:
    """That a part lies reversed in its stick; "" where end 1 is at the datum end."""
    return "reversed: end 2 at the datum end" if cut.blank is not None and lies_reversed(cut.blank.part) else ""


def squared_line(cut: Cut, shop: Shop) -> str:
    """The cut's line as the part's card has it, in the part's unit: from the end that is squared first; "" for a trim or where it is no other number."""
    if cut.blank is None or not shop.allowance:
        return ""
    part = cut.blank.part
    return f"{in_unit(saw_line(part, shop), part.unit, show)} from end {cut.leading_end}, squared"
