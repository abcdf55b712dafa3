"""What a cut of the plan says at the bench, for the plan's pages, the tags and the terminal.

What is minded at a blank comes from the part alone, and so it is the same for a blank that is sawn, for one that
ends where its stick does, and for one that is only held: which end is made first, how it lies, the line on its card.

>>> from anglelib.job import Job, Shop
>>> from anglelib.part import Part, Taper
>>> from anglelib.section import Section
>>> from anglelib.stock.planner import plan
>>> from anglelib.stock.rack import Rack, Stick
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> strut = Part("P3", "Seat strut", stock, "6061-T6", "5 1/2", [Taper("B", 2, "1/2", run="1 1/2")])
>>> cut = plan(Job("Demo", Shop(), [strut]), Rack([Stick("S-1", stock, "6061-T6", 40)])).sticks[0].cuts[0]
>>> minded(strut, Shop(), Limits())
['its card: 5 17/32 from end 2, squared', 'end 2 first: taper B', 'lies reversed: end 2 at the datum end']
>>> first_letters(strut), clamped(cut, Shop())
('T2', 'clamp: the piece that comes off is 5 9/16')
"""

from __future__ import annotations

from anglelib.geometry.ends import first_end, lies_reversed, made_on_stick, off_stick, short_piece
from anglelib.geometry.layout import FROM_WITNESS, length_mark
from anglelib.geometry.mark_words import origin, saw_short
from anglelib.geometry.rough_words import rough_brief, rough_cut
from anglelib.geometry.throat import off_the_table
from anglelib.job import Shop
from anglelib.lengths import about, in_unit, show
from anglelib.part import Part
from anglelib.stock.blank import Blank
from anglelib.stock.plan import Cut, Placed, StickPlan
from anglelib.tolerances import Limits


def minded(part: Part, shop: Shop, limits: Limits, rough: bool = False) -> list[str]:
    """What is minded at a blank: its line as the card has it, what is made first, that it lies reversed. ``rough``: a hacksaw parts it off."""
    return [card_line(part, shop.by_hacksaw if rough else shop, limits), *(words for words in (made_first(part), lies(part)) if words)]


def by_hacksaw(cut: Cut, shop: Shop, brief: bool = False) -> tuple[str, ...]:
    """That a cut is a rough one by hacksaw, how it is finished, and why; nothing where the saw makes it."""
    return ((rough_brief if brief else rough_cut)(shop),) if cut.rough else ()


def stand_words(planned: StickPlan, shop: Shop) -> str:
    """That a stick would tip off the saw's table, and how much of it lies off it at the most; "" where it does not, or where the table is not known."""
    if shop.saw is None:
        return ""
    over = [off_the_table(shop.saw, cut.comes_off - cut.back, cut.stays + cut.back) for cut in planned.cuts if not cut.rough]
    most = max((length for length in over if length is not None), default=None)
    return f"At the saw a stand carries the stick: up to {show(most)} of it lies off the table." if most is not None else ""


# --- one thing each -------------------------------------------------------------------------------------------
def card_line(part: Part, shop: Shop, limits: Limits, brief: bool = False) -> str:
    """The line of a blank's cut as the part's card has it, in the part's unit: from the end that is squared first, or the witness line."""
    mark = length_mark(part, off_stick(part), shop)
    number = in_unit(mark, part.unit, lambda mark: saw_short(mark, limits))
    if brief:
        return f"card: {place_words(part, shop, limits)}"
    from_ = f"the {origin(mark)}" if mark.origin == FROM_WITNESS else f"{origin(mark)}, squared"
    return f"its card: {number} from {from_}"


def place_words(part: Part, shop: Shop, limits: Limits) -> str:
    """The line of a blank's cut as its card measures it, in a few words."""
    mark = length_mark(part, off_stick(part), shop)
    return f"{in_unit(mark, part.unit, lambda mark: saw_short(mark, limits))} from {origin(mark)}"


def _legs(part: Part, end: int) -> tuple[list[str], list[str]]:
    """The legs that are tapered and that are coped at an end."""
    return [t.leg for t in part.tapers if t.end == end], [c.leg for c in part.copes if c.end == end]


def made_first(part: Part) -> str:
    """What is made of a part while it is still on the stick; "" where nothing is."""
    if not made_on_stick(part):
        return ""
    end = first_end(part)
    tapers, copes = _legs(part, end)
    named = [f"{word} {' and '.join(sorted(legs))}" for word, legs in (("taper", tapers), ("cope", copes)) if legs]
    return f"end {end} first: {', '.join(named)}"


def first_letters(part: Part) -> str:
    """The same in letters: T for a taper, C for a cope, and the end."""
    if not made_on_stick(part):
        return ""
    tapers, copes = _legs(part, first_end(part))
    return f"{'T' if tapers else ''}{'C' if copes else ''}{first_end(part)}"


def lies(part: Part, brief: bool = False) -> str:
    """That a part lies reversed in its stick; "" where end 1 is at the datum end."""
    if not lies_reversed(part):
        return ""
    return "reversed" if brief else "lies reversed: end 2 at the datum end"


def clamped(cut: Cut, shop: Shop, brief: bool = False) -> str:
    """Which piece of a cut is too short for the hand; "" where the cut need not be clamped."""
    if not cut.clamp:
        return ""
    off = [show(cut.comes_off - cut.back)] if cut.blank is not None else []
    stays = [show(cut.stays)] if cut.blank is None or 0 < cut.stays < shop.hand_minimum else []
    if brief:
        return "clamp: " + ", ".join([*(f"{length} comes off" for length in off), *(f"{length} stays" for length in stays)])
    return "clamp: " + ", ".join([*(f"the piece that comes off is {length}" for length in off), *(f"what stays is {length}" for length in stays)])


def short_alone(blank: Blank, shop: Shop) -> str:
    """That a blank which is not sawn, or not now, is too short for the hand; "" where it is not."""
    return f"clamp: the piece is {show(blank.length)}" if short_piece(blank.part, shop) else ""


def not_sawn(placed: Placed) -> str:
    """That a blank ends where the stick does, and how much longer it is than it need be."""
    surplus = placed.surplus + placed.blank.rough
    more = f", {about(surplus)} longer than its blank" if surplus else ""
    return f"it ends where the stick does{more}"
